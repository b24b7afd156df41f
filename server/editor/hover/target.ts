/** What the mouse is on, and which holes it rules. */
import type { HoleLoads, HoleShape, Review, UnitSystem } from "../model.ts";

export type System = UnitSystem;

export interface Target {
  readonly review: Review;
  /** The program's own units, mm where it declares none. */
  readonly system: System;
  readonly block: number;
  readonly item: number;
  /** The word as the modal states name it. */
  readonly ref: number;
  /** Upper case. */
  readonly letter: string;
  /** null where the word has no plain number. */
  readonly value: number | null;
  /** The word as written. */
  readonly text: string;
}

/** Holes drilled the same way, which one word rules. */
export interface Ruled {
  readonly shape: HoleShape;
  readonly loads: HoleLoads;
  readonly count: number;
  readonly firstHole: number;
}

/** Shapes, not holes, are looked at: ten thousand holes of one kind cost as much as one. */
export function ruledBy(review: Review, rules: (shape: HoleShape) => boolean): Ruled[] {
  const { execution } = review;
  const found: Ruled[] = [];
  for (const operation of execution.operations) {
    for (const { shape, count, firstHole } of operation.shapes) {
      if (!rules(shape)) continue;
      found.push({ shape, loads: review.loads(shape), count, firstHole });
    }
  }
  return found;
}

/** Holes that the block itself makes. */
export function madeBy(review: Review, block: number): Ruled[] {
  const found = new Map<number, { shape: HoleShape; count: number; firstHole: number }>();
  for (const index of Array.from(review.execution.holesOfBlock(block))) {
    const { shape } = review.execution.hole(index);
    const known = found.get(shape.id);
    if (known === undefined) found.set(shape.id, { shape, count: 1, firstHole: index });
    else known.count++;
  }
  return [...found.values()].map((ruled) => ({ ...ruled, loads: review.loads(ruled.shape) }));
}

export function countOf(ruled: readonly Ruled[]): number {
  return ruled.reduce((sum, r) => sum + r.count, 0);
}

/** The one nearest to a limit; without limits the one with the largest power, then the deepest. */
export function worstOf(ruled: readonly Ruled[]): Ruled | null {
  let worst: Ruled | null = null;
  let mark = Number.NEGATIVE_INFINITY;
  for (const r of ruled) {
    const next = severityOf(r.loads) * 1e6 + (r.loads.power?.nominal ?? 0) * 1e3 + (r.loads.depthRatio ?? 0);
    if (worst === null || next > mark) {
      worst = r;
      mark = next;
    }
  }
  return worst;
}

function severityOf(loads: HoleLoads): number {
  const { limits } = loads;
  return Math.max(
    0,
    shareOf(loads.power, limits.power.continuous),
    shareOf(loads.torque, limits.torque?.continuous ?? null),
    shareOf(loads.thrust, limits.thrust),
  );
}

function shareOf(load: { readonly nominal: number } | null, limit: number | null): number {
  return load === null || limit === null || limit <= 0 ? 0 : load.nominal / limit;
}

/** `N120` where the block has a number, else `line 14`. */
export function nameOfBlock(review: Review, block: number): string {
  const { blocks } = review.input;
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (blocks.kind(item) === 78 && Number.isFinite(blocks.value(item))) return `N${blocks.value(item)}`;
  }
  return `line ${blocks.lineOf(block) + 1}`;
}

/** The word that a state names, as written: `F250.` and where; empty when it is gone or there is none. */
export function wordAt(review: Review, ref: number): string {
  if (ref === 0) return "";
  const { blocks } = review.input;
  const span = blocks.spanOf(ref);
  if (span === null) return "";
  return `${blocks.textOf(span.block).slice(span.start, span.end)} in ${nameOfBlock(review, span.block)}`;
}
