import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ITEM, VALUE } from "../../../grammar/blocks.ts";
import { makeLexer } from "../../../grammar/lexer.ts";
import { BlockParser } from "../../../grammar/parser.ts";
import { readBlocks } from "../../../grammar/read.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { anyLine } from "../../properties/reading-material.ts";

const read = (text: string) => {
  const lines = LineStore.from(text);
  return { lines, blocks: readBlocks(lines) };
};

describe("the parser's own checks, which production skips", () => {
  test("lexer and grammar are free of ambiguities and definition errors", () => {
    expect(makeLexer(true).lexerDefinitionErrors).toEqual([]);
    expect(() => new BlockParser(true)).not.toThrow();
  });

  test("the lexer knows every character", () => {
    const lexer = makeLexer(false);
    fc.assert(
      fc.property(fc.oneof(anyLine, fc.string({ unit: "binary" })), (line) => {
        expect(lexer.tokenize(line).errors).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("outside the program", () => {
  test("reading out of range gives an empty block", () => {
    const { blocks } = read("G1 X1");
    for (const line of [-1, 1, 99, Number.NaN]) {
      const block = blocks.blockAt(line);
      expect([blocks.itemCount(block), blocks.lineOf(block), blocks.textOf(block)]).toEqual([0, -1, ""]);
    }
    expect(blocks.itemCount(12345)).toBe(0);
    expect(blocks.kind(12345)).toBe(ITEM.unread);
    expect(blocks.value(12345)).toBeNaN();
    expect(blocks.lineOf(12345)).toBe(-1);
  });

  test("a reference of nothing has no place", () => {
    const { blocks } = read("G1");
    for (const ref of [0, -5, Number.NaN, 99 * 1024]) expect(blocks.spanOf(ref)).toBeNull();
  });
});

describe("references", () => {
  test("the place of a word, before and after lines moved above it", () => {
    const { lines, blocks } = read("G90\nG1 X12.5 Y3");
    const block = blocks.blockAt(1);
    const ref = blocks.refOf(block, blocks.firstItem(block) + 1);
    expect(ref).toBeGreaterThan(0);
    expect(blocks.spanOf(ref)).toEqual({ block, start: 3, end: 8 });
    blocks.update(lines.edit({ startLine: 0, startColumn: 0, endLine: 0, endColumn: 0, text: "\n\n" }));
    expect(blocks.spanOf(ref)).toEqual({ block, start: 3, end: 8 });
    expect(blocks.lineOf(block)).toBe(3);
    expect(blocks.textOf(block)).toBe("G1 X12.5 Y3");
  });

  test("a reference dies with its block", () => {
    const { lines, blocks } = read("G90\nG1 X12.5");
    const block = blocks.blockAt(1);
    const ref = blocks.refOf(block, blocks.firstItem(block));
    blocks.update(lines.edit({ startLine: 1, startColumn: 2, endLine: 1, endColumn: 2, text: "0" }));
    expect(blocks.spanOf(ref)).toBeNull();
    expect(blocks.lineOf(block)).toBe(-1);
  });

  test("items far behind in a long block share the last reference instead of running into the next block", () => {
    const { blocks } = read(`${"X1".repeat(3000)}\nG1`);
    const block = blocks.blockAt(0);
    const ref = blocks.refOf(block, blocks.firstItem(block) + 2999);
    expect(blocks.spanOf(ref)).toEqual({ block, start: 2 * 1023, end: 2 * 1023 + 2 });
  });
});

describe("columns", () => {
  test("a value that is no number is NaN here, whatever holds its place inside", () => {
    const { blocks } = read("X#1 Y[2] O<n>\n#1=5");
    const first = blocks.firstItem(blocks.blockAt(0));
    expect([0, 1].map((i) => blocks.form(first + i))).toEqual([VALUE.expression, VALUE.expression]);
    expect([0, 1, 2].map((i) => blocks.value(first + i))).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect(blocks.name(first + 2)).toBe("n");
    expect(blocks.expression(first + 2)).toBeUndefined();
    const statement = blocks.firstItem(blocks.blockAt(1));
    expect(blocks.kind(statement)).toBe(ITEM.statement);
    expect(blocks.statement(statement)).toMatchObject({ kind: "assign" });
    expect(blocks.value(statement)).toBeNaN();
    expect(blocks.expression(statement)).toBeUndefined();
  });

  test("whole numbers and numbers with a point differ in form", () => {
    const { blocks } = read("X5 Y5. Z.5 N5");
    const first = blocks.firstItem(blocks.blockAt(0));
    expect([0, 1, 2, 3].map((i) => blocks.form(first + i))).toEqual([
      VALUE.integer,
      VALUE.real,
      VALUE.real,
      VALUE.integer,
    ]);
  });

  test("places beyond 65 535 survive, in long lines and in the short ones read before", () => {
    const long = `G1${" ".repeat(70_000)}X5`;
    const { blocks } = read(`G0 Y1\n${long}\nG2`);
    const first = blocks.firstItem(blocks.blockAt(1));
    expect([blocks.start(first + 1), blocks.end(first + 1)]).toEqual([70_002, 70_004]);
    const before = blocks.firstItem(blocks.blockAt(0));
    expect([blocks.start(before + 1), blocks.end(before + 1)]).toEqual([3, 5]);
  });

  test("flags: comments and plain blocks", () => {
    const { blocks } = read("G1\nG1 (a)\nG1;a\nX#1\n#1=2\n$\nX");
    const lines = [0, 1, 2, 3, 4, 5, 6].map((l) => blocks.blockAt(l));
    expect(lines.map((b) => blocks.hasComment(b))).toEqual([false, true, true, false, false, false, false]);
    expect(lines.map((b) => blocks.isPlain(b))).toEqual([true, true, true, false, false, false, true]);
  });

  test("problems come in line order, whichever was read last", () => {
    const { lines, blocks } = read("X\nG1\nY\nZ");
    blocks.update(lines.edit({ startLine: 1, startColumn: 0, endLine: 1, endColumn: 2, text: "A" }));
    expect(blocks.problems().map((p) => blocks.lineOf(p.span.block))).toEqual([0, 1, 2, 3]);
    blocks.update(lines.edit({ startLine: 0, startColumn: 1, endLine: 0, endColumn: 1, text: "1" }));
    expect(blocks.problems().map((p) => blocks.textOf(p.span.block))).toEqual(["A", "Y", "Z"]);
  });
});
