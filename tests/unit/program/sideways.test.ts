import { describe, expect, test } from "vitest";
import type { StockSolid, Tool } from "../../../server/setup/types.ts";
import { drill, holes, run, setup, workpiece } from "./helpers.ts";

const HEAD = "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG43 H1 G0 X0 Y0 Z50.\n";
const tool = (more: Partial<Tool> = {}) => setup({}, [drill(1, 8, more), drill(2, 30)]);
/** Kind, Z and kind of move of what was told, by line below the head. */
const told = (text: string, s = tool()) =>
  run(`${HEAD}${text}\nM30`, { setup: s })
    .events.filter((e) => e.kind === "sideways-in-metal" || e.kind === "rapid-into-metal")
    .map((e) => [e.kind === "rapid-into-metal" ? "down" : e.data.by, e.span.block - 3, e.data.z]);

describe("a drill moves sideways in metal", () => {
  test.each([
    ["the retract is missing", "G0 Z2.\nG1 Z-10.\nG0 X20.\nZ50.", [["rapid", 3, -10]]],
    ["a slot with a drill", "G0 Z2.\nG1 Z-3.\nX20.\nG0 Z50.", [["feed", 3, -3]]],
    ["an arc with a drill", "G0 Z2.\nG1 Z-3.\nG2 X10. Y0 I5. J0\nG0 Z50.", [["feed", 3, -3]]],
    ["up and away in one rapid", "G0 Z2.\nG1 Z-10.\nG0 X20. Z10.", [["rapid", 3, -9.375]]],
    ["a ramp down", "G0 Z2.\nG1 X20. Z-5.", [["feed", 2, -5]]],
    ["retracted first", "G0 Z2.\nG1 Z-10.\nG0 Z2.\nX20.", []],
    ["retracted to the surface", "G0 Z2.\nG1 Z-10.\nG0 Z0\nX20.", []],
    ["at the level where a cycle left it, which is the cycle's finding", "G99 G81 X0 Y0 Z-20. R-3.\nG80\nG0 X20.", []],
  ])("%s", (_, text, expected) => {
    expect(told(text)).toEqual(expected);
  });

  test("the hole before it stays a hole", () => {
    expect(
      holes(run(`${HEAD}G0 Z2.\nG1 Z-10.\nG0 X20.\nZ50.\nM30`, { setup: tool() })).map((h) => [h.at, h.endZ]),
    ).toEqual([[[0, 0], -10]]);
  });

  test("inside a bore wide enough for drill and move it is free, beyond it is not", () => {
    // Bore of 30, drill of 8: 11 to each side.
    const bore =
      "G0 Z50.\nT2 M6\nS1000 M3\nG43 H2 G0 X0 Y0 Z50.\nG81 X0 Y0 Z-20. R2.\nG80\nT1 M6\nS1000 M3\nG43 H1 Z50.\n";
    expect(told(`${bore}G0 X0 Y0 Z2.\nZ-10.\nX11.`)).toEqual([]);
    expect(told(`${bore}G0 X0 Y0 Z2.\nZ-10.\nX12.`)).toEqual([["rapid", 12, -10]]);
  });

  test.each(["spot", "countersink", "bore"] as const)("a %s tool may cut sideways", (family) => {
    expect(told("G0 Z2.\nG1 Z-1.\nX20.\nG0 Z50.", tool({ family }))).toEqual([]);
  });

  test("a tool that nobody named may be a mill", () => {
    expect(told("G0 Z2.\nG1 Z-3.\nX20.\nY20.\nG0 Z50.", setup())).toEqual([]);
  });

  test("error where stock and drill are declared, warning where one is assumed", () => {
    const block: StockSolid = { kind: "box", x: [0, 100], y: [0, 100], z: [-50, 0], cut: [], path: "" };
    const stock = workpiece({ stock: { wcs: "G54", solids: [block], voids: [], skin: null } });
    const levels = (s: ReturnType<typeof setup>) =>
      run(`${HEAD}G0 Z2.\nG1 Z-10.\nG0 X20.\nM30`, { setup: s })
        .events.filter((e) => e.kind === "sideways-in-metal")
        .map((e) => e.data.level);
    expect(levels({ ...tool(), workpiece: stock })).toEqual(["error"]);
    expect(levels(tool())).toEqual(["warning"]);
    expect(levels({ ...tool({ familyAssumed: true }), workpiece: stock })).toEqual(["warning"]);
  });

  test("beside the declared stock there is no metal", () => {
    const block: StockSolid = { kind: "box", x: [100, 200], y: [100, 200], z: [-50, 0], cut: [], path: "" };
    const s = { ...tool(), workpiece: workpiece({ stock: { wcs: "G54", solids: [block], voids: [], skin: null } }) };
    expect(told("G1 Z-10.\nG0 X20.\nX50.", s).filter(([by]) => by === "rapid")).toEqual([]);
    // And into its side.
    expect(told("G0 Y150.\nG1 Z-10.\nG0 X150.", s).filter(([by]) => by === "rapid")).toEqual([["rapid", 3, -10]]);
  });
});

describe("a rapid down into metal is told at each place", () => {
  const down = (text: string) => told(text, setup());

  test("between two slots far apart", () => {
    const slots = "G0 Z2.\nG1 Z-3.\nX10.\nG0 Z5.\nX90.\nG1 Z-3.\nX100.\nG0 Z5.\n";
    expect(down(`${slots}X50.\nZ-3.\nZ5.\nX95.\nZ-3.`)).toEqual([["down", 10, -3]]);
  });

  test("in a pocket milled in touching passes it is free, but not deeper", () => {
    const pocket = "G0 Z2.\nG1 Z-3.\nX20.\nY5.\nX0.\nY10.\nX20.\nG0 Z5.\n";
    expect(down(`${pocket}X10. Y7.\nZ-3.`)).toEqual([]);
    expect(down(`${pocket}X10. Y7.\nZ-4.`)).toEqual([["down", 10, -4]]);
  });

  test("a pocket of one work system is none of another", () => {
    const pocket = "G0 Z2.\nG1 Z-3.\nX20.\nY20.\nG0 Z5.\nG55\nG0 X10. Y10. Z5.\n";
    expect(down(`${pocket}Z-3.`)).toEqual([["down", 8, -3]]);
  });

  test("a second place in one operation", () => {
    expect(down("G0 Z-3.\nZ5.\nX10.\nZ-3.\nZ5.")).toEqual([
      ["down", 1, -3],
      ["down", 4, -3],
    ]);
  });
});
