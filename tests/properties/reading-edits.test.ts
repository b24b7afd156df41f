import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { LineStore, type TextEdit } from "../../server/text/lines.ts";
import { anyLine, anyText, eol, wholeOf } from "./reading-material.ts";

const position = fc.record({ line: fc.integer({ min: -1, max: 14 }), column: fc.integer({ min: -1, max: 30 }) });
const inserted = fc.oneof(
  fc.constantFrom("", "", "\n", "\r", "\r\n", "\n\r", "X1", " ", "5", "(", ")", ";", "\n\n\n"),
  anyLine,
  fc
    .array(
      fc.tuple(anyLine, eol).map((p) => p.join("")),
      { maxLength: 3 },
    )
    .map((p) => p.join("")),
);
const edit: fc.Arbitrary<TextEdit> = fc.tuple(position, position, inserted).map(([a, b, text]) => ({
  startLine: a.line,
  startColumn: a.column,
  endLine: b.line,
  endColumn: b.column,
  text,
}));
const script = fc.tuple(anyText, fc.array(edit, { minLength: 1, maxLength: 12 }));

/** The same edit on a plain string: the model that the line store is held against. */
function editedText(text: string, e: TextEdit): string {
  const starts = [0];
  const ends: number[] = [];
  for (const m of text.matchAll(/\r\n|\n|\r/g)) {
    ends.push(m.index);
    starts.push(m.index + m[0].length);
  }
  ends.push(text.length);
  const offset = (line: number, column: number) => {
    if (line >= starts.length) return text.length;
    const l = Math.max(0, line);
    return Math.min((starts[l] ?? 0) + Math.max(0, column), ends[l] ?? 0);
  };
  const [a, b] = [offset(e.startLine, e.startColumn), offset(e.endLine, e.endColumn)].sort((x, y) => x - y);
  return text.slice(0, a) + e.text + text.slice(b);
}

function linesOf(store: LineStore): string[] {
  return Array.from({ length: store.count }, (_, i) => store.line(i) + store.eol(i));
}

test("after any edits the line store equals one made from the whole text", () => {
  fc.assert(
    fc.property(script, ([start, edits]) => {
      const store = LineStore.from(start);
      let model = start;
      for (const e of edits) {
        const countBefore = store.count;
        const change = store.edit(e);
        model = editedText(model, e);
        const fresh = LineStore.from(model);
        expect(store.count).toBe(fresh.count);
        expect(store.count).toBe(countBefore - change.removed + change.inserted);
        expect(linesOf(store)).toEqual(linesOf(fresh));
        expect(store.text()).toBe(model);
      }
    }),
    { numRuns: 700 },
  );
});

test("after any edits the blocks equal a fresh read: items, values, problems", () => {
  fc.assert(
    fc.property(script, ([start, edits]) => {
      const store = LineStore.from(start);
      const blocks = readBlocks(store);
      for (const e of edits) blocks.update(store.edit(e));
      expect(wholeOf(blocks)).toEqual(wholeOf(readBlocks(LineStore.from(store.text()))));
    }),
    { numRuns: 700 },
  );
});

test("block ids stay with their lines through edits elsewhere, and gone ids are gone for good", () => {
  fc.assert(
    fc.property(script, ([start, edits]) => {
      const store = LineStore.from(start);
      const blocks = readBlocks(store);
      const everGone = new Set<number>();
      for (const e of edits) {
        const before = Array.from({ length: blocks.count }, (_, line) => blocks.blockAt(line));
        const change = store.edit(e);
        const { added, gone } = blocks.update(change);
        const after = Array.from({ length: blocks.count }, (_, line) => blocks.blockAt(line));
        expect(gone).toEqual(before.slice(change.line, change.line + change.removed));
        expect(added).toEqual(after.slice(change.line, change.line + change.inserted));
        expect(after.slice(0, change.line)).toEqual(before.slice(0, change.line));
        expect(after.slice(change.line + change.inserted)).toEqual(before.slice(change.line + change.removed));
        for (const id of gone) everGone.add(id);
        for (const [line, id] of after.entries()) {
          expect(everGone.has(id)).toBe(false);
          expect(blocks.lineOf(id)).toBe(line);
        }
        for (const id of everGone) {
          expect(blocks.lineOf(id)).toBe(-1);
          expect(blocks.spanOf(blocks.refOf(id, 0))).toBeNull();
        }
      }
    }),
    { numRuns: 300 },
  );
});

test("many edits leave no more behind than the live items need, and nothing is lost when the columns are gathered", () => {
  const text = Array.from({ length: 400 }, (_, i) => `N${i} G1 X${i}. Y[#${i + 1}+2] (NOTE ${i}) F100`).join("\n");
  const store = LineStore.from(text);
  const blocks = readBlocks(store);
  for (let i = 0; i < 6000; i++) {
    const line = (i * 7) % 400;
    blocks.update(
      store.edit({ startLine: line, startColumn: 0, endLine: line, endColumn: 0, text: i % 2 === 0 ? "/" : "" }),
    );
  }
  expect(wholeOf(blocks)).toEqual(wholeOf(readBlocks(LineStore.from(store.text()))));
  const last = blocks.blockAt(399);
  // 36 000 items were written; without gathering, the last block would stand near that index.
  expect(Math.max(...Array.from({ length: 400 }, (_, l) => blocks.firstItem(blocks.blockAt(l))))).toBeLessThan(12_000);
  expect(blocks.lineOf(last)).toBe(399);
});
