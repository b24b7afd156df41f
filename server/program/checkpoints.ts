/**
 * States of a run kept every so many lines, so that after an edit only what follows the edit runs again. What a
 * checkpoint does not copy is cut back to its length: the columns only ever grow.
 */
import type { Blocks } from "../../grammar/blocks.ts";
import type { Tool } from "../setup/types.ts";
import type { CycleMemory } from "./cycle-data.ts";
import { Evaluator, type Variables } from "./evaluate.ts";
import type { EventList } from "./events.ts";
import type { HoleBookState } from "./holes.ts";
import type { LongHand } from "./long-hand.ts";
import type { ModalRow } from "./modal.ts";
import type { FoundNote, Noted } from "./notes.ts";
import { OperationBook, type OperationMark } from "./operations.ts";
import { copyPlaces, type Places } from "./places.ts";
import { type Recorder, Run } from "./run.ts";

export const CHECKPOINT_LINES = 1024;

const FLAGS = [
  "afterG80",
  "rigid",
  "lengthOwed",
  "polar",
  "percents",
  "opened",
  "closed",
  "executed",
  "ended",
  "sawEnd",
  "staged",
  "stagedRef",
  "insideSub",
  "dataInput",
  "step",
  "deleteOn",
] as const;
type Flags = Pick<Run, (typeof FLAGS)[number]>;

export interface Checkpoint {
  /** The next line to run. */
  readonly line: number;
  readonly row: ModalRow;
  readonly numbers: readonly [feed: Float64Array, pos: Float64Array, rotary: Float64Array];
  readonly why: readonly [string, string, string];
  readonly places: Places;
  readonly cycle: CycleMemory;
  readonly flags: Flags;
  readonly variables: Variables;
  readonly holes: HoleBookState;
  readonly longHand: LongHand;
  readonly operations: OperationMark;
  readonly events: EventList;
  readonly noted: Noted;
}

export function takeCheckpoint(run: Run, record: Recorder, line: number, notes: readonly FoundNote[]): Checkpoint {
  const flags = Object.fromEntries(FLAGS.map((name) => [name, run[name]])) as unknown as Flags;
  return {
    line,
    row: { ...run.row },
    numbers: [run.feedByMode.slice(), run.pos.slice(), run.rotary.slice()],
    why: [...run.why],
    places: copyPlaces(run.places),
    cycle: { ...run.cycle },
    flags,
    variables: run.variables.copy(),
    holes: record.holes.mark(),
    longHand: record.longHand.copy(),
    operations: record.operations.mark(),
    events: record.events.copy(),
    noted: record.noted.copy(notes),
  };
}

/** A run that stands where the checkpoint was taken, over a newer version of the blocks. */
export function resume(
  point: Checkpoint,
  old: Run,
  oldRecord: Recorder,
  blocks: Blocks,
  notes: readonly FoundNote[],
  tool: (t: number) => Tool | null,
): Run {
  const run = new Run(blocks, old.dialect, old.machine, old.store.prefix(point.flags.step));
  run.row = { ...point.row };
  run.feedByMode.set(point.numbers[0]);
  run.pos.set(point.numbers[1]);
  run.rotary.set(point.numbers[2]);
  point.why.forEach((text, axis) => {
    run.why[axis as 0 | 1 | 2] = text;
  });
  run.places = copyPlaces(point.places);
  run.cycle = { ...point.cycle };
  Object.assign(run, point.flags);
  run.variables = point.variables.copy();
  run.evaluator = new Evaluator(run.dialect, run.variables);
  run.linkSystem();
  const operations = new OperationBook(tool);
  operations.restore(point.operations, oldRecord.operations);
  run.record = {
    holes: oldRecord.holes.prefix(point.holes, tool),
    longHand: point.longHand.copy(),
    operations,
    events: point.events.copy(),
    noted: point.noted.copy(notes),
    toolDiameter: (t) => tool(t)?.DC ?? Number.NaN,
  };
  return run;
}
