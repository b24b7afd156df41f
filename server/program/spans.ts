import type { Blocks } from "../../grammar/blocks.ts";
import type { Span } from "../text/place.ts";

/** From the first item of a block to its last; at its beginning where it is empty. */
export function itemsSpan(blocks: Blocks, block: number): Span {
  const first = blocks.firstItem(block);
  const count = blocks.itemCount(block);
  if (count === 0) return { block, start: 0, end: 0 };
  return { block, start: blocks.start(first), end: blocks.end(first + count - 1) };
}
