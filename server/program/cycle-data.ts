/** What a cycle keeps from block to block. */
import type { Run } from "./run.ts";
import { settled, UNSURE } from "./unsure.ts";

export interface CycleMemory {
  /** In mm: the number as written (dialect `stickyKind` number) or the position it gave. NaN: given, but unknown. */
  r: number;
  z: number;
  /** Why the word of R, and that of the depth, have no value that is known; empty where they have. */
  rWhy: string;
  zWhy: string;
  q: number;
  /** s */
  p: number;
  /** Shift of G76 and G87, and the level K of the NIST back bore. */
  i: number;
  j: number;
  k: number;
  /** Retract between the pecks of G74; NaN: that of the dialect. mm */
  back: number;
  hasR: boolean;
  hasZ: boolean;
  hasQ: boolean;
  hasP: boolean;
  hasShift: boolean;
  /** Code that the values were given with. */
  givenWith: number;
  /** Height along the drill axis before the run; NaN unknown. */
  initial: number;
  /** Letters that were written with a value that cannot be read, since the run began. */
  broken: number;
  /** A run is on. */
  running: boolean;
  /** Distance mode of the last block of the run that gave R or Z. */
  distance: number;
  /** Counts whatever changes how the next hole is drilled. */
  version: number;
}

export function newCycleMemory(): CycleMemory {
  return {
    r: Number.NaN,
    z: Number.NaN,
    rWhy: "",
    zWhy: "",
    q: Number.NaN,
    p: 0,
    i: 0,
    j: 0,
    k: Number.NaN,
    back: Number.NaN,
    hasR: false,
    hasZ: false,
    hasQ: false,
    hasP: false,
    hasShift: false,
    givenWith: 0,
    initial: Number.NaN,
    broken: 0,
    running: false,
    distance: 90,
    version: 0,
  };
}

/** Forgets the sticky values, as leaving the cycle does. */
export function forgetCycle(memory: CycleMemory): void {
  memory.hasR = false;
  memory.hasZ = false;
  memory.hasQ = false;
  memory.hasP = false;
  memory.hasShift = false;
  memory.p = 0;
  memory.k = Number.NaN;
  memory.running = false;
  memory.broken = 0;
  memory.version++;
}

/** Leaves the cycle in force, if any. */
export function cancelCycle(run: Run): void {
  forgetCycle(run.cycle);
  settled(run, UNSURE.cycle);
  if (run.row.cycle === 0) return;
  run.row.cycle = 0;
  run.dirty = true;
  run.record?.noted.runEnds();
}
