/** A hole as each of its strokes in metal finds it: a code between two strokes changes what the second one cuts with. */
import type { HoleShape, ModalState, Stroke } from "../program/types.ts";
import type { MetalHole } from "./cause.ts";
import { cuttingStrokes } from "./feed.ts";
import type { CheckContext } from "./types.ts";

/** The values in force for a stroke. */
export function stateAt(shape: HoleShape, stroke: Stroke | undefined): ModalState {
  return stroke?.own?.state ?? shape.state;
}

/** The hole with the words and the block of one of its strokes, where they are known. */
export function cutAt(hole: MetalHole, stroke: Stroke | undefined): MetalHole {
  if (stroke?.own === undefined) return hole;
  const { block, zRef } = stroke.own;
  return { ...hole, shape: { ...hole.shape, refs: { ...hole.shape.refs, z: zRef } }, firstBlock: block };
}

/**
 * The hole, and once more for each way in which later strokes cut metal otherwise: with that stroke as its first, in that
 * stroke's block. Of strokes that are alike the first stands for all.
 */
export function cutsOf(context: CheckContext, hole: MetalHole): readonly MetalHole[] {
  let later = laterCuts.get(hole.shape);
  if (later === undefined) {
    later = laterOf(hole.shape);
    laterCuts.set(hole.shape, later);
  }
  if (later.length === 0) return [hole];
  return [
    hole,
    ...later.map(({ shape, block }) => ({
      ...hole,
      shape,
      loads: context.loads(shape),
      firstBlock: block,
      whole: hole,
    })),
  ];
}

/** All holes, each with its later cuts behind it. */
export function* everyCut(context: CheckContext, holes: Iterable<MetalHole>): Generator<MetalHole> {
  for (const hole of holes) yield* cutsOf(context, hole);
}

interface LaterCut {
  readonly shape: HoleShape;
  readonly block: number;
}

/** Shapes that an edit leaves alone are the same objects in the next review. */
const laterCuts = new WeakMap<HoleShape, readonly LaterCut[]>();
const NONE: readonly LaterCut[] = [];

function laterOf(shape: HoleShape): readonly LaterCut[] {
  let later: Map<string, LaterCut> | null = null;
  for (const stroke of cuttingStrokes(shape)) {
    if (stroke.own === undefined) continue;
    const { state, block, zRef } = stroke.own;
    const { s, spindle, coolant, from } = state;
    const key = `${s}|${spindle}|${coolant}|${from.s}|${from.spindle}|${from.coolant}|${stroke.n}|${stroke.f}`;
    later ??= new Map();
    if (later.has(key)) continue;
    const refs = { ...shape.refs, z: zRef };
    // The same hole, taken from another stroke: its loads are kept by a likeness of its own.
    const cut = { ...shape, firstCut: shape.strokes.indexOf(stroke), state, refs, likeness: {} };
    later.set(key, { shape: cut, block });
  }
  return later === null ? NONE : [...later.values()];
}
