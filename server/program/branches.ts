/**
 * Conditions on values that cannot be known: both ways are run, one after the other, and joined where they meet. The way
 * whose line comes first goes first, so each block is run once for all ways that lead to it and the work stays linear.
 */
import type { Frame } from "./frames.ts";
import type { Run } from "./run.ts";
import { joinInto, joinState, restoreState, type State, sameState, stateOf } from "./state.ts";
import type { Waiting } from "./ways.ts";

/**
 * The other way goes on from `line` later; this one goes on as it is.
 * @returns false where this way ends instead: it only does over again what it did before
 */
export function park(run: Run, line: number, why: string): boolean {
  if (run.waiting.size === 0) {
    run.branches.clear();
    run.record?.holes.otherWay();
  }
  wait(run, line, why);
  if (!repeats(run)) return true;
  endsHere(run, false);
  return false;
}

/** A way waits at a line: with one that waits there already it becomes one. */
function wait(run: Run, line: number, why: string): void {
  const other = run.waiting.at(run.frame, line);
  if (other === undefined) run.waiting.add({ line, frame: run.frame, state: stateOf(run), why });
  else differ(run, joinInto(other.state, run, other.why));
}

/** How a way stood at a block that parts ways. */
export interface BranchSeen {
  readonly frame: Frame | null;
  readonly state: State;
  readonly loops: readonly (State | null)[];
  readonly times: number;
}

/**
 * Whether this way came by here before as it is now, in a loop that only an unknown condition leaves: it would turn
 * without end. States are kept at every second, fourth, eighth time: a loop that comes back to one is found all the same,
 * and one that never does costs little.
 */
function repeats(run: Run): boolean {
  const { block } = run.words;
  const seen = run.branches.get(block);
  const times = (seen?.times ?? 0) + 1;
  const loops = [...run.loops.values()];
  const alike =
    seen !== undefined &&
    seen.frame === run.frame &&
    seen.loops.length === loops.length &&
    seen.loops.every((state, i) => state === loops[i]);
  if (alike && sameState(run, seen.state)) return true;
  const keep = !alike || (times & (times - 1)) === 0;
  run.branches.set(block, keep ? { frame: run.frame, state: stateOf(run), loops, times } : { ...seen, times });
  return false;
}

/** Goes on at a line of the same call; where another way waits before it, that one goes first. */
export function goTo(run: Run, line: number): void {
  run.jumped = run.words.block;
  run.next = line;
  if (run.waiting.size > 0) settle(run);
}

/** Joins the ways that have met, and lets the one that is furthest behind go first. */
export function settle(run: Run): void {
  for (;;) {
    const other = run.waiting.first(run.frame);
    if (other === undefined || other.line > run.next) return;
    run.waiting.takeFirst(run.frame);
    if (other.line === run.next) {
      run.record?.holes.otherWay();
      differ(run, joinState(run, other.state, other.why));
      continue;
    }
    wait(run, run.next, other.why);
    resume(run, other);
    return;
  }
}

/**
 * The way ends here: it returns from the call (`keep`), or the program ends on it.
 * @returns `goes-on` when another way goes on instead, `leaves` when one is left that returns from the call, `over` else
 */
export function endsHere(run: Run, keep: boolean): "goes-on" | "leaves" | "over" {
  const { waiting } = run;
  const other = waiting.takeFirst(run.frame);
  if (other !== undefined && Number.isFinite(other.line)) {
    if (keep) wait(run, Number.POSITIVE_INFINITY, other.why);
    resume(run, other);
    return "goes-on";
  }
  if (other !== undefined) {
    run.record?.holes.otherWay();
    if (keep) differ(run, joinState(run, other.state, other.why));
    else resume(run, other);
    return "leaves";
  }
  if (keep) return "leaves";
  // The program ends on this way; the callers may have others.
  for (let frame = run.frame?.parent; frame !== undefined; frame = frame?.parent) {
    const outer = waiting.takeFirst(frame);
    if (outer === undefined) continue;
    resume(run, outer);
    return Number.isFinite(outer.line) ? "goes-on" : "leaves";
  }
  return "over";
}

function resume(run: Run, way: Waiting): void {
  run.record?.longHand.commit(run);
  run.record?.holes.otherWay();
  restoreState(run, way.state);
  run.ended = false;
  run.next = way.line;
}

/** Tells which modes differ between ways that have met. */
function differ(run: Run, modes: readonly string[]): void {
  if (modes.length === 0) return;
  run.say(
    "branch",
    `join ${modes.join()}`,
    run.words.first,
    {
      text: `${modes.join(", ")} after it ${modes.length === 1 ? "differs" : "differ"} by the way taken: what hangs on it is unknown until a code sets it anew`,
    },
    undefined,
    1,
  );
}
