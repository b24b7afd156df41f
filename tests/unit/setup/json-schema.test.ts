import { readFileSync } from "node:fs";
import Ajv from "ajv";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { setupProblems } from "../../../server/setup/assist/problems.ts";
import { setupJsonSchema } from "../../../server/setup/json-schema.ts";
import { complete } from "./complete.ts";

const published: unknown = JSON.parse(
  readFileSync(new URL("../../../server/setup/swarfline.schema.json", import.meta.url), "utf8"),
);
const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(setupJsonSchema());

/** The good example with one word in another's place. */
const words = complete.match(/[A-Za-z0-9.%]+/g) ?? [];
const swapped = fc.tuple(fc.nat({ max: words.length - 1 }), fc.nat({ max: words.length - 1 })).map(([at, other]) => {
  let count = -1;
  return complete.replace(/[A-Za-z0-9.%]+/g, (word) => {
    count++;
    return count === at ? (words[other] ?? "") : word;
  });
});

test("what the setup reads without a problem, the JSON Schema accepts", () => {
  let clean = 0;
  fc.assert(
    fc.property(swapped, (text) => {
      if (setupProblems("swarfline.yaml", text).length > 0) return;
      clean++;
      validate(parse(text));
      expect(validate.errors).toBeNull();
    }),
    { numRuns: 120 },
  );
  expect(clean).toBeGreaterThan(20);
}, 60_000);

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
