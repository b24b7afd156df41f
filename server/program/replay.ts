/** After an edit: which stretches of the execution before are as they were, and their taking over. */
import { type Checkpoint, pointAgain, restore, standsAt } from "./checkpoints.ts";
import { HoleCopy } from "./hole-copy.ts";
import type { ResultParts } from "./result.ts";
import type { Recorder, Run } from "./run.ts";

export class Replay {
  readonly #old: ResultParts;
  readonly #holes: HoleCopy;
  /** Block of a point → numbers of those whose stretch is clean: a loop comes by more than once. */
  readonly #at = new Map<number, number[]>();
  /** Blocks where no stretch could be taken over: how often, and from which tick on it is tried again. */
  readonly #failed = new Map<number, { readonly times: number; readonly until: number }>();
  /** Stretches whose lines are as before, by the number of the point they begin at. */
  readonly #clean: readonly boolean[];
  /** Old lines from here on stand so many lines further down. */
  readonly #moved: readonly [from: number, by: number];
  #next = 0;

  /** @param skips lines that begin with a block delete, where its switch has been turned since; null: it has not */
  constructor(old: ResultParts, lines: Int32Array, record: Recorder, skips: readonly number[] | null) {
    this.#old = old;
    this.#holes = new HoleCopy(old.record.holes, record.holes);
    const { points } = old;
    const [first, end] = changed(old.lines, lines);
    this.#moved = [end, lines.length - old.lines.length];
    this.#clean = points.map(({ visits }, i) => {
      if (i === points.length - 1) return false;
      for (let k = 0; k < visits.length; k += 2) {
        const [from, to] = [visits[k] ?? 0, visits[k + 1] ?? 0];
        if (from < end && to > first) return false;
        if (skips !== null && within(skips, from, to)) return false;
      }
      return true;
    });
    for (let i = points.length - 1; i >= 0; i--) {
      const block = points[i]?.block ?? -1;
      if (this.#clean[i] !== true) continue;
      // The first on top: they are taken from the end.
      const known = this.#at.get(block);
      if (known === undefined) this.#at.set(block, [i]);
      else known.push(i);
    }
  }

  /**
   * Whether the run comes to the beginning of a stretch. Where nothing fitted, the turns of a loop are not all tried: each
   * time twice as many blocks are run before the next.
   */
  begins(block: number, ticks: number): boolean {
    return this.#at.has(block) && ticks >= (this.#failed.get(block)?.until ?? 0);
  }

  /**
   * Takes over as many stretches as come out the same from here.
   * @returns the point to go on from, with the run put there; null when nothing was taken over
   */
  take(block: number, run: Run, record: Recorder, points: Checkpoint[]): Checkpoint | null {
    const { points: all } = this.#old;
    const start = this.#startAt(block, run, record);
    let at = start;
    while (this.#clean[at] === true && this.#takeOne(at, run, record, points)) at++;
    const reached = all[at];
    if (at === start || reached === undefined) {
      const times = (this.#failed.get(block)?.times ?? 0) + 1;
      this.#failed.set(block, { times, until: run.ticks + 2 ** times });
      return null;
    }
    this.#next = at;
    restore(run, record, reached);
    return reached;
  }

  /** The stretch that begins at this block in the state the run is in; −1 none. */
  #startAt(block: number, run: Run, record: Recorder): number {
    const known = this.#at.get(block) ?? [];
    while (known.length > 0 && (known[known.length - 1] ?? 0) < this.#next) known.pop();
    const last = Math.max(0, known.length - MOST_TRIES);
    for (let k = known.length - 1; k >= last; k--) {
      const i = known[k] ?? -1;
      const point = this.#old.points[i];
      if (point !== undefined && standsAt(run, record, point)) return i;
    }
    return -1;
  }

  #takeOne(at: number, run: Run, record: Recorder, points: Checkpoint[]): boolean {
    const old = this.#old;
    const from = old.points[at];
    const to = old.points[at + 1];
    if (from === undefined || to === undefined) return false;
    const a = from.marks;
    const b = to.marks;
    if (run.ticks + b.ticks - a.ticks > run.most) return false;
    if (run.strokes + b.strokes - a.strokes > run.mostStrokes) return false;
    if (!record.events.canAppend(old.record.events, a.events, b.events)) return false;
    const shift = record.holes.count - a.holes.count;
    const [moved, by] = this.#moved;
    const point = pointAgain(
      from,
      run,
      record,
      // Lines of other files stay where they are.
      from.visits.map((line, k) => (line - (k % 2) >= moved && line <= old.lines.length ? line + by : line)),
    );
    if (!this.#holes.take(a.holes, b.holes, run.step - a.step, record.operations.current)) return false;
    points.push(point);
    run.store.append(old.run.store, a.step, b.step);
    run.step += b.step - a.step;
    run.ticks += b.ticks - a.ticks;
    run.strokes += b.strokes - a.strokes;
    record.operations.append(old.record.operations, a.operations, b.operations, shift);
    record.events.append(old.record.events, a.events, b.events);
    return true;
  }
}

/** Whether one of the lines, in order, lies in [from, to). */
function within(lines: readonly number[], from: number, to: number): boolean {
  let low = 0;
  let high = lines.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((lines[mid] ?? 0) < from) low = mid + 1;
    else high = mid;
  }
  return (lines[low] ?? Number.POSITIVE_INFINITY) < to;
}

/** States of a loop's turns that are compared at one block before the run goes on by itself. */
const MOST_TRIES = 8;

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
