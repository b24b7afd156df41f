import type { Span } from "../text/place.ts";
import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, perCause } from "./cause.ts";
import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import type { Check, CheckContext } from "./types.ts";

const LETTER_R = 82;
const LETTER_Z = 90;

export const cycleDepthOrder: Check = {
  id: "cycle-depth-order",
  family: "cycle",
  severity: "error",
  docs: {
    title: "The numbers of a cycle cannot be right",
    what: "The R plane below the bottom of the hole or on its level, a peck of zero or less, a repeat count that is no count.",
    why: "R below Z usually means a lost minus sign or a bare Z move while the cycle was still active: the drill would be driven down at rapid. A peck of zero never reaches the bottom.",
    formula: "R >= Z, Q > 0",
    example: "G81 X10. Y10. Z25. R2. F180.",
    better: "G81 X10. Y10. Z-25. R2. F180.",
    limits: "Whether the depth is the right depth is not known here.",
    source: "NISTIR 6556 section 3.5.16 and reference behaviour",
  },
  *detect(context) {
    yield* perCause("cycle-depth-order", context, noDepth(context));
    const events = eventsOf(context, "r-below-z", "cycle-word-bad").filter(
      // Read along X or Y: the plane is at fault, which `cycle-plane` tells.
      (event) => said(event, "plane", "") === "",
    );
    // The event tells the levels as the program writes them.
    const mm = context.system === "inch" ? 25.4 : 1;
    let cause = "";
    yield* eventFindings("cycle-depth-order", events, (event) => {
      if (event.kind === "r-below-z") {
        const { r, z } = event.data;
        const known = typeof r === "number" && typeof z === "number";
        const levels = known
          ? `R ${say(r * mm, "length", context.system)} lies below the bottom ${say(z * mm, "length", context.system)}`
          : "R lies below the bottom";
        // Holes that name no level of their own have it from the word told before.
        const own = depthWord(context, event.span.block);
        if (own !== null || cause === "") cause = `${event.span.block}`;
        return {
          key: `${cause}|${r}|${z}`,
          span: own ?? event.span,
          severity: levelOf(event, "error"),
          message: `${levels}. Way out: the sign of Z, or G80 before a move that is no hole.`,
          data: known ? { measured: r * mm, limit: z * mm, unit: "mm" } : null,
        };
      }
      const word = said(event, "word", "the word");
      const value = event.data.value;
      const written = `${word}${said(event, "value", "")}`;
      const text = said(event, "text", `${word} must be above 0`);
      const told = sentence(text.includes(written) ? text : `${written}: ${text}`);
      const out = text.includes("Way out") ? "" : ` Way out: ${wayOut(word, value, text)}.`;
      return {
        severity: levelOf(event, "error"),
        message: told + out,
        data: typeof value === "number" ? { measured: value, limit: 0, unit: "" } : null,
      };
    });
  },
};

function wayOut(word: string, value: number | string | null | undefined, text: string): string {
  if (word !== "Q") return "look at the count of holes";
  if (typeof value === "number" && !(value > 0)) return "a Q above 0, or G81 where no peck is wanted";
  return text.includes("more than 100 times")
    ? "Q in the unit of the program"
    : "a larger Q; look at its decimal point";
}

/** The depth word of the block, where a lost sign stands; the R word where the depth was given before. */
function depthWord(context: CheckContext, block: number): Span | null {
  const { blocks } = context.execution;
  const first = blocks.firstItem(block);
  let found: Span | null = null;
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind === LETTER_Z) return { block, start: blocks.start(item), end: blocks.end(item) };
    if (kind === LETTER_R) found = { block, start: blocks.start(item), end: blocks.end(item) };
  }
  return found;
}

/** R on the level of Z is allowed and drills nothing. */
function* noDepth(context: CheckContext): Generator<Candidate> {
  for (const operation of context.execution.operations) {
    for (const use of context.shapesOf(operation)) {
      const { startZ, endZ, longHand } = use.shape;
      if (longHand || startZ === null || endZ === null || Math.abs(startZ - endZ) > 1e-6) continue;
      const hole = { operation, ...use };
      yield {
        key: holeKey(hole),
        severity: "info",
        weight: 0,
        place: depthPlace(context, hole),
        hole,
        message: `R and the depth are both ${say(endZ, "length", context.system)}: the cycle feeds nowhere. Way out: the depth, if a hole is meant.`,
        data: { measured: startZ, limit: endZ, unit: "mm" },
      };
    }
  }
}
