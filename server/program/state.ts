/** All that decides what the next block does: kept at a moment, compared, put back, and joined with another. */
import type { CycleMemory } from "./cycle-data.ts";
import { newPlanCache } from "./cycles.ts";
import { Evaluator, type Variables } from "./evaluate.ts";
import { type Counters, type EachMove, type Frame, sameEach, sameFrames, sameMap } from "./frames.ts";
import { type ModalRow, sameRow } from "./modal.ts";
import { copyPlaces, type Places, samePlaces } from "./places.ts";
import type { Run } from "./run.ts";
import { joinTransforms } from "./transform.ts";
import { doubt, NO_SYSTEM, UNSURE } from "./unsure.ts";

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
/** The flags of a run are its own, those of a state that is kept are in it. */
type Flagged = Flags | { readonly flags: Flags };
const flagsOf = (of: Flagged): Flags => ("flags" in of ? of.flags : of);

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
  each: EachMove | null;
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
 * Makes what differs between the run and another way to the same block unknown.
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
  "row" | "feedByMode" | "pos" | "rotary" | "why" | "places" | "cycle" | "variables" | "counters" | "each"
>;

/** As `joinState`, of ways of which one or both wait. */
export function joinInto(own: Joinable & Flagged, other: Joinable & Flagged, why: string): readonly string[] {
  const differs: string[] = [];
  const { row } = own;
  for (let axis = 0; axis < 3; axis++) {
    if (!Object.is(own.pos[axis], other.pos[axis])) loseAxis(own, axis, why);
    if (!Object.is(own.rotary[axis], other.rotary[axis])) own.rotary[axis] = Number.NaN;
  }
  joinModes(own, other.row, why, differs);
  if (joinFlags(flagsOf(own), flagsOf(other))) {
    differs.push("rigid tapping");
    doubt(row, UNSURE.spindle, why);
  }
  joinCycle(own.cycle, other.cycle, why);
  own.feedByMode.forEach((value, i) => {
    if (!Object.is(value, other.feedByMode[i])) own.feedByMode[i] = Number.NaN;
  });
  joinPlaces(own.places, other.places);
  own.variables.join(other.variables, why);
  own.counters = joinCounters(own.counters, other.counters);
  if (!sameEach(own.each, other.each)) {
    own.each = null;
    differs.push("G66");
  }
  return differs;
}

function loseAxis(own: Joinable, axis: number, why: string): void {
  own.pos[axis] = Number.NaN;
  own.why[axis as 0 | 1 | 2] = why;
}

function joinModes(own: Joinable, theirs: ModalRow, why: string, differs: string[]): void {
  const { row } = own;
  for (const name of ["s", "f", "h", "clamp"] as const) {
    if (Object.is(row[name], theirs[name])) continue;
    row[name] = Number.NaN;
    if (name === "s") row.sWhy = why;
    if (name === "f") row.fWhy = why;
  }
  if (row.sWhy !== theirs.sWhy && Number.isNaN(row.s)) row.sWhy = row.sWhy === "" ? theirs.sWhy : row.sWhy;
  if (row.fWhy !== theirs.fWhy && Number.isNaN(row.f)) row.fWhy = row.fWhy === "" ? theirs.fWhy : row.fWhy;
  let bits = 0;
  for (const [name, mode, what] of MODES) {
    const bit = UNSURE[mode];
    if (row[name] === theirs[name] || (row.unsure & theirs.unsure & bit) !== 0) continue;
    bits |= bit;
    if (what !== "") differs.push(what);
  }
  if ((bits & UNSURE.spindle) !== 0 && theirs.spindle === 0) row.spindle = 0;
  if ((bits & UNSURE.coolant) !== 0) {
    const both = theirs.coolant.split(" ");
    row.coolant = row.coolant
      .split(" ")
      .filter((code) => both.includes(code))
      .join(" ");
  }
  if ((bits & UNSURE.wcs) !== 0) {
    row.wcs = NO_SYSTEM;
    own.places.lost++;
    for (let axis = 0; axis < 3; axis++) loseAxis(own, axis, why);
  }
  if ((bits & UNSURE.units) !== 0) for (let axis = 0; axis < 3; axis++) loseAxis(own, axis, why);
  if ((bits & UNSURE.motion) !== 0) row.motion = -1;
  if ((bits & UNSURE.cycle) !== 0) row.cycle = 0;
  if ((bits & UNSURE.comp) !== 0) row.comp = 40;
  if ((bits & UNSURE.returnMode) !== 0) row.returnMode = 0;
  if ((bits & UNSURE.tool) !== 0) row.tool = -1;
  if ((bits & UNSURE.staged) !== 0) row.staged = -1;
  if (row.unsure === 0 && theirs.unsure !== 0) row.unsureWhy = theirs.unsureWhy;
  row.unsure |= theirs.unsure;
  doubt(row, bits, why);
}

/** @returns true where the spindle runs itself on one of the ways only */
function joinFlags(own: Flags, other: Flags): boolean {
  const rigid = own.rigid !== other.rigid;
  own.rigid &&= other.rigid;
  own.afterG80 &&= other.afterG80;
  own.lengthOwed &&= other.lengthOwed;
  own.dataInput &&= other.dataInput;
  own.staged ||= other.staged;
  own.undeclared |= other.undeclared;
  return rigid;
}

/** What one of the ways gave counts as given, with a value that is not known. */
function joinCycle(own: CycleMemory, other: CycleMemory, why: string): void {
  const { r, z } = own;
  for (const name of ["r", "z", "q", "p", "i", "j", "k", "back", "initial"] as const)
    if (!Object.is(own[name], other[name])) own[name] = Number.NaN;
  for (const [has, name] of [
    ["hasR", "r"],
    ["hasZ", "z"],
    ["hasQ", "q"],
    ["hasP", "p"],
    ["hasShift", "i"],
  ] as const) {
    if (own[has] === other[has]) continue;
    own[has] = true;
    own[name] = Number.NaN;
  }
  if (!Object.is(own.r, r)) own.rWhy = why;
  if (!Object.is(own.z, z)) own.zWhy = why;
  own.running &&= other.running;
  own.broken |= other.broken;
  own.version++;
}

/** A repeat loop that one of the ways is in goes on, as often as either would. */
function joinCounters(a: Counters, b: Counters): Counters {
  if (sameMap(a, b)) return a;
  const both = new Map(a);
  for (const [block, left] of b) both.set(block, Math.max(left, both.get(block) ?? left));
  return both;
}

const MODES = [
  ["motion", "motion", "the motion code"],
  ["cycle", "cycle", "the cycle in force"],
  ["plane", "plane", "the plane"],
  ["distance", "distance", "G90 or G91"],
  ["feedMode", "feedMode", "the feed mode"],
  ["units", "units", "the units"],
  ["returnMode", "returnMode", "G98 or G99"],
  ["wcs", "wcs", "the work coordinate system"],
  ["comp", "comp", "cutter compensation"],
  ["tlo", "lengthOffset", "the length offset"],
  ["speedMode", "speedMode", "G96 or G97"],
  ["live", "spindle", "driven tools or work"],
  ["tool", "tool", "the tool"],
  ["staged", "staged", ""],
  ["spindle", "spindle", "the spindle"],
  ["coolant", "coolant", "the coolant"],
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
  joinOffsets(places, other);
  for (const [h, length] of places.lengths)
    if (!Object.is(length, other.lengths.get(h))) places.lengths.set(h, Number.NaN);
  places.version++;
}

function joinOffsets(places: Places, other: Places): void {
  for (const name of new Set([...places.offsets.keys(), ...other.offsets.keys()])) {
    const own = places.offsets.get(name);
    const theirs = other.offsets.get(name);
    const same = own?.every((value, axis) => Object.is(value, theirs?.[axis])) ?? false;
    if (same && places.lostAt.get(name) === other.lostAt.get(name)) continue;
    const joined = [0, 1, 2].map((axis) =>
      Object.is(own?.[axis], theirs?.[axis]) ? (own?.[axis] ?? Number.NaN) : Number.NaN,
    );
    places.offsets.set(name, joined as [number, number, number]);
    places.lost = Math.max(places.lost, other.lost) + 1;
    places.lostAt.set(name, places.lost);
  }
  for (const [name, axes] of places.fromMachine)
    places.fromMachine.set(name, axes & (other.fromMachine.get(name) ?? 0));
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
