import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Execution } from "../../../server/program/types.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { holes, run } from "./helpers.ts";

const HEAD = "G21 G90 G54 G17\nG0 X0 Y0 Z50. S1000 M3 F100.\n";
const at = (e: Execution) => holes(e).map((h) => h.at);
const told = (e: Execution) => e.events.map((v) => `${v.kind}${v.data.level === undefined ? "" : `:${v.data.level}`}`);
const lines = (e: Execution, blocks: readonly number[]) => blocks.map((b) => e.blocks.lineOf(b) + 1);
const drilled = (...rows: readonly string[]) => run(`${HEAD}${rows.join("\n")}`);

describe("jumps and loops", () => {
  test("WHILE runs while its condition holds", () => {
    const e = drilled(
      "#1=1",
      "G99 G81 X0 Y5. Z-5. R2.",
      "WHILE[#1LE3]DO1",
      "X[#1*10.]",
      "#1=#1+1",
      "END1",
      "G80",
      "M30",
    );
    expect(at(e)).toEqual([
      [0, 5],
      [10, 5],
      [20, 5],
      [30, 5],
    ]);
    expect(told(e)).toEqual([]);
  });

  test("loops within loops, and the same number again behind", () => {
    const e = drilled(
      "#1=0",
      "WHILE[#1LT2]DO1",
      "#2=0",
      "WHILE[#2LT3]DO2",
      "G99 G81 X[#2*10.] Y[#1*10.] Z-5. R2.",
      "#2=#2+1",
      "END2",
      "#1=#1+1",
      "END1",
      "#1=0",
      "WHILE[#1LT1]DO1",
      "X99.",
      "#1=1",
      "END1",
      "G80",
      "M30",
    );
    expect(e.holeCount).toBe(7);
    expect(at(e)[5]).toEqual([20, 10]);
  });

  test("GOTO goes forward first, and leaves a loop", () => {
    const e = drilled(
      "#1=0",
      "DO1",
      "#1=#1+1",
      "G99 G81 X[#1*10.] Z-5. R2.",
      "IF[#1GE3]GOTO50",
      "END1",
      "N50 G80",
      "GOTO 60",
      "G81 X77. Z-5. R2.",
      "N60 G0 Z50.",
      "M30",
    );
    expect(at(e).map(([x]) => x)).toEqual([10, 20, 30]);
    expect(told(e)).toEqual([]);
  });

  test("a backward GOTO is a loop, and GOTO takes a variable", () => {
    const e = drilled("#1=1", "#2=10", "N10 G99 G81 X[#1*10.] Z-5. R2.", "#1=#1+1", "IF[#1LE4]GOTO#2", "G80", "M30");
    expect(e.holeCount).toBe(4);
  });

  test("IF THEN sets, and words behind THEN count", () => {
    const e = drilled("#1=3", "IF[#1GT2]THEN#5=12.", "IF[#1LT2]THEN#5=99.", "G99 G81 X#5 Z-5. R2.", "G80", "M30");
    expect(at(e)).toEqual([[12, 0]]);
  });

  test.each<[string, readonly string[], readonly string[]]>([
    ["crossing loops", ["DO1", "DO2", "GOTO9", "END1", "END2", "N9 M30"], ["flow:error", "flow:error"]],
    ["a loop's number", ["DO4", "GOTO9", "END4", "N9 M30"], ["flow:error"]],
    ["no END", ["#1=9", "WHILE[#1LT3]DO1", "X5.", "M30"], ["flow:error"]],
    ["no DO", ["END2", "M30"], ["flow:error"]],
    ["no target", ["GOTO 99", "M30"], ["flow:error"]],
    ["a target twice", ["GOTO 9", "N9 X1.", "N9 X2.", "M30"], ["flow:warning"]],
    ["into a loop", ["#1=1", "GOTO 9", "WHILE[#1LT2]DO1", "N9 #1=#1+1", "END1", "M30"], ["flow:error"]],
    ["an unknown target", ["GOTO #777", "M30"], ["flow:warning"]],
  ])("%s is told", (_, rows, expected) => {
    const e = drilled(...rows);
    expect(told(e)).toEqual(expected);
  });

  test.each([
    ["a loop that never ends", ["DO1", "#1=#1+1", "END1", "M30"]],
    ["a jump back that never ends", ["N5 G91 X1.", "GOTO 5", "M30"]],
  ])("%s is cut short with one message", (_, rows) => {
    const e = drilled(...rows);
    expect(e.stepCount).toBeLessThan(210_000);
    expect(told(e).filter((x) => x === "run-limit")).toEqual(["run-limit"]);
  });

  test("M99 at the main level is read once", () => {
    const e = drilled("G99 G81 X5. Z-5. R2.", "G80", "M99");
    expect([e.holeCount, told(e)]).toEqual([1, ["main-return"]]);
  });
});

describe("values that are not known", () => {
  test("both ways are run, and what differs is unknown after they meet", () => {
    const e = drilled(
      "IF[#500EQ1]GOTO10",
      "G0 X30.",
      "G99 G81 X40. Y7. Z-5. R2.",
      "G80",
      "GOTO20",
      "N10 G99 G81 X60. Y7. Z-6. R2.",
      "G80",
      "N20 G91 G99 G81 X5. Z-9. R-48.",
      "G80",
      "M30",
    );
    expect(at(e)).toEqual([
      [40, 7],
      [60, 7],
      [null, 7],
    ]);
    expect(told(e)).toEqual(["branch"]);
    expect(e.hole(2).shape.unknown).toEqual({});
  });

  test("a variable that two ways set differently is unknown, with the reason", () => {
    const e = drilled("#1=5.", "IF[#500EQ1]GOTO10", "#1=7.", "N10 G99 G81 X#1 Z-5. R2.", "G80", "M30");
    expect(at(e)).toEqual([[null, 0]]);
    const why = e.events.find((v) => v.kind === "unknown-value")?.data.why;
    expect(why).toContain("#500");
  });

  test("a variable that both leave alike stays known", () => {
    const e = drilled("#1=5.", "IF[#500EQ1]GOTO10", "G4 P1", "N10 G99 G81 X#1 Z-5. R2.", "G80", "M30");
    expect(at(e)).toEqual([[5, 0]]);
  });

  test("coolant that only one way switches on is off", () => {
    const e = drilled("IF[#500EQ1]GOTO10", "M8", "N10 G99 G81 X1. Z-5. R2.", "G80", "M30");
    expect(e.hole(0).shape.state.coolant).toEqual([]);
    expect(told(e)).toEqual(["branch", "branch"]);
  });

  test.each([
    ["WHILE", ["#1=1", "G99 G81 X0 Z-5. R2.", "WHILE[#1LE#500]DO1", "X[#1*10.]", "#1=#1+1", "END1", "X#1"]],
    [
      "IF GOTO",
      ["#1=1", "G99 G81 X0 Z-5. R2.", "N5 G99 G81 X[#1*10.] Z-5. R2.", "#1=#1+1", "IF[#1LE#500]GOTO5", "X#1"],
    ],
  ])("a loop of unknown length (%s) shows two turns, then what changes is unknown", (_, rows) => {
    const e = drilled(...rows, "G80", "M30");
    expect(at(e).map(([x]) => x)).toEqual([0, 10, 20, null]);
    expect(told(e).filter((x) => x === "branch").length).toBe(1);
  });

  test("a way that ends the program does not end the other", () => {
    const e = drilled("IF[#500EQ1]GOTO10", "M30", "N10 G99 G81 X5. Z-5. R2.", "G80", "M30");
    expect(e.holeCount).toBe(1);
    expect(told(e)).toEqual(["branch"]);
  });

  test("many of them stay linear", () => {
    const rows = Array.from({ length: 400 }, (_, i) => [
      `IF[#500EQ${i}]GOTO${i + 1}`,
      `G0 X${i}.`,
      `N${i + 1} G0 Y${i}.`,
    ]);
    const begun = performance.now();
    drilled(...rows.flat(), "M30");
    expect(performance.now() - begun).toBeLessThan(1500);
  });
});

describe("calls", () => {
  test("M98 with L, and with the count in the high digits", () => {
    for (const call of ["M98 P1002 L3", "M98 P31002"]) {
      const e = run(`O1\n${HEAD}G99 G81 X0 Y0 Z-5. R2.\n${call}\nG80\nM30\nO1002\nG91 X10.\nG90\nM99`);
      expect(at(e).map(([x]) => x)).toEqual([0, 10, 20, 30]);
      expect(told(e)).toEqual(["dialect:warning"]);
      expect([1, 2, 3].map((i) => lines(e, e.hole(i).calls))).toEqual([[5], [5], [5]]);
    }
  });

  test("a call within a call names both", () => {
    const e = run(`O1\n${HEAD}M98 P2\nM30\nO2\nM98 P3\nM99\nO3\nG99 G81 X5. Z-5. R2.\nG80\nM99`);
    expect(lines(e, e.hole(0).calls)).toEqual([4, 7]);
  });

  test("calls of a sequence number, and returns to one", () => {
    const e = drilled("G99 G81 X0 Z-5. R2.", "M97 P100", "N30 X50.", "N40 X60.", "G80", "M30", "N100 X20.", "M99 P40");
    expect(at(e).map(([x]) => x)).toEqual([0, 20, 60]);
    expect(drilled("M98 Q7", "M30", "N7 G99 G81 X9. Z-5. R2.", "G80", "M99").holeCount).toBe(1);
  });

  test("an argument that was never given is handed on in silence; where it moves the tool it is told", () => {
    const nulls = (text: string) =>
      run(text)
        .events.filter((event) => event.data.rule === "null-word")
        .map((event) => event.data.text);
    const macro = "O5\nG65 P6 Q#17 X#24\nM99\nO6\nIF[#17NE#0]GOTO1\nG99 G81 X#24 Y0. Z-5. R2. F100.\nG80\nN1\nM99";
    expect(nulls(`O1\n${HEAD}G65 P5 X3.\nM30\n${macro}`)).toEqual([]);
    expect(holes(run(`O1\n${HEAD}G65 P5 X3.\nM30\n${macro}`)).map((hole) => hole.at)).toEqual([[3, 0]]);
    expect(nulls(`O1\n${HEAD}G66 P6 Q#17\nX1.\nG67\nM30\nO6\nM99`)).toEqual([]);
    expect(nulls(`O1\n${HEAD}G0 X#24\nM30`)).toEqual(["X has a variable that was never set: the word is passed over"]);
    expect(nulls(`O1\n${HEAD}G65 P5 L#12\nM30\nO5\nM99`)).toHaveLength(1);
  });

  test("M98 works on the caller's variables, G65 on its own", () => {
    const sub = run(`O1\n${HEAD}#1=5.\nM98 P2\nG99 G81 X#1 Z-5. R2.\nG80\nM30\nO2\n#1=8.\nM99`);
    expect(at(sub)).toEqual([[8, 0]]);
    const macro = run(
      `O1\n${HEAD}#1=5.\nG65 P9010 A1. B2. Z-7. F90.\nG99 G81 X#1 Y9. Z-5. R2. F100.\nG80\nM30\nO9010\nG99 G81 X#1 Y#2 Z#26 R2. F#9\nG80\nM99`,
    );
    expect(holes(macro).map((h) => [h.at, h.endZ])).toEqual([
      [[1, 2], -7],
      [[5, 9], -5],
    ]);
    expect(macro.hole(0).shape.state.f).toBe(90);
    expect(told(macro)).toEqual([]);
  });

  test("arguments of both kinds, in their order", () => {
    const args = (words: string) =>
      run(`O1\n${HEAD}G65 P5 ${words}\nM30\nO5\nG99 G81 X#4 Y#7 Z-#10 R2. F100.\nG80\nM99`);
    expect(holes(args("I1. I2. I3.")).map((h) => [h.at, h.endZ])).toEqual([[[1, 2], -3]]);
    expect(holes(args("I1. D2. I9. I3.")).map((h) => [h.at, h.endZ])).toEqual([[[1, 9], -3]]);
  });

  test("an argument left out is empty, and its word is passed over", () => {
    const e = run(`O1\n${HEAD}G0 Y4.\nG65 P5 A1.\nM30\nO5\nG99 G81 X#1 Y#2 Z-5. R2.\nG80\nM99`);
    expect(at(e)).toEqual([[1, 4]]);
  });

  test("G66 calls after each move, until G67", () => {
    const e = run(`O1\n${HEAD}G66 P5 Z-6.\nG0 X10.\nG0 X20.\nG67\nG0 X30.\nM30\nO5\nG99 G81 Z#26 R2. F100.\nG80\nM99`);
    expect(at(e).map(([x]) => x)).toEqual([10, 20]);
  });

  describe("G66 calls after each move in called programs too", () => {
    const macro = "O5\nG0 Z#18\nM98 P6\nG1 Z#26 F#9\nG0 Z50.\nM99\nO6\nG0 Z1.\nM99";
    const rows = (call: string, sub: string) =>
      run(`O1\n${HEAD}G66 P5 Z-12. R3. F120.\n${call}\nG67\nG0 X90.\nM30\n${sub}\n${macro}`);

    test.each([
      ["M98", "M98 P2", "O2\nX10.\nX30.\nX50.\nM99"],
      ["G65", "G65 P2", "O2\nX10.\nX30.\nX50.\nM99"],
      ["M98 in M98", "M98 P3", "O2\nX10.\nX30.\nX50.\nM99\nO3\nM98 P2\nM99"],
      ["the move in the block of M98", "X10. M98 P2", "O2\nX30.\nX50.\nM99"],
      ["the move in the block of M99", "M98 P2", "O2\nX10.\nX30.\nX50. M99"],
      ["some here, some there", "X10.\nM98 P2\nX50.", "O2\nX30.\nM99"],
    ])("%s", (_, call, sub) => {
      const e = rows(call, sub);
      expect(at(e).map(([x]) => x)).toEqual([10, 30, 50]);
      expect(holes(e).map((h) => h.endZ)).toEqual([-12, -12, -12]);
      expect(told(e)).toEqual([]);
    });

    test("a move in the block of the macro's own M99 calls nothing", () => {
      const e = run(`O1\n${HEAD}G66 P5 Z-12.\nX10.\nX20.\nG67\nG0 X90.\nM30\nO5\nG0 Z1.\nG1 Z#26\nG0 Z50. M99`);
      expect(at(e).map(([x]) => x)).toEqual([10, 20]);
      expect(told(e)).toEqual([]);
    });

    test("set in a called program it goes on after it", () => {
      const e = run(`O1\n${HEAD}M98 P2\nX20.\nG67\nX30.\nM30\nO2\nG66 P5 Z-12. R3. F120.\nX10.\nM99\n${macro}`);
      expect(at(e).map(([x]) => x)).toEqual([10, 20]);
    });
  });

  test("axis words with M98 move first", () => {
    const e = run(`O1\n${HEAD}G0 X25. M98 P2\nM30\nO2\nG99 G81 Z-5. R2.\nG80\nM99`);
    expect(at(e)).toEqual([[25, 0]]);
  });

  test.each<[string, string, readonly string[]]>([
    ["not there", "M98 P7\nM30", ["subprogram:warning"]],
    ["without M99", "M98 P2\nM30\nO2\nG0 X1.", ["subprogram:warning"]],
    ["without M99, another behind it", "M98 P2\nM30\nO2\nG0 X1.\nO3\nG81 X1. Z-5. R2.\nM99", ["subprogram:warning"]],
    ["itself", "M98 P2\nM30\nO2\nM98 P2\nM99", ["subprogram:error"]],
    ["leaves G91", "M98 P2\nG90\nM30\nO2\nG91\nM99", ["modal-leak"]],
    ["without P", "M98\nM30", ["dialect:error"]],
  ])("a call of a program %s is told", (_, text, expected) => {
    const e = run(`O1\n${HEAD}${text}`);
    expect(told(e)).toEqual(expected);
    expect(e.holeCount).toBe(0);
  });

  test("an M30 in a subprogram ends all", () => {
    expect(run(`O1\n${HEAD}M98 P2\nG99 G81 X1. Z-5. R2.\nG80\nM30\nO2\nM30`).holeCount).toBe(0);
  });
});

describe("the structured dialect", () => {
  const o: Dialect = { ...genericMill, macroDialect: "o-word" };
  test.each<[string, string, readonly (number | null)[]]>([
    [
      "sub and call",
      "o100 sub\nG99 G81 X#1 Y#2 Z-5. R2.\nG80\no100 endsub\no100 call [7.] [3.]\no100 call [8.] [3.]\nM30",
      [7, 8],
    ],
    ["if", "#1=4\no1 if [#1 gt 3]\nG99 G81 X1. Z-5. R2.\no1 else\nG99 G81 X2. Z-5. R2.\no1 endif\nG80\nM30", [1]],
    ["else", "#1=1\no1 if [#1 gt 3]\nG99 G81 X1. Z-5. R2.\no1 else\nG99 G81 X2. Z-5. R2.\no1 endif\nG80\nM30", [2]],
    [
      "elseif",
      "#1=2\no1 if [#1 eq 1]\nG99 G81 X1. Z-5. R2.\no1 elseif [#1 eq 2]\nG99 G81 X2. Z-5. R2.\no1 elseif [#1 eq 2]\nG99 G81 X3. Z-5. R2.\no1 else\nG99 G81 X4. Z-5. R2.\no1 endif\nG80\nM30",
      [2],
    ],
    ["while", "#1=0\no1 while [#1 lt 3]\n#1=[#1+1]\nG99 G81 X#1 Z-5. R2.\no1 endwhile\nG80\nM30", [1, 2, 3]],
    ["do while", "#1=0\no1 do\n#1=[#1+1]\nG99 G81 X#1 Z-5. R2.\no1 while [#1 lt 3]\nG80\nM30", [1, 2, 3]],
    ["repeat", "#1=0\no1 repeat [3]\n#1=[#1+1]\nG99 G81 X#1 Z-5. R2.\no1 endrepeat\nG80\nM30", [1, 2, 3]],
    [
      "break",
      "#1=0\no1 while [#1 lt 9]\n#1=[#1+1]\nG99 G81 X#1 Z-5. R2.\no2 if [#1 eq 2]\no1 break\no2 endif\no1 endwhile\nG80\nM30",
      [1, 2],
    ],
    ["return", "o9 sub\nG99 G81 X#1 Z-5. R2.\nG80\no9 return\nG81 X99. Z-5. R2.\no9 endsub\no9 call [6.]\nM30", [6]],
  ])("%s", (_, text, expected) => {
    const e = run(`${HEAD}${text}`, { dialect: o });
    expect(at(e).map(([x]) => x)).toEqual(expected);
    expect(told(e)).toEqual([]);
  });

  test("an unknown if runs both ways", () => {
    const e = run(`${HEAD}o1 if [#500 gt 3]\nG0 X11.\no1 else\nG0 X22.\no1 endif\nG99 G81 Z-5. R2.\nG80\nM30`, {
      dialect: o,
    });
    expect(at(e)).toEqual([[null, 0]]);
  });
});

describe("the same holes however it is written", () => {
  const place = fc.record({ x: fc.integer({ min: -40, max: 40 }), y: fc.integer({ min: -40, max: 40 }) });

  test("subprograms written out", () => {
    fc.assert(
      fc.property(
        fc.array(place, { minLength: 1, maxLength: 6 }),
        fc.array(fc.record({ L: fc.integer({ min: 1, max: 3 }), dx: fc.integer({ min: 1, max: 9 }) }), {
          maxLength: 4,
        }),
        (places, calls) => {
          const body = places.map(({ x, y }) => `G91 X${x}. Y${y}.`);
          const before = `${HEAD}G99 G81 X1. Y1. Z-5. R2.`;
          const called = [
            before,
            ...calls.flatMap((c) => [`G90 X${c.dx}.`, `M98 P77 L${c.L}`]),
            "G80",
            "M30",
            "O77",
            ...body,
            "M99",
          ];
          const inline = [
            before,
            ...calls.flatMap((c) => [`G90 X${c.dx}.`, ...Array.from({ length: c.L }, () => body).flat()]),
            "G80",
            "M30",
          ];
          const [a, b] = [run(called.join("\n")), run(inline.join("\n"))];
          expect(at(a)).toEqual(at(b));
          expect(holes(a).map((h) => h.endZ)).toEqual(holes(b).map((h) => h.endZ));
        },
      ),
    );
  });

  test("loops written out", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 1, max: 20 }), (n, pitch) => {
        const loop = drilled(
          "G99 G81 X-9. Z-5. R2.",
          "#1=0",
          `WHILE[#1LT${n}]DO1`,
          `X[#1*${pitch}.]`,
          "#1=#1+1",
          "END1",
          "G80",
          "M30",
        );
        const out = drilled(
          "G99 G81 X-9. Z-5. R2.",
          ...Array.from({ length: n }, (_, i) => `X${i * pitch}.`),
          "G80",
          "M30",
        );
        expect(at(loop)).toEqual(at(out));
      }),
    );
  });

  test("with other N numbers", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 9999 }), { minLength: 4, maxLength: 4 }), ([a, b, c, d]) => {
        const text = (p?: number, q?: number, r?: number, s?: number) =>
          drilled(
            "#1=1",
            `N${p} G99 G81 X[#1*5.] Z-5. R2.`,
            "#1=#1+1",
            `IF[#1LT4]GOTO${p}`,
            `IF[#501EQ2]GOTO${q}`,
            "X90.",
            `N${q} G80`,
            `M97 P${r}`,
            `GOTO${s}`,
            `N${r} G0 X3.`,
            "M99",
            `N${s} M30`,
          );
        expect(at(text(a, b, c, d))).toEqual(at(text(10, 20, 30, 40)));
      }),
    );
  });
});

test("a hundred thousand blocks through loops and calls take little time", () => {
  const text = `O1\n${HEAD}G99 G81 X0 Y0 Z-5. R2.\n#1=0\nWHILE[#1LT250]DO1\nM98 P2 L20\n#1=#1+1\nEND1\nG80\nM30\nO2\nG91 X.1\nY.1\nX-.05\n#2=#1*2\n#3=#2+1\nG90\nY[#3*.1]\nX1.\nM4 S900\nM3\nG4 P1\n(NOTE)\nM99`;
  run(text);
  // Work of this process alone: others on the machine do not count.
  const begun = process.cpuUsage();
  const e = run(text);
  expect(e.stepCount).toBeGreaterThan(60_000);
  // 0.5 s on a quiet machine; the bench measures it.
  expect(process.cpuUsage(begun).user / 1000).toBeLessThan(3000);
});
