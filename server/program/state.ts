/** All that decides what the next block does: kept at a moment, compared, put back, and joined with another. */
import type { CycleMemory } from "./cycle-data.ts";
import { newPlanCache } from "./cycles.ts";
import { Evaluator, type Variables } from "./evaluate.ts";
import { type Counters, type EachMove, type Frame, sameEach, sameFrames, sameMap } from "./frames.ts";
import { type ModalRow, sameRow } from "./modal.ts";
import { copyPlaces, type Places, samePlaces } from "./places.ts";
import type { Run } from "./run.ts";
import { joinTransforms } from "./transform.ts";

const FLAGS = [
  "afterG80",
  "rigid",
  "lengthOwed",
  "polar",
  "percents",
  "opened",
  "closed",
  "ended",
  "sawEnd",
  "staged",
  "stagedRef",
  "dataInput",
  "undeclared",
] as const;
type Flags = Pick<Run, (typeof FLAGS)[number]>;

export interface State {
  readonly row: ModalRow;
  readonly feedByMode: Float64Array;
  readonly pos: Float64Array;
  readonly rotary: Float64Array;
  readonly why: [string, string, string];
  readonly places: Places;
  readonly cycle: CycleMemory;
  readonly flags: Flags;
  readonly executed: number;
  readonly variables: Variables;
  readonly frame: Frame | null;
  counters: Counters;
  readonly each: EachMove | null;
  readonly jumped: number;
  readonly at: number;
}

export function stateOf(run: Run): State {
  return {
    row: { ...run.row },
    feedByMode: run.feedByMode.slice(),
    pos: run.pos.slice(),
    rotary: run.rotary.slice(),
    why: [...run.why],
    places: copyPlaces(run.places),
    cycle: { ...run.cycle },
    flags: Object.fromEntries(FLAGS.map((name) => [name, run[name]])) as unknown as Flags,
    executed: run.executed,
    variables: run.variables.copy(),
    frame: run.frame,
    counters: run.counters,
    each: run.each,
    jumped: run.jumped,
    at: run.at,
  };
}

export function sameState(run: Run, state: State): boolean {
  return (
    sameNumbers(run.pos, state.pos) &&
    sameRow(run.row, state.row) &&
    sameFrames(run.frame, state.frame) &&
    sameCycle(run.cycle, state.cycle) &&
    FLAGS.every((name) => run[name] === state.flags[name]) &&
    run.executed > 0 === state.executed > 0 &&
    sameNumbers(run.feedByMode, state.feedByMode) &&
    sameNumbers(run.rotary, state.rotary) &&
    run.why.every((why, axis) => why === state.why[axis]) &&
    sameMap(run.counters, state.counters) &&
    sameEach(run.each, state.each) &&
    samePlaces(run.places, state.places) &&
    run.variables.same(state.variables)
  );
}

/** Puts the run where it stood; what was recorded stays. */
export function restoreState(run: Run, state: State): void {
  run.row = { ...state.row };
  run.dirty = true;
  run.feedByMode.set(state.feedByMode);
  run.pos.set(state.pos);
  run.rotary.set(state.rotary);
  state.why.forEach((text, axis) => {
    run.why[axis as 0 | 1 | 2] = text;
  });
  run.places = copyPlaces(state.places);
  run.cycle = { ...state.cycle };
  Object.assign(run, state.flags);
  run.executed = Math.max(run.executed, state.executed);
  run.variables = state.variables.copy();
  run.evaluator = new Evaluator(run.dialect, run.variables);
  run.linkSystem();
  run.enter(state.frame);
  run.counters = state.counters;
  run.each = state.each;
  run.jumped = state.jumped;
  run.at = state.at;
  forgetLast(run);
}

/** What was kept of the block before means nothing where the run goes on elsewhere. */
function forgetLast(run: Run): void {
  run.plans = newPlanCache();
  run.record?.holes.forget();
}

/**
 * Makes what differs between the run and another way to the same block unknown. What cannot be unknown stays as it is
 * here, and is named.
 * @returns names of the modes that differ
 */
export function joinState(run: Run, other: State, why: string): readonly string[] {
  run.record?.longHand.commit(run);
  const differs = joinInto(run, other, why);
  run.dirty = true;
  forgetLast(run);
  return differs;
}

/** What two ways may differ in. */
type Joinable = Pick<
  State,
  "row" | "feedByMode" | "pos" | "rotary" | "why" | "places" | "cycle" | "variables" | "counters"
>;

/** As `joinState`, of ways of which one or both wait. */
export function joinInto(own: Joinable, other: Joinable, why: string): readonly string[] {
  const differs: string[] = [];
  const { row } = own;
  const theirs = other.row;
  for (let axis = 0; axis < 3; axis++) {
    if (!Object.is(own.pos[axis], other.pos[axis])) {
      own.pos[axis] = Number.NaN;
      own.why[axis as 0 | 1 | 2] = why;
    }
    if (!Object.is(own.rotary[axis], other.rotary[axis])) own.rotary[axis] = Number.NaN;
  }
  for (const name of ["s", "f", "h", "clamp"] as const) {
    if (Object.is(row[name], theirs[name])) continue;
    row[name] = Number.NaN;
    if (name === "s") row.sWhy = why;
    if (name === "f") row.fWhy = why;
  }
  if (row.tool !== theirs.tool) {
    row.tool = -1;
    differs.push("the tool");
  }
  if (row.staged !== theirs.staged) row.staged = -1;
  if (row.returnMode !== theirs.returnMode) row.returnMode = 0;
  if (row.spindle !== theirs.spindle) {
    // Off on one of two ways: what drills after it may meet a spindle that stands.
    row.spindle = row.spindle === 0 || theirs.spindle === 0 ? 0 : row.spindle;
    differs.push("the spindle");
  }
  if (row.coolant !== theirs.coolant) {
    const both = theirs.coolant.split(" ");
    row.coolant = row.coolant
      .split(" ")
      .filter((code) => both.includes(code))
      .join(" ");
    differs.push("the coolant");
  }
  for (const [name, what] of MODES) if (row[name] !== theirs[name]) differs.push(what);
  if (row.cycle !== theirs.cycle) differs.push("the cycle in force");
  for (const name of ["r", "z", "q", "p", "initial"] as const)
    if (!Object.is(own.cycle[name], other.cycle[name])) own.cycle[name] = Number.NaN;
  own.cycle.version++;
  own.feedByMode.forEach((value, i) => {
    if (!Object.is(value, other.feedByMode[i])) own.feedByMode[i] = Number.NaN;
  });
  joinPlaces(own.places, other.places);
  own.variables.join(other.variables, why);
  own.counters = joinCounters(own.counters, other.counters);
  return differs;
}

/** A repeat loop that one of the ways is in goes on, as often as either would. */
function joinCounters(a: Counters, b: Counters): Counters {
  if (sameMap(a, b)) return a;
  const both = new Map(a);
  for (const [block, left] of b) both.set(block, Math.max(left, both.get(block) ?? left));
  return both;
}

const MODES = [
  ["plane", "the plane"],
  ["distance", "G90 or G91"],
  ["feedMode", "the feed mode"],
  ["units", "the units"],
  ["wcs", "the work coordinate system"],
  ["comp", "cutter compensation"],
  ["tlo", "the length offset"],
  ["speedMode", "G96 or G97"],
  ["live", "driven tools or work"],
] as const;

function joinPlaces(places: Places, other: Places): void {
  for (const name of ["g92", "g92Kept", "g52", "common"] as const)
    places[name].forEach((value, axis) => {
      if (Object.is(value, other[name][axis])) return;
      places[name][axis] = Number.NaN;
      places.lost = Math.max(places.lost, other.lost) + 1;
    });
  joinTransforms(places, other);
  if (!Object.is(places.length, other.length)) places.length = Number.NaN;
  for (const [name, offset] of places.offsets) {
    const theirs = other.offsets.get(name);
    offset.forEach((value, axis) => {
      if (!Object.is(value, theirs?.[axis])) offset[axis] = Number.NaN;
    });
  }
  for (const [h, length] of places.lengths)
    if (!Object.is(length, other.lengths.get(h))) places.lengths.set(h, Number.NaN);
  places.version++;
}

export function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}

function sameCycle(a: CycleMemory, b: CycleMemory): boolean {
  for (const key in a) {
    if (key !== "version" && !Object.is(a[key as keyof CycleMemory], b[key as keyof CycleMemory])) return false;
  }
  return true;
}
