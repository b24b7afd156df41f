import type { ModalState } from "../program/types.ts";
import { anyHoles, at, type Candidate, contactPlace, keyOf, perCause } from "./cause.ts";
import { cutAt, stateAt } from "./cuts.ts";
import { cuttingStrokes } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedCode } from "./wording.ts";

export const noFeed: Check = {
  id: "no-feed",
  family: "feed",
  severity: "error",
  docs: {
    title: "There is no feed",
    what: "A stroke into metal with no F in force, or with F0.",
    why: "The control stops with an alarm, or takes the feed that an earlier program left behind. Some controls forget F when the feed mode changes.",
    formula: "",
    example: "T1 M6\nS800 M3\nG43 H1 Z50. M8\nG81 X0. Y0. Z-5. R2.",
    better: "T1 M6\nS800 M3\nG43 H1 Z50. M8\nG81 X0. Y0. Z-5. R2. F100.",
    limits: "Inverse-time feed is not allowed in cycles and is not judged here.",
    source: "NISTIR 6556 reference behaviour for G1; common practice for cycles",
  },
  *detect(context) {
    yield* perCause("no-feed", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of anyHoles(context)) {
    // Dialects that refuse a G1 without a feed have said so at its block already.
    if (hole.shape.longHand && context.setup.dialect.unusedWords === "error") continue;
    const strokes = cuttingStrokes(hole.shape);
    const stroke = strokes.find((s) => lacksFeed(s.f, stateAt(hole.shape, s)));
    const state = stateAt(hole.shape, stroke);
    // A G1 under G93 without F, and a cycle under G93, have rules of their own.
    if (state.feedMode === 93 && (!hole.shape.longHand || state.f !== 0)) continue;
    if (stroke === undefined && (hole.shape.firstCut >= 0 || !lacksFeed(null, state))) continue;
    const fRef = stroke?.fRef ?? state.from.f;
    const zero = stroke?.f === 0 || state.f === 0;
    const mode =
      state.feedMode === 93
        ? "G93, the time of the move"
        : state.feedMode === 95
          ? `${feedCode(context, 95)}, feed per revolution`
          : `${feedCode(context, 94)}, feed per minute`;
    yield {
      key: `${zero}${keyOf(fRef, hole)}`,
      severity: "error",
      weight: 1,
      place: zero && fRef !== 0 ? at(context, fRef, hole.firstBlock) : contactPlace(context, cutAt(hole, stroke)),
      hole,
      message: `${zero ? "F0: the drill never gets into the metal." : "No F is in force."} Way out: write F in this block (${mode}).`,
      data: null,
    };
  }
}

/** @param f feed of the stroke, mm/rev */
function lacksFeed(f: number | null, state: ModalState): boolean {
  // One that is written and not known is told at its word.
  if (state.fWhy !== null) return false;
  return f === 0 || (f === null && (state.f === null || state.f === 0));
}
