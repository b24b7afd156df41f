import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Execution } from "../../../server/program/types.ts";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { holes, moves, run } from "./helpers.ts";

const HEAD = "G21 G90 G54 G17 G94\nG0 X0 Y0 Z50. S1000 M3 F100.\n";
/** Ways meet at N5, one of which ran these blocks. */
const joined = (way: string, ...rows: readonly string[]) =>
  run(`${HEAD}IF[#500EQ1]GOTO5\n${way}\nN5\n${rows.join("\n")}\nM30`);
const at = (e: Execution) => holes(e).map((h) => h.at);
const last = (e: Execution) => moves(e).slice(0, -1).at(-1);
const errors = (e: Execution) => e.events.filter((event) => event.data.level === "error").map((event) => event.data);
const CONDITION = "it depends on a condition: #500 is not set in this program";

describe("a mode that differs between ways that have met", () => {
  test("G90 and G91: positions are unknown until one of them is written", () => {
    const e = joined("G91", "G0 X10. Y10.", "Z-5.", "G99 G81 X1. Y1. Z-5. R2.", "G80", "G90", "G0 X3. Y4. Z5.");
    expect(at(e)).toEqual([[null, null]]);
    expect(e.shapes[0]?.unknown).toMatchObject({ startZ: CONDITION, endZ: CONDITION });
    expect(moves(e)).not.toContain("R(10,10,50)");
    expect(last(e)).toBe("R(3,4,5)");
    expect(e.stepState(e.stepCount - 2).unsure).toEqual([]);
  });

  test("the motion code: no move is told, and the next code makes it known", () => {
    const e = joined("G1", "X10. Y10.", "G1 Z40.", "G0 X3. Y4. Z5.");
    expect(moves(e)).not.toContain("R(10,10,50)");
    expect(last(e)).toBe("R(3,4,5)");
    expect(e.stepState(4)).toMatchObject({ motion: null, unsure: ["motion"], unsureWhy: CONDITION });
  });

  test("a cycle that may be in force makes no hole, and no mistake of what could be wrong in one", () => {
    const e = joined("G99 G81 X1. Y1. Z-5. R2.", "G18", "X10. Y10.", "G17", "T2 M6", "G80", "G0 X3. Y4. Z5.");
    expect(at(e)).toEqual([[1, 1]]);
    expect(e.events.map((event) => event.kind)).not.toContain("plane-change-in-cycle");
    expect(e.events.filter((event) => event.kind === "tool-change")).toEqual([]);
    expect(last(e)).toBe("R(3,4,5)");
  });

  test("a cycle written anew has its own words, and those of the other way are not known", () => {
    const whole = joined("G99 G81 X1. Y1. Z-5. R2.", "G99 G81 X7. Y7. Z-9. R3.", "G80");
    expect(holes(whole).map((h) => [h.at, h.startZ, h.endZ])).toEqual([
      [[1, 1], 2, -5],
      [[7, 7], 3, -9],
    ]);
    const kept = joined("G99 G81 X1. Y1. Z-5. R2.", "G99 G82 X7. Y7. P100.", "G80");
    expect(holes(kept)[1]).toMatchObject({ at: [7, 7], startZ: null, endZ: null });
    expect(errors(kept)).toEqual([]);
  });

  test("the plane: a cycle drills nobody knows along which axis", () => {
    const e = joined("G18", "G99 G81 X1. Y1. Z-5. R2.", "G80", "G17", "G99 G81 X2. Y2. Z-5. R2.");
    expect(at(e)).toEqual([
      [null, null],
      [2, 2],
    ]);
    expect(e.shapes[0]?.unknown.startZ).toBe(CONDITION);
  });

  test("the units: no length is known, and G21 says what they are from there", () => {
    const e = joined("G20", "G0 X1. Y2.", "G81 X1. Y1. Z-5. R2.", "G80", "G21 F100.", "G99 G81 X2. Y2. Z-5. R2.");
    expect(at(e)).toEqual([
      [null, null],
      [2, 2],
    ]);
    expect(holes(e)[1]?.strokes).toEqual([[2, -5, 0.1, 1000]]);
  });

  test("the work system: places after it do not compare with any before", () => {
    const e = joined("G55", "G99 G81 X1. Y1. Z-5. R2.", "G80", "G54", "G99 G81 X1. Y1. Z-5. R2.");
    expect(e.shapes.map((s) => s.wcs)).toEqual(["G?", "G54"]);
    expect(new Set(e.shapes.map((s) => s.frame)).size).toBe(2);
    expect(holes(e)[1]?.strokes).toHaveLength(1);
  });

  test("the feed mode: F has no known meaning", () => {
    const e = joined("G95", "G99 G81 X1. Y1. Z-5. R2.", "G94 F100.", "X2.");
    expect(holes(e).map((h) => h.strokes[0]?.[2])).toEqual([null, 0.1]);
    expect(e.shapes[0]?.state).toMatchObject({ f: null, fWhy: CONDITION, unsure: ["feedMode"] });
  });

  test("the spindle, the coolant and the tool", () => {
    const e = joined("T2 M6\nM8", "G43 H2", "G99 G81 X1. Y1. Z-5. R2.", "T3 M6", "M3 M8", "G43 H3 Z50.", "X2.");
    const [first] = e.shapes;
    expect(first?.state.unsure).toEqual(expect.arrayContaining(["spindle", "coolant", "tool"]));
    expect(first?.unknown).toMatchObject({ tool: CONDITION, n: CONDITION });
    expect(first?.strokes[0]).toMatchObject({ n: null, f: null });
    expect(e.stepState(e.stepCount - 2)).toMatchObject({ tool: 3, spindle: "cw", unsure: [] });
  });

  test("the strict language is not told that something is missing which may be there", () => {
    const e = run(
      "G21 G90 G17 G94\nG0 X0 Y0 Z50 S1000 F100\no1 if [#500 gt 1]\nM3\nG81 X1 Y1 Z-5 R2\no1 endif\nX9 Y9 L2\nG80\nM2",
      { dialect: { ...genericMill, macroDialect: "o-word", unusedWords: "error", tapNeedsSpindle: true } },
    );
    expect(errors(e)).toEqual([]);
  });

  test("what is the same on both ways is known", () => {
    const e = joined("G91\nG90", "G0 X10. Y10.");
    expect(last(e)).toBe("R(10,10,50)");
    expect(e.stepState(e.stepCount - 2).unsure).toEqual([]);
  });
});

describe("a code whose value is not known", () => {
  test("makes unknown what it may have set, until it is written", () => {
    const e = run(`${HEAD}G#500 X7.\nX8.\nG90 G0 G21 G54 X9. Y1. Z30.\nM30`);
    expect(moves(e)).toEqual(["spindle", "R(0,0,50)", "R(9,1,30)", "end"]);
    expect(e.events.map((event) => event.kind)).toEqual(["unknown-value"]);
    const state = e.stepState(2);
    expect(state.unsure).toEqual(expect.arrayContaining(["motion", "cycle", "distance", "units", "wcs", "plane"]));
    expect(state.unsureWhy).toBe("G#500 has a value that is not known, and may have set it");
  });

  test("M: the tool, the spindle and the coolant", () => {
    const e = run(`${HEAD}M#500\nG99 G81 X1. Y1. Z-5. R2.\nM30`);
    expect(e.shapes[0]?.unknown.n).toContain("M#500");
    expect(e.events.map((event) => event.kind)).toEqual(["unknown-value"]);
  });
});

describe("modes read by their system variables", () => {
  test("are those in force, so that what is saved can be put back", () => {
    const save = "#31=#4001\n#32=#4003\n#33=#4014\n#30=#4109\n#29=#4119\n#28=#4006";
    const e = run(
      `${HEAD}G1 X1.\n${save}\nG0 G91 G55 F20. S300 X5.\nG#31 G#32 G#33 G#28 F#30 S#29\nX10. Y10. Z50.\nM30`,
    );
    expect(last(e)).toBe("F(10,10,50)");
    const { distance, wcs, f, s, motion } = e.stepState(e.stepCount - 2);
    expect([distance, wcs, f, s, motion]).toEqual([90, "G54", 100, 1000, 1]);
    expect(e.events).toEqual([]);
  });

  test("decide a condition", () => {
    const e = run(`${HEAD}G91\nIF[#4003EQ91]GOTO5\nG81 X99. Z-5. R2.\nN5 G90\nIF[#4120EQ7]GOTO6\nM30\nN6 T7 M6\nM30`);
    expect(e.holeCount).toBe(0);
    expect(e.events.filter((event) => event.kind === "branch")).toHaveLength(1);
  });

  test("are unknown where the mode is, or where the control keeps none that is followed", () => {
    const e = run(`${HEAD}IF[#500EQ1]GOTO5\nG91\nN5 #1=#4003\nG90\nG0 X[#1]\nG0 Y[#4113]\nM30`);
    expect(last(e)).toBe("R(?,?,50)");
  });

  test("whatever modes are saved, changed and put back, the moves after are as before", () => {
    const change = fc.array(fc.constantFrom("G91", "G1", "G18", "G20", "G55", "G95", "G99", "G96", "G41", "G3 I1."), {
      maxLength: 5,
    });
    fc.assert(
      fc.property(change, (codes) => {
        const saved = [4001, 4002, 4003, 4005, 4006, 4007, 4010, 4013, 4014];
        const text = (between: string) => `${HEAD}G98 G97 G40\n${between}\nG0 X1. Y2. Z3.\nX4. F50.\nG1 Z2.\nM30`;
        const around = [
          ...saved.map((n, i) => `#${101 + i}=#${n}`),
          ...codes,
          saved.map((_, i) => `G#${101 + i}`).join(" "),
        ];
        const tail = (e: Execution) => moves(e).slice(-4);
        expect(tail(run(text(around.join("\n"))))).toEqual(tail(run(text(""))));
      }),
      { numRuns: 100 },
    );
  });
});

describe("what is known after ways have met", () => {
  const CODES = [
    "G90",
    "G91",
    "G0",
    "G1 F50.",
    "G17",
    "G18",
    "G20",
    "G21",
    "G55",
    "G54",
    "G94",
    "G95 F0.2",
    "G98",
    "G99",
    "G80",
    "G43 H1",
    "G49",
    "G52 X5.",
    "G92 Y3.",
    "G68 X0 Y0 R90.",
    "G69",
    "G16",
    "G15",
    "M3",
    "M5",
    "M8",
    "M9",
    "T1 M6",
    "T2",
    "M6",
    "S500",
    "#1=7.",
    "#2=#4003",
    "G0 X5. Y6.",
    "X[#1]",
    "Y2. Z9.",
    "Z-3.",
    "G99 G81 X1. Y1. Z-5. R2. F80.",
    "G98 G82 X2. Y1. Z-6. R1. P100.",
    "G83 Z-9. R3. Q2.",
    "X8. Y8.",
    "G28 Z0",
    "G53 G0 Z0",
    "G#2",
    "G3 X4. Y4. R20.",
    "M98 P7",
  ];
  const blocks = fc.array(fc.constantFrom(...CODES), { maxLength: 6 });
  const ends = (text: string, before: string) => {
    const e = run(`${before}${HEAD}${text}\nM30\nO7\nG91 X1.\nM99`);
    const end = [...e.motions()].find((motion) => motion.kind === "end");
    return { end, state: e.stepState(e.stepCount - 2), of: e };
  };
  const MODES = [
    ["motion", "motion"],
    ["cycle", "cycle"],
    ["plane", "plane"],
    ["distance", "distance"],
    ["feedMode", "feedMode"],
    ["units", "units"],
    ["returnMode", "returnMode"],
    ["wcs", "wcs"],
    ["spindle", "spindle"],
    ["tool", "tool"],
    ["staged", "staged"],
  ] as const;

  test("is so on each of them", () => {
    fc.assert(
      fc.property(blocks, blocks, blocks, blocks, (before, one, other, after) => {
        const text = [...before, "IF[#500EQ1]GOTO4", ...one, "GOTO5", "N4", ...other, "N5", ...after].join("\n");
        const both = ends(text, "");
        for (const way of [ends(text, "#500=1\n"), ends(text, "#500=0\n")]) {
          // What a block that a control refuses leaves behind is no matter.
          fc.pre(errors(way.of).length === 0 && way.of.events.every(({ kind }) => kind !== "r-below-z"));
          for (const axis of ["x", "y", "z"] as const) {
            const known = both.end?.[axis] ?? null;
            if (known !== null) expect([axis, way.end?.[axis]]).toEqual([axis, known]);
          }
          for (const [mode, name] of MODES) {
            if (both.state.unsure.includes(name)) continue;
            expect([mode, way.state[mode]]).toEqual([mode, both.state[mode]]);
          }
          if (both.state.s !== null) expect(way.state.s).toBe(both.state.s);
          if (both.state.f !== null) expect(way.state.f).toBe(both.state.f);
        }
      }),
      { numRuns: 300 },
    );
  });
});
