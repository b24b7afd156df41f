/** All about a look that has a threshold, and how finely heights are told apart. */
import type { Measures } from "./measures.ts";

/** How finely heights are told apart, mm. */
export interface Grain {
  /** Possible changes nearer together than this are one. */
  readonly change: number;
  /** Heights of changes that have no closed form are known to this. */
  readonly halving: number;
}

/** A tenth of a micrometre and a micrometre; over more than a metre, as fine as the rounding of such lengths lets it. */
export function grainOf(range: number): Grain {
  const scale = Math.max(1, range / 1000);
  return { change: 1e-4 * scale, halving: 1e-3 * scale };
}

/** Rounding left when half of the centre zone is in metal: a share must be below a half by more than this. */
const HALF = 0.5 - 1e-6;

/** A missing arc of this and more, in turns, is a wide one. */
export const WIDE_GAP = 0.15;

type Quick = Omit<Measures, "imbalance">;

export const coreInAir = (q: Quick): boolean => q.interrupted && q.core < HALF;
export const rimCuts = (q: Quick): boolean => q.rim > 0 && q.rim < 1;
export const rimHalf = (q: Quick): boolean => q.rim > 0 && q.rim < HALF;

/** All that has a threshold, in one number, so that a change between two heights shows. */
export function stateOf(q: Quick): number {
  return (
    (q.touching ? 1 : 0) +
    (q.interrupted ? 2 : 0) +
    (rimCuts(q) ? 4 : 0) +
    (rimHalf(q) ? 8 : 0) +
    (coreInAir(q) ? 16 : 0) +
    (q.rim === 1 ? 32 : 0) +
    (q.voidArc >= WIDE_GAP ? 64 : 0)
  );
}

/**
 * How far on the way from one look to another the one value that makes the difference passes its threshold; a half where
 * it cannot be told.
 */
export function shareTo(change: number, from: Quick, to: Quick): number {
  let a: number;
  let b: number;
  if (change === 8) {
    a = from.rim - HALF;
    b = to.rim - HALF;
  } else if (change === 16) {
    a = from.core - HALF;
    b = to.core - HALF;
  } else if (change === 64) {
    a = from.voidArc - WIDE_GAP;
    b = to.voidArc - WIDE_GAP;
  } else return 0.5;
  const share = a / (a - b);
  return share > 0 && share < 1 ? share : 0.5;
}
