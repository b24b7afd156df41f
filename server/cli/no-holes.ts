/** Why `explain` has no holes to show: for a person who expected some. */
import type { Review } from "../review/types.ts";
import { plural } from "./formats/terminal.ts";

/** Checks whose findings say why a block that might have drilled does not. */
const REASONS: ReadonlySet<string> = new Set([
  "not-a-machining-program",
  "syntax",
  "dialect-rule",
  "not-executed",
  "subprogram",
  "flow-structure",
  "unknown-branch",
  "run-limit",
  "cycle-word-missing",
  "cycle-depth-order",
  "cannot-check",
  "internal",
]);
const SHOWN = 3;

/**
 * Sentences, the first for the whole.
 * @param line from 1, when one line was asked for; null: the whole program
 */
export function whyNoHoles(review: Review, line: number | null): string[] {
  const { blocks } = review.execution;
  if (line !== null && review.execution.holeCount > 0) {
    return [`No holes on line ${line}: it makes none, and none of its words rules one. ${nearest(review, line)}`];
  }
  const found = review.findings.flatMap(({ check, place, message }) =>
    REASONS.has(check) && place.in === "program" ? [`Line ${blocks.lineOf(place.span.block) + 1}: ${message}`] : [],
  );
  if (found.length > 0) {
    const more = found.length - SHOWN;
    const rest = more > 0 ? [`And ${plural(more, "more reason")}: swarfline check lists them.`] : [];
    return ["No holes in this program, for what was found in it:", ...found.slice(0, SHOWN), ...rest];
  }
  return [`No holes in this program: ${plainReason(review)}.`];
}

function plainReason({ execution }: Review): string {
  const { blocks } = execution;
  let words = false;
  for (let line = 0; line < blocks.count && !words; line++) words = blocks.itemCount(blocks.blockAt(line)) > 0;
  if (!words) return "it is empty";
  if (execution.stepCount === 0) return "no block of it is run";
  return "no drilling cycle runs in it, and no feed move along the tool's axis makes a hole";
}

function nearest({ execution }: Review, line: number): string {
  let above = 0;
  let below = Number.POSITIVE_INFINITY;
  for (let index = 0; index < execution.holeCount; index++) {
    const at = execution.blocks.lineOf(execution.hole(index).block) + 1;
    if (at < line) above = Math.max(above, at);
    else below = Math.min(below, at);
  }
  const near = [...(above > 0 ? [above] : []), ...(Number.isFinite(below) ? [below] : [])];
  return near.length === 1
    ? `The nearest line with holes is ${near[0]}.`
    : `The nearest lines with holes are ${near.join(" and ")}.`;
}
