/** After an edit: which stretches of the execution before are as they were, and their taking over. */
import type { Blocks } from "../../grammar/blocks.ts";
import { type Checkpoint, pointAgain, restore, standsAt } from "./checkpoints.ts";
import { HoleCopy } from "./hole-copy.ts";
import type { ResultParts } from "./result.ts";
import type { Recorder, Run } from "./run.ts";

export class Replay {
  readonly #old: ResultParts;
  readonly #holes: HoleCopy;
  /** Block of a point → its number. */
  readonly #at = new Map<number, number>();
  /** Stretches whose lines are as before, by the number of the point they begin at. */
  readonly #clean: readonly boolean[];
  #next = 0;

  constructor(old: ResultParts, lines: Int32Array, record: Recorder) {
    this.#old = old;
    this.#holes = new HoleCopy(old.record.holes, record.holes);
    const { points } = old;
    points.forEach((point, i) => {
      if (point.block >= 0) this.#at.set(point.block, i);
    });
    const [first, end] = changed(old.lines, lines);
    this.#clean = points.map((point, i) => {
      const next = points[i + 1];
      if (next === undefined) return false;
      return end <= point.line || first >= (next.block < 0 ? old.lines.length : next.line);
    });
  }

  /** Whether the run comes to the beginning of a stretch. */
  begins(block: number): boolean {
    return this.#at.has(block);
  }

  /**
   * Takes over as many stretches as come out the same from here.
   * @returns the point to go on from, with the run put there; null when nothing was taken over
   */
  take(block: number, run: Run, record: Recorder, blocks: Blocks, points: Checkpoint[]): Checkpoint | null {
    const { points: all } = this.#old;
    const start = this.#at.get(block) ?? -1;
    const from = all[start];
    if (from === undefined || start < this.#next || !this.#clean[start] || !standsAt(run, record, from)) return null;
    let at = start;
    while (this.#clean[at] === true && this.#takeOne(at, run, record, blocks, points)) at++;
    const reached = all[at];
    if (at === start || reached === undefined) return null;
    this.#next = at;
    restore(run, record, reached);
    return reached;
  }

  #takeOne(at: number, run: Run, record: Recorder, blocks: Blocks, points: Checkpoint[]): boolean {
    const old = this.#old;
    const from = old.points[at];
    const to = old.points[at + 1];
    if (from === undefined || to === undefined) return false;
    const a = from.marks;
    const b = to.marks;
    if (!record.events.canAppend(old.record.events, a.events, b.events)) return false;
    const shift = record.holes.count - a.holes.count;
    const point = pointAgain(from, run, record, blocks.lineOf(from.block));
    if (!this.#holes.take(a.holes, b.holes, run.step - a.step, record.operations.current)) return false;
    points.push(point);
    run.store.append(old.run.store, a.step, b.step);
    run.step += b.step - a.step;
    record.operations.append(old.record.operations, a.operations, b.operations, shift);
    record.events.append(old.record.events, a.events, b.events);
    return true;
  }
}

/**
 * Old lines [first, end) that are not as they were. A line counts as changed where another one follows it now: what runs
 * after it is new.
 */
function changed(old: Int32Array, now: Int32Array): readonly [first: number, end: number] {
  const most = Math.min(old.length, now.length);
  let same = 0;
  while (same < most && old[same] === now[same]) same++;
  if (same === old.length && same === now.length) return [same, same];
  let tail = 0;
  while (tail < most - same && old[old.length - 1 - tail] === now[now.length - 1 - tail]) tail++;
  return [Math.max(0, same - 1), Math.max(same, old.length - tail)];
}
