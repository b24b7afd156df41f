import { describe, expect, test } from "vitest";
import { surelyBefore } from "../../../server/program/hole-ways.ts";
import type { Execution } from "../../../server/program/types.ts";
import { drill, holes, run, setup } from "./helpers.ts";

const HEAD = "G21 G90 G54 G17\nG0 X0 Y0 Z50. S1000 M3 F100.\n";
const at = (e: Execution) => holes(e).map((h) => h.at);
/** ms of this process: other work on the machine does not count. */
const cpu = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const of = (e: Execution, kind: string) => e.events.filter((event) => event.kind === kind);

describe("ways that wait for one line are one way", () => {
  test("a loop that only an unknown condition leaves ends, and what comes after it is run", () => {
    const e = run(`${HEAD}N10 G0 X1.\nIF [#500 EQ 1] GOTO 20\nGOTO 10\nN20 G99 G81 X5. Y5. Z-5. R2.\nG80\nM30`);
    expect(of(e, "run-limit")).toEqual([]);
    expect(of(e, "branch").map((event) => event.data.count)).toEqual([1]);
    expect(at(e)).toEqual([[5, 5]]);
    expect(e.stepCount).toBeLessThan(30);
  });

  test("one that counts on while it waits runs to its limit, and the condition is told once", () => {
    const began = cpu();
    const e = run(`${HEAD}#1=0\nN10 G0 X1.\n#1=#1+1\nIF [#500 EQ 1] GOTO 20\nGOTO 10\nN20 M30`);
    expect(of(e, "run-limit")).toHaveLength(1);
    expect(of(e, "branch").map((event) => event.data.count)).toEqual([1]);
    expect(cpu() - began).toBeLessThan(4000);
  });

  test("a long counted loop with an unknown way out costs as its turns do", () => {
    const loop = (turns: number) =>
      `${HEAD}#1=0\nWHILE[#1LT${turns}]DO1\nG0 X[#1*1.]\nIF[#500EQ1]GOTO20\n#1=#1+1\nEND1\nN20 G99 G81 Y5. Z-5. R2.\nM30`;
    const time = (turns: number) => {
      const began = cpu();
      const e = run(loop(turns));
      expect(at(e)).toEqual([[null, 5]]);
      return cpu() - began;
    };
    time(1000);
    // Sixteen times the turns: a square would cost 256 times as much.
    expect(time(32_000)).toBeLessThan(64 * Math.max(4, time(2000)));
  });

  test("as many ways as targets cost as their number does", () => {
    const n = 3000;
    const jumps = Array.from({ length: n }, (_, i) => `IF[#500EQ${i}]GOTO${n - i}`);
    const targets = Array.from({ length: n }, (_, i) => `N${i + 1} G0 Y${i}.`);
    const began = cpu();
    const e = run([HEAD.trim(), ...jumps, "G0 X7.", ...targets, "G99 G81 Z-5. R2.", "M30"].join("\n"));
    expect(at(e)).toEqual([[null, n - 1]]);
    expect(cpu() - began).toBeLessThan(4000);
  });
});

describe("a program that ends on one of two ways", () => {
  test("goes on behind the call on the way that returns, whichever stands first", () => {
    for (const [first, second] of [
      ["M99", "M30"],
      ["M30", "M99"],
    ]) {
      const e = run(`${HEAD}M98 P2\nG99 G81 X5. Y5. Z-5. R2.\nG80\nM30\nO2\nIF[#500EQ1]GOTO5\n${first}\nN5 ${second}`);
      expect(at(e)).toEqual([[5, 5]]);
    }
  });

  test("goes on in the main program where the way that waits there is all that is left", () => {
    const e = run(`${HEAD}IF[#500EQ1]GOTO5\nM98 P2\nN5 G99 G81 X5. Y5. Z-5. R2.\nG80\nM30\nO2\nM30`);
    expect(at(e)).toEqual([[5, 5]]);
  });
});

describe("holes of ways that exclude each other", () => {
  const CYCLE = "G99 G81 Z-20. R2.";
  const boredOf = (e: Execution) => Array.from({ length: e.holeCount }, (_, i) => e.hole(i).shape.bored);
  const bored = (e: Execution) => boredOf(e).map((list) => list.length);
  const tools = setup({}, [drill(1, 8), drill(2, 12)]);
  const run2 = (...lines: string[]) => run(`${HEAD}T1 M6\n${lines.join("\n")}\nG80\nM30`, { setup: tools });
  const sure = (e: Execution, earlier: number, hole: number) => surelyBefore(e.ways, earlier, hole);

  test("are not one hole, and neither is drilled into the other", () => {
    const e = run2("IF[#500EQ1]GOTO10", `${CYCLE} X5.`, "X7.", "GOTO20", "N10", `${CYCLE} X5.`, "X7.", "N20 X9.");
    expect(at(e).map(([x]) => x)).toEqual([5, 7, 5, 7, 9]);
    expect(bored(e)).toEqual([0, 0, 0, 0, 0]);
    expect(sure(e, 0, 1)).toBe(true);
    expect(sure(e, 2, 3)).toBe(true);
    expect(sure(e, 1, 2)).toBe(false);
    expect(sure(e, 0, 4)).toBe(false);
  });

  test("are found on the line by what comes after on the same way only", () => {
    const e = run2("IF[#500EQ1]GOTO10", `${CYCLE} X5.`, "T2 M6", "Z-25. X5.", "N10 T2 M6", `${CYCLE} X5.`);
    expect(bored(e)).toEqual([0, 1, 0]);
  });

  test("what all ways drill is found beneath what only some do", () => {
    const e = run2(`${CYCLE} X5.`, "IF[#500EQ1]GOTO10", "T2 M6", `${CYCLE} X5.`, "N10 T1 M6", `${CYCLE} X5. Z-30.`);
    expect(bored(e)).toEqual([0, 1, 1]);
    expect(boredOf(e)[2]?.[0]?.diameter).toBe(8);
    expect([sure(e, 0, 1), sure(e, 0, 2), sure(e, 1, 2)]).toEqual([true, true, false]);
  });

  test("one that ends on its way leaves the other as if it were alone", () => {
    const e = run2("IF[#500EQ1]GOTO10", `${CYCLE} X5.`, "M30", "N10", `${CYCLE} X5.`, "X7.");
    expect(at(e).map(([x]) => x)).toEqual([5, 5, 7]);
    expect([sure(e, 0, 1), sure(e, 0, 2), sure(e, 1, 2)]).toEqual([false, false, true]);
  });

  test("strokes written out that begin on one of the ways count as its own", () => {
    const long = ["G0 X5. Y5. Z2.", "IF[#500EQ1]GOTO10", "G1 Z-9.", "N10 G0 Z5.", "G0 X7.", "G1 Z-9.", "G0 Z5.", "X9."];
    const e = run2(...long);
    expect(e.holeCount).toBe(2);
    expect(sure(e, 0, 1)).toBe(false);
  });
});

describe("repeats of repeats", () => {
  const START = "G21 G90 G54\nT1 M6\nS1000 M3\nG43 H1 Z50. M8\n";

  test("stop at a number of holes, with one message", () => {
    const began = cpu();
    const e = run(`${START}M98 P1 L9999\nM30\nO1\nM98 P2 L9999\nM99\nO2\nG91 G81 X1. Z-5. R-1. F100. L9999\nM99\n`);
    expect(e.holeCount).toBeLessThan(220_000);
    const [limit, ...more] = of(e, "run-limit");
    expect(more).toEqual([]);
    expect(limit?.data.text).toContain("repeated holes");
    expect(cpu() - began).toBeLessThan(2000);
  });

  test("stop at a number of strokes", () => {
    const e = run(`${START}N10 G91 G83 X1. Z-9. R-1. Q0.001 F100. L9999\nGOTO10\nM30`);
    expect(e.holeCount).toBeLessThan(1000);
    expect(of(e, "run-limit").map((event) => event.data.text)).toEqual([expect.stringContaining("strokes were made")]);
  });

  test("a cycle written out anew in each turn of a loop is drawn up once, whatever its pecks", () => {
    const time = (cycle: string): number => {
      const began = cpu();
      const e = run(`${START}N10 #1=#1+1.3\n${cycle} X#1 Y0 Z-50. R2. F100.\nG80\nIF[#1LT20000]GOTO10\nM30`);
      expect(e.holeCount).toBe(15_385);
      return cpu() - began;
    };
    time("G81");
    // A hundred pecks a hole, drawn up each time, cost six times as much as one stroke.
    expect(time("G83 Q.5")).toBeLessThan(3 * Math.max(30, time("G81")));
  });

  test("a large plate with many pecks is below both", () => {
    const rows = Array.from({ length: 400 }, (_, i) => `G90 X0 Y${i}.\nG91 X1. L99`);
    const e = run(`${START}G99 G83 X0 Y0 Z-90. R2. Q2. F100.\n${rows.join("\n")}\nG90 G80\nM30`);
    expect(e.holeCount).toBe(40_000);
    expect(of(e, "run-limit")).toEqual([]);
  });
});
