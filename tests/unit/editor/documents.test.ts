import fc from "fast-check";
import { expect, test } from "vitest";
import type { Blocks } from "../../../grammar/blocks.ts";
import { readBlocks } from "../../../grammar/read.ts";
import { Documents } from "../../../server/editor/documents.ts";
import { MAX_LIVE_LINES } from "../../../server/review/large.ts";

const URI = "file:///p.nc";

/** Everything that a reader of the blocks can see, by line. */
function seen(blocks: Blocks | null): unknown {
  if (blocks === null) return null;
  return Array.from({ length: blocks.count }, (_, line) => {
    const block = blocks.blockAt(line);
    const first = blocks.firstItem(block);
    return Array.from({ length: blocks.itemCount(block) }, (_, i) => [
      blocks.kind(first + i),
      blocks.value(first + i),
      blocks.start(first + i),
      blocks.end(first + i),
    ]);
  });
}

const piece = fc.constantFrom(
  "G1 X1. F200",
  "\n",
  "\r\n",
  "\r",
  "(",
  ")",
  "#1=[2+3]",
  "%",
  " ",
  "Z-1.5",
  "; c",
  "é😀",
  "",
);
const text = fc.array(piece, { maxLength: 12 }).map((parts) => parts.join(""));
const number = fc.oneof(
  fc.integer({ min: -3, max: 12 }),
  fc.constantFrom(1e9, 2.7, Number.NaN, Number.POSITIVE_INFINITY),
);
const position = fc.record({ line: number, character: number });
const change = fc.record({ range: fc.record({ start: position, end: position }), text }, { requiredKeys: ["text"] });

test("edits at any positions leave the same blocks as a fresh reading of the same text", () => {
  fc.assert(
    fc.property(text, fc.array(fc.array(change, { maxLength: 3 }), { maxLength: 6 }), (start, edits) => {
      const documents = new Documents(readBlocks);
      const document = documents.open(URI, "swarfline-nc", 1, start);
      edits.forEach((changes, i) => {
        documents.change(document, i + 2, changes);
        const fresh = new Documents(readBlocks).open(URI, "swarfline-nc", 1, document.text());
        expect(document.lines.count).toBe(fresh.lines.count);
        expect(seen(document.blocks)).toEqual(seen(fresh.blocks));
      });
    }),
  );
});

test("edits follow the protocol: lines and UTF-16 columns", () => {
  const documents = new Documents(readBlocks);
  const document = documents.open(URI, "swarfline-nc", 1, "(😀) X1.\r\nY2.\n");
  documents.change(document, 2, [
    { range: { start: { line: 0, character: 5 }, end: { line: 0, character: 6 } }, text: "Z" },
    { range: { start: { line: 1, character: 0 }, end: { line: 2, character: 0 } }, text: "" },
  ]);
  expect(document.text()).toBe("(😀) Z1.\r\n");
  expect([document.version, document.revision]).toEqual([2, 1]);
});

test("a program above the limit of lines is not read, and is again when it shrinks", () => {
  const documents = new Documents(readBlocks);
  const document = documents.open(URI, "swarfline-nc", 1, "\n".repeat(MAX_LIVE_LINES));
  expect(document.blocks).toBeNull();
  const range = { start: { line: 10, character: 0 }, end: { line: MAX_LIVE_LINES, character: 0 } };
  documents.change(document, 2, [{ range, text: "G0 X1." }]);
  expect(document.blocks?.count).toBe(11);
  documents.change(document, 3, [
    { range: { start: range.start, end: range.start }, text: "\n".repeat(MAX_LIVE_LINES) },
  ]);
  expect(document.blocks).toBeNull();
});

test("setup files and tool tables are kept as text alone", () => {
  const documents = new Documents(readBlocks);
  expect(documents.open("file:///swarfline.yaml", "yaml", 1, "a").kind).toBe("setup");
  expect(documents.open("file:///mill.swarfline.yaml", "plaintext", 1, "a").kind).toBe("setup");
  expect(documents.open("file:///tools.CSV", "plaintext", 1, "a").kind).toBe("other");
  expect(documents.open("file:///a.txt", "swarfline-nc", 1, "a").kind).toBe("program");
  expect([...documents.all()].filter((document) => document.blocks !== null)).toHaveLength(1);
});
