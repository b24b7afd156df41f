import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { LineStore } from "../../server/text/lines.ts";
import { itemsOf } from "./reading-material.ts";

/** Characters per line; a reader with a quadratic step would need minutes for these. */
const SIZE = 200_000;
const fill = (piece: string) => piece.repeat(Math.ceil(SIZE / piece.length));

const lines: readonly [string, string][] = [
  ["letters", fill("X")],
  ["letters with a value at the end", `${fill("A")}1`],
  ["letters before a bracket", `${fill("A")}[`],
  ["digits", `X${fill("1")}`],
  ["digits and a second point", `X${fill("1")}.1.`],
  ["points", fill(".")],
  ["points in a word", `X${fill(".")}`],
  ["points apart", fill(". ")],
  ["signs", `X${fill("-")}`],
  ["signs before a variable", `X${fill("-")}#1`],
  ["white space in a word", `X${fill(" ")}5`],
  ["white space alone", fill(" \t")],
  ["words", fill("X1.5")],
  ["words with blanks inside", fill("X 1 . 5 ")],
  ["opening brackets", `X${fill("[")}`],
  ["words with open brackets", fill("X[ ")],
  ["words with open brackets and numbers", fill("X[1 ")],
  ["decimal commas", fill("X1,")],
  ["closing brackets", fill("]")],
  ["bracket pairs", fill("X[1]")],
  ["empty brackets", fill("X[]")],
  ["missing operands", fill("X[+]")],
  ["missing operands in one bracket", `X[${fill("+*")}]`],
  ["hashes", `X${fill("#")}1`],
  ["hash words", fill("X#")],
  ["assignments", fill("#1=2 ")],
  ["assignment without value", fill("#=")],
  ["open comment", fill("(")],
  ["comments", fill("()")],
  ["stray closes", fill(")")],
  ["names", fill("<")],
  ["name pairs", fill("<>")],
  ["hash names", fill("#<")],
  ["bracket and abbreviation", fill("[1]GO")],
  ["bracket and loop", fill("[1]DO")],
  ["conditions", fill("IF[1]")],
  ["functions", fill("SIN[")],
  ["arc tangents", fill("ATAN[1]/")],
  ["commas", fill(",")],
  ["chamfers", fill(",R1")],
  ["slashes", fill("/")],
  ["slashes apart", fill("/ ")],
  ["unknown characters", fill("é")],
  ["letter O", fill("O")],
  ["zeros and O", `X${fill("0O")}`],
  ["small l", fill("Xl")],
  ["operators", `#1=${fill("1+")}`],
  ["commas inside", `X[${fill("1,")}]`],
  ["semicolons", fill(";")],
];

test.each(lines)("a line of 200 000 characters of %s is read in little time and without loss", (_, line) => {
  // Time of this process alone: other work on the machine does not count.
  const start = process.cpuUsage().user;
  const blocks = readBlocks(LineStore.from(line));
  const items = itemsOf(blocks, blocks.blockAt(0));
  blocks.problems();
  const ms = (process.cpuUsage().user - start) / 1000;
  let at = 0;
  let lost = "";
  for (const item of items) {
    lost += line.slice(at, item.start).trim();
    at = item.end;
  }
  expect(lost + line.slice(at).trim()).toBe("");
  // A linear reader needs a second or two; a quadratic step costs a minute and more.
  expect(ms).toBeLessThan(5000);
});

test("brackets nested 5000 deep are one problem, and the words around them are read", () => {
  const line = `G1 X${"[".repeat(5000)}1${"]".repeat(5000)} Y5 F100`;
  const blocks = readBlocks(LineStore.from(line));
  const items = itemsOf(blocks, blocks.blockAt(0));
  expect(items.map((i) => String.fromCharCode(i.kind))).toEqual(["G", "X", "Y", "F"]);
  expect(items[1]?.side).toMatchObject({ kind: "broken" });
  expect(items[2]?.value).toBe(5);
  const problems = blocks.problems();
  expect(problems.map((p) => p.code)).toEqual(["too-deep"]);
  expect(problems[0]?.span).toMatchObject({ start: 4, end: 4 + 10_001 });
});

test("32 levels are read, 33 are too deep", () => {
  const nested = (n: number) => `X${"[".repeat(n)}1${"]".repeat(n)}`;
  expect(readBlocks(LineStore.from(nested(32))).problems()).toEqual([]);
  expect(
    readBlocks(LineStore.from(nested(33)))
      .problems()
      .map((p) => p.code),
  ).toEqual(["too-deep"]);
});
