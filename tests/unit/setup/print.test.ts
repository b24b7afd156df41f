import { describe, expect, test } from "vitest";
import { printSetup, printSetupJson } from "../../../server/setup/print.ts";
import { complete, resolve } from "./complete.ts";

describe("printing every value with its origin", () => {
  const { setup } = resolve({ "swarfline.yaml": complete });
  const lines = printSetup(setup)
    .split("\n")
    .map((line) => line.replace(/ {2,}/g, " | "));

  test.each([
    ["units | mm | swarfline.yaml line 1"],
    ["dialect | generic-mill | swarfline.yaml line 11"],
    ["dialect.peckRetract | R | dialect generic-mill"],
    ["machines.vmc.spindle.maxRpm | 10000 1/min | swarfline.yaml line 13"],
    ["machines.vmc.spindle.efficiency | 87 % | default, common practice: drive belt, 0.87"],
    ["machines.vmc.axis.thrust | 8000 N (1798 lbf) | swarfline.yaml line 17"],
    ["tools.crib.T3.DC | 10.20 mm (0.402 in) | swarfline.yaml line 27"],
    ["tools.crib.T3.hand | right | default, right"],
    ["workpieces.bracket.hardness | 290 HB | swarfline.yaml line 40"],
    ["workpieces.bracket.entries[0].entry | INCLINE 30 DEG | swarfline.yaml line 50"],
    ["built-in.42CrMo4.kienzle[0].kc11 | 2500 N/mm² (363 ksi) | built-in table of work materials"],
    ["built-in.42CrMo4.hardnessHB | 290 | swarfline.yaml line 40"],
    ["practice.heavy.spade | no | default, common practice"],
    ["severity.walk | off | swarfline.yaml line 53"],
  ])("%s", (line) => {
    expect(lines).toContain(line);
  });

  test("as json, in base units, each with an origin", () => {
    const { values } = printSetupJson(setup);
    expect(values.find((v) => v.path === "machines.vmc.axis.thrust")).toMatchObject({
      value: 8000,
      unit: "N",
      origin: { kind: "file", file: "/shop/swarfline.yaml", line: 16 },
    });
    expect(values.filter((v) => v.origin.text === "")).toEqual([]);
    expect(new Set(values.map((v) => v.path)).size).toBe(values.length);
  });

  test("says what is unknown and why", () => {
    const broken = resolve({ "swarfline.yaml": complete.replace("8 kN", "8 kW") });
    const text = printSetup(broken.setup);
    expect(text).toMatch(/unknown:\nmachines\.vmc\.axis\.thrust {2}swarfline\.yaml line 17: "kW" is no unit/);
    expect(text).toMatch(/problems:\n\/shop\/swarfline\.yaml:17:\d+ error: machines\.vmc\.axis\.thrust/);
  });

  test("says of a fault that the program does not use it", () => {
    const broken = resolve({ "swarfline.yaml": complete.replace("8 kN", "8 kW") }, "other.nc");
    expect(printSetup(broken.setup)).toMatch(
      /:17:\d+ warning: machines\.vmc\.axis\.thrust.*; not used by this program\n/,
    );
  });

  test("without a setup says the defaults", () => {
    const none = resolve({}, "a.nc").setup;
    expect(printSetup({ ...none, file: null })).toMatch(
      /^no setup file: defaults\n[\s\S]*dialect +generic-mill +default, generic-mill/,
    );
  });
});
