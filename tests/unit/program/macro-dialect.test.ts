/** A control runs jumps, loops and macros only in the way it writes them. */
import { describe, expect, test } from "vitest";
import type { Execution } from "../../../server/program/types.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill, nist } from "../../../server/setup/dialects/index.ts";
import { moves, run } from "./helpers.ts";

const HEAD = "G21 G90 G54 G94\nG0 X0 Y0 Z50.\n";
const under = (macroDialect: Dialect["macroDialect"], text: string) =>
  run(`${HEAD}${text}\nM30`, { dialect: { ...genericMill, macroDialect } });
const dropped = (e: Execution) =>
  e.events.filter((x) => x.kind === "not-executed").map((x) => String(x.data.text).split(" is not run")[0]);
const moved = (e: Execution) => moves(e).slice(1, -1);

const LOOP = "#1=1.\nWHILE[#1LT3]DO1\nG0 X#1\n#1=#1+1\nEND1";
const JUMP = "#1=3\nIF[#1EQ3]GOTO5\nG0 X99.\nN5 G0 Y7.";
const THEN = "#1=3\nIF[#1EQ3]THEN #1=8.\nG0 X#1";
const WORDS = "o1 if [0]\nG0 X5.\no1 endif";

describe("what the control does not write is told once and not run", () => {
  test.each<[Dialect["macroDialect"], string, string[], string[]]>([
    ["hash-iso", LOOP, ["R(1,0,50)", "R(2,0,50)"], []],
    ["o-word", LOOP, ["R(1,0,50)"], ["WHILE … DO"]],
    ["none", LOOP, ["R(1,0,50)"], ["WHILE … DO"]],
    ["none", `${LOOP}\n${LOOP}`, ["R(1,0,50)"], ["WHILE … DO"]],
    ["hash-iso", JUMP, ["R(0,7,50)"], []],
    ["o-word", JUMP, ["R(99,0,50)", "R(99,7,50)"], ["IF … GOTO"]],
    ["none", JUMP, ["R(99,0,50)", "R(99,7,50)"], ["IF … GOTO"]],
    ["none", "GOTO5\nG0 X99.\nN5 G0 Y7.", ["R(99,0,50)", "R(99,7,50)"], ["GOTO"]],
    ["hash-iso", THEN, ["R(8,0,50)"], []],
    ["none", THEN, ["R(3,0,50)"], ["IF … THEN"]],
    ["o-word", WORDS, [], []],
    ["hash-iso", WORDS, ["R(5,0,50)"], ["`o1 if`"]],
    ["none", WORDS, ["R(5,0,50)"], ["`o1 if`"]],
    ["undeclared", LOOP, ["R(1,0,50)", "R(2,0,50)"], []],
    ["undeclared", WORDS, [], []],
  ])("%s: %j", (macroDialect, text, reached, told) => {
    const e = under(macroDialect, text);
    expect([moved(e), dropped(e)]).toEqual([reached, told]);
  });

  test.each(["none", "o-word"] as const)("%s: where a macro leads is unknown", (macroDialect) => {
    const macro = "\nM30\nO7\nG0 X3.\nM99";
    for (const code of ["G65", "G66"]) {
      const e = run(`O1\n${HEAD}${code} P7 X9.\nG0 Y4.${macro}`, { dialect: { ...genericMill, macroDialect } });
      expect([moved(e), dropped(e)]).toEqual([["R(?,4,?)"], [code]]);
    }
    expect(moved(run(`O1\n${HEAD}G65 P7 X9.\nG0 Y4.${macro}`, {}))).toEqual(["R(3,0,50)", "R(3,4,50)"]);
  });

  test("a structured sub is no part of the way, and where its call leads is unknown", () => {
    const text = "o7 sub\nG0 X3.\no7 endsub\no7 call [1.]\nG0 Y4.";
    const e = under("hash-iso", text);
    expect([moved(e), dropped(e)]).toEqual([["R(?,4,?)"], ["`o7 sub`", "`o7 call`"]]);
    expect(moved(under("o-word", text))).toEqual(["R(3,0,50)", "R(3,4,50)"]);
  });

  test("where nobody said which way the control writes, o words are run and that is told once", () => {
    const told = (e: Execution) => e.events.filter(({ data }) => String(data.text).includes("macroDialect"));
    const events = told(under("undeclared", `${WORDS}\n${WORDS}`));
    expect(events).toHaveLength(1);
    expect(String(events[0]?.data.text)).toMatch(/^o1 is run as a statement .*Way out: `macroDialect: o-word`/);
    expect(told(under("undeclared", LOOP))).toEqual([]);
    expect(told(under("o-word", WORDS))).toEqual([]);
  });

  test("the message names the key and the way out", () => {
    expect(String(under("none", LOOP).events.find((x) => x.kind === "not-executed")?.data.text)).toBe(
      "WHILE … DO is not run, and the blocks are read straight on: this dialect has no jumps, loops or macros " +
        "(`macroDialect: none`). Way out: `macroDialect: hash-iso` if the control has it, else the blocks written out",
    );
  });
});

test("the strict language follows them where its setup says so", () => {
  const text = `${HEAD}#1=1\nWHILE[#1LT3]DO1\nG0 X#1\n#1=[#1+1]\nEND1\nM2`;
  expect(moved(run(text, { dialect: { ...nist, macroDialect: "hash-iso" } }))).toEqual(["R(1,0,50)", "R(2,0,50)"]);
  const strict = run(text, { dialect: nist });
  expect(moved(strict)).toEqual(["R(1,0,50)"]);
  expect(strict.events.some((x) => x.kind === "dialect" && x.data.rule === "flow")).toBe(true);
});
