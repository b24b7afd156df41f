import type { Execution } from "../../program/types.ts";

const G = 71;

/** G61 is in force at a block, by the order of lines: then the feed would stop between two blocks. */
export function exactStop({ blocks }: Execution, before: number): boolean {
  for (let line = blocks.lineOf(before); line >= 0; line--) {
    const block = blocks.blockAt(line);
    const first = blocks.firstItem(block);
    for (let item = first + blocks.itemCount(block) - 1; item >= first; item--) {
      if (blocks.kind(item) !== G) continue;
      const code = blocks.value(item);
      if (code === 62 || code === 63 || code === 64) return false;
      if (code >= 60.5 && code < 62) return true;
    }
  }
  return false;
}
