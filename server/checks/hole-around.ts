/** Which hole the tool stands in between two strokes. */
import type { HoleShape } from "../program/types.ts";
import type { CheckContext } from "./types.ts";

/** Blocks that are looked at each way: nobody writes more than that between two strokes of one hole. */
const MOST_BLOCKS = 40;
const X = 88;
const Y = 89;

/**
 * The hole of the stroke before a step, else of the one after it, where the tool was not moved across between.
 * null: it stands in none that is known.
 */
export function holeAround(context: CheckContext, step: number, tool: number | null): HoleShape | null {
  return search(context, step, tool, -1) ?? search(context, step, tool, 1);
}

function search(context: CheckContext, step: number, tool: number | null, way: 1 | -1): HoleShape | null {
  const { execution } = context;
  for (let i = 1; i <= MOST_BLOCKS; i++) {
    const block = execution.stepBlock(step + i * way);
    if (block < 0) return null;
    const across = movesAcross(context, block);
    // What goes across before it drills drills elsewhere.
    if (across && way > 0) return null;
    const holes = execution.holesOfBlock(block);
    if (holes.length > 0) {
      const shape = execution.shapeOf(holes[holes.length - 1] ?? 0);
      return shape.tool === tool ? shape : null;
    }
    if (across) return null;
  }
  return null;
}

function movesAcross({ execution: { blocks } }: CheckContext, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind === X || kind === Y) return true;
  }
  return false;
}
