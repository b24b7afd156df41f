/** Calls under way. A frame never changes: to count a repeat down is to put another in its place, so that states may share it. */
import type { ModalRow } from "./modal.ts";

export interface Frame {
  /** M98, M97; G65; a call after each move (G66); a structured call. */
  readonly kind: "sub" | "macro" | "each" | "structured";
  /** Block that called, and where the run goes on when it is done: behind that block. */
  readonly call: number;
  /** It goes on at this block instead, where the calling one went elsewhere itself: a call or a return after its move. */
  readonly back: number | null;
  /** The O, N or sub block that was called. */
  readonly start: number;
  /** The called block itself runs too (a call of a sequence number). */
  readonly inclusive: boolean;
  /** Runs still to do after this one. */
  readonly left: number;
  /** Why nobody knows how many runs there are, of which two are made; empty where it is known. */
  readonly open: string;
  readonly parent: Frame | null;
  readonly depth: number;
  /** Macro calls among them. */
  readonly macros: number;
  /** Local variables of the caller, to be put back; null: the caller's are the callee's. */
  readonly locals: SavedLocals | null;
  /** What the callee's locals begin with; null: the caller's go on. */
  readonly args: ReadonlyMap<number, number | null> | null;
  /** Counters of the caller's repeat loops. */
  readonly counters: Counters;
  /** Calling blocks, outermost first, this call last. */
  readonly calls: readonly number[];
  /** What was in force when it was called. */
  readonly entry: ModalRow;
}

/** Structured `repeat` loops under way: block → runs left. */
export type Counters = ReadonlyMap<number, number>;

export interface SavedLocals {
  readonly values: ReadonlyMap<number, number | null>;
  readonly whys: ReadonlyMap<number, string>;
  readonly named: ReadonlyMap<string, number | null>;
}

export const NO_CALLS: readonly number[] = [];
export const NO_COUNTERS: Counters = new Map();

/** A macro that runs after each move, wherever it stands but in the macro itself (G66). */
export interface EachMove {
  readonly program: number;
  readonly args: ReadonlyMap<number, number | null>;
  readonly depth: number;
}

export function sameFrames(a: Frame | null, b: Frame | null): boolean {
  let p = a;
  let q = b;
  while (p !== q) {
    if (p === null || q === null) return false;
    if (p.kind !== q.kind || p.call !== q.call || p.start !== q.start || p.left !== q.left) return false;
    if (p.back !== q.back || p.open !== q.open || p.inclusive !== q.inclusive || p.depth !== q.depth) return false;
    if (!sameLocals(p.locals, q.locals) || !sameMap(p.counters, q.counters)) return false;
    p = p.parent;
    q = q.parent;
  }
  return true;
}

function sameLocals(a: SavedLocals | null, b: SavedLocals | null): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  return sameMap(a.values, b.values) && sameMap(a.whys, b.whys) && sameMap(a.named, b.named);
}

export function sameMap<K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [key, value] of a) if (!b.has(key) || !Object.is(b.get(key), value)) return false;
  return true;
}

export function sameEach(a: EachMove | null, b: EachMove | null): boolean {
  if (a === b) return true;
  return a !== null && b !== null && a.program === b.program && a.depth === b.depth && sameMap(a.args, b.args);
}
