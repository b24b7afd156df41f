/**
 * M codes that nobody has declared may be coolant codes: after one of them, whether coolant is on is not known. One pass
 * over the words for all checks that ask, and only when one of them is about to say that something is missing.
 */
import { VALUE } from "../../grammar/blocks.ts";
import { QUIET_M } from "../program/codes.ts";
import type { MetalHole } from "./cause.ts";
import type { CheckContext } from "./types.ts";

/** A tool change (code null) or an M code that is not known, in the order of the run. */
interface Mark {
  readonly step: number;
  readonly code: string | null;
}

const M = 77;
const T = 84;
/** What the interpreter follows or knows to change nothing. */
const FOLLOWED: ReadonlySet<number> = new Set([0, 1, 2, 3, 4, 5, 6, 9, 19, 29, 30, 48, 49, 60, 97, 98, 99, ...QUIET_M]);

const made = new WeakMap<CheckContext, readonly Mark[]>();

/**
 * The last M code of unknown effect between the tool change and the hole.
 * @param after only those given later than the block of this word, such as the word that switched coolant off; 0: any
 * @returns null: there is none
 */
export function coolantDoubt(context: CheckContext, hole: MetalHole, after = 0): string | null {
  const marks = marksOf(context);
  if (marks.length === 0) return null;
  const { execution } = context;
  const switched = after === 0 ? null : execution.blocks.spanOf(after);
  const from = switched === null ? -1 : execution.stepOf(switched.block);
  const doubt = marks[lastUpTo(marks, stepOf(context, hole, marks))];
  return doubt === undefined || doubt.step < from ? null : doubt.code;
}

function stepOf(context: CheckContext, hole: MetalHole, marks: readonly Mark[]): number {
  const { execution } = context;
  const own = execution.stepOf(hole.firstBlock);
  const use = hole.operation.shapes.find((one) => one.shape === hole.shape);
  const caller = use === undefined ? undefined : execution.hole(use.firstHole).calls[0];
  const called = caller === undefined ? -1 : execution.stepOf(caller);
  if (called <= own) return own;
  // Only the first run of a called program has a step to look up; in a later one all up to the next tool change may count.
  const next = marks.find((mark) => mark.step > called && mark.code === null);
  return next === undefined ? execution.stepCount : next.step - 1;
}

/** Index of the last mark at or before a step; -1 none. */
function lastUpTo(marks: readonly Mark[], step: number): number {
  let low = 0;
  let high = marks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((marks[middle]?.step ?? 0) <= step) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

function marksOf(context: CheckContext): readonly Mark[] {
  let marks = made.get(context);
  if (marks === undefined) {
    marks = gather(context);
    made.set(context, marks);
  }
  return marks;
}

function gather({ execution, setup }: CheckContext): readonly Mark[] {
  const { dialect, machine } = setup;
  const number = (name: string): number => Number(name.slice(1));
  const known = new Set([
    ...FOLLOWED,
    ...dialect.customM.keys(),
    ...[
      ...dialect.coolantOn.keys(),
      ...dialect.coolantOff,
      ...dialect.spindleCoolant.keys(),
      ...dialect.liveSpindle.keys(),
      ...(machine?.coolant.keys() ?? []),
    ].map(number),
  ]);
  const byT = dialect.toolWord === "tool-offset";
  const { blocks } = execution;
  const marks: Mark[] = [];
  let unknown = false;
  for (let step = 0; step < execution.stepCount; step++) {
    const block = execution.stepBlock(step);
    const first = blocks.firstItem(block);
    const end = first + blocks.itemCount(block);
    let code: string | null = null;
    let change = false;
    for (let item = first; item < end; item++) {
      const kind = blocks.kind(item);
      if (kind === T && byT) change = true;
      if (kind !== M) continue;
      const form = blocks.form(item);
      const value = form === VALUE.integer || form === VALUE.real ? Math.round(blocks.value(item)) : -1;
      if (value === 6) change = true;
      else if (!known.has(value)) code = value < 0 ? "M" : `M${value}`;
    }
    if (change) marks.push({ step, code: null });
    if (code !== null) {
      marks.push({ step, code });
      unknown = true;
    }
  }
  return unknown ? marks : [];
}
