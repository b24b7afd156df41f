import type { Stroke } from "../program/types.ts";
import { numberIn, say, sayOne, unitIn } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause, ruledBy } from "./cause.ts";
import { stateAt } from "./cuts.ts";
import { cuttingStrokes, implausibleFeed, plausibleFeed } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedCode, sayRange, toolName } from "./wording.ts";

export const feedMode: Check = {
  id: "feed-mode",
  family: "feed",
  severity: "error",
  docs: {
    title: "The feed cannot be right in the active feed mode",
    what: "A feed per revolution so large or so small for the diameter that the mode (per minute or per revolution) or the unit must be wrong. For taps: a feed that is not the lead.",
    why: "F120. under G95 is 120 mm every turn and breaks the drill; F0.12 under G94 rubs for hours.",
    formula:
      "f = vf / n, under G93 with vf = length of the move · F; plausible 0.001 to 0.06 of the diameter, without a diameter 0.002 to 1 mm/rev. Tap: f = lead within 0.5 %",
    example: "G21 G95\nS1000 M3\nM8\nG81 X0. Y0. Z-5. R2. F120.",
    better: "G21 G94\nS1000 M3\nM8\nG81 X0. Y0. Z-5. R2. F120.",
    limits:
      "A plausible feed can still be wrong: the tool's window says more. A tap without a declared lead is not judged.",
    source: "common practice, no source; tapping feed: NISTIR 6556 section 3.5.16.5",
  },
  *detect(context) {
    yield* perCause("feed-mode", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const lead = tapLead(context, hole);
    if (lead !== null) {
      yield lead;
      continue;
    }
    for (const stroke of cuttingStrokes(hole.shape)) {
      if (stroke.f === null || stroke.f <= 0 || !implausibleFeed(stroke.f, hole.loads)) continue;
      yield implausible(context, hole, stroke, stroke.f);
      break;
    }
  }
}

function implausible(context: CheckContext, hole: MetalHole, stroke: Stroke, f: number): Candidate {
  const range = plausibleFeed(hole.loads.tool);
  const high = f > range.max;
  const limit = high ? range.max : range.min;
  // Just outside is a strange feed, far outside is another mode or unit.
  const far = (high ? f > 2 * range.max : f < range.min / 2) || rereadFits(hole, stroke, f);
  const tool =
    hole.loads.tool === null
      ? "a drill"
      : `${toolName(hole.shape.tool)}, ${say(hole.loads.tool.DC, "length", context.system)},`;
  const { feedMode, from } = stateAt(hole.shape, stroke);
  const mode = feedMode === 93 ? "G93" : feedCode(context, feedMode);
  const speed = feedMode === 95 || stroke.n === null ? "" : `at ${say(stroke.n, "rotation", context.system)} `;
  const means = `${mode} makes F ${MEANS[feedMode]}: ${speed}that is ${say(f, "feedPerRev", context.system)}`;
  return {
    key: keyOf(stroke.fRef, hole),
    severity: far ? "error" : "warning",
    weight: high ? f / limit : limit / f,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `${means}, and ${tool} takes ${sayRange(range.min, range.max, "feedPerRev", context.system)} whatever the material. Way out: ${meant(context, hole, stroke, f)}.`,
    data: { measured: f, limit, unit: "mm/rev" },
    related:
      from.feedMode === 0
        ? []
        : [{ place: at(context, from.feedMode, hole.firstBlock), message: `${mode} is set here` }],
  };
}

const MEANS = { 93: "the time of the move", 94: "a feed per minute", 95: "a feed per revolution" } as const;

/** The number under G93 read as a feed per minute or per revolution, mm/rev; empty where it is not known. */
function untimed({ shape }: MetalHole, n: number | null): readonly { readonly mode: 94 | 95; readonly f: number }[] {
  const { f, units } = shape.state;
  if (f === null) return [];
  const own = units === "inch" ? f * 25.4 : f;
  const perRev = { mode: 95, f: own } as const;
  return n !== null && n > 0 ? [{ mode: 94, f: own / n }, perRev] : [perRev];
}

/** Read in the other mode or unit the feed lies in the tool's window: that is what was meant. */
function rereadFits(hole: MetalHole, stroke: Stroke, f: number): boolean {
  const window = hole.loads.window?.f ?? null;
  if (window === null) return false;
  const { feedMode: mode, units } = stateAt(hole.shape, stroke);
  const within = (feed: number): boolean => feed >= window[0] && feed <= window[2];
  if (mode === 93) return untimed(hole, stroke.n).some((reading) => within(reading.f));
  const n = stroke.n ?? 0;
  const other = n > 0 ? (mode === 95 ? f / n : f * n) : 0;
  const unit = units === "mm" ? f * 25.4 : units === "inch" ? f / 25.4 : 0;
  return [other, unit].some(within);
}

function meant(context: CheckContext, hole: MetalHole, stroke: Stroke, f: number): string {
  const fits = (feed: number): boolean => feed > 0 && !implausibleFeed(feed, hole.loads);
  const { feedMode: mode, units } = stateAt(hole.shape, stroke);
  const n = stroke.n;
  if (mode === 93) {
    const reading = untimed(hole, n).find((one) => fits(one.f));
    if (reading === undefined) return "look at F, S and the length of the move";
    const meaning = reading.mode === 94 ? "per minute" : "per revolution";
    return `${feedCode(context, reading.mode)} before it, if F is meant ${meaning}: then it is ${say(reading.f, "feedPerRev", context.system)}`;
  }
  if (n !== null && n > 0) {
    if (mode === 95 && fits(f / n))
      return `${feedCode(context, 94)} before it, if F is meant per minute: then it is ${say(f / n, "feedPerRev", context.system)}`;
    if (mode === 94 && fits(f * n))
      return `${feedCode(context, 95)} before it, if F is meant per revolution: then it is ${say(f * n, "feedPerRev", context.system)}`;
  }
  if (units === "mm" && fits(f * 25.4))
    return `F in mm, if the number is meant in inches: then it is ${say(f * 25.4, "feedPerRev", context.system)}`;
  if (units === "inch" && fits(f / 25.4))
    return `F in inches, if the number is meant in mm: then it is ${say(f / 25.4, "feedPerRev", context.system)}`;
  return "look at F, S and the decimal point";
}

/** The F of a tap is no limit to stay under: it is told to as many digits as the lead needs. */
function leadWord(lead: number, n: number | null, hole: MetalHole, { system }: CheckContext): string | null {
  const perRev = hole.shape.state.feedMode === 95;
  if (!perRev && n === null) return null;
  const quantity = perRev ? "feedPerRev" : "feedRate";
  const own = Number(numberIn(perRev ? lead : lead * (n ?? 0), quantity, system).toFixed(4));
  const foreign = sayOne(perRev ? lead : lead * (n ?? 0), quantity, system === "mm" ? "inch" : "mm");
  return `F${hole.shape.state.feedMode === 93 ? " for " : ""}${own} ${unitIn(quantity, system)} (${foreign})`;
}

function tapLead(context: CheckContext, hole: MetalHole): Candidate | null {
  const { tool } = hole.loads;
  const lead = tool?.lead ?? null;
  // A tap keeps its lead in a drilling cycle and in long hand too.
  if ((hole.shape.kind !== "tap" && tool?.family !== "tap") || lead === null) return null;
  const stroke = cuttingStrokes(hole.shape)[0];
  if (stroke === undefined || stroke.f === null || Math.abs(stroke.f - lead) <= 0.005 * lead) return null;
  const word = leadWord(lead, stroke.n, hole, context);
  return {
    key: keyOf(stroke.fRef, hole),
    severity: "error",
    weight: Math.abs(stroke.f / lead - 1),
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `${toolName(hole.shape.tool)} has a lead of ${say(lead, "length", context.system)}, the feed is ${say(stroke.f, "feedPerRev", context.system)}.${word === null ? "" : ` Way out: ${word}.`}`,
    data: { measured: stroke.f, limit: lead, unit: "mm/rev" },
  };
}
