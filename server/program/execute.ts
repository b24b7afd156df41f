/**
 * Runs a program: blocks and a dialect in, steps, holes, operations and events out. Never throws and always ends: blocks
 * run by loops and calls, repeats and pecks are capped.
 */

import type { Blocks } from "../../grammar/blocks.ts";
import { readBlocks } from "../../grammar/read.ts";
import type { ResolvedSetup, Tool } from "../setup/types.ts";
import { LineStore } from "../text/lines.ts";
import type { Span } from "../text/place.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { runBlock } from "./block.ts";
import { CHECKPOINT_BLOCKS, type Checkpoint, takeCheckpoint } from "./checkpoints.ts";
import { tapeHeader } from "./drill-tape.ts";
import { type EventData, EventList } from "./events.ts";
import { HoleBook } from "./holes.ts";
import { type Labels, labelsOf } from "./labels.ts";
import { JoinedBlocks, type LibraryFile } from "./library.ts";
import { LongHand } from "./long-hand.ts";
import { inProgram, type Marks, marksOf, percentItem } from "./marks.ts";
import { ModalStore } from "./modal.ts";
import { entriesOf, findNotes, Noted } from "./notes.ts";
import { OperationBook } from "./operations.ts";
import { Replay } from "./replay.ts";
import { Result, type ResultParts } from "./result.ts";
import { type Recorder, Run } from "./run.ts";
import { itemsSpan } from "./spans.ts";
import { Surface } from "./surface.ts";
import { commentTools } from "./tool-comments.ts";
import type { Execute, ExecuteOptions, ProgramEventKind } from "./types.ts";
import { begin as beginWalk, nextBlock, Visits } from "./walk.ts";
import { X } from "./words.ts";

export const execute: Execute = (program, setup, options) => {
  const library = options.library ?? [];
  const blocks = library.length === 0 ? program : new JoinedBlocks(program, library);
  const scan = scanProgram(blocks, setup, options.before);
  const tool = (t: number): Tool | null => setup.tools.get(t) ?? scan.tools.get(t)?.tool ?? null;
  const lines = lineBlocks(blocks);
  const before = earlier(setup, options, scan);
  const labels = before === null || before.run.lookups.size === 0 ? null : labelsOf(blocks);
  const old = before !== null && sameAnswers(before.run, labels) ? before : null;
  const { run, record } = begin(blocks, setup, options, scan, tool, old);
  if (labels !== null) run.labels = labels;
  if (old !== null) {
    run.lookups = new Map(old.run.lookups);
    for (const number of old.run.wanted) run.wanted.add(number);
  }
  const turned = old !== null && (old.options.deleteOn ?? false) !== (options.deleteOn ?? false);
  const replay = old === null ? null : new Replay(old, lines, record, turned ? scan.skips : null);
  const points = runAll(run, record, scan, replay, options.mostBlocks);
  const parts: ResultParts = {
    blocks,
    setup,
    options: withoutPrevious(options),
    run,
    record,
    scan,
    tool,
    points,
    lines,
  };
  return new Result(parts);
};

/** The earlier execution is not held on to: only the newest keeps its checkpoints. */
function withoutPrevious(options: ExecuteOptions): ExecuteOptions {
  const { previous: _, ...rest } = options;
  return rest;
}

function begin(
  blocks: Blocks,
  setup: ResolvedSetup,
  options: ExecuteOptions,
  scan: Scan,
  tool: (t: number) => Tool | null,
  old: ResultParts | null,
): { readonly run: Run; readonly record: Recorder } {
  const run = startRun(blocks, setup, options, old?.run.store.following() ?? new ModalStore(), scan.marks.first);
  const record: Recorder = {
    holes: old?.record.holes.following(tool) ?? new HoleBook(new Surface(setup), tool),
    longHand: new LongHand(),
    operations: new OperationBook(tool),
    events: new EventList(),
    noted: new Noted(scan.notes, entriesOf(setup, options.program)),
    toolDiameter: (t) => tool(t)?.DC ?? Number.NaN,
  };
  run.record = record;
  // Words before the program switched it on; when, nobody knows.
  if (run.row.coolant !== "") record.operations.coolantOn(Number.NaN);
  return { run, record };
}

function lineBlocks(blocks: Blocks): Int32Array {
  const lines = new Int32Array(blocks.count);
  for (let line = 0; line < lines.length; line++) lines[line] = blocks.blockAt(line);
  return lines;
}

/** Rows that no hole has any more are left by edits; with too many of them it is time to begin anew. */
const MOST_UNUSED_ROWS = 20_000;

/** The execution before, where stretches of it may be taken over. */
function earlier(setup: ResolvedSetup, options: ExecuteOptions, scan: Scan): ResultParts | null {
  const { previous } = options;
  if (!(previous instanceof Result) || previous.setup !== setup) return null;
  const old = previous.parts;
  const a = old.options;
  if (a.program !== options.program || a.before !== options.before) return null;
  if (
    a.mostBlocks !== options.mostBlocks ||
    a.from?.join() !== options.from?.join() ||
    old.scan.units !== scan.units ||
    !sameTools(old.scan, scan)
  )
    return null;
  if (!sameLibrary(a.library ?? [], options.library ?? [])) return null;
  if (old.record.holes.rows.length - previous.shapes.length > MOST_UNUSED_ROWS) return null;
  return old;
}

function sameLibrary(a: readonly LibraryFile[], b: readonly LibraryFile[]): boolean {
  return a.length === b.length && a.every((file, i) => file.file === b[i]?.file && file.blocks === b[i]?.blocks);
}

/** Whether every jump and call of the execution before finds in the text of now what it found then. */
function sameAnswers(old: Run, labels: Labels | null): boolean {
  for (const [question, answer] of old.lookups) if (labels?.answer(question) !== answer) return false;
  return true;
}

function sameTools(a: Scan, b: Scan): boolean {
  if (a.tools.size !== b.tools.size) return false;
  for (const [T, { tool }] of a.tools) {
    const other = b.tools.get(T)?.tool;
    if (other === undefined || other.DC !== tool.DC || other.family !== tool.family || other.SIG !== tool.SIG)
      return false;
  }
  return true;
}

export interface Scan {
  readonly commented: readonly number[];
  readonly notes: ReturnType<typeof findNotes>;
  readonly tools: ReturnType<typeof commentTools>;
  /** Header of a tape for drilling circuit boards: another language that looks alike. */
  readonly tape: Span | null;
  /** Jumps or loops stand in the text: its structure is looked at whether or not they run. */
  readonly flow: boolean;
  /** Lines with a block delete, in order. */
  readonly skips: readonly number[];
  /** Of the first G20 or G21. */
  readonly units: UnitSystem | null;
  readonly marks: Marks;
}

/** What is read from the whole text before anything runs: units, notes, tools of the comments. */
export function scanProgram(blocks: Blocks, setup: ResolvedSetup, before = ""): Scan {
  const commented: number[] = [];
  const skips: number[] = [];
  let flow = false;
  for (let line = 0; line < blocks.count; line++) {
    const block = blocks.blockAt(line);
    if (blocks.hasComment(block)) commented.push(block);
    if (blocks.hasSkip(block)) skips.push(line);
    if (!flow && !blocks.isPlain(block)) flow = hasFlow(blocks, block);
  }
  const marks = marksOf(blocks);
  const { unitsCodes, defaultUnits } = setup.dialect;
  const earlier = before.trim() === "" ? null : unitsIn(readBlocks(LineStore.from(before)), unitsCodes);
  const own = unitsIn(blocks, unitsCodes, marks) ?? earlier ?? (defaultUnits === "unknown" ? null : defaultUnits);
  return {
    commented,
    notes: findNotes(blocks, commented, own === "inch" ? 25.4 : 1),
    tools: commentTools(blocks, commented, own, setup.dialect.toolWord === "tool-offset"),
    units: own,
    tape: tapeHeader(blocks),
    marks,
    flow,
    skips,
  };
}

function hasFlow(blocks: Blocks, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.statement(item)?.kind;
    if (kind !== undefined && kind !== "assign" && kind !== "if-then") return true;
  }
  return false;
}

const LETTER_G = 71;

/** Units of the first unit code. */
function unitsIn(
  blocks: Blocks,
  unitsCodes: ResolvedSetup["dialect"]["unitsCodes"],
  marks: Marks | null = null,
): UnitSystem | null {
  const iso = unitsCodes !== "G20/G21";
  const common = unitsCodes !== "G70/G71";
  for (let line = 0; line < blocks.count; line++) {
    if (marks !== null && !inProgram(marks, line)) continue;
    const block = blocks.blockAt(line);
    const first = blocks.firstItem(block);
    const end = first + blocks.itemCount(block);
    for (let item = first; item < end; item++) {
      if (blocks.kind(item) !== LETTER_G) continue;
      const value = blocks.value(item);
      if ((common && value === 20) || (iso && value === 70)) return "inch";
      if ((common && value === 21) || (iso && value === 71)) return "mm";
    }
  }
  return null;
}

/** The run at the program's first block: the setup's offsets, the words before it, the position given. */
export function startRun(
  blocks: Blocks,
  setup: ResolvedSetup,
  options: ExecuteOptions,
  store: ModalStore,
  first = marksOf(blocks).first,
): Run {
  const dialect = setup.dialect;
  const run = new Run(blocks, dialect, setup.machine, store);
  run.deleteOn = options.deleteOn ?? false;
  run.next = first;
  if (options.before !== undefined && options.before.trim() !== "") {
    // Words before the program run on blocks of their own; only the state they leave is taken over.
    const words = readBlocks(LineStore.from(options.before));
    const earlier = new Run(words, dialect, setup.machine, store);
    for (let block = nextBlock(earlier); block >= 0; block = nextBlock(earlier)) {
      earlier.next++;
      runBlock(earlier, block);
    }
    Object.assign(run, {
      row: earlier.row,
      dirty: true,
      variables: earlier.variables,
      evaluator: earlier.evaluator,
      places: earlier.places,
      cycle: earlier.cycle,
      afterG80: earlier.afterG80,
      rigid: earlier.rigid,
      lengthOwed: earlier.lengthOwed,
      polar: earlier.polar,
      staged: earlier.staged,
    });
    run.feedByMode.set(earlier.feedByMode);
    run.why.splice(0, 3, ...earlier.why);
    run.pos.set(earlier.pos);
    run.rotary.set(earlier.rotary);
    run.linkSystem();
  }
  for (const [name, [x, y, z]] of setup.workpiece?.workOffsets ?? [])
    if (!run.places.offsets.has(name)) run.places.offsets.set(name, [x, y, z]);
  if (options.from !== undefined)
    options.from.forEach((value, axis) => {
      run.pos[axis] = (value * run.factor()) / (axis === 0 ? run.spread(X) : 1);
    });
  return run;
}

/** @returns the checkpoints, the last of them behind the last block that ran */
function runAll(run: Run, record: Recorder, scan: Scan, replay: Replay | null, most?: number): Checkpoint[] {
  const { blocks } = run;
  const points: Checkpoint[] = [];
  if (scan.tape !== null) {
    record.events.add("not-a-machining-program", "", scan.tape, -1, {});
    return points;
  }
  const visits = new Visits();
  const visited = (): void => {
    points[points.length - 1]?.visits.push(...visits.take());
  };
  const calm = (): boolean => record.longHand.idle && run.waiting.size === 0 && run.loops.size === 0;
  let due = 0;
  beginWalk(run, most);
  for (let block = nextBlock(run); block >= 0; block = nextBlock(run)) {
    let here = run.ticks > due;
    if (replay?.begins(block, run.ticks) && calm()) {
      const known = points.length;
      const reached = replay.take(block, run, record, points);
      if (reached !== null) {
        points[known - 1]?.visits.push(...visits.take());
        if (reached.block < 0) break;
        run.next = blocks.lineOf(reached.block);
        block = reached.block;
      }
      here = true;
    }
    if (here && calm()) {
      visited();
      points.push(takeCheckpoint(run, record, block));
      due = run.ticks + CHECKPOINT_BLOCKS;
    }
    const line = run.next;
    visits.at(line);
    run.next = line + 1;
    runBlock(run, block);
  }
  visited();
  if (calm() && !run.cut) points.push(takeCheckpoint(run, record, -1));
  finish(run, scan);
  return points;
}

function finish(run: Run, scan: Scan): void {
  const { record, blocks, dialect } = run;
  if (record === null) return;
  record.longHand.commit(run);
  for (const { span, cause, text } of scan.flow ? run.labels.faults : [])
    if (inProgram(scan.marks, blocks.lineOf(span.block)))
      record.events.add("flow", `${cause} ${span.block}`, span, -1, { level: "error", text });
  const level = dialect.programEnd === "required" ? "error" : "warning";
  if (run.opened && !run.closed && !closes(run)) {
    const text = "the program opens with % and no % closes it. Way out: % on a line of its own at the end";
    atEnd(run, "no-end", "percent", { text, level });
  } else if (!run.sawEnd && run.executed > 0) {
    const text = run.ended
      ? "another program number begins before M2 or M30: what follows is not run as part of this program"
      : "the program has no M2 or M30 at its end";
    if (run.ended)
      record.events.add("no-end", "end", itemsSpan(blocks, run.at), record.operations.current, { text, level });
    else if (blocks.count > 0) atEnd(run, "no-end", "end", { text, level });
  }
}

/** A `%` after the block that ended the run. */
function closes(run: Run): boolean {
  const { blocks } = run;
  for (let line = blocks.count - 1; line > blocks.lineOf(run.at); line--) {
    const block = blocks.blockAt(line);
    if (percentItem(blocks, block) >= 0) return true;
  }
  return false;
}

function atEnd(run: Run, kind: ProgramEventKind, cause: string, data: EventData): void {
  const { blocks, record } = run;
  let line = blocks.count - 1;
  while (line > 0 && blocks.itemCount(blocks.blockAt(line)) === 0) line--;
  const block = blocks.blockAt(line);
  record?.events.add(kind, cause, itemsSpan(blocks, block), record.operations.current, data);
}
