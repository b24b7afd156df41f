/** The names of functions, operators and keywords, and the patterns that find them. */
import type { UnaryFunction } from "./expressions.ts";

const FULL_NAMES: readonly UnaryFunction[] = [
  "ABS",
  "ACOS",
  "ASIN",
  "ATAN",
  "BCD",
  "BIN",
  "ADP",
  "COS",
  "EXP",
  "FIX",
  "FUP",
  "LN",
  "POW",
  "ROUND",
  "SIN",
  "SQRT",
  "TAN",
  "EXISTS",
];

/** Functions by full name and by their first two letters; of EXP and EXISTS the short form means EXP. */
export const FUNCTIONS: ReadonlyMap<string, UnaryFunction> = new Map(
  [...FULL_NAMES].reverse().flatMap((name): [string, UnaryFunction][] => [
    [name.slice(0, 2), name],
    [name, name],
  ]),
);

const STRUCTURED = [
  "endrepeat",
  "endwhile",
  "continue",
  "endsub",
  "elseif",
  "return",
  "repeat",
  "endif",
  "while",
  "break",
  "call",
  "else",
  "sub",
  "if",
  "do",
];

const names = [...FUNCTIONS.keys()].sort((a, b) => b.length - a.length);
const spaced = (name: string) => [...name].join("[ \\t]*");
export const ANY_FUNCTION = new RegExp(`(?:${names.map(spaced).join("|")})(?=[ \\t]*\\[)`, "iy");
export const FULL_FUNCTION = new RegExp(`(?:${FULL_NAMES.join("|")})(?=[ \\t]*\\[)`, "iy");
export const SHORT_OR_FULL = new RegExp(`(?:${names.join("|")})(?=[ \\t]*\\[)`, "iy");
export const WORD_OPERATOR = /MOD|AND|X?OR|EQ|NE|GT|GE|LT|LE/iy;
export const SPACED_OPERATOR = new RegExp(
  ["MOD", "AND", "XOR", "OR", "EQ", "NE", "GT", "GE", "LT", "LE"].map(spaced).join("|"),
  "iy",
);
export const STRUCTURED_WORD = new RegExp(`(?:${STRUCTURED.join("|")})(?![a-z])`, "iy");
export const NAME_LETTERS = /[A-Z]+/iy;
