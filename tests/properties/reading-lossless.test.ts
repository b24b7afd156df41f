import fc from "fast-check";
import { expect, test } from "vitest";
import { ITEM, VALUE } from "../../grammar/blocks.ts";
import { readBlocks } from "../../grammar/read.ts";
import { LineStore } from "../../server/text/lines.ts";
import { anyLine, anyText, itemsOf } from "./reading-material.ts";

test("items and white space between them give every line back; the lines give the text back", () => {
  fc.assert(
    fc.property(fc.oneof(anyText, fc.string({ unit: "binary" })), (text) => {
      const lines = LineStore.from(text);
      const blocks = readBlocks(lines);
      expect(blocks.count).toBe(lines.count);
      let joined = "";
      for (let i = 0; i < blocks.count; i++) {
        const line = lines.line(i);
        let at = 0;
        for (const item of itemsOf(blocks, blocks.blockAt(i))) {
          expect(item.start).toBeGreaterThanOrEqual(at);
          expect(item.end).toBeGreaterThan(item.start);
          expect(line.slice(at, item.start)).toMatch(/^[ \t]*$/);
          at = item.end;
        }
        expect(at).toBeLessThanOrEqual(line.length);
        expect(line.slice(at)).toMatch(/^[ \t]*$/);
        joined += line + lines.eol(i);
      }
      expect(joined).toBe(text);
    }),
    { numRuns: 3000 },
  );
});

test("what was not understood has a problem that touches it, and a word without a value has one too", () => {
  fc.assert(
    fc.property(anyLine, (line) => {
      const blocks = readBlocks(LineStore.from(line));
      const id = blocks.blockAt(0);
      const problems = blocks.problems();
      for (const item of itemsOf(blocks, id)) {
        const lacks = item.kind === ITEM.unread || (item.form === VALUE.none && item.kind >= 65 && item.kind <= 90);
        if (!lacks) continue;
        expect(
          problems.some((p) => p.span.start < item.end && p.span.end > item.start),
          line.slice(item.start),
        ).toBe(true);
      }
      for (const p of problems) {
        expect(p.span.start).toBeGreaterThanOrEqual(0);
        expect(p.span.end).toBeGreaterThan(p.span.start);
        expect(p.text).not.toMatch(/\.$|undefined|NaN|\n/);
      }
      expect(blocks.isPlain(id)).toBe(
        !itemsOf(blocks, id).some(
          (i) => i.kind === ITEM.unread || i.kind === ITEM.statement || i.form === VALUE.expression,
        ),
      );
    }),
    { numRuns: 3000 },
  );
});

test("a broken part of a line leaves the words before and behind it as they are", () => {
  const rest = "Y5 F100";
  for (const broken of [
    "X[1+*2]",
    "X[]",
    "X[1 FOO]",
    "X$5",
    "X.",
    "X1.2.3",
    "Xasim[0.5]",
    "X[1+2",
    "#1",
    "X)",
    "X1O2",
    "{}",
  ]) {
    const line = `G1 ${broken} ${rest}`;
    const blocks = readBlocks(LineStore.from(line));
    const words = itemsOf(blocks, blocks.blockAt(0)).map((i) => `${line.slice(i.start, i.end)}=${i.value}`);
    expect(words[0], broken).toBe("G1=1");
    expect(words.slice(-2), broken).toEqual(["Y5=5", "F100=100"]);
    expect(blocks.problems().length, broken).toBeGreaterThan(0);
  }
});
