import { readFileSync } from "node:fs";
import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { setupJsonSchema } from "../../../server/setup/json-schema.ts";
import { complete } from "./complete.ts";

const published: unknown = JSON.parse(
  readFileSync(new URL("../../../server/setup/swarfline.schema.json", import.meta.url), "utf8"),
);
const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(setupJsonSchema());

describe("the published JSON Schema", () => {
  test("is current; if not: node tests/unit/setup/write-json-schema.ts", () => {
    expect(published).toEqual(setupJsonSchema());
  });

  test("accepts the complete example", () => {
    validate(parse(complete));
    expect(validate.errors).toBeNull();
  });

  test.each([
    ["a unit", "machines: { vmc: { axis: { thrust: 8 kN }, spindle: { efficiency: 87 % } } }", true],
    ["a wrong unit", "machines: { vmc: { axis: { thrust: 8 kW } } }", false],
    ["an unknown key", "machines: { vmc: { axsi: {} } }", false],
    ["a choice", "tools: { a: [{ T: 1, family: drill }] }", false],
    ["a tool table in a file", "tools: { a: crib.csv }", true],
    ["a window of two", "tools: { a: [{ T: 1, windows: [{ group: P, f: [1, 2] }] }] }", false],
    ["one file pattern", "programs: [{ files: a.nc }]", true],
    ["no file pattern", "programs: [{ machine: vmc }]", false],
    [
      "a dialect with changes",
      "machines: { vmc: { dialect: { inherit: nist, dwellP: ms, cycles: { G83: peck } } } }",
      true,
    ],
  ])("%s", (_what, text, good) => {
    expect(validate(parse(text))).toBe(good);
  });
});
