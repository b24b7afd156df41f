/** The header of a tape for drilling circuit boards: another language that looks alike (common practice, no source). */
import type { Blocks } from "../../grammar/blocks.ts";
import type { Span } from "../text/place.ts";

/** A header may stand behind a long list of comments. */
const LOOKED_AT = 200;

/** `M48` alone begins the header; a comment may follow it. In a machining program it allows the overrides. */
const HEAD = /^\s*(?:N\d+\s*)?M48\s*(?:;.*|\(.*)?$/i;

/** What stands in such a header and in no machining program. */
const SURE = [
  /^\s*(?:INCH|METRIC)\b/i,
  /^\s*FMAT\s*,/i,
  /^\s*(?:VER|ICI|DETECT|ATC|OM48|BLKD)\s*,/i,
  // A tool with its diameter: T01C0.800, T1F200S65C.0320.
  /^\s*T\d+(?:[FSBHZ][-+]?\d*\.?\d+)*C\d*\.?\d+/i,
];

function hasWords(blocks: Blocks, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind >= 65 && kind <= 90) return true;
  }
  return false;
}

/** The place of the header; null: none is there. */
export function tapeHeader(blocks: Blocks): Span | null {
  let head: Span | null = null;
  for (let line = 0; line < Math.min(blocks.count, LOOKED_AT); line++) {
    const block = blocks.blockAt(line);
    const text = blocks.textOf(block);
    if (head === null) {
      if (HEAD.test(text)) head = { block, start: 0, end: text.trimEnd().length };
      // Behind words of a program it is no header: M48 allows the overrides again.
      else if (hasWords(blocks, block)) return null;
    } else if (SURE.some((form) => form.test(text))) return head;
    // The header ends here.
    else if (/^\s*(?:%|M95)\s*$/i.test(text)) return null;
  }
  return null;
}
