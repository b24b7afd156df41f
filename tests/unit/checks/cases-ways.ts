/** Programs of which a retained variable takes one of several ways: holes of two ways are never in one part. */
import type { Case } from "./cases.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500, "M8");
const cycle = (x: number): string[] => [`G81 X${x}. Y0. Z-20. R2. F450.`, "X50.", "G80"];
const family = program(...T3, "IF[#500EQ1]GOTO100", ...cycle(10), "GOTO900", "N100", ...cycle(13), "N900");
const row = (n: number): string[] => Array.from({ length: n }, (_, i) => `X${(i + 1) * 20}.`);
const list = (n: number): string[] => ["G81 X0. Y0. Z-20. R2. F200.", ...row(n), "G80"];

export const WAYS_CASES: readonly Case[] = [
  ...(["entry-not-allowed", "hole-twice", "hole-around", "walk"] as const).map(
    (check): Case => ({ check, name: "a family of parts by a retained variable", text: family, expect: [] }),
  ),
  {
    check: "hole-twice",
    name: "one place twice on one of the ways",
    text: program(...T3, "IF[#500EQ1]GOTO900", ...cycle(10).slice(0, 2), "X10.", "G80", "N900"),
    expect: [{ severity: "warning", line: 10, word: "X10.", says: ["has drilled this place"] }],
  },
  {
    check: "entry-not-allowed",
    name: "beside a hole that all ways drill",
    text: program(...T3, ...cycle(10), "IF[#500EQ1]GOTO900", ...cycle(13), "N900"),
    expect: [{ severity: "error", line: 11, word: "G81 X13. Y0. Z-20. R2. F450.", says: ["hole beside it"] }],
  },
  {
    check: "pattern-differs",
    name: "a list that is longer by the way taken",
    text: program(
      ...approach(1, 2500, "M8"),
      ...list(24).slice(0, -1),
      "IF[#500EQ1]GOTO5",
      "X900.",
      "N5 G80",
      ...T3,
      ...list(24),
    ),
    expect: [],
  },
];
