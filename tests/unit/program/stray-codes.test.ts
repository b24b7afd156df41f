/** G codes that are told as not followed: their axis words are no move by the code in force from before. */
import { describe, expect, test } from "vitest";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { holes, moves, run } from "./helpers.ts";

const HEAD = "G21 G90 G54 G17 G94 S1000 M3 F100.\nG0 X0 Y0 Z50.\n";
const CUSTOM = new Map([
  [8880, "probing"],
  [8890, "ignore"],
]);
const e = (text: string, keys: Partial<Dialect> = {}) =>
  run(`${HEAD}${text}\nM30`, { dialect: { ...genericMill, customG: CUSTOM, ...keys } });
const travelled = (text: string, keys: Partial<Dialect> = {}) =>
  moves(e(text, keys))
    .filter((move) => /^[RF]/.test(move))
    .slice(1);

describe("axis words of a code that is not followed", () => {
  test.each<[string, Partial<Dialect>, string[]]>([
    // Unknown: it may be modal, so that a block without a code is no move either.
    ["G84.2 X10. Y10. Z-10. R2.\nX20. Y20.\nG0 X1. Z3.", {}, ["R(1,?,3)"]],
    ["G84.2 X10. Y10. Z-10. R2.\nX20. Y20.\nG0 X1. Z3.", { unknownCode: "error" }, ["R(1,?,3)"]],
    ["G888 X5.\nX1. Z3.", {}, ["R(1,?,3)"]],
    ["G889 X5.\nX1. Z3.", {}, ["R(5,0,50)", "R(1,0,3)"]],
    ["G777 X5.\nX1. Z3.", { unknownCode: "ignore" }, ["R(5,0,50)", "R(1,0,3)"]],
    // No axis words, or a code of the block that says what they are.
    ["G777 P1\nX1.", {}, ["R(1,0,50)"]],
    ["G777 G0 X1.", {}, ["R(1,0,50)"]],
    ["G1 G888 X1.", {}, ["F(1,0,50)"]],
  ])("%j %o", (text, keys, expected) => {
    expect(travelled(text, keys)).toEqual(expected);
  });

  test("what hangs on them is unknown by the name of the code", () => {
    const made = e("G84.2 X10. Y10. Z-10. R2.\nG91 G99 G81 X5. Z-5. R-2.");
    expect(holes(made)[0]?.at).toEqual([null, null]);
    expect(made.shapes[0]?.unknown.startZ).toContain("G84.2 is not followed");
  });

  test("a cycle in force makes no hole of them", () => {
    expect(holes(e("G99 G81 X1. Y1. Z-5. R2.\nG888 X7. Y7.\nX3. Y3.\nG80")).map((hole) => hole.at)).toEqual([
      [1, 1],
      [3, 3],
    ]);
    expect(holes(e("G99 G81 X1. Y1. Z-5. R2.\nG777 X7. Y7.\nX3. Y3.\nG80")).map((hole) => hole.at)).toEqual([[1, 1]]);
  });

  test("G84.2 is a cycle where the dialect says so", () => {
    const made = e("G84.2 X10. Y10. Z-10. R2.\nX20. Y20.\nG80", { rigidTap: "codes" });
    expect(holes(made).map((hole) => [hole.at, hole.endZ])).toEqual([
      [[10, 10], -10],
      [[20, 20], -10],
    ]);
  });
});
