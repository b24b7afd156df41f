import { describe, expect, test } from "vitest";
import { printSetup, printSetupJson } from "../../../server/setup/print.ts";
import { stockOf } from "./bodies.ts";
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

  test("forms of the stock as the bodies they come to, each with the line of its form", () => {
    const { setup } = stockOf(`wcs: G55
solids:
  - plates: { x: [0, 100], y: [0, 60], top: 0, layers: [
      { plate: 10 },
      { gap: 3 },
      { plate: 20 }] }
    face: { incline: 30, towards: x+, through: [60, 0, 0] }
voids:
  - slot: { along: x, through: [0, 30], width: 12, floor: -8 }
  - crossHole: { along: [1, 0, -1], through: [50, 30, -20], diameter: 8 }
skin: { thickness: 2 }`);
    const printed = printSetup(setup)
      .split("\n")
      .filter((line) => line.includes(".stock."))
      .map((line) => line.replace("workpieces.w.stock.", "").replace(/ {2,}/g, " | "));
    expect(printed).toEqual([
      "wcs | G55 | swarfline.yaml line 6",
      "skin.thickness | 2.00 mm (0.079 in) | swarfline.yaml line 16",
      "skin.on | all | default, all",
      "solids[0].plates.layers[0].box.x | 0.00 mm (0.000 in), 100.00 mm (3.937 in) | swarfline.yaml line 9",
      "solids[0].plates.layers[0].box.y | 0.00 mm (0.000 in), 60.00 mm (2.362 in) | swarfline.yaml line 9",
      "solids[0].plates.layers[0].box.z | -10.00 mm (-0.394 in), 0.00 mm (0.000 in) | swarfline.yaml line 9",
      "solids[0].plates.layers[0].cut[0].through | 60.00 mm (2.362 in), 0.00 mm (0.000 in), 0.00 mm (0.000 in) | swarfline.yaml line 12",
      "solids[0].plates.layers[0].cut[0].normal | 0.5, 0, 0.866025404 | swarfline.yaml line 12",
      "solids[0].plates.layers[2].box.x | 0.00 mm (0.000 in), 100.00 mm (3.937 in) | swarfline.yaml line 11",
      "solids[0].plates.layers[2].box.y | 0.00 mm (0.000 in), 60.00 mm (2.362 in) | swarfline.yaml line 11",
      "solids[0].plates.layers[2].box.z | -33.00 mm (-1.299 in), -13.00 mm (-0.512 in) | swarfline.yaml line 11",
      "solids[0].plates.layers[2].cut[0].through | 60.00 mm (2.362 in), 0.00 mm (0.000 in), 0.00 mm (0.000 in) | swarfline.yaml line 12",
      "solids[0].plates.layers[2].cut[0].normal | 0.5, 0, 0.866025404 | swarfline.yaml line 12",
      "voids[0].slot.box.x | -1.00 mm (-0.039 in), 101.00 mm (3.976 in) | swarfline.yaml line 14",
      "voids[0].slot.box.y | 24.00 mm (0.945 in), 36.00 mm (1.417 in) | swarfline.yaml line 14",
      "voids[0].slot.box.z | -8.00 mm (-0.315 in), 1.00 mm (0.039 in) | swarfline.yaml line 14",
      "voids[1].crossHole.cylinder.axis | 0.707106781, 0, -0.707106781 | swarfline.yaml line 15",
      "voids[1].crossHole.cylinder.through | 50.00 mm (1.969 in), 30.00 mm (1.181 in), -20.00 mm (-0.787 in) | swarfline.yaml line 15",
      "voids[1].crossHole.cylinder.diameter | 8.00 mm (0.315 in) | swarfline.yaml line 15",
      "voids[1].crossHole.cylinder.span | -50.50 mm (-1.988 in), 45.55 mm (1.793 in) | swarfline.yaml line 15",
    ]);
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
