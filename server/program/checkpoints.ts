/**
 * Moments of a run that are kept every so many blocks. Between two of them lies a stretch; after an edit, a stretch whose
 * lines are as before is taken over from the execution before when the run comes to its beginning in the same state.
 */
import type { EventMark } from "./events.ts";
import type { HoleMark } from "./holes.ts";
import type { LongHandMark } from "./long-hand.ts";
import type { NotedMark } from "./notes.ts";
import type { OperationMark } from "./operations.ts";
import type { Recorder, Run } from "./run.ts";
import { restoreState, type State, sameNumbers, sameState, stateOf } from "./state.ts";

export const CHECKPOINT_BLOCKS = 768;

/** How far the columns had grown. */
export interface Marks {
  readonly step: number;
  /** Blocks run and strokes made so far, as `Run` counts them. */
  readonly ticks: number;
  readonly strokes: number;
  readonly holes: HoleMark;
  readonly operations: OperationMark;
  readonly events: EventMark;
}

export interface Checkpoint {
  /** The block to run next; −1 after the last. */
  readonly block: number;
  readonly state: State;
  /** Words that rule the values. */
  readonly ruling: Float64Array;
  readonly longHand: LongHandMark;
  readonly noted: NotedMark;
  readonly marks: Marks;
  /** Lines run between this point and the next, as [first, end) pairs of the text at that time. */
  readonly visits: number[];
}

export function takeCheckpoint(run: Run, record: Recorder, block: number): Checkpoint {
  return {
    block,
    state: stateOf(run),
    ruling: run.store.ruling(),
    longHand: record.longHand.mark(),
    noted: record.noted.mark(),
    marks: marksOf(run, record),
    visits: [],
  };
}

/** A point of an earlier execution whose state holds here too. */
export function pointAgain(point: Checkpoint, run: Run, record: Recorder, visits: number[]): Checkpoint {
  return { ...point, marks: marksOf(run, record), visits };
}

function marksOf(run: Run, record: Recorder): Marks {
  return {
    step: run.step,
    ticks: run.ticks,
    strokes: run.strokes,
    holes: record.holes.mark(),
    operations: record.operations.mark(),
    events: record.events.mark(),
  };
}

/** Whether the run stands as it stood at the point, so that the same blocks do the same from here. */
export function standsAt(run: Run, record: Recorder, point: Checkpoint): boolean {
  return (
    sameState(run, point.state) &&
    sameNumbers(run.store.ruling(), point.ruling) &&
    record.longHand.standsAs(point.longHand) &&
    record.operations.standsAs(point.marks.operations) &&
    record.noted.standsAs(point.noted)
  );
}

/** Puts the run where it stood at the point; the columns stay as they are. */
export function restore(run: Run, record: Recorder, point: Checkpoint): void {
  restoreState(run, point.state);
  record.longHand.restore(point.longHand);
  record.noted.restore(point.noted);
}
