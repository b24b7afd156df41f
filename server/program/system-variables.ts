/**
 * System variables that the run itself knows: modes, F, S and T in force by #4001 to #4120 (numbers of the modal groups by
 * common practice, no source), and the offsets of the NIST language (NISTIR 6556 table 2).
 */
import { gName } from "./codes.ts";
import { unitFactor } from "./modal.ts";
import { readOffsetVariable } from "./offset-variables.ts";
import { isUnknownSystem } from "./places.ts";
import type { Run } from "./run.ts";
import { UNSURE, type UnsureMode } from "./unsure.ts";

/** A value; NaN: it is one of these, and not known here. Undefined: the run keeps no such variable. */
export function systemVariable(run: Run, index: number): number | undefined {
  if (run.dialect.assign === "parallel") return readOffsetVariable(run, index) ?? shift(run, index);
  const offset = readOffsetVariable(run, index);
  if (offset !== undefined) return offset;
  if (run.dialect.machineKind !== "mill" || index < 4001 || index > 4120) return undefined;
  const mode = MODES.get(index);
  if (mode === undefined) return undefined;
  const [name, read] = mode;
  return (run.row.unsure & UNSURE[name]) !== 0 ? Number.NaN : read(run);
}

const code = (value: number): number => (value < 0 ? Number.NaN : value);

const unitsCode = ({ row, dialect }: Run): number => {
  const [inch, mm] = dialect.unitsCodes === "G70/G71" ? [70, 71] : [20, 21];
  return row.units === 0 ? Number.NaN : row.units === 2 ? inch : mm;
};

const MODES = new Map<number, readonly [mode: UnsureMode, read: (run: Run) => number]>([
  [4001, ["motion", ({ row }) => code(row.motion)]],
  [4002, ["plane", ({ row }) => row.plane]],
  [4003, ["distance", ({ row }) => row.distance]],
  [4005, ["feedMode", ({ row }) => row.feedMode]],
  [4006, ["units", unitsCode]],
  [4007, ["comp", ({ row }) => row.comp]],
  [4008, ["lengthOffset", ({ row }) => row.tlo]],
  [4009, ["cycle", ({ row }) => (row.cycle === 0 ? 80 : row.cycle / 10)]],
  [4010, ["returnMode", ({ row }) => (row.returnMode === 0 ? Number.NaN : row.returnMode)]],
  // The work system is group 12 of some controls and 14 of others; the other meaning of 12 is nothing a program saves.
  [4012, ["wcs", workSystem]],
  [4013, ["speedMode", ({ row }) => row.speedMode]],
  [4014, ["wcs", workSystem]],
  [4109, ["feedMode", ({ row }) => row.f]],
  [4111, ["lengthOffset", ({ row }) => (row.tlo === 49 ? 0 : row.h)]],
  [4119, ["speedMode", ({ row }) => row.s]],
  [4120, ["staged", ({ row }) => code(row.staged >= 0 ? row.staged : row.tool)]],
]);

/** `54` from G54; a numbered system takes a P besides, so its code alone does not bring it back. */
function workSystem({ row }: Run): number {
  if (isUnknownSystem(row.wcs)) return Number.NaN;
  const number = Number(row.wcs.slice(1));
  return gName(number * 10) === row.wcs ? number : Number.NaN;
}

/** The shift of G92 in the NIST language. */
function shift({ places, row }: Run, index: number): number | undefined {
  return index >= 5211 && index <= 5213 ? (places.g92[index - 5211] ?? 0) / unitFactor(row.units) : undefined;
}
