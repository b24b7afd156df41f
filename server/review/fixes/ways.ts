/** The ways in which holes can be written out, the one that leaves most of the program as it is first. */
import type { Execution, HoleShape } from "../../program/types.ts";
import { lineName } from "../places.ts";
import type { Review } from "../types.ts";
import { byHand } from "./by-hand.ts";
import { gridOf } from "./numbers.ts";
import { resumedCycle } from "./resumed-cycle.ts";
import { splitStroke, type WrittenStroke } from "./split-stroke.ts";
import { type SlowZone, stepsOf } from "./steps.ts";
import type { StrokeToWrite } from "./stroke-words.ts";
import type { Trace } from "./trace.ts";
import { CannotWrite, cannot, type LineEdit } from "./types.ts";

export interface Meant {
  readonly index: number;
  readonly shape: HoleShape;
  /** Block that ran it. */
  readonly block: number;
  readonly zones: readonly SlowZone[];
  readonly name: string;
}

export interface Way {
  readonly edits: readonly LineEdit[];
  /** Blocks in which the feed may fall. */
  readonly meant: readonly number[];
}

/** More holes than this are a matter for a subprogram or another feed, not for blocks written out. */
export const MOST_HOLES = 100;
export const tooMany = (): string => `more than ${MOST_HOLES} holes would have to be written out`;

export function* waysToWrite(
  review: Review,
  trace: Trace,
  holes: readonly Meant[],
): Generator<Way | { readonly why: string }> {
  const cycles = holes.some(({ shape }) => !shape.longHand);
  for (const whole of cycles ? [false, true] : [false]) {
    try {
      yield wayOf(review, trace, holes, whole);
    } catch (cause) {
      if (!(cause instanceof CannotWrite)) throw cause;
      yield { why: cause.message };
    }
  }
}

/** @param whole each cycle run with a hole of these is written out from its first to its last hole */
function wayOf(review: Review, trace: Trace, holes: readonly Meant[], whole: boolean): Way {
  const { execution } = review;
  const cycles = new Map(holes.filter(({ shape }) => !shape.longHand).map((hole) => [hole.block, hole]));
  const strokes = holes.filter(({ shape }) => shape.longHand).flatMap((hole) => strokesOf(hole, execution, trace));
  if (![...cycles.values()].some(changesFeed) && !strokes.some(changes))
    cannot("the drill is not whole in metal above or below, so one feed is right for the whole hole");
  const rewritten = new Set([...cycles.keys(), ...strokes.map(({ block }) => block)]);
  const edits = strokes.map((stroke) =>
    edit(execution, stroke.block, splitStroke(stroke, execution, trace, rewritten)),
  );
  const done = new Set<number>();
  for (const block of cycles.keys()) {
    if (done.has(block)) continue;
    const run = runAround(block, execution);
    if (whole && run.length > MOST_HOLES) cannot(tooMany());
    for (const each of run) done.add(each);
    edits.push(...writeRun(run, cycles, whole, execution, trace, rewritten));
  }
  const { lines } = review.input;
  const changed = edits.filter(({ line, texts }) => texts.length !== 1 || texts[0] !== lines.line(line));
  return { edits: changed.sort((a, b) => a.line - b.line), meant: [...rewritten] };
}

/** Whether a move has more than one feed in it. */
function changes({ fromZ, toZ, f, zones, state }: StrokeToWrite): boolean {
  return f !== null && stepsOf(fromZ, toZ, f, zones, gridOf(state)).length > 1;
}

const changesFeed = ({ shape, zones }: Meant): boolean =>
  shape.strokes.some((stroke) => changes({ ...stroke, zones, zRef: 0, state: shape.state }));

function edit({ blocks }: Execution, block: number, texts: readonly string[]): LineEdit {
  return { line: blocks.lineOf(block), texts };
}

/** Blocks of the cycle run that a block stands in, in the order of lines. */
function runAround(block: number, execution: Execution): number[] {
  const { blocks } = execution;
  const inRun = (each: number): boolean | null => {
    const step = execution.stepOf(each);
    return step < 0 ? null : execution.stepState(step).cycle !== 0;
  };
  const line = blocks.lineOf(block);
  const run: number[] = [];
  for (let i = line; i >= 0; i--) {
    const each = blocks.blockAt(i);
    const within = inRun(each);
    if (within === false) break;
    if (within === true) run.push(each);
  }
  run.reverse();
  for (let i = line + 1; i < blocks.count; i++) {
    const each = blocks.blockAt(i);
    const within = inRun(each);
    if (within === false) break;
    if (within === true) run.push(each);
  }
  return run;
}

function writeRun(
  run: readonly number[],
  meant: ReadonlyMap<number, Meant>,
  whole: boolean,
  execution: Execution,
  trace: Trace,
  rewritten: ReadonlySet<number>,
): LineEdit[] {
  const edits: LineEdit[] = [];
  // Whether the cycle is on in the new text.
  let on = false;
  let broken = false;
  for (const block of run) {
    const holes = execution.holesOfBlock(block);
    const index = holes[0];
    if (index === undefined) continue;
    const name = lineName(execution.blocks, block);
    const shape = execution.shapeOf(index);
    const hole = meant.get(block);
    if (hole !== undefined || whole) {
      if (holes.length > 1) cannot(`${name} drills more than once`);
      if (shape.longHand || shape.kind !== "drill" || shape.dwell > 0) cannot(`${name} does more than drill`);
      const zones = hole?.zones ?? [];
      const cycle = { block, name, shape, zones, running: on };
      edits.push(edit(execution, block, byHand(cycle, execution, trace, rewritten)));
      on = false;
      broken = true;
    } else {
      if (broken && !on) {
        const state = execution.stepState(execution.stepOf(block));
        edits.push(edit(execution, block, [resumedCycle(block, name, state, shape, execution)]));
      }
      on = true;
    }
  }
  return edits;
}

/** The feed moves of a hole that is written out, those that are too fast in part. */
function strokesOf(hole: Meant, execution: Execution, trace: Trace): WrittenStroke[] {
  const { blocks } = execution;
  const { motions } = trace;
  const found: WrittenStroke[] = [];
  const first = trace.of(hole.block)[0] ?? cannot(`${hole.name} drills nothing`);
  const [x, y] = [motions[first]?.x ?? null, motions[first]?.y ?? null];
  for (let i = first; i < motions.length; i++) {
    const motion = motions[i];
    if (motion === undefined || motion.x !== x || motion.y !== y) break;
    const fromZ = motions[i - 1]?.z ?? null;
    const toZ = motion.z;
    if (motion.kind !== "feed" || fromZ === null || toZ === null || toZ >= fromZ) continue;
    const stroke = hole.shape.strokes.find((each) => each.fromZ >= fromZ - 1e-6 && each.toZ <= toZ + 1e-6);
    if (stroke?.f === undefined || stroke.f === null) continue;
    const f = stroke.f;
    const zones = hole.zones.filter((zone) => zone.allowed < f && zone.fromZ > toZ && zone.toZ < fromZ);
    if (zones.length === 0) continue;
    const name = lineName(blocks, motion.block);
    const { n } = stroke;
    found.push({ block: motion.block, name, motion: i, fromZ, toZ, f, n, zRef: 0, zones, state: motion.state });
  }
  return found;
}
