/**
 * S and F that were written for another tool and are still in force. They may be meant to go on; where they do not suit
 * the tool at hand, the fault is the word that is missing after the tool change, not the one that stands before it.
 *
 * Checks name the words that rule a candidate. What an inherited word causes is taken out of their findings and kept for
 * `speed-inherited`, which runs after them and tells it once, at the operation that lacks the word.
 */
import type { WordRef } from "../../grammar/blocks.ts";
import type { Candidate, MetalHole } from "./cause.ts";
import { cuttingStrokes } from "./feed.ts";
import type { CheckContext } from "./types.ts";

/** Words that rule what a check found: the S, and for feeds and loads the F. */
export interface Ruled {
  readonly s: WordRef;
  readonly f: WordRef;
  /** A feed per minute is wrong through S as well as through F; a load is not told from S alone. */
  readonly what: "speed" | "feed" | "load";
}

/** A word that another tool left in force. */
export interface Left {
  readonly letter: "S" | "F";
  readonly ref: WordRef;
  readonly tool: number;
}

export interface Inherited {
  readonly candidate: Candidate;
  readonly words: readonly Left[];
}

const ID = "speed-inherited";

const kept = new WeakMap<CheckContext, Inherited[]>();

/** What the checks before have kept back. */
export function inheritedOf(context: CheckContext): readonly Inherited[] {
  return kept.get(context) ?? [];
}

/**
 * Keeps a candidate back where an inherited word causes it.
 * @param same the first candidate of the same word, which may be of the tool that the word was written for
 */
export function keepBack(context: CheckContext, candidate: Candidate, same: Candidate | undefined): boolean {
  const { ruled, hole } = candidate;
  if (ruled === undefined || context.setup.severity.get(ID) === "off") return false;
  const words = wordsAtFault(context, hole, ruled);
  if (words.length === 0) return false;
  // The word is wrong in the same way for the tool that it was written for: one cause.
  if (same !== undefined && same.hole.shape.tool !== hole.shape.tool && alike(same, candidate)) return false;
  let list = kept.get(context);
  if (list === undefined) {
    list = [];
    kept.set(context, list);
  }
  list.push({ candidate, words });
  return true;
}

function alike({ data: a }: Candidate, { data: b }: Candidate): boolean {
  if (a?.limit == null || b?.limit == null) return false;
  return Math.abs(a.limit - b.limit) <= 0.1 * Math.abs(a.limit);
}

function wordsAtFault(context: CheckContext, hole: MetalHole, ruled: Ruled): Left[] {
  const s = leftBy(context, hole, "S", ruled.s);
  const perMinute = hole.shape.state.feedMode === 94;
  if (ruled.what === "speed") {
    if (s === null) return [];
    // F per minute goes with S.
    const f = perMinute ? leftBy(context, hole, "F", cuttingStrokes(hole.shape)[0]?.fRef ?? 0) : null;
    return f === null ? [s] : [s, f];
  }
  const f = leftBy(context, hole, "F", ruled.f);
  const speed = s === null ? "fits" : speedFits(hole);
  if (f !== null) return s !== null && speed !== "fits" && perMinute ? [s, f] : [f];
  if (s === null || !perMinute || speed === "fits") return [];
  return speed === "misfits" || ruled.what === "feed" ? [s] : [];
}

/** Rounding of S, as the check on the window allows it. */
const SILENT = 1.01;

function speedFits({ loads }: MetalHole): "fits" | "misfits" | "unknown" {
  const { n, vc, window, limits } = loads;
  if (n !== null && limits.rpm !== null && n > limits.rpm * 1.0005) return "misfits";
  const range = window?.vc ?? null;
  if (range === null || vc === null) return "unknown";
  return vc > range[2] * SILENT || vc * SILENT < range[0] ? "misfits" : "fits";
}

interface User {
  readonly tool: number | null;
  readonly operation: number;
}

const users = new WeakMap<CheckContext, ReadonlyMap<WordRef, User>>();

/** The first operation that each S and F drills in. */
function usersOf(context: CheckContext): ReadonlyMap<WordRef, User> {
  let first = users.get(context) as Map<WordRef, User> | undefined;
  if (first === undefined) {
    first = new Map();
    for (const { index: operation, shapes } of context.execution.operations) {
      for (const { shape } of shapes) {
        const { from } = shape.state;
        const user = { tool: shape.tool, operation };
        for (const ref of [from.s, from.f, ...shape.strokes.map((stroke) => stroke.fRef)])
          if (ref !== 0 && !first.has(ref)) first.set(ref, user);
      }
    }
    users.set(context, first);
  }
  return first;
}

function leftBy(context: CheckContext, hole: MetalHole, letter: Left["letter"], ref: WordRef): Left | null {
  const own = hole.shape.tool;
  if (ref === 0 || own === null) return null;
  const user = usersOf(context).get(ref);
  const drilled = user === undefined || user.operation === hole.operation.index ? null : user.tool;
  const tool = drilled ?? millOf(context, ref, own);
  return tool === null || tool === own ? null : { letter, ref, tool };
}

/**
 * A tool that made no holes but cut with this word. A word that stands after the last cut of a tool is written for the
 * next one.
 */
function millOf({ execution }: CheckContext, ref: WordRef, own: number): number | null {
  const span = execution.blocks.spanOf(ref);
  const first = span === null ? -1 : execution.stepOf(span.block);
  if (first < 0) return null;
  const { tool } = execution.stepState(first);
  if (tool === null || tool === own) return null;
  for (let step = first; step < execution.stepCount; step++) {
    const state = execution.stepState(step);
    if (state.tool !== tool) return null;
    if (state.cycle !== 0 || (state.motion !== null && state.motion > 0)) return tool;
  }
  return null;
}
