/** Drilling on turning centres: three tapes written by hand, and the rules one by one. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill, genericTurn } from "../../../server/setup/dialects/index.ts";
import { drill, events, holes, machine, moves, type RunOptions, run, setup } from "./helpers.ts";

const turn = (text: string, options: RunOptions = {}) => run(text, { dialect: genericTurn, ...options });
const said = (text: string, options: RunOptions = {}) =>
  turn(text, options).events.map((e) => `${e.data.level ?? ""} ${e.data.rule ?? e.kind}: ${e.data.text ?? ""}`);

/** A bushing: spot, drill with pecks in one cycle, bore out by hand, tap. */
const BUSHING = `%
O0410 (BUSHING)
G21 G40 G80 G99
G28 U0 W0
T0101 (SPOT)
G97 S1800 M3
G0 X0. Z5. M8
G1 Z-3.5 F0.08
G0 Z5.
X100. Z100. M9
T0303 (DRILL 10.2)
G97 S1500 M3
G0 X0. Z5. M8
G83 Z-42. R2. Q8000 F0.18
G80
G0 X100. Z100. M9
T0500 (OFFSET AWAY)
T0505 (TAP M12)
G97 S250 M3
G0 X0. Z6. M8
G84 Z-25. R4. F1.75
G80 M9
G28 U0 W0
M30
%
`;

describe("a bushing", () => {
  const e = turn(BUSHING);
  test("three tools, three holes on the centre", () => {
    expect(e.operations.map((o) => [o.tool, o.holeCount])).toEqual([
      [1, 1],
      [3, 1],
      [5, 1],
    ]);
    expect(holes(e).map((h) => [h.kind, h.at, h.startZ, h.endZ, h.peck])).toEqual([
      ["drill", [0, 0], 5, -3.5, 0],
      ["peck", [0, 0], 2, -42, 8],
      ["tap", [0, 0], 4, -25, 0],
    ]);
  });
  test("feed per revolution from the start, and the tap's is its lead", () => {
    expect(e.shapes.map((s) => [s.strokes[0]?.f, s.strokes[0]?.n])).toEqual([
      [0.08, 1800],
      [0.18, 1500],
      [1.75, 250],
    ]);
    expect(e.stepState(0)).toMatchObject({ plane: 18, feedMode: 95, units: "mm" });
  });
  test("nothing is wrong with it", () => {
    expect(said(BUSHING)).toEqual([]);
  });
});

/** A flange: long-hand pecks on the centre, then six holes by the driven tool, face and side. */
const FLANGE = `O0411 (FLANGE)
G20 G40 G97 G99
T0202 (1/2 DRILL)
S900 M3
G0 X0 Z.2
G1 Z-.5 F.006
G0 Z.1
G0 Z-.45
G1 Z-1. F.006
G0 Z.2
G28 U0 W0
M5
T0404 (5/16 DRIVEN)
M33 S2400
G0 X3.5 Z.2
G83 Z-.6 R.1 Q2000 F.004 C0
C60.
H60.
G80
G0 X5. Z-1.
G87 X4. R4.6 F.004 C0
C180.
G80
M35
G28 U0
G28 W0
M30
`;

const driven: Dialect = {
  ...genericTurn,
  liveSpindle: new Map([
    ["M33", "cw"],
    ["M34", "ccw"],
    ["M35", "stop"],
  ] as const),
};

describe("a flange in inches", () => {
  const e = turn(FLANGE, { dialect: driven });
  const inch = (mm: number | null) => (mm === null ? null : Math.round((mm / 25.4) * 1e5) / 1e5);
  const drilled = holes(e).map((h) => [h.kind, h.at.map(inch), inch(h.startZ), inch(h.endZ)]);
  test("two pecks by hand on the centre", () => {
    expect(drilled[0]).toEqual(["peck", [0, 0], 0.2, -1]);
    expect(e.hole(0).shape.strokes.map((s) => [inch(s.fromZ), inch(s.toZ)])).toEqual([
      [0.2, -0.5],
      [-0.45, -1],
    ]);
  });
  test("three at the face beside the centre: X is a diameter, C turns the work", () => {
    expect(drilled.slice(1, 4)).toEqual([1, 2, 3].map(() => ["peck", [1.75, 0], 0.1, -0.6]));
    expect(inch(e.hole(1).shape.peck)).toBeCloseTo(2 / 25.4, 4);
  });
  test("the place is told as the program writes it", () => {
    expect(e.hole(1).written?.map(inch)).toEqual([3.5, 0]);
  });
  test("two at the side, along X, half as deep as the diameters tell", () => {
    expect(drilled.slice(4)).toEqual([1, 2].map(() => ["drill", [0, -1], 2.3, 2]));
    expect(e.hole(4).shape.axis).toBe("x");
  });
  test("the trace tells X as the program writes it", () => {
    expect(moves(e)).toContain("R(3.5,0,0.2)");
  });
  test("nothing is wrong with it", () => {
    expect(said(FLANGE, { dialect: driven })).toEqual([]);
  });
});

/** A sleeve: G74, turning cycles around it, drilling left in G96. */
const SLEEVE = `O0412
G21 G18 G40 G99
G50 S2500
T0101
G96 S180 M4
G0 X62. Z2.
G71 U2. R1.
G71 P10 Q20 U.4 W.1 F.25
N10 G0 X40.
G1 Z-30. F.15
N20 X62.
G0 X100. Z50.
T0606 (14 DRILL)
M3
G0 X0. Z4.
G74 R.5
G74 Z-55. Q12000 F.2
G0 Z100.
M5
M30
`;

describe("a sleeve", () => {
  const tools = [drill(6, 14)];
  const e = run(SLEEVE, { setup: setup({ dialect: genericTurn, machine: machine({ kind: "turn" }) }, tools) });
  test("G74 pecks from where the tool stands, with its own retract", () => {
    expect(holes(e).map((h) => [h.kind, h.at, h.startZ, h.endZ, h.peck])).toEqual([["chip-break", [0, 0], 4, -55, 12]]);
    expect(e.hole(0).shape.strokes.map((s) => [s.fromZ, s.toZ])).toEqual([
      [4, -8],
      [-7.5, -20],
      [-19.5, -32],
      [-31.5, -44],
      [-43.5, -55],
    ]);
  });
  test("what is turned is no hole", () => {
    expect(e.operations.map((o) => [o.tool, o.holeCount])).toEqual([
      [1, 0],
      [6, 1],
    ]);
  });
  test("G96 on the centre is an error, with the speed that was meant", () => {
    const found = e.events.filter((x) => x.data.level === "error");
    expect(found.map((x) => [x.data.rule, x.data.text])).toEqual([
      [
        "g96-on-centre",
        "G96 S180, 180 m/min (591 ft/min), on the centre: at X0 the spindle runs up to the 2500 1/min of its clamp. " +
          "Way out: G97 S4093 for the same cutting speed at 14.00 mm (0.551 in) before the drill",
      ],
    ]);
  });
});

describe("codes of turn-A", () => {
  test("G98 and G99 are feed modes, and a new mode needs a new F", () => {
    const mode = (text: string) => {
      const e = turn(text);
      const { feedMode, f, returnMode } = e.stepState(e.stepCount - 1);
      return [feedMode, f, returnMode];
    };
    expect([mode("G21 G98 F120."), mode("G21 G98 F120.\nG99"), mode("G21 G99 F.2")]).toEqual([
      [94, 120, 98],
      [95, null, 98],
      [95, 0.2, 98],
    ]);
  });

  test("in turn-B they are return levels, and G94 and G95 the feed modes", () => {
    const e = turn("G21 G90 G94 G99 F120.", { dialect: { ...genericTurn, machineKind: "turn-B" } });
    expect(e.stepState(0)).toMatchObject({ feedMode: 94, returnMode: 99, f: 120, distance: 90 });
  });

  test.each([
    ["G50 S", "G21 G50 S3000 M3"],
    ["G92 S", "G21 G92 S3000 M3"],
  ])("%s bounds the speed and is none itself", (_, text) => {
    expect(turn(text).stepState(0).s).toBeNull();
  });

  test("G50 with axes says where the tool stands", () => {
    expect(moves(turn("G21 G0 X80. Z10.\nG50 X100. Z30.\nG0 U-10. W5."))).toEqual(["R(80,0,10)", "R(90,0,35)"]);
  });

  test.each([
    ["U and W move by increments, U as a diameter", "G21 G0 X50. Z5.\nU10. W-3.", "R(60,0,2)"],
    ["G28 U0 W0 goes home straight", "G21 G0 X50. Z5.\nG28 U0 W0", "R(?,0,?)"],
    ["U of a dwell is a time", "G21 G0 X50. Z5.\nG4 U1.5\nW1.", "R(50,0,6)"],
    ["a turning cycle comes back", "G21 G0 X50. Z5. F.2\nG90 X40. Z-30.\nX36.\nG0 W2.", "R(50,0,7)"],
    ["a threading move goes to its end", "G21 G0 X50. Z5. F2.\nG32 Z-30.\nG0 W2.", "R(50,0,-28)"],
  ])("%s", (_, text, last) => {
    expect(moves(turn(text)).at(-1)).toBe(last);
  });

  test.each([
    ["T0202", [2, "43", 2]],
    ["T0200", [2, "49", null]],
    ["T1212", [12, "43", 12]],
    ["T2", [2, "43", 2]],
    ["T0202\nT0200", [2, "49", null]],
    ["T0202\nT0005", [2, "43", 5]],
    ["T0202\nM6", [2, "43", 2]],
  ])("%s", (text, expected) => {
    const e = turn(text);
    const state = e.stepState(e.stepCount - 1);
    expect([state.tool, String(state.lengthOffset.code), state.lengthOffset.h]).toEqual(expected);
    expect(said(text).filter((x) => !x.includes("no M2"))).toEqual([]);
  });

  test("another offset than the tool's is told, unless the setup allows it", () => {
    const text = "T0205\nM30";
    expect(said(text)).toEqual([
      expect.stringMatching(/^warning tool-offset: T0205 brings tool 2 with offset 5\..*T0202/),
    ]);
    expect(events(run(text, { setup: setup({ dialect: genericTurn }, [drill(2, 8, { H: [5] })]) }))).toEqual([]);
  });

  test("W is the depth of a cycle from R, and K drills again at the next increment of C", () => {
    const text = "G21 T0202\nM33 S900\nG0 X40. Z5. C0\nG83 W-20. R2. F.1 H90. K4\nG80\nM30";
    const e = turn(text, { dialect: driven });
    expect(holes(e).map((h) => [h.startZ, h.endZ])).toEqual([1, 2, 3, 4].map(() => [2, -18]));
  });

  test.each([
    ["absolute", "R-3.", 0, [-3, []]],
    ["from-initial", "R-3.", 0, [2, []]],
    ["undeclared", "R-3.", 1, [-3]],
    ["undeclared", "R2.", 0, [2]],
  ] as const)("cycleR %s, %s", (cycleR, R, told, [start]) => {
    const text = `G21 G97 S900 M3\nT0202\nG0 X0. Z5.\nG83 Z-20. ${R} F.1\nG80\nM30`;
    const e = turn(text, { dialect: { ...genericTurn, cycleR } });
    expect(e.hole(0).shape.startZ).toBe(start);
    const found = e.events.filter((x) => x.data.rule === "undeclared-cycleR");
    expect(found).toHaveLength(told);
    if (told > 0)
      expect(found[0]?.data.text).toBe(
        "R is read as a level, Z -3.00 mm (-0.118 in); a control that counts it from the level before the cycle reads " +
          "Z 2.00 mm (0.079 in). Way out: `cycleR: absolute` or `from-initial` under `dialect` of the machine",
      );
  });
});

describe("where the work turns", () => {
  const at = (x: string, spindle: string, dialect = driven) =>
    said(`G21 ${spindle}\nT0202\nG0 X${x} Z5.\nG83 Z-20. R2. F.1\nG80\nM30`, { dialect }).map((s) => s.split(":")[0]);

  test.each([
    ["on the centre by the main spindle", "0.", "G97 S900 M3", []],
    ["beside it by the main spindle", "40.", "G97 S900 M3", ["error off-centre"]],
    ["beside it by a driven tool", "40.", "G97 S900 M33", []],
    ["on it in G96 by a driven tool", "0.", "G96 S90 M33", []],
    ["on it in G96", "0.", "G96 S90 M3", ["error g96-on-centre"]],
  ])("%s", (_, x, spindle, expected) => {
    expect(at(x, spindle)).toEqual(expected);
  });

  test("into the side of turning work", () => {
    const text = "G21 G97 S900 M3\nT0202\nG0 X50. Z-10.\nG87 X20. R44. F.1 C0\nG80\nM30";
    expect(said(text, { dialect: driven }).map((s) => s.split(",")[0])).toEqual([
      "error off-centre: the work turns and the drill goes into the side of the work: it bends or breaks. Way out: the driven tool instead of the main spindle",
    ]);
    expect(said(text.replace("M3", "M5")).map((s) => s.split(":")[0])).toEqual(["info driven-tool"]);
  });

  test("a turret that turns while a cycle is active", () => {
    const text = "G21 G97 S900 M3\nT0202\nG0 X0. Z5.\nG83 Z-20. R2. F.1\nT0303\nG80\nM30";
    expect(said(text)).toEqual([expect.stringMatching(/^warning tool-change: the tool is changed while a cycle/)]);
  });

  test("the start position is given as the program writes it", () => {
    expect(moves(turn("G21 G0 U10. W-5.", { from: [50, 0, 20], before: "G21" }))).toEqual(["R(60,0,15)"]);
  });

  test("a driven tool whose code nobody declared is taken to turn, and that is told", () => {
    expect(at("40.", "G97 S900 M5", genericTurn)).toEqual(["info driven-tool"]);
    const e = turn("G21 G97 S900\nT0202\nG0 X40. Z5.\nG83 Z-20. R2. F.1\nG80\nM30");
    expect([e.hole(0).shape.state.spindle, e.hole(0).shape.strokes[0]?.n]).toEqual(["cw", 900]);
  });

  test("long-hand drilling in G96 is told at the depth word", () => {
    const e = turn("G21 G96 S90 M3\nT0202\nG0 X0. Z5.\nG1 Z-20. F.1\nG0 Z5.\nX100.\nM30");
    const found = e.events.find((x) => x.data.rule === "g96-on-centre");
    expect(found).toBeDefined();
    if (found === undefined) return;
    expect(e.blocks.textOf(found.span.block).slice(found.span.start, found.span.end)).toBe("Z-20.");
    expect(found.data.text).toMatch(/at X0 the spindle runs up to its limit\. Way out: G97 and S in 1\/min/);
  });

  test("facing and turning make no holes and no rapids into metal", () => {
    const e = turn(
      "G21 G96 S200 M4 F.2\nT0101\nG0 X62. Z0.\nG1 X-1.6\nG0 Z2.\nX58.\nG1 Z-40.\nG0 X60. Z2.\nG0 X70. Z-20.\nM30",
    );
    expect([e.holeCount, events(e)]).toEqual([0, []]);
  });
});

describe("the same holes in other words", () => {
  const hundredth = fc.integer({ min: -6000, max: 6000 }).map((n) => n / 100);
  const point = (n: number): string => n.toFixed(3);
  /** What a hole is, whatever words made it. */
  const plain = (text: string, dialect: Dialect) => {
    const e = run(text, { dialect });
    return Array.from({ length: e.holeCount }, (_, i) => {
      const { shape, at } = e.hole(i);
      const strokes = shape.strokes.map((s) =>
        [s.fromZ, s.toZ, s.f, s.n].map((v) => (v === null ? v : Math.fround(v))),
      );
      return [shape.kind, shape.axis, at.map((v) => Math.fround(v ?? Number.NaN)), strokes, shape.dwell];
    });
  };
  const head = "G21 G97 G99\nT0202\nM33 S900\nG0 X40. Z5. C0\n";

  test("U, W and H for X, Z and C", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(hundredth, fc.integer({ min: 0, max: 359 })), { minLength: 1, maxLength: 6 }),
        (list) => {
          let [x, c] = [40, 0];
          const absolute: string[] = [];
          const steps: string[] = [];
          for (const [px, pc] of list) {
            absolute.push(`X${point(px)} C${pc}.`);
            steps.push(`U${point(px - x)} H${pc - c}.`);
            [x, c] = [px, pc];
          }
          const cycle = (words: readonly string[], depth: string) =>
            `${head}G83 ${words[0]} ${depth} R2. Q3000 F.1\n${words.slice(1).join("\n")}\nG80\nM30`;
          expect(plain(cycle(steps, "W-12."), driven)).toEqual(plain(cycle(absolute, "Z-10."), driven));
        },
      ),
      { numRuns: 60 },
    );
  });

  test("turn-A and turn-B with their own codes", () => {
    fc.assert(
      fc.property(fc.array(hundredth, { minLength: 1, maxLength: 6 }), fc.boolean(), (list, perMinute) => {
        const feed = perMinute ? 90 : 0.1;
        const program = (mode: string) =>
          `G21 G97 ${mode}\nT0202\nM33 S900\nG0 X0. Z5.\nG83 Z-20. R2. Q4. F${feed}\n${list.map((x) => `X${point(x)}`).join("\n")}\nG80\nM30`;
        const b: Dialect = { ...driven, machineKind: "turn-B" };
        expect(plain(program(perMinute ? "G94 G90 G98" : "G95 G90 G98"), b)).toEqual(
          plain(program(perMinute ? "G98" : "G99"), driven),
        );
      }),
      { numRuns: 60 },
    );
  });

  test("a hole on the centre is the one that a mill drills at X0 Y0", () => {
    const depth = fc.integer({ min: 100, max: 9000 }).map((n) => n / 100);
    fc.assert(
      fc.property(
        depth,
        fc.integer({ min: 50, max: 3000 }).map((n) => n / 100),
        fc.boolean(),
        (z, q, cycle) => {
          const body = cycle
            ? `G83 Z-${point(z)} R2. Q${point(q)} F.1\nG80`
            : `G1 Z-${point(z / 2)} F.1\nG0 Z5.\nZ-${point(z / 2 - 0.5)}\nG1 Z-${point(z)}\nG0 Z5.`;
          const turned = plain(`G21 G97 G99\nT0202\nS900 M3\nG0 X0. Z5.\n${body}\nG0 X99.\nM30`, genericTurn);
          const milled = plain(
            `G21 G90 G95\nT2 M6\nS900 M3\nG43 H2\nG0 X0. Y0.\nZ5.\n${body}\nG0 X99.\nM30`,
            genericMill,
          );
          expect(turned).toEqual(milled);
        },
      ),
      { numRuns: 80 },
    );
  });
});
