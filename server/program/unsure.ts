/**
 * Modes that are not known: ways that differ in them have met, or a code whose value is not known may have set them. What
 * hangs on one is unknown with the reason until a code sets it anew.
 */
import type { ModalRow } from "./modal.ts";
import type { Run } from "./run.ts";

export const UNSURE = {
  motion: 1,
  cycle: 2,
  plane: 4,
  distance: 8,
  feedMode: 16,
  units: 32,
  returnMode: 64,
  wcs: 128,
  comp: 256,
  lengthOffset: 512,
  speedMode: 1024,
  spindle: 2048,
  coolant: 4096,
  tool: 8192,
  staged: 16384,
} as const;
export type UnsureMode = keyof typeof UNSURE;

/** For a work system that is not known, see UNKNOWN_SYSTEM. */
export const NO_SYSTEM = "G?";

/** Whether one of these modes is not known. */
export const unsure = (row: ModalRow, bits: number): boolean => (row.unsure & bits) !== 0;

/** Why a length word of the block gives no position; empty where it does. */
export function axisDoubt(row: ModalRow): string {
  return unsure(row, UNSURE.distance | UNSURE.units) ? row.unsureWhy : "";
}

export function doubt(row: ModalRow, bits: number, why: string): void {
  if (bits === 0) return;
  if (row.unsure === 0) row.unsureWhy = why;
  row.unsure |= bits;
}

/** A code has set these modes. */
export function settled(run: Run, bits: number): void {
  const { row } = run;
  if ((row.unsure & bits) === 0) return;
  row.unsure &= ~bits;
  if (row.unsure === 0) row.unsureWhy = "";
  run.dirty = true;
  run.cycle.version++;
}

const NAMES = Object.keys(UNSURE) as UnsureMode[];
const named = new Map<number, readonly UnsureMode[]>();

export function unsureModes(bits: number): readonly UnsureMode[] {
  let names = named.get(bits);
  if (names === undefined) {
    names = NAMES.filter((name) => (bits & UNSURE[name]) !== 0);
    named.set(bits, names);
  }
  return names;
}
