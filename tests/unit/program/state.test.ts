import { describe, expect, test } from "vitest";
import type { Execution } from "../../../server/program/types.ts";
import { genericMill, nist, readyDialects } from "../../../server/setup/dialects/index.ts";
import { events, machine, moves, run, setup } from "./helpers.ts";

const last = (e: Execution) => e.stepState(e.stepCount - 1);
const word = (e: Execution, ref: number) => {
  const span = e.blocks.spanOf(ref);
  return span === null
    ? null
    : `${e.blocks.lineOf(span.block) + 1}:${e.blocks.textOf(span.block).slice(span.start, span.end)}`;
};

describe("states", () => {
  test("equal neighbours are one object, and each value knows its word", () => {
    const e = run("G21 G90 S1000 M3\nF100.\nG0 X1.\nX2.\nX3. M8\nG1 X4. F90.");
    expect(e.stepState(2)).toBe(e.stepState(3));
    const state = last(e);
    expect([
      word(e, state.from.s),
      word(e, state.from.f),
      word(e, state.from.coolant),
      word(e, e.stepState(3).from.f),
    ]).toEqual(["1:S1000", "6:F90.", "5:M8", "2:F100."]);
  });

  test("a step is found by its block; comments and empty lines have none", () => {
    const e = run("(TOP)\n\nG21\nG0 X1.");
    expect([0, 1, 2, 3].map((line) => e.stepOf(e.blocks.blockAt(line)))).toEqual([-1, -1, 0, 1]);
  });

  test("the cycle's words are known to its holes", () => {
    const e = run("G21 G90 S1000 M3 F100.\nG0 Z50.\nG99 G83 X1. Y1. Z-20. R2. Q5.\nX2. Z-30.");
    const refs = e.hole(1).shape.refs;
    expect([word(e, refs.z), word(e, refs.r), word(e, refs.q), word(e, refs.cycle)]).toEqual([
      "4:Z-30.",
      "3:R2.",
      "3:Q5.",
      "3:G83",
    ]);
  });

  test("M2 puts the NIST machine into its start state", () => {
    const e = run("G91 G19 G55 G93 G21\nM3 S100\nM8\nM2", { dialect: nist });
    expect(last(e)).toMatchObject({
      distance: 90,
      plane: 17,
      wcs: "G54",
      feedMode: 94,
      spindle: "stopped",
      coolant: [],
      motion: 1,
      comp: 40,
      units: "mm",
      s: 100,
    });
  });

  test("M5 in a block with a move acts after it on most controls, before it in the NIST language", () => {
    const spindle = (dialect: typeof nist) =>
      [...run("G21 G90 S1000 M3 F100.\nG1 Z-5. M5", { dialect, from: [0, 0, 0] }).motions()].find(
        (m) => m.kind === "feed",
      )?.state.spindle;
    expect([spindle(genericMill), spindle(nist)]).toEqual(["cw", "stopped"]);
  });

  test.each([
    ["loads-this", 2],
    ["loads-previous", 1],
  ] as const)("T and M6 in one block: %s", (tM6SameBlock, tool) => {
    expect(last(run("T1\nT2 M6", { dialect: { ...genericMill, tM6SameBlock } })).tool).toBe(tool);
  });

  test("a tool change stops spindle and coolant where the dialect says so", () => {
    const text = "G21 S100 M3\nM8\nT1 M6";
    expect([last(run(text)).spindle, last(run(text)).coolant]).toEqual(["stopped", []]);
    expect([last(run(text, { dialect: nist })).spindle, last(run(text, { dialect: nist })).coolant]).toEqual([
      "stopped",
      ["M8"],
    ]);
  });

  test("coolant codes of the machine and codes that start spindle and coolant together", () => {
    const s = setup({ machine: machine({ coolant: new Map([["M88", { kind: "through", pressure: 20, flow: 20 }]]) }) });
    expect(last(run("M88\nM8", { setup: s })).coolant).toEqual(["M88", "M8"]);
    expect(last(run("M88\nM9", { setup: s })).coolant).toEqual([]);
    expect(last(run("S500 M14"))).toMatchObject({ spindle: "ccw", coolant: ["M8"], s: 500 });
    expect(events(run("M88")).filter((x) => x.startsWith("unknown-code"))).toHaveLength(1);
  });

  test("F keeps its number when the units change, and is dropped or kept when the feed mode does", () => {
    expect(last(run("G21 F100.\nG20")).f).toBe(2540);
    expect(last(run("F100.\nG95")).f).toBeNull();
    expect(last(run("F100.\nG95\nF.2\nG94", { dialect: { ...genericMill, feedOnModeChange: "per-mode" } })).f).toBe(
      100,
    );
    expect(last(run("F100.\nG93", { dialect: nist })).f).toBe(100);
  });

  test("a rotary word is no move of the drill, but another place", () => {
    expect(moves(run("G21 G90 G0 X1. A90.", { from: [0, 0, 0] }))).toEqual(["R(1,0,0)"]);
  });

  test("G91 adds, G90 sets", () => {
    expect(moves(run("G21 G91 G0 X1.\nX2. Y1.\nG90 X0.", { from: [0, 0, 0] }))).toEqual([
      "R(1,0,0)",
      "R(3,1,0)",
      "R(0,1,0)",
    ]);
  });

  test("between work systems with declared offsets the reading is worked out, else unknown", () => {
    const offsets = new Map([
      ["G54", [0, 0, 0] as const],
      ["G55", [200, 0, -5] as const],
    ]);
    const w = {
      name: "",
      materialKey: null,
      hardnessHB: null,
      hardnessText: null,
      workOffsets: offsets,
      stock: null,
      entries: [],
      path: "",
    };
    const text = "G21 G90 G54 G0 X210. Y0. Z10.\nG55 Y1.";
    expect(moves(run(text, { setup: setup({ workpiece: w }), from: [0, 0, 0] }))[1]).toBe("R(10,1,15)");
    expect(moves(run(text, { from: [0, 0, 0] }))[1]).toBe("R(?,1,?)");
  });

  test("drill axes follow the plane", () => {
    const at = (plane: string, text: string) => {
      const e = run(`G21 G90 ${plane} S1000 M3 F100.\n${text}`, { from: [0, 0, 0] });
      return [e.hole(0).shape.axis, e.hole(0).at, e.hole(0).shape.startZ, e.hole(0).shape.endZ];
    };
    expect(at("G17", "G99 G81 X1. Y2. Z-3. R1.")).toEqual(["z", [1, 2], 1, -3]);
    expect(at("G18", "G99 G81 X1. Z2. Y-3. R1.")).toEqual(["y", [1, 2], 1, -3]);
    expect(at("G19", "G99 G81 Y1. Z2. X-3. R1.")).toEqual(["x", [1, 2], 1, -3]);
  });

  test("block delete: off, the block runs; on, it does not", () => {
    const text = "G21 G90 G0 X0 Y0 Z5.\n/X5.\nX7. /2 Y9.";
    expect(moves(run(text))).toEqual(["R(0,0,5)", "R(5,0,5)", "R(7,9,5)"]);
    expect(moves(run(text, { deleteOn: true }))).toEqual(["R(0,0,5)", "R(7,0,5)"]);
  });

  test("words before the program and a start position", () => {
    const e = run("X10.", { before: "G20 G90 G1 F5. S100 M3", from: [1, 2, 3] });
    expect(moves(e)).toEqual(["F(10,2,3)"]);
    expect([...e.motions()][0]).toMatchObject({ x: 254, state: { f: 127, spindle: "cw" } });
  });
});

describe("events", () => {
  const said = (text: string, options = {}) => events(run(`G21 G90 G54\n${text}\nM30`, options));

  test.each([
    ["no length offset since the tool change", "T1 M6\nG0 X0 Y0\nZ5.", ["length-offset-missing::"]],
    ["the offset of the tool before", "T1 M6\nG43 H1 Z50.\nT2 M6\nG0 X0 Z5.", ["length-offset-missing::"]],
    ["a cycle as the first move down", "T1 M6\nG99 G81 X0 Y0 Z-5. R2. F100.", ["length-offset-missing::"]],
    ["with the offset", "T1 M6\nG43 H1 Z5.", []],
    ["home moves need none", "T1 M6\nG91 G28 Z0\nG90", []],
    ["M6 without T", "M6", ["tool-change:M6 has no T before it: the tool it loads is not known:warning"]],
    ["rapid below the surface", "G0 X0 Y0 Z5.\nZ-3.", ["rapid-into-metal::warning"]],
    [
      "rapid back into the hole just drilled",
      "G0 X0 Y0 Z5. S900 M3\nG1 Z-9. F100.\nG0 Z5.\nZ-8.\nG1 Z-12.\nG0 Z5.",
      [],
    ],
    ["rapid deeper than the hole", "G0 X0 Y0 Z5. S900 M3\nG1 Z-9. F100.\nG0 Z5.\nZ-10.", ["rapid-into-metal::warning"]],
    ["rapid into a milled pocket", "G0 X0 Y0 Z5. S900 M3\nG1 Z-9. F100.\nX40.\nY40.\nG0 Z5.\nX20. Y20.\nZ-8.", []],
    ["units changed on the way", "G0 X1.\nG20\nX2.", ["dialect:units-change:warning"]],
    [
      "a macro call",
      "G65 P9010 A1. B2.",
      [
        'subprogram:G65 calls O9010, which stands neither in this file nor among the setup\'s subprograms: what it drills is not seen, and positions after it are unknown. Way out: the folder with O9010 under `subprograms:` of the setup, such as `subprograms: "subs/O*.nc"`:warning',
      ],
    ],
  ])("%s", (_, text, expected) => {
    expect(said(text)).toEqual(expected);
  });

  test("a T that nothing loads is told once metal is cut", () => {
    expect(
      said("T5\nG0 X0 Y0 Z9. S900 M3\nG99 G81 X1. Z-5. R2. F100.").some((x) =>
        x.startsWith("tool-change:T5 is selected"),
      ),
    ).toBe(true);
  });

  test("blocks after M30 and after a second program number are not run", () => {
    expect(moves(run("G21 G90 G0 X1.\nM30\nX2.", { from: [0, 0, 0] }))).toEqual(["R(1,0,0)", "end"]);
    const two = run("O1\nG21 G90 G0 X1.\nO2\nX2.", { from: [0, 0, 0] });
    expect(moves(two)).toEqual(["R(1,0,0)"]);
    expect(events(two)).toEqual([expect.stringMatching(/^no-end:another program number/)]);
  });

  test.each([
    ["the bare header", "M48\nMETRIC,TZ\nT01C0.800\n%\nT01\nX0100Y0200\nM30", 1],
    ["behind a leader and comments", ";LEADER: 12\n;HEADER:\nM48\n;LAYERS 1,2\nFMAT,2\nT1C.032\n%\nT1\nX01Y02\nM30", 3],
    ["behind a %, with a comment", "%\nM48 ;HEADER\nVER,1\nT01F200S65C.0320\n%\nT01\nX01Y02\nM30", 2],
    ["in lower case, format first", "m48\nfmat,2\nicI,off\ninch,lz\n%\nt1\nx1y2", 1],
  ])("a drill tape for circuit boards is no machining program: %s", (_, text, line) => {
    const e = run(text);
    expect([e.events.map((x) => x.kind), e.holeCount, moves(e)]).toEqual([["not-a-machining-program"], 0, []]);
    expect(e.blocks.lineOf(e.events[0]?.span.block ?? 0) + 1).toBe(line);
  });

  test.each([
    ["M48 that allows the overrides", "M48\nT1 M6\nG21 G90 G0 X1. Y0\nM30"],
    ["a comment like a header", "M48\n(INCH)\nG20 G90 G0 X1. Y0\nM30"],
    ["M48 in a running program", "G21 G90 G0 X1. Y0\nM49\nM48\nT1C90.\nM30"],
    ["a program behind the header's end", "M48\n%\nT1C0.5\nG21 G90 G0 X1. Y0\nM30"],
  ])("no drill tape: %s", (_, text) => {
    expect(run(text).events.map((x) => x.kind)).not.toContain("not-a-machining-program");
  });

  test("a cause met a thousand times is kept with a few places and a count", () => {
    const e = run(`G21 G90\n${"G0 X1. X2.\n".repeat(1000)}M30`);
    const all = e.events.filter((x) => x.data.rule === "repeated-word");
    expect(all.length).toBeLessThanOrEqual(20);
    expect(all.reduce((sum, x) => sum + Number(x.data.count), 0)).toBe(1000);
  });
});

test("the ready dialects are there by name, and have the same keys", () => {
  expect([...readyDialects.keys()]).toEqual(["nist", "generic-mill", "generic-turn"]);
  for (const each of readyDialects.values()) expect(Object.keys(each).sort()).toEqual(Object.keys(genericMill).sort());
});

describe("less usual ways", () => {
  const text = "G21 G90 G54 G0 X0 Y0 Z50. S800 M3\nG98 G81 X10. Y0. Z-5. R2. F100.\nG55 X20. Y0.\nG80\nM30";

  test("a cycle that goes on in another work system returns to the same height of the machine", () => {
    const at = (z: number) =>
      new Map([
        ["G54", [0, 0, 0] as const],
        ["G55", [0, 0, z] as const],
      ]);
    const w = { name: "", materialKey: null, hardnessHB: null, hardnessText: null, stock: null, entries: [], path: "" };
    const e = run(text, { setup: setup({ workpiece: { ...w, workOffsets: at(-30) } }) });
    expect(moves(e).slice(-2)).toEqual(["R(20,0,80)", "end"]);
    expect(moves(run(text)).slice(-2)).toEqual(["R(20,0,?)", "end"]);
  });

  test("a rigid tap runs the spindle itself", () => {
    const e = run("G21 G90 G54 G0 X0 Y0 Z9.\nM29 S500\nG99 G84 X1. Y0. Z-8. R2. F625.\nG80\nM30");
    expect([e.hole(0).shape.kind, e.hole(0).shape.state.spindle, e.hole(0).shape.strokes[0]?.f]).toEqual([
      "tap",
      "cw",
      1.25,
    ]);
    expect([...e.motions()].filter((m) => m.kind === "spindle").map((m) => m.state.spindle)).toEqual([
      "cw",
      "stopped",
      "ccw",
      "stopped",
    ]);
  });

  test("bores: fed out, stopped, shifted, from behind", () => {
    const bored = (cycle: string, dialect = genericMill) =>
      moves(run(`G21 G90 G54 G0 X0 Y0 Z9. S500 M3 F100.\nG98 ${cycle}\nG80\nM30`, { dialect })).filter(
        (m) => !/^R\(0,0|^end/.test(m),
      );
    expect(bored("G85 X1. Y0. Z-8. R2.")).toEqual([
      "spindle",
      "R(1,0,9)",
      "R(1,0,2)",
      "F(1,0,-8)",
      "F(1,0,2)",
      "R(1,0,9)",
    ]);
    expect(bored("G86 X1. Y0. Z-8. R2.")).toEqual([
      "spindle",
      "R(1,0,9)",
      "R(1,0,2)",
      "F(1,0,-8)",
      "spindle",
      "R(1,0,9)",
      "spindle",
    ]);
    expect(bored("G76 X1. Y0. Z-8. R2. I.5 J0")).toEqual([
      "spindle",
      "R(1,0,9)",
      "R(1,0,2)",
      "F(1,0,-8)",
      "spindle",
      "R(1.5,0,-8)",
      "R(1.5,0,9)",
      "R(1,0,9)",
      "spindle",
    ]);
    const back = run("G21 G90 G54 G0 X0 Y0 Z9. S500 M3 F100.\nG98 G87 X1. Y0. Z-20. R-30. Q1.\nG80\nM30").hole(0).shape;
    expect([back.kind, back.startZ, back.endZ, back.firstCut]).toEqual(["back-bore", -30, -20, 0]);
  });

  test("G10 sets a length that the program then knows", () => {
    expect(moves(run("G21 G90 G0 X0 Y0 Z.5\nG10 L10 P2 R1.\nG43 H2\nG0 X1.", { dialect: genericMill }))).toEqual([
      "R(0,0,0.5)",
      "R(1,0,-0.5)",
    ]);
  });

  test("what stands before the program counts for its units", () => {
    expect(run("X1.", { before: "G20 G0" }).units).toBe("inch");
  });
});
