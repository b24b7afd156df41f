/** Every key of a dialect does what it says: one program, two values, two readings. */
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { execute } from "../../../server/program/execute.ts";
import type { Execution } from "../../../server/program/types.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill, genericTurn, nist } from "../../../server/setup/dialects/index.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { holes, moves, run, setup } from "./helpers.ts";

const mill = (keys: Partial<Dialect>): Dialect => ({ ...genericMill, ...keys });
const HEAD = "G21 G90 G54\n";
const last = (e: Execution) => e.stepState(e.stepCount - 1);
const said = (e: Execution) =>
  e.events.filter((x) => x.kind !== "no-end").map((x) => `${x.data.level} ${x.data.rule ?? x.kind}`);
const texts = (e: Execution) => e.events.filter((x) => x.kind !== "no-end").map((x) => String(x.data.text));
const at = (text: string, keys: Partial<Dialect>) => run(text, { dialect: mill(keys), from: [0, 0, 0] });

describe("numbers", () => {
  test.each([
    ["calculator", ["R(10,0,0)"], []],
    ["least-increment", ["R(0.01,0,0)"], ["warning missing-point"]],
    ["undeclared", ["R(10,0,0)"], ["info undeclared-decimalMode"]],
  ] as const)("decimalMode %s", (decimalMode, moved, told) => {
    const e = at(`${HEAD}G0 X10`, { decimalMode });
    expect([moves(e), said(e)]).toEqual([moved, told]);
  });

  test("an undeclared decimal point is told once, at the first word that has none, in both units", () => {
    const e = at(`${HEAD}G0 X0 Y10.\nX10\nX25 Y30\nG91 X-5`, {});
    expect(said(e)).toEqual(["info undeclared-decimalMode"]);
    expect(texts(e)[0]).toBe(
      "X10 has no decimal point: it is read as 10.00 mm (0.394 in); a control that counts increments reads " +
        "0.010 mm (0.00039 in). Way out: `decimalMode: calculator` or `least-increment` under `dialect` of the machine",
    );
    expect(e.blocks.lineOf(e.events.find((x) => x.data.rule !== undefined)?.span.block ?? 0)).toBe(2);
  });

  test.each([
    ["points everywhere", "G0 X10. Y-.5"],
    ["zeros", "G0 X0 Y0 Z0"],
    ["counts and codes", "T3 M6\nG43 H3 Z5.\nS900 M3"],
    ["values of variables", "#1=10\nG0 X#1 Y[2*5]"],
  ])("no remark where the point makes no difference: %s", (_, text) => {
    expect(said(at(HEAD + text, {}))).toEqual([]);
  });

  test.each([
    ["plain", "G95 F30", 30],
    ["scaled", "G95 F30", 0.03],
    ["scaled", "G94 F30", 30],
    ["scaled", "G95 F.3", 0.3],
  ] as const)("feedWithoutPoint %s: %s", (feedWithoutPoint, text, f) => {
    expect(last(at(`G21\n${text}`, { feedWithoutPoint })).f).toBeCloseTo(f, 9);
  });

  test("feedIncrements: by unit and mode, of the block's own codes too", () => {
    const keys = {
      feedWithoutPoint: "scaled",
      feedIncrements: { mmPerMin: 1, inPerMin: 0.1, mmPerRev: 0.01, inPerRev: 0.001 },
    } as const;
    const f = (text: string) => last(at(text, keys)).f;
    expect([f("G21 G95 F20"), f("G20 G94 F35"), f("G20 G95 F4")].map((x) => Number(x?.toFixed(6)))).toEqual([
      0.2, 88.9, 0.1016,
    ]);
  });
});

describe("dwell", () => {
  test.each([
    ["s", "P2.5", 2.5, []],
    ["ms", "P250", 0.25, []],
    ["undeclared", "P250", 0.25, ["info undeclared-dwellP"]],
    ["undeclared", "P2500", 2.5, []],
  ] as const)("dwellP %s: G4 %s", (dwellP, P, seconds, told) => {
    const e = at(`${HEAD}G4 ${P}`, { dwellP });
    expect([moves(e), said(e)]).toEqual([[`D(${seconds})`], told]);
  });

  test("in a cycle too, once for the program", () => {
    const e = at(`${HEAD}S900 M3 F100.\nG4 P3000\nG82 X1. Z-5. R2. P300\nX5.\nX9. P500\nG80`, {});
    expect(said(e)).toEqual(["info undeclared-dwellP"]);
    expect(texts(e)[0]).toBe(
      "P300 is read in milliseconds, as 0.3 s; a control that reads seconds dwells 300 s. " +
        "Way out: `dwellP: ms` or `dwellP: s` under `dialect` of the machine",
    );
    expect(holes(e).map((h) => h.dwell)).toEqual([0.3, 0.3, 0.5]);
  });

  test.each([
    ["F is the time, no feed", "G4 F1.5", "F", "D(1.5)", 100],
    ["S is turns, no speed", "G4 S3", "S", "D(0.2)", 100],
  ])("dwellLetters: %s", (_, text, dwellLetters, moved, f) => {
    const e = at(`${HEAD}F100. S900 M3\n${text}`, { dwellLetters });
    expect([moves(e).at(-1), last(e).f, last(e).s]).toEqual([moved, f, 900]);
  });
});

describe("units and modes", () => {
  test.each([
    ["keep-number", 2540 * 2, ["warning units-change", "warning units-feed"]],
    ["convert", 200, ["warning units-change"]],
  ] as const)("unitsChangeFeed %s", (unitsChangeFeed, f, told) => {
    const e = at("G21 F200.\nG20", { unitsChangeFeed });
    expect([Number(last(e).f?.toFixed(9)), said(e)]).toEqual([f, told]);
  });

  test("startFeedMode and startPlane, at the start and after the end", () => {
    const e = at("G94 G17\nM30", { startFeedMode: "per-rev", startPlane: "G18" });
    expect([e.stepState(0), last(e)].map((s) => [s.feedMode, s.plane])).toEqual([
      [94, 17],
      [95, 18],
    ]);
    expect(last(at("S100", { startFeedMode: "per-rev", startPlane: "G19" }))).toMatchObject({
      feedMode: 95,
      plane: 19,
    });
  });

  test.each([
    [["G54"], "G54.1 P3", ["warning unknown-code"]],
    [["G54", "G54.1"], "G54.1 P3", "G54.1 P3"],
    [["G54", "G54.1"], "G54 P3", "G54.1 P3"],
    [["G54"], "G54 P3", "G54"],
    [["G54", "G110"], "G112", "G112"],
    [["G54", "G154"], "G154 P7", "G154 P7"],
    [["G54", "G59.1"], "G59.2", "G59.2"],
  ] as const)("wcsCodes %s: %s", (codes, text, expected) => {
    const e = at(`G21\n${text}`, { wcsCodes: new Set(codes) });
    expect(typeof expected === "string" ? last(e).wcs : said(e)).toEqual(expected);
  });

  test("g10Forms: another form sets nothing", () => {
    const text = "G21 G90 G54\nG10 L2 P1 X1. Y1. Z1.\nG0 X5. Y5. Z5.\nG10 L2 P2 X1. Y1. Z11.\nG55 X7.";
    expect(moves(at(text, {})).at(-1)).toBe("R(7,5,-5)");
    const e = at(text, { g10Forms: new Set(["L20"]) });
    expect([moves(e).at(-1), said(e)]).toEqual(["R(7,?,?)", ["warning g10-l", "warning g10-l"]]);
    expect(texts(e)[0]).toBe(
      "G10 L2 is no form of this dialect: nothing is set. Way out: one of L20, or `g10Forms` in the setup",
    );
  });
});

describe("blocks and codes", () => {
  test.each([
    ["first-only", "/G0 X5.", []],
    ["first-only", "G0 X5. /Y5.", ["error block-delete"]],
    ["any-position", "G0 X5. /Y5.", []],
    ["any-position", "/2 G0 X5.", ["warning block-delete"]],
    ["numbered", "G0 X5. /2 Y5.", []],
  ] as const)("blockDelete %s: %s", (blockDelete, text, told) => {
    expect(said(at(HEAD + text, { blockDelete }))).toEqual(told);
  });

  test("parenComments", () => {
    expect(said(at(`${HEAD}G0 X5. (HERE)`, { parenComments: false }))).toEqual(["error bracket-comment"]);
    expect(said(at(`${HEAD}G0 X5. ; HERE`, { parenComments: false }))).toEqual([]);
  });

  test("oDigits", () => {
    expect(texts(at("O123456\nG21", { oDigits: 4 }))).toEqual([
      "the program number has 6 digits: this dialect takes 4. Way out: a shorter number, or `oDigits` in the setup",
    ]);
    expect(said(at("O1234\nG21", { oDigits: 4 }))).toEqual([]);
  });

  test("customG and customM", () => {
    const text = `${HEAD}G187 P2\nM77\nM20\nG0 X1.`;
    expect(said(at(text, {}))).toEqual(["warning unknown-code", "warning unknown-code", "warning unknown-code"]);
    const e = at(text, {
      customG: new Map([[1870, "ignore"]]),
      customM: new Map([
        [77, "door opens"],
        [20, "ignore"],
      ]),
    });
    expect(texts(e)).toEqual(["M77: door opens, as the setup says. What it does is not followed"]);
    expect(moves(e)).toEqual(["R(1,0,0)"]);
  });

  test("endCodes", () => {
    expect(said(at(`${HEAD}M2`, { endCodes: new Set(["M30"]) }))).toEqual(["warning end-code"]);
    expect(said(at(`${HEAD}M99`, {}))).toEqual(["undefined main-return"]);
    expect(said(at(`${HEAD}M99`, { endCodes: new Set(["M99"]) }))).toEqual([]);
  });
});

describe("cycles", () => {
  const cut = `${HEAD}S900 M3 F100.\nG0 Z20.\n`;

  test.each([
    ["error", ["error cycle-word-missing"], 0],
    ["drill", [], 1],
  ] as const)("peckWithoutQ %s", (peckWithoutQ, told, count) => {
    const e = at(`${cut}G83 X1. Z-5. R2.\nG80`, { peckWithoutQ });
    expect([said(e), e.holeCount, holes(e)[0]?.kind]).toEqual([told, count, count === 1 ? "drill" : undefined]);
  });

  test.each([
    ["absolute", 2],
    ["from-initial", 22],
  ] as const)("cycleR %s", (cycleR, start) => {
    expect(holes(at(`${cut}G81 X1. Z-5. R2.\nG80`, { cycleR }))[0]?.startZ).toBe(start);
  });

  test.each([
    ["Q", "Q.5", "R(?,?,-5)"],
    ["Q", "I.5 J0", "R(1.5,0,-5)"],
    ["Q+X", "Q.5", "R(1.5,0,-5)"],
    ["Q-Y", "Q.5", "R(1,-0.5,-5)"],
    ["IJ", "I-.5 J.2", "R(0.5,0.2,-5)"],
  ] as const)("g76Shift %s: %s", (g76Shift, words, moved) => {
    expect(moves(at(`${cut}G76 X1. Y0. Z-5. R2. ${words}\nG80`, { g76Shift }))).toContain(moved);
  });

  test("g76Shift IJ needs I and J", () => {
    expect(said(at(`${cut}G76 X1. Z-5. R2. Q.5\nG80`, { g76Shift: "IJ" }))).toEqual([
      "error cycle-word-missing",
      "error cycle-word-missing",
    ]);
  });

  const tap = (code: string, block = "") => `${HEAD}G0 Z20.\n${block}${code} X1. Y0. Z-8. R2. F625.\nG80`;
  test.each([
    ["none", tap("G84", "M29 S500\n"), "stopped", []],
    ["m29-before", tap("G84", "M29 S500\n"), "cw", []],
    ["m29-before", tap("M29 S500 G84"), "cw", []],
    ["m29-in-block", tap("M29 S500 G84"), "cw", []],
    ["m29-in-block", tap("G84", "M29 S500\n"), "stopped", ["warning rigid-tap"]],
    ["always", tap("G84", "S500\n"), "cw", []],
    ["codes", tap("G84.2", "S500\n"), "cw", []],
    ["codes", tap("G84.3", "S500\n"), "ccw", []],
  ] as const)("rigidTap %s: %j", (rigidTap, text, spindle, told) => {
    const e = at(text, { rigidTap });
    expect([e.hole(0).shape.state.spindle, said(e)]).toEqual([spindle, told]);
  });
});

describe("offsets and limits of the machine", () => {
  const length = `${HEAD}G0 X0 Y0 Z5.\nG10 L10 P2 R1.\nG43 H2`;

  test.each([
    ["with-z", ["R(0,0,5)", "R(1,0,4)"]],
    ["immediate", ["R(0,0,5)", "R(0,0,5)", "R(1,0,5)"]],
  ] as const)("tloApply %s", (tloApply, moved) => {
    expect(moves(at(`${length}\nG0 X1.`, { tloApply }))).toEqual(moved);
  });

  test("toolCount", () => {
    const e = at(`${HEAD}T25 M6\nG43 H25 Z5.`, { toolCount: 24 });
    expect(said(e)).toEqual(["error tool-count", "warning tool-count"]);
    expect(texts(e)[0]).toMatch(/^T25: this machine has 24 places for tools\. Way out: /);
    expect(said(at(`${HEAD}T24 M6\nG43 H24 Z5.`, { toolCount: 24 }))).toEqual([]);
  });

  test("minRpm", () => {
    expect(texts(at(`${HEAD}S40 M3`, { minRpm: 60 }))).toEqual([
      "S40 is below the lowest speed of the machine, 60 1/min. Way out: S60 or more, or `minRpm` in the setup",
    ]);
    expect(said(at(`${HEAD}S60 M3`, { minRpm: 60 }))).toEqual([]);
  });

  test("travel", () => {
    const travel = { x: 500, y: null, z: 400 };
    const e = at(`${HEAD}G0 X750. Y9000.`, { travel });
    expect(texts(e)).toEqual([
      "X goes 750.00 mm (29.528 in), the machine has a travel of 500.00 mm (19.685 in). " +
        "Way out: check the decimal point and the units, or `travel` in the setup",
    ]);
    expect(said(at(`${HEAD}G0 X450. Z399.`, { travel }))).toEqual([]);
  });

  test("clampHeight: rapids across in a cycle run below the clamps", () => {
    const text = (ret: string) => `${HEAD}S900 M3 F100.\nG0 X0 Y0 Z60.\n${ret} G81 X10. Y0. Z-5. R2.\nX90.\nG80`;
    const e = at(text("G99"), { clampHeight: 30 });
    expect([said(e), e.blocks.lineOf(e.events[0]?.span.block ?? 0)]).toEqual([["warning clamp-height"], 4]);
    expect(said(at(text("G98"), { clampHeight: 30 }))).toEqual([]);
    expect(said(at(text("G99"), {}))).toEqual([]);
  });

  test("endStopsSpindle: what runs at M30 runs on", () => {
    const atEnd = (endStopsSpindle: boolean) => {
      const { spindle, coolant } = last(at(`${HEAD}S900 M3 M8\nM30`, { endStopsSpindle }));
      return [spindle, coolant];
    };
    expect([atEnd(true), atEnd(false)]).toEqual([
      ["stopped", []],
      ["cw", ["M8"]],
    ]);
  });

  test("maxLoopSteps", () => {
    const e = at(`${HEAD}#1=0\nN1 #1=[#1+1]\nGOTO1\nM30`, { maxLoopSteps: 500 });
    expect(e.stepCount).toBeLessThan(600);
    expect(e.events.some((x) => x.kind === "run-limit" || String(x.data.text).includes("500"))).toBe(true);
  });
});

test("what an edit leaves undeclared is told at the word that is first from then on", () => {
  const body = Array.from({ length: 1500 }, (_, i) => (i === 700 ? "X3" : `X${i}.`));
  const source = ["G21 G90 G0", "X10", ...body, "M30"].join("\n");
  const lines = LineStore.from(source);
  const blocks = readBlocks(lines);
  const where = (e: Execution) =>
    e.events.filter((x) => x.data.rule === "undeclared-decimalMode").map((x) => e.blocks.lineOf(x.span.block) + 1);
  const shop = setup();
  const before = execute(blocks, shop, { program: "part.nc" });
  expect(where(before)).toEqual([2]);
  blocks.update(lines.edit({ startLine: 1, startColumn: 0, endLine: 2, endColumn: 0, text: "X10.\n" }));
  const after = execute(blocks, shop, { program: "part.nc", previous: before });
  expect(where(after)).toEqual([703]);
  blocks.update(lines.edit({ startLine: 1, startColumn: 0, endLine: 2, endColumn: 0, text: "X11\n" }));
  expect(where(execute(blocks, shop, { program: "part.nc", previous: after }))).toEqual([2]);
});

test("the ready dialects say what they are", () => {
  expect([nist, genericMill, genericTurn].map((d) => [d.name, d.machineKind, d.decimalMode, d.dwellP])).toEqual([
    ["nist", "mill", "calculator", "s"],
    ["generic-mill", "mill", "undeclared", "undeclared"],
    ["generic-turn", "turn-A", "undeclared", "undeclared"],
  ]);
});
