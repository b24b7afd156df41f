import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, metalHoles, perCause, ruledBy } from "./cause.ts";
import { stateAt } from "./cuts.ts";
import { cuttingStrokes, feedIsWrong } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedWord } from "./wording.ts";

export const feedLimit: Check = {
  id: "feed-limit",
  family: "machine",
  severity: "error",
  docs: {
    title: "The feed rate is over the axis limit",
    what: "The feed rate of a stroke against the largest feed the axis is declared to make.",
    why: "The control clamps the feed or stops. A tap that is clamped tears its thread.",
    formula: "vf = f · n (mm/min, mm/rev, 1/min)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S10000 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F5500.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits: "Acceleration is not looked at.",
    source: "the shop's own limit",
  },
  *detect(context) {
    yield* perCause("feed-limit", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  const limit = context.setup.machine?.axis.maxFeed ?? null;
  if (limit === null) return;
  for (const hole of metalHoles(context)) {
    if (feedIsWrong(hole)) continue;
    for (const stroke of cuttingStrokes(hole.shape)) {
      if (stroke.f === null || stroke.n === null) continue;
      const feedRate = stroke.f * stroke.n;
      if (feedRate <= limit * 1.0005) continue;
      const word = feedWord(limit / stroke.n, stroke.n, stateAt(hole.shape, stroke), context.system);
      yield {
        key: keyOf(stroke.fRef, hole),
        severity: "error",
        weight: feedRate / limit,
        place: at(context, stroke.fRef, hole.firstBlock),
        ruled: ruledBy(hole, stroke.fRef, "feed"),
        hole,
        message: `Feed rate ${say(feedRate, "feedRate", context.system)} is over the ${say(limit, "feedRate", context.system)} the axis makes.${word === null ? "" : ` Way out: ${word} or less.`}`,
        data: { measured: feedRate, limit, unit: "mm/min" },
      };
    }
  }
}
