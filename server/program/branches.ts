/**
 * Conditions on values that cannot be known: both ways are run, one after the other, and joined where they meet. The way
 * whose line comes first goes first, so each block is run once for all ways that lead to it and the work stays linear.
 */
import type { Frame } from "./frames.ts";
import type { Run } from "./run.ts";
import { joinState, restoreState, type State, stateOf } from "./state.ts";

/** A way that waits for the run to come to its line. `line` is infinite for a way that leaves the call. */
export interface Waiting {
  readonly line: number;
  readonly frame: Frame | null;
  readonly state: State;
  readonly why: string;
}

/** The other way goes on from `line` later; this one goes on as it is. */
export function park(run: Run, line: number, why: string): void {
  run.waiting.push({ line, frame: run.frame, state: stateOf(run), why });
}

/** Goes on at a line of the same call; where another way waits before it, that one goes first. */
export function goTo(run: Run, line: number): void {
  run.jumped = run.words.block;
  run.next = line;
  if (run.waiting.length > 0) settle(run);
}

/** Joins the ways that have met, and lets the one that is furthest behind go first. */
export function settle(run: Run): void {
  for (let turn = 0; turn <= run.waiting.length + 1; turn++) {
    const at = firstWaiting(run);
    const other = run.waiting[at];
    if (other === undefined || other.line > run.next) return;
    if (other.line === run.next) {
      run.waiting.splice(at, 1);
      join(run, other);
      continue;
    }
    const here = { line: run.next, frame: run.frame, state: stateOf(run), why: other.why };
    run.waiting[at] = here;
    resume(run, other);
    return;
  }
}

/**
 * The way ends here (return from a call, end of the program).
 * @returns true when another way of the same call goes on instead
 */
export function endsHere(run: Run, keep: boolean): boolean {
  const at = firstWaiting(run);
  const other = run.waiting[at];
  if (other !== undefined && Number.isFinite(other.line)) {
    if (keep)
      run.waiting[at] = { line: Number.POSITIVE_INFINITY, frame: run.frame, state: stateOf(run), why: other.why };
    else run.waiting.splice(at, 1);
    resume(run, other);
    return true;
  }
  for (let i = run.waiting.length - 1; i >= 0; i--) {
    const left = run.waiting[i];
    if (left === undefined || left.frame !== run.frame) continue;
    run.waiting.splice(i, 1);
    if (keep) join(run, left);
  }
  return false;
}

function resume(run: Run, way: Waiting): void {
  run.record?.longHand.commit(run);
  restoreState(run, way.state);
  run.ended = false;
  run.next = way.line;
}

function join(run: Run, way: Waiting): void {
  const differs = joinState(run, way.state, way.why);
  if (differs.length > 0)
    run.say(
      "branch",
      `join ${differs.join()}`,
      run.words.first,
      { text: `${differs.join(", ")} after it differ by the way taken: read on as the way written last leaves them` },
      undefined,
      1,
    );
}

/** Index of the way of this call that waits at the lowest line; −1 none. */
function firstWaiting(run: Run): number {
  let best = -1;
  for (let i = 0; i < run.waiting.length; i++) {
    const way = run.waiting[i];
    if (way === undefined || way.frame !== run.frame) continue;
    if (best < 0 || way.line < (run.waiting[best]?.line ?? 0)) best = i;
  }
  return best;
}
