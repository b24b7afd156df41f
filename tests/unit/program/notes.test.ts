import { describe, expect, test } from "vitest";
import type { EntryDeclaration } from "../../../server/setup/types.ts";
import { run, setup, workpiece } from "./helpers.ts";

const op = (t: number, ...rows: string[]) => [`T${t} M6`, "G0 X0 Y0 S1000 M3", `G43 H${t} Z50.`, ...rows];
const cycle = (x: number) => `G99 G81 X${x}. Y0. Z-10. R2. F100.`;

/** Entry angle (or kind) of each hole. */
const entries = (lines: readonly string[], options = {}) => {
  const e = run(["G21 G90 G54", ...lines, "M30"].join("\n"), options);
  return Array.from({ length: e.holeCount }, (_, i) => {
    const { entry } = e.hole(i).shape;
    return entry === null ? null : entry.form.kind === "incline" ? entry.form.angleDeg : entry.form.kind;
  });
};

describe("a cut note", () => {
  test("in a block with words is for that block", () => {
    expect(entries(op(1, cycle(0), "X10. (CUT ENTRY INCLINE 30 DEG)", "X20."))).toEqual([null, 30, null]);
  });

  test("in a block of its own is for the operation that follows", () => {
    expect(
      entries([
        ...op(1, cycle(0), "G80"),
        "(CUT ENTRY INCLINE 30 DEG)",
        ...op(2, cycle(5), "X10.", "G80"),
        ...op(3, cycle(9)),
      ]),
    ).toEqual([null, 30, 30, null]);
    expect(entries(op(1, cycle(0), "(CUT ENTRY INCLINE 30 DEG)", "X10.", "(CUT ENTRY FLAT)", "X20."))).toEqual([
      null,
      30,
      "flat",
    ]);
  });

  test.each<[string, string[], unknown]>([
    ["with G80", [cycle(0), "X5.", "G80", cycle(9)], [30, 30, null]],
    ["with a move that ends the cycle", [cycle(0), "G0 X5.", cycle(9)], [30, null]],
    [
      "with G80 after holes in long hand",
      ["G0 Z2.", "G1 Z-5. F100.", "G0 Z2.", "G80", "X9.", "G1 Z-5.", "G0 Z2."],
      [30, null],
    ],
    ["not with another cycle in the same run", [cycle(0), "G99 G83 X5. Z-20. R2. Q5."], [30, 30]],
    ["not with a G80 before any hole", ["G80", cycle(0)], [30]],
    ["where a cycle follows holes in long hand", ["G0 Z2.", "G1 Z-5. F100.", "G0 Z2.", cycle(9)], [30, null]],
    ["with the tool, after holes in long hand", ["G0 Z2.", "G1 Z-5. F100.", "G0 Z2.", ...op(2, cycle(9))], [30, null]],
    ["where only its exit is written anew", [cycle(0), "(CUT EXIT INCLINE 9 DEG)", "G80", cycle(9)], [30, null]],
  ])("in a block of its own ends %s", (_, rows, expected) => {
    expect(entries(op(1, "(CUT ENTRY INCLINE 30 DEG)", ...rows))).toEqual(expected);
  });

  test("for an exit that no hole has used waits for the next run", () => {
    const rows = op(1, "(CUT ENTRY INCLINE 30 DEG)", cycle(0), "(CUT EXIT SKIN)", "G80", cycle(9), "G80", cycle(12));
    const e = run(["G21 G90 G54", ...rows, "M30"].join("\n"));
    const both = [0, 1, 2].map((i) => [e.hole(i).shape.entry?.form.kind, e.hole(i).shape.exit?.form.kind]);
    expect(both).toEqual([
      ["incline", undefined],
      [undefined, "skin"],
      [undefined, undefined],
    ]);
  });

  test("before the first tool change is for the program, and gives way to nearer ones", () => {
    expect(
      entries([
        "(CUT ENTRY SKIN)",
        ...op(1, cycle(0), "G80"),
        ...op(2, "(CUT ENTRY INCLINE 9 DEG)", cycle(5), "G80"),
        ...op(3, cycle(7)),
      ]),
    ).toEqual(["skin", 9, "skin"]);
  });

  test("reaches long-hand holes by the block of their first stroke", () => {
    expect(
      entries(
        op(
          1,
          "G0 Z2.",
          "G1 Z-5. F100.",
          "G0 Z2.",
          "X10.",
          "G1 Z-5. (CUT ENTRY INCLINE 12 DEG)",
          "G0 Z2.",
          "X20.",
          "G1 Z-5.",
          "G0 Z2.",
        ),
      ),
    ).toEqual([null, 12, null]);
  });

  test("has its lengths in the program's unit", () => {
    const e = run(
      "G20 G90 G54\n(CUT ENTRY EDGE AXIS IN .5)\nT1 M6\nG0 X0 Y0 S900 M3\nG43 H1 Z2.\nG99 G81 X1. Z-.5 R.1 F4.\nM30",
    );
    expect(e.hole(0).shape.entry?.form).toEqual({ kind: "edge-axis", insideMm: 12.7 });
  });

  test("names the material", () => {
    const e = run("(CUT MATERIAL 42CRMO4 HB 290)\nG21\nM30");
    expect(e.noteMaterial).toMatchObject({ name: "42CRMO4", hardness: "290 HB" });
    expect(e.notes.length).toBe(1);
  });

  test("for the exit stands beside the entry", () => {
    const e = run(["G21 G90 G54", ...op(1, "(CUT EXIT INCLINE 15 DEG)", cycle(0)), "M30"].join("\n"));
    expect([e.hole(0).shape.entry, e.hole(0).shape.exit?.form]).toEqual([null, { kind: "incline", angleDeg: 15 }]);
  });
});

describe("entries of the setup", () => {
  const declare = (more: Partial<EntryDeclaration>): EntryDeclaration => ({
    program: "parts/bracket-1.nc",
    tool: null,
    wcs: null,
    at: null,
    region: null,
    form: { kind: "incline", angleDeg: 30 },
    exit: null,
    path: "workpieces.part.entries.0",
    ...more,
  });
  const text = op(1, cycle(0), "X10.", "X20.");
  const found = (more: Partial<EntryDeclaration>, program = "/shop/parts/bracket-1.nc") => {
    const options = { setup: setup({ workpiece: workpiece({ entries: [declare(more)] }) }), program };
    const e = run(["G21 G90 G54", ...text, "M30"].join("\n"), options);
    return [entries(text, options), e.lostEntries.length];
  };

  test.each<[string, Partial<EntryDeclaration>, unknown]>([
    ["every hole of a tool", { tool: 1 }, [[30, 30, 30], 0]],
    ["a position within a hundredth", { at: [10.004, 0] }, [[null, 30, null], 0]],
    ["a position beside the hole", { at: [10.1, 0] }, [[null, null, null], 1]],
    ["a region", { region: { x: [5, 30], y: [-1, 1] } }, [[null, 30, 30], 0]],
    ["another tool", { tool: 2 }, [[null, null, null], 1]],
    ["another work system", { wcs: "G55", at: [10, 0] }, [[null, null, null], 1]],
  ])("%s", (_, more, expected) => {
    expect(found(more)).toEqual(expected);
  });

  test("are for the program they name, on any system", () => {
    expect(found({ tool: 1 }, "C:\\Shop\\Parts\\bracket-1.nc")).toEqual([[30, 30, 30], 0]);
    expect(found({ tool: 1 }, "file:///c%3A/shop/parts/bracket-1.nc")).toEqual([[30, 30, 30], 0]);
    expect(found({ tool: 1 }, "/shop/parts/other.nc")).toEqual([[null, null, null], 0]);
  });

  test("a note in the block of the hole is nearer", () => {
    const options = {
      setup: setup({ workpiece: workpiece({ entries: [declare({ tool: 1 })] }) }),
      program: "parts/bracket-1.nc",
    };
    expect(entries(op(1, cycle(0), "X10. (CUT ENTRY INCLINE 12 DEG)"), options)).toEqual([30, 12]);
  });
});
