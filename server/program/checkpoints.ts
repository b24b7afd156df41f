/**
 * Moments of a run that are kept every so many lines. Between two of them lies a stretch; after an edit, a stretch whose
 * lines are as before is taken over from the execution before when the run comes to its beginning in the same state.
 */
import type { CycleMemory } from "./cycle-data.ts";
import { newPlanCache } from "./cycles.ts";
import { Evaluator, type Variables } from "./evaluate.ts";
import type { EventMark } from "./events.ts";
import type { HoleMark } from "./holes.ts";
import type { LongHandMark } from "./long-hand.ts";
import { type ModalRow, sameRow } from "./modal.ts";
import type { NotedMark } from "./notes.ts";
import type { OperationMark } from "./operations.ts";
import { copyPlaces, type Places, samePlaces } from "./places.ts";
import type { Recorder, Run } from "./run.ts";

export const CHECKPOINT_LINES = 512;

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
  "insideSub",
  "dataInput",
] as const;
type Flags = Pick<Run, (typeof FLAGS)[number]>;

/** All that decides what the next block does. */
interface State {
  readonly row: ModalRow;
  readonly feedByMode: Float64Array;
  readonly pos: Float64Array;
  readonly rotary: Float64Array;
  readonly why: readonly [string, string, string];
  readonly places: Places;
  readonly cycle: CycleMemory;
  readonly flags: Flags;
  readonly executed: number;
  readonly variables: Variables;
  /** Words that rule the values. */
  readonly ruling: Float64Array;
  readonly longHand: LongHandMark;
  readonly noted: NotedMark;
}

/** How far the columns had grown. */
export interface Marks {
  readonly step: number;
  readonly holes: HoleMark;
  readonly operations: OperationMark;
  readonly events: EventMark;
}

export interface Checkpoint {
  /** The block to run next; −1 after the last. */
  readonly block: number;
  /** Its line when the point was taken. */
  readonly line: number;
  readonly state: State;
  readonly marks: Marks;
}

export function takeCheckpoint(run: Run, record: Recorder, block: number, line: number): Checkpoint {
  return { block, line, state: stateOf(run, record), marks: marksOf(run, record) };
}

/** A point of an earlier execution whose state holds here too. */
export function pointAgain(point: Checkpoint, run: Run, record: Recorder, line: number): Checkpoint {
  return { block: point.block, line, state: point.state, marks: marksOf(run, record) };
}

function marksOf(run: Run, record: Recorder): Marks {
  return {
    step: run.step,
    holes: record.holes.mark(),
    operations: record.operations.mark(),
    events: record.events.mark(),
  };
}

function stateOf(run: Run, record: Recorder): State {
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
    ruling: run.store.ruling(),
    longHand: record.longHand.mark(),
    noted: record.noted.mark(),
  };
}

/** Whether the run stands as it stood at the point, so that the same blocks do the same from here. */
export function standsAt(run: Run, record: Recorder, point: Checkpoint): boolean {
  const { state } = point;
  return (
    sameNumbers(run.pos, state.pos) &&
    sameRow(run.row, state.row) &&
    sameNumbers(run.store.ruling(), state.ruling) &&
    sameCycle(run.cycle, state.cycle) &&
    FLAGS.every((name) => run[name] === state.flags[name]) &&
    run.executed > 0 === state.executed > 0 &&
    sameNumbers(run.feedByMode, state.feedByMode) &&
    sameNumbers(run.rotary, state.rotary) &&
    run.why.every((why, axis) => why === state.why[axis]) &&
    record.longHand.standsAs(state.longHand) &&
    record.operations.standsAs(point.marks.operations) &&
    record.noted.standsAs(state.noted) &&
    samePlaces(run.places, state.places) &&
    run.variables.same(state.variables)
  );
}

/** Puts the run where it stood at the point; the columns stay as they are. */
export function restore(run: Run, record: Recorder, point: Checkpoint): void {
  const { state } = point;
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
  // What was kept of the block before is of another place of the program.
  run.plans = newPlanCache();
  record.holes.forget();
  record.longHand.restore(state.longHand);
  record.noted.restore(state.noted);
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}

function sameCycle(a: CycleMemory, b: CycleMemory): boolean {
  for (const key in a) {
    if (key !== "version" && !Object.is(a[key as keyof CycleMemory], b[key as keyof CycleMemory])) return false;
  }
  return true;
}
