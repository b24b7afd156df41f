/** Drilling on turning centres: three tapes written by hand, and the rules one by one. */
import { describe, expect, test } from "vitest";
import { genericTurn } from "../../../server/setup/dialects/index.ts";
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
