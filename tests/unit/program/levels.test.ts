/** Where cycles begin without an R of their own, what may be a level or a way, and how high the tool stands after a step. */
import { describe, expect, test } from "vitest";
import { genericMill, genericTurn } from "../../../server/setup/dialects/index.ts";
import { events, holes, moves, run, setup } from "./helpers.ts";

const SIDE = "G21 G98\nT0303\nM33 S1300\nG0 X60. Z-10. C0\n";
const turn = (text: string, keys: Partial<typeof genericTurn> = {}) =>
  run(text, { dialect: { ...genericTurn, liveSpindle: new Map([["M33", "cw"]]), ...keys } });

describe("a turning cycle without R", () => {
  test("begins where the tool stands at the face", () => {
    const e = turn("G21 G99\nG97 S600 M3\nG0 X0. Z5.\nG83 Z-20. Q10000 F.18\nG80\nM30");
    expect(holes(e).map((h) => [h.kind, h.startZ, h.endZ, h.peck])).toEqual([["peck", 5, -20, 10]]);
    expect(events(e)).toEqual([]);
  });

  test("and in the side, at each place of the run", () => {
    const e = turn(`${SIDE}G87 X30. Q5000 F130.\nC90.\nC180.\nG80\nM30`);
    expect(holes(e).map((h) => [h.startZ, h.endZ])).toEqual([
      [30, 15],
      [30, 15],
      [30, 15],
    ]);
  });

  test("W counts from there", () => {
    expect(holes(turn("G21 G99\nS600 M3\nG0 X0. Z5.\nG83 W-25. F.18\nG80\nM30"))[0]).toMatchObject({
      startZ: 5,
      endZ: -20,
    });
  });

  test("a mill still misses it", () => {
    const e = run("G21 G90 S600 M3\nG0 X0 Y0 Z5.\nG81 Z-20. F100.\nG80\nM30");
    expect([e.holeCount, events(e).map((x) => x.split(":")[0])]).toEqual([0, ["cycle-word-missing"]]);
  });
});

describe("R that can only be a way while `cycleR` is undeclared", () => {
  const text = `${SIDE}G87 X30. R-5. Q5000 F130.\nG80\nM30`;
  test("leaves the hole without a start, and the tool where it was", () => {
    const e = turn(text);
    expect(holes(e)).toMatchObject([{ startZ: null, endZ: 15, strokes: [] }]);
    expect(e.shapes[0]?.unknown.startZ).toContain("`cycleR`");
    expect(events(e).filter((x) => x.startsWith("r-below-z"))).toEqual([]);
    expect(moves(e).slice(-2)).toEqual(["R(60,0,-10)", "end"]);
  });

  test("as a way it begins there", () => {
    expect(holes(turn(text, { cycleR: "from-initial" }))[0]).toMatchObject({ startZ: 25, endZ: 15 });
  });

  test("as a level it is below the bottom", () => {
    expect(events(turn(text, { cycleR: "absolute" })).some((x) => x.startsWith("r-below-z"))).toBe(true);
  });
});

describe("the height after a step", () => {
  const heights = (text: string, keys: Partial<typeof genericMill> = {}) => {
    const e = run(text, { dialect: { ...genericMill, ...keys } });
    return Array.from({ length: e.stepCount }, (_, i) => e.stepZ(i));
  };
  test("is that of the execution, in mm", () => {
    expect(heights("G20 G90 S900 M3\nG0 Z2.\nG99 G81 X0 Y0 Z-1. R.5 F5.\nG98 X1.\nG80")).toEqual([
      null,
      50.8,
      12.7,
      50.8,
      50.8,
    ]);
  });
  test("with R as the way from the level before", () => {
    const text = "G21 G90 S900 M3\nG0 Z50.\nG99 G81 X0 Y0 Z-5. R-48. F50.\nG80";
    expect(heights(text, { cycleR: "from-initial" })).toEqual([null, 50, 2, 2]);
  });
  test("is unknown before the program and behind it", () => {
    const e = run("G21 G90\nG0 Z5.");
    expect([e.stepZ(-1), e.stepZ(1), e.stepZ(2)]).toEqual([null, 5, null]);
  });
});

describe("words for the place that are not followed", () => {
  test("polar words make X and Y unknown, in a move and in a cycle", () => {
    const e = run("G21 G90 S900 M3\nG0 X1. Y2. Z50.\nG99 G81 @5. ^30 Z-5. R2. F100.\nX3. Y4.\nG80\nM30");
    expect(holes(e).map((h) => [h.at, h.startZ, h.endZ])).toEqual([
      [[null, null], 2, -5],
      [[3, 4], 2, -5],
    ]);
  });
  test("X beside a radius keeps its value", () => {
    expect(moves(run("G21 G90\nG0 X1. Y2. Z3.\nX5. @3."))).toEqual(["R(1,2,3)", "R(5,?,3)"]);
  });
  test("the NIST language does not run the line", () => {
    const nist = { ...genericMill, repeatWord: "error" as const };
    expect(moves(run("G21 G90\nG0 X1. Y2. Z3.\n@3.\nX5.", { dialect: nist }))).toEqual(["R(1,2,3)", "R(5,2,3)"]);
  });
});

describe("P beside a work system", () => {
  const system = (text: string) => {
    const e = run(`G21 G90\n${text}`, { setup: setup() });
    return e.stepState(1).wcs;
  };
  test.each([
    ["numbers the system", "G54 P3", "G54.1 P3"],
    ["is the time of a dwell", "G54 G4 P3", "G54"],
    ["is the program of a call", "G54 M98 P3", "G54"],
  ])("%s", (_, text, wcs) => {
    expect(system(text)).toBe(wcs);
  });
  test("is no dwell of the cycle that runs", () => {
    const e = run("G21 G90 S900 M3\nG0 X0 Y0 Z50.\nG82 X1. Z-5. R2. F100.\nG54 P3 X30. Y0\nG80");
    expect(e.shapes.map((shape) => shape.dwell)).toEqual(e.shapes.map(() => 0));
  });
});

test("M17 returns from a subprogram, and is the builder's own at the main level", () => {
  const e = run("G21 G90\nG0 X0 Y0 Z0\nM98 P7\nG0 X9.\nM17\nX10.\nM30\nO7\nX5.\nM17\nX6.");
  expect(moves(e)).toEqual(["R(0,0,0)", "R(5,0,0)", "R(9,0,0)", "R(10,0,0)", "end"]);
  expect(events(e)).toEqual([]);
});
