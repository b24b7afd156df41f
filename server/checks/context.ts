import type { HoleLoads } from "../loads/types.ts";
import { lineName } from "../program/library.ts";
import type { Execution, HoleShape, Operation } from "../program/types.ts";
import type { ResolvedSetup } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { CheckContext } from "./types.ts";

const LETTER_N = 78;

/** What every check of one run shares: loads worked out once, places and names of blocks. */
export function createContext(
  execution: Execution,
  setup: ResolvedSetup,
  loads: (shape: HoleShape) => HoleLoads,
): CheckContext {
  const blocks = execution.blocks;
  const wholeBlock = (block: number): Span => {
    const text = blocks.textOf(block);
    return { block, start: text.length - text.trimStart().length, end: Math.max(text.trimEnd().length, 0) };
  };
  return {
    execution,
    setup,
    // A start state may name the unit where the program itself does not.
    system: execution.units ?? (execution.stepCount > 0 ? execution.stepState(0).units : null) ?? "mm",
    loads,
    *shapesOf(operation: Operation) {
      for (const use of operation.shapes) {
        const { shape } = use;
        yield {
          shape,
          loads: loads(shape),
          count: use.count,
          firstBlock: execution.hole(use.firstHole).block,
          firstHole: use.firstHole,
        };
      }
    },
    spanOf(ref, block) {
      const span = ref === 0 ? null : blocks.spanOf(ref);
      return span ?? wholeBlock(block);
    },
    nameOf(block) {
      const first = blocks.firstItem(block);
      const count = blocks.itemCount(block);
      for (let item = first; item < first + count; item++) {
        if (blocks.kind(item) === LETTER_N && Number.isFinite(blocks.value(item))) return `N${blocks.value(item)}`;
      }
      return lineName(blocks, block);
    },
  };
}
