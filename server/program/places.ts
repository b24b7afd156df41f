/**
 * Work offsets, shifts and length offsets: how a position in one coordinate system reads in the next. Offsets that are
 * not declared are unknown (NaN), and a position that depends on one is unknown until the next absolute move.
 */
import { gName } from "./codes.ts";
import { cycleAxes } from "./drill-axes.ts";
import { sameMap } from "./frames.ts";
import { moveRapid, target } from "./motion.ts";
import { AXIS_NAMES, type Run } from "./run.ts";
import { noTransform, sameTransforms, type TransformState } from "./transform.ts";
import { underTransform } from "./transform-codes.ts";
import { absolute } from "./transform-words.ts";
import { axisDoubt, UNSURE, unsure } from "./unsure.ts";
import { bit, L, letterName, P, R, S, X, XYZ, Y, Z } from "./words.ts";

type Triple = [number, number, number];

export interface Places extends TransformState {
  readonly offsets: Map<string, Triple>;
  /**
   * Work system → axes (bits) whose offset the program itself set, from machine zero; those of the setup tell only how the
   * systems stand to each other.
   */
  readonly fromMachine: Map<string, number>;
  /** Work system → `lost` when its offset became unknown: two origins that are not known are not one. */
  readonly lostAt: Map<string, number>;
  /** G92 shift in force: what to add to a program coordinate to have it without the shift. */
  g92: Triple;
  /** G92.2 keeps it for G92.3. */
  g92Kept: Triple;
  g52: Triple;
  /** Shift of all work systems (G10 L2 P0); NaN as long as the program has not set it. */
  common: Triple;
  /** Counts the moments at which a shift became unknown: places after one do not compare with those before it. */
  lost: number;
  /** H → length in mm, as far as the program itself sets it. */
  readonly lengths: Map<number, number>;
  /** Length in force, mm; NaN unknown. */
  length: number;
  /** Counts every change, so that others may keep what they worked out from this. */
  version: number;
}

export function newPlaces(): Places {
  return {
    offsets: new Map(),
    fromMachine: new Map(),
    lostAt: new Map(),
    g92: [0, 0, 0],
    g92Kept: [0, 0, 0],
    g52: [0, 0, 0],
    common: [Number.NaN, Number.NaN, Number.NaN],
    lost: 0,
    lengths: new Map(),
    length: 0,
    ...noTransform(),
    version: 0,
  };
}

export function copyPlaces(places: Places): Places {
  const offsets = new Map<string, Triple>();
  for (const [name, [x, y, z]] of places.offsets) offsets.set(name, [x, y, z]);
  return {
    ...places,
    offsets,
    fromMachine: new Map(places.fromMachine),
    lostAt: new Map(places.lostAt),
    g92: [...places.g92],
    g92Kept: [...places.g92Kept],
    g52: [...places.g52],
    common: [...places.common],
    lengths: new Map(places.lengths),
  };
}

/** Whether two tell the same of every position; how often they changed is of no matter. */
export function samePlaces(a: Places, b: Places): boolean {
  const same = (p: Triple, q: Triple): boolean => p.every((value, axis) => Object.is(value, q[axis]));
  if (!same(a.g92, b.g92) || !same(a.g92Kept, b.g92Kept) || !same(a.g52, b.g52)) return false;
  if (!same(a.common, b.common) || a.lost !== b.lost) return false;
  if (!Object.is(a.length, b.length) || !sameTransforms(a, b)) return false;
  if (!sameMap(a.fromMachine, b.fromMachine) || !sameMap(a.lostAt, b.lostAt)) return false;
  if (a.offsets.size !== b.offsets.size || !sameMap(a.lengths, b.lengths)) return false;
  for (const [name, offset] of a.offsets) {
    const other = b.offsets.get(name);
    if (other === undefined || !same(offset, other)) return false;
  }
  return true;
}

const AXIS_LETTERS = [X, Y, Z] as const;
const NOWHERE: Triple = [Number.NaN, Number.NaN, Number.NaN];

function shiftReading(run: Run, axis: number, before: number, after: number, why: string): void {
  if (before === after) return;
  run.places.written = null;
  const now = (run.pos[axis] ?? Number.NaN) + before - after;
  if (Number.isNaN(now) && !Number.isNaN(run.pos[axis] ?? Number.NaN)) run.why[axis as 0 | 1 | 2] = why;
  run.pos[axis] = now;
  // The level before a cycle run is a height of the machine: it reads anew like the position.
  if (axis === cycleAxes(run, run.row.cycle)[0]) run.cycle.initial += before - after;
}

/** Stands for the number of a further work system that cannot be known: it may be another each time. */
export const UNKNOWN_SYSTEM = "?";
export const isUnknownSystem = (name: string): boolean => name.endsWith(UNKNOWN_SYSTEM);

export function switchWcs(run: Run, name: string): void {
  if (isUnknownSystem(name)) run.places.lost++;
  const before = run.places.offsets.get(run.row.wcs);
  const after = run.places.offsets.get(name);
  for (let axis = 0; axis < 3; axis++) {
    if (before === undefined || after === undefined) {
      run.pos[axis] = Number.NaN;
      run.places.written = null;
      run.why[axis as 0 | 1 | 2] = `the offset between ${run.row.wcs} and ${name} is not declared`;
      if (axis === cycleAxes(run, run.row.cycle)[0]) run.cycle.initial = Number.NaN;
    } else {
      const why = `the offset between ${run.row.wcs} and ${name} is not declared`;
      shiftReading(run, axis, before[axis] ?? 0, after[axis] ?? 0, why);
    }
  }
  run.places.version++;
}

/** G92 X…: the point where the tool stands gets these coordinates. */
export function setPosition(run: Run, item: number): void {
  const { words, places } = run;
  if ((words.mask & (bit(X) | bit(Y) | bit(Z))) === 0) {
    // On some controls G92 S sets the highest speed.
    if (words.has(S) && run.dialect.unusedWords === "ignore") return;
    run.remark(
      "g92-axes",
      "error",
      item,
      "G92 needs at least one of X, Y and Z. Way out: write the coordinates this point is to have",
    );
    return;
  }
  underTransform(run, "G92", item);
  absolute(run, words.mask & XYZ, reading);
  for (let axis = 0; axis < 3; axis++) {
    const before = run.pos[axis] ?? Number.NaN;
    const after = reading[axis] ?? Number.NaN;
    if (Object.is(before, after) && !words.has(X + axis)) continue;
    places.g92[axis] = (places.g92[axis] ?? 0) + before - after;
    if (Number.isNaN(places.g92[axis])) places.lost++;
    run.pos[axis] = after;
  }
  places.version++;
}

const reading = new Float64Array(3);

export function clearPosition(run: Run, code: number): void {
  const { places } = run;
  const next: Triple = code === 923 ? [...places.g92Kept] : [0, 0, 0];
  if (next.some(Number.isNaN)) places.lost++;
  if (code === 922) places.g92Kept = [...places.g92];
  if (code === 921) places.g92Kept = [0, 0, 0];
  for (let axis = 0; axis < 3; axis++)
    shiftReading(run, axis, places.g92[axis] ?? 0, next[axis] ?? 0, "the G92 shift is not known");
  // A cancelled shift is none, whether it was known or not; only the reading stays unknown.
  places.g92 = next;
  places.version++;
}

/** G52: a local shift on top of every work coordinate system. */
export function localShift(run: Run): void {
  const { words, places } = run;
  underTransform(run, "G52", words.gItemOf(520));
  AXIS_LETTERS.forEach((letter, axis) => {
    if (!words.has(letter)) return;
    const shift = run.length(letter);
    shiftReading(run, axis, places.g52[axis] ?? 0, shift, "the G52 shift is not known");
    places.g52[axis] = shift;
    if (Number.isNaN(shift)) places.lost++;
  });
  places.version++;
}

/** Work systems by their number in G10 L2. */
export const SYSTEMS = ["G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3"] as const;

export function writeOffsets(run: Run, item: number): void {
  const { words, dialect } = run;
  const strict = dialect.unknownCode === "error";
  const key = words.get(L);
  const p = words.get(P);
  if (key === 2 || (key === 20 && !strict)) {
    const limit = strict ? 9 : key === 2 ? 6 : 300;
    if (!Number.isInteger(p) || p < (strict || key === 20 ? 1 : 0) || p > limit) {
      run.remark("g10-p", "error", item, `G10 L${key} needs P for the coordinate system, 1 to ${limit}`);
      return;
    }
    if (p === 0) {
      commonShift(run);
      return;
    }
    writeOffset(run, key === 2 ? (SYSTEMS[p - 1] ?? "G54") : `G54.1 P${p}`);
    return;
  }
  if (!strict && key >= 10 && key <= 13) {
    if (key <= 11 && words.has(R) && Number.isInteger(p)) {
      const length = run.length(R);
      run.places.lengths.set(p, key === 10 ? length : Number.NaN);
      if (run.row.h === p && run.row.tlo !== 49) applyLength(run, run.places.lengths.get(p) ?? Number.NaN);
    }
    return;
  }
  if (!strict && key === 50) {
    run.dataInput = true;
    return;
  }
  const text = words.has(L)
    ? `G10 L${words.get(L)} is not known here: nothing was set`
    : "G10 has no L word that says what to set";
  run.remark("g10-l", strict ? "error" : "warning", item, text);
}

/** G10 L2 P0: a shift under every work system. */
function commonShift(run: Run): void {
  AXIS_LETTERS.forEach((letter, axis) => {
    if (run.words.has(letter)) setCommon(run, axis, written(run, letter, run.places.common[axis] ?? Number.NaN));
  });
}

export function setCommon(run: Run, axis: number, after: number): void {
  const { places } = run;
  const before = places.common[axis] ?? Number.NaN;
  shiftReading(run, axis, before, after, "a shift moved every work coordinate system");
  places.common[axis] = after;
  if (Number.isNaN(after)) places.lost++;
  places.version++;
}

function writeOffset(run: Run, name: string): void {
  const { words, places, row } = run;
  AXIS_LETTERS.forEach((letter, axis) => {
    if (!words.has(letter)) return;
    const before = places.offsets.get(name)?.[axis] ?? Number.NaN;
    setOffset(
      run,
      name,
      axis,
      written(run, letter, before),
      row.distance === 90 || run.dialect.unknownCode === "error",
    );
  });
}

/** What G10 makes of an offset: in G91 it adds, but for the strict language. */
function written(run: Run, letter: number, before: number): number {
  if (unsure(run.row, UNSURE.distance)) return Number.NaN;
  const value = run.length(letter);
  return run.row.distance === 91 && run.dialect.unknownCode !== "error" ? before + value : value;
}

/** @param machine whether the value counts from machine zero; else it does where the one before it did */
export function setOffset(run: Run, name: string, axis: number, after: number, machine: boolean): void {
  const { places } = run;
  const offset: Triple = [...(places.offsets.get(name) ?? NOWHERE)];
  const before = offset[axis] ?? Number.NaN;
  if (name === run.row.wcs) {
    const why = Number.isNaN(after)
      ? `the offset ${name} has a value that is not known`
      : `the offset ${name} was not known before`;
    shiftReading(run, axis, before, after, why);
  }
  offset[axis] = after;
  places.offsets.set(name, offset);
  if (machine) places.fromMachine.set(name, (places.fromMachine.get(name) ?? 0) | (1 << axis));
  if (Number.isNaN(after)) places.lostAt.set(name, ++places.lost);
  places.version++;
}

/** Another tool length in force: the reading of Z changes, nothing moves. */
export function applyLength(run: Run, length: number): void {
  shiftReading(run, 2, run.places.length, length, "the tool length is not known to the program");
  run.places.length = length;
  run.places.version++;
}

/** G28 and G30: to the programmed point, then home. Home is known to the machine only. */
export function goHome(run: Run, code: number, item: number): void {
  const { words, dialect, row } = run;
  const named = (words.mask & (bit(X) | bit(Y) | bit(Z))) !== 0;
  const anyAxis = named || (words.mask & 0b111) !== 0;
  if (!anyAxis && dialect.g28Bare !== "all-axes") {
    if (dialect.g28Bare === "error")
      run.remark(
        "g28-bare",
        "warning",
        item,
        `${gName(code)} names no axis: this dialect needs the axes that go home. Way out: G91 before it and Z0, X0 Y0`,
      );
    return;
  }
  if (named) {
    target(run, reading);
    const [x, y, z] = reading;
    AXIS_LETTERS.forEach((letter, axis) => {
      if (!words.has(letter)) return;
      const value = run.length(letter);
      const straight = row.distance === 91 || axisDoubt(row) !== "" || (words.relative & bit(letter)) !== 0;
      if (!straight && axis === 2 && value <= dialect.stockTop)
        run.remark(
          "g28-absolute",
          "warning",
          words.itemOf(letter),
          `${gName(code)} in G90 goes to ${AXIS_NAMES[axis]}${words.get(letter)} of the program first, which is at or below the ` +
            "surface. Way out: G91 before it goes straight home",
        );
    });
    moveRapid(run, x, y, z, true);
  }
  run.places.written = null;
  const home: Triple = [run.pos[0] ?? Number.NaN, run.pos[1] ?? Number.NaN, run.pos[2] ?? Number.NaN];
  AXIS_LETTERS.forEach((letter, axis) => {
    if (dialect.g28Axes === "named-only" && anyAxis && !words.has(letter)) return;
    home[axis] = Number.NaN;
    run.why[axis as 0 | 1 | 2] = "the machine's home position is not known to the program";
  });
  moveRapid(run, home[0], home[1], home[2], true);
}

/** G53: one move in machine coordinates. */
export function machineMove(run: Run, item: number): void {
  const { words, row, places, dialect } = run;
  if (row.motion !== 0 && row.motion !== 1 && !unsure(row, UNSURE.motion)) {
    run.remark("g53-motion", "error", item, "G53 needs G0 or G1 in force. Way out: G0 in this block");
    return;
  }
  if (row.distance === 91 && !unsure(row, UNSURE.distance)) {
    if (dialect.g53InG91 === "error") {
      run.remark(
        "g53-g91",
        "error",
        item,
        "G53 must not stand in G91: machine coordinates are absolute. Way out: G90 in this block",
      );
      return;
    }
    run.remark("g53-g91", "info", item, "G53 is read as an absolute machine position although G91 is in force", 1);
  }
  const to: Triple = [run.pos[0] ?? Number.NaN, run.pos[1] ?? Number.NaN, run.pos[2] ?? Number.NaN];
  AXIS_LETTERS.forEach((letter, axis) => {
    if (!words.has(letter)) return;
    // Without the tool's length it is the spindle's nose that goes there.
    const length = axis === 2 && dialect.g53AndTlo === "ignores-tlo" ? places.length : 0;
    const common = places.common[axis] ?? Number.NaN;
    const shift = (places.g92[axis] ?? 0) + (places.g52[axis] ?? 0) + (Number.isNaN(common) ? 0 : common);
    const offset = machineOffset(places, row.wcs, axis);
    to[axis] = run.length(letter) - offset - shift - length;
    if (Number.isNaN(to[axis])) run.why[axis as 0 | 1 | 2] = unknownMachine(run, letter, offset, length);
  });
  places.written = null;
  moveRapid(run, to[0], to[1], to[2], true, row.motion === 1 ? "feed" : "rapid");
}

/** Offset of a work system from machine zero; NaN where the program did not set it. */
export function machineOffset(places: Places, name: string, axis: number): number {
  const told = ((places.fromMachine.get(name) ?? 0) & (1 << axis)) !== 0;
  return told ? (places.offsets.get(name)?.[axis] ?? Number.NaN) : Number.NaN;
}

function unknownMachine(run: Run, letter: number, offset: number, length: number): string {
  if ((run.words.unknown & bit(letter)) !== 0) return `${letterName(letter)} has a value that cannot be known`;
  if (Number.isNaN(offset)) return `where ${run.row.wcs} lies from machine zero is not known to the program`;
  return Number.isNaN(length) ? "the tool length is not known to the program" : "a shift in force is not known";
}
