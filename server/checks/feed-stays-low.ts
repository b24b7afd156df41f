import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { cuttingStrokes, isRubbing } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedWord, sayLevel } from "./wording.ts";

export const feedStaysLow: Check = {
  id: "feed-stays-low",
  family: "entry",
  severity: "info",
  docs: {
    title: "The feed stays low where the drill is whole in metal again",
    what: "A stroke that passes an interrupted entry at a reduced feed and goes on at it for more than a diameter below.",
    why: "Below the interruption the drill can run at its full feed: at half of it each hole takes twice the time.",
    formula: "time lost = length below the zone · (1 / vf - 1 / vf at the nominal feed)",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-60. R12. F90.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG0 Z12.\nG1 Z-9. F90.\nZ-60. F200.\nG0 Z50.\nM9\nM30\n%",
    limits: "Lost time only. That the feed is kept low for another reason, chips or surface, is not known.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("feed-stays-low", context, candidates(context));
  },
};

/** Of the nominal feed: what is faster counts as full. */
const LOW = 0.75;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const found = slow(context, hole);
    if (found !== null) yield found;
  }
}

function slow(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const { engagement, tool } = loads;
  const nominal = loads.window?.f?.[1];
  if (engagement === null || tool === null || nominal === undefined || shape.endZ === null) return null;
  const zones = engagement.zones.filter(({ allowedFeed }) => allowedFeed !== null && allowedFeed < LOW * nominal);
  const [first] = zones;
  if (first === undefined || zones.length > 1 || first.where !== "entry") return null;
  const below = first.toZ - shape.endZ;
  if (below <= tool.DC) return null;
  const stroke = cuttingStrokes(shape).find((s) => s.toZ < first.toZ - tool.DC && s.fromZ > first.toZ);
  if (stroke === undefined || stroke.f === null || stroke.n === null || stroke.n <= 0) return null;
  // One that rubs has a warning with the same way out.
  if (stroke.f > LOW * nominal || stroke.f <= 0 || isRubbing(stroke.f, loads)) return null;
  const length = first.toZ - Math.max(stroke.toZ, shape.endZ);
  const seconds = (length * 60 * (1 / stroke.f - 1 / nominal)) / stroke.n;
  const { system } = context;
  const word = feedWord(nominal, stroke.n, shape.state, system) ?? say(nominal, "feedPerRev", system);
  return {
    key: keyOf(stroke.fRef, hole),
    severity: "info",
    weight: seconds,
    place: at(context, stroke.fRef, hole.firstBlock),
    hole,
    message: `Feed ${say(stroke.f, "feedPerRev", system)} goes on for ${say(length, "length", system)} below the interrupted entry, where ${say(nominal, "feedPerRev", system)} is nominal: about ${say(seconds, "time", system)} lost in each hole. Way out: ${word} from ${sayLevel(shape.axis, first.toZ, system)} on, in long hand.`,
    data: { measured: stroke.f, limit: nominal, unit: "mm/rev" },
  };
}
