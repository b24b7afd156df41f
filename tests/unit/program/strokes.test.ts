import { describe, expect, test } from "vitest";
import { drill, machine, run, setup } from "./helpers.ts";

const HEAD = "G21 G90 G17 G94 G54\nT1 M6\nG0 X0 Y0 S1000 M3\nG43 H1 Z50.\n";
const tools = setup({ machine: machine() }, [drill(1, 8), drill(2, 8)]);
const program = (...lines: string[]) => run(`${HEAD}${lines.join("\n")}\nG0 Z50.\nM30`, { setup: tools });
/** What each stroke of the first hole has for itself. */
const own = (...lines: string[]) =>
  program(...lines).shapes[0]?.strokes.map(({ own: o }) => o && [o.state.spindle, o.state.s, o.state.coolant.join()]);

describe("strokes carry what is in force for them", () => {
  test.each([
    ["M4 ahead of the same feed", "M4", ["ccw", 1000, "M8"]],
    ["M9", "M9", ["cw", 1000, ""]],
    ["M5", "M5", ["stopped", 1000, "M8"]],
    ["S", "S700", ["cw", 700, "M8"]],
  ])("%s", (_, code, differs) => {
    expect(own("M8", "G0 Z2.", "G1 Z-5. F100.", code, "Z-10.")).toEqual([undefined, differs]);
  });

  test("where it is the hole's own values there is nothing to carry", () => {
    const [shape] = program("M8", "G0 Z2.", "G1 Z-5. F100.", "G0 Z2.", "M8 S1000", "G90 G1 Z-10. F80.").shapes;
    expect(shape?.strokes.map((stroke) => "own" in stroke)).toEqual([false, false]);
  });

  test("a stroke in air before the first in metal differs, the hole has what is in force in metal", () => {
    const [shape] = program("M8", "M4 S50", "G1 Z1. F500.", "M3 S1000", "Z-10. F100.").shapes;
    expect([shape?.firstCut, shape?.state.spindle]).toEqual([1, "cw"]);
    expect(shape?.strokes.map((stroke) => stroke.own?.state.spindle)).toEqual(["ccw", undefined]);
  });

  test("block and depth word of the stroke are told", () => {
    const e = program("M8", "G0 Z2.", "G1 Z-5. F100.", "M4", "X0. Z-10.");
    const stroke = e.shapes[0]?.strokes[1]?.own;
    expect([e.blocks.lineOf(stroke?.block ?? -1), e.blocks.spanOf(stroke?.zRef ?? 0)]).toMatchObject([
      8,
      { start: 4, end: 9 },
    ]);
  });

  test("a cycle that joins the hole of another brings what it has in force", () => {
    expect(own("M8", "G99 G81 X0. Y0. Z-5. R2. F100.", "M9", "Z-10.")).toEqual([undefined, ["cw", 1000, ""]]);
  });

  test("holes whose later strokes differ in state alone are two shapes, equal ones share one", () => {
    const hole = (x: number, code: string) => [
      `G0 X${x}. M3`,
      "M8",
      "G0 Z2.",
      "G1 Z-5. F100.",
      code,
      "Z-10.",
      "G0 Z2.",
    ];
    const e = program(...hole(0, "M4"), ...hole(10, "M9"), ...hole(20, "M4"), ...hole(30, "M9"));
    expect(e.operations[0]?.shapes.map(({ count, firstHole }) => [count, firstHole])).toEqual([
      [2, 0],
      [2, 1],
    ]);
  });
});

describe("coolant is timed to the first stroke into metal after it", () => {
  const leads = (...lines: string[]) =>
    program(...lines).operations.flatMap((o) =>
      o.coolantLeads.map(({ hole, stroke, seconds }) => [hole, stroke, seconds === null ? null : Math.round(seconds)]),
    );

  test("each time anew, holes alike or not", () => {
    const hole = "G99 G81 Z-5. R2. F100.";
    expect(leads("M8", "G4 P3000", hole, "G80 M9", "G0 X10.", "M8", "G4 P1000", hole, "X20.")).toEqual([
      [0, 0, 3],
      [1, 0, 1],
    ]);
  });

  test("on again before the tool has left a hole in long hand counts for the next one", () => {
    const body = [
      "M8",
      "G4 P3000",
      "G0 Z2.",
      "G1 Z-5. F100.",
      "G0 Z50. M9",
      "M8",
      "G4 P1000",
      "G0 X10.",
      "Z2.",
      "G1 Z-5.",
    ];
    expect(leads(...body)).toEqual([
      [0, 0, 3],
      [1, 0, 1],
    ]);
  });

  test("off and on between two strokes counts for the second", () => {
    expect(
      leads("M8", "G4 P3000", "G0 Z2.", "G1 Z-5. F100.", "G0 Z2. M9", "M8", "G4 P1000", "G0 Z-4.", "G1 Z-10."),
    ).toEqual([
      [0, 0, 3],
      [0, 1, 1],
    ]);
  });

  test("a stroke in a hole that is there does not count", () => {
    const pilot = ["G99 G81 X0. Y0. Z-5. R2. F100.", "G80", "G0 Z50.", "T2 M6", "G0 X0. Y0. S1000 M3", "G43 H2 Z50."];
    expect(leads(...pilot, "G0 Z2.", "M8", "G1 Z-4. F100.", "G4 P2000", "G1 Z-20. F80.")).toEqual([[1, 1, 6]]);
  });

  test("a stroke that a cycle adds to an earlier hole counts for that hole", () => {
    expect(leads("G99 G81 X0. Y0. Z-5. R2. F100.", "X10.", "M8", "G4 P1000", "X0. Z-10.")).toEqual([[0, 1, 1]]);
  });
});
