/** What the strokes of one hole have in force, where a code between them makes it another than the hole's. */
import type { Blocks, WordRef } from "../../grammar/blocks.ts";
import type { ModalStore } from "./modal.ts";
import type { Run } from "./run.ts";
import type { Draft, DraftStroke, StrokeStates } from "./shapes.ts";

/** What strokes have in force, as far as two strokes can differ in it. null: all have what the hole has. */
export function strokeKeys(store: ModalStore, draft: Draft, rowId: number): readonly number[] | null {
  const whole = store.strokeKey(rowId);
  const keyOf = (stroke: DraftStroke): number => store.strokeKey(stroke.rowId ?? draft.rowId);
  return draft.strokes.some((stroke) => keyOf(stroke) !== whole) ? draft.strokes.map(keyOf) : null;
}

/** @param whole what the hole has, @param keys what each stroke has */
export function strokeStates(run: Run, draft: Draft, whole: number, keys: readonly number[]): StrokeStates {
  const { store, blocks } = run;
  return draft.strokes.map((stroke, i) => {
    if (keys[i] === whole) return undefined;
    const step = stroke.step ?? draft.step;
    // The step of the block that is being run has no entry yet.
    const block = step < store.stepBlocks.length ? store.stepBlocks.at(step) : run.words.block;
    const state = store.state(stroke.rowId ?? draft.rowId, step);
    return { state, block, zRef: wordOf(blocks, block, 23 + draft.w) };
  });
}

/** Word of a letter (A is 0) in a block; 0 none. */
function wordOf(blocks: Blocks, block: number, letter: number): WordRef {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++)
    if (blocks.kind(item) === 65 + letter) return blocks.refOf(block, item);
  return 0;
}
