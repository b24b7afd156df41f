import { NO_FEED_FITS } from "../loads/allowed-feed.ts";
import type { Engagement } from "../loads/types.ts";
import type { Stroke } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, entryKey, keyOf, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import { entryWords } from "./entry-words.ts";
import { cuttingStrokes, feedIsWrong } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedWord, sayLevel } from "./wording.ts";

export const interruptedFeed: Check = {
  id: "interrupted-feed",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The feed is too high for an interrupted cut",
    what: "The feed of every stroke that passes a zone where the drill is in metal for part of the turn only: incline, edge, ridge, curved face, chain of holes, skin.",
    why: "The insert or lip hits metal once a turn and the other side has nothing to lean on: the drill is pushed aside, edges break out, the hole runs off.",
    formula:
      "allowed = max(fMin, share of the class · nominal feed of the tool's window). Within 10 % over: silence. Above: warning. Above 1.5 x allowed in class heavy or extreme: error",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R12. F200.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R12. F90.\nG80 M9\nM30\n%",
    limits:
      "The face is known only from a cut note, from `entries:` or from the stock in the setup; without one a hole counts as flat. The share is of the window's nominal feed, never of the programmed one.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("interrupted-feed", context, candidates(context));
  },
};

const SILENT = 1.1;
const FAR_OVER = 1.5;
/**
 * mm: zones come with this much added above first contact and below full engagement, twice as much in castings and
 * skin. A stroke that only runs through the added part has done no harm.
 */
const MARGIN = 1;
const TOUCH = 0.1;

interface Zone {
  readonly top: number;
  readonly bottom: number;
}

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { engagement } = hole.loads;
    if (engagement === null || engagement.allowedFeed === null || feedIsWrong(hole)) continue;
    if (engagement.class === "none" && !engagement.skin) continue;
    const zone = zoneOf(engagement);
    // One candidate for each F: the pecks of one hole are not so many holes.
    const fastest = new Map<number, Stroke & { readonly f: number }>();
    for (const stroke of cuttingStrokes(hole.shape)) {
      const { f, fRef } = stroke;
      if (f === null || f <= SILENT * engagement.allowedFeed || !passes(stroke, zone, hole, engagement)) continue;
      if (f > (fastest.get(fRef)?.f ?? 0)) fastest.set(fRef, { ...stroke, f });
    }
    for (const stroke of fastest.values())
      yield tooHigh(context, hole, engagement, engagement.allowedFeed, stroke, stroke.f, zone);
  }
}

/** The part of the depth that has the class which rules the feed. */
function zoneOf(engagement: Engagement): Zone {
  const ruling = engagement.zones.filter(
    (zone) => zone.class === engagement.class && (zone.class !== "none" || engagement.skin),
  );
  if (ruling.length === 0) return { top: engagement.firstContactZ, bottom: engagement.fullZ };
  return {
    top: Math.max(...ruling.map((zone) => Math.max(zone.fromZ, zone.toZ))),
    bottom: Math.min(...ruling.map((zone) => Math.min(zone.fromZ, zone.toZ))),
  };
}

function passes(stroke: Stroke, zone: Zone, hole: MetalHole, engagement: Engagement): boolean {
  const top = Math.min(zone.top, engagement.firstContactZ);
  // In skin the corner must be 1 to 2 mm below: of the 2 mm in the zone one is asked for.
  const added = !engagement.skin && hole.loads.material?.group === "K" ? 2 * MARGIN : MARGIN;
  const toTheEnd = hole.shape.endZ !== null && zone.bottom <= hole.shape.endZ + 1e-6;
  const bottom = Math.min(top, toTheEnd ? zone.bottom : zone.bottom + added);
  const from = Math.max(stroke.fromZ, stroke.toZ);
  const to = Math.min(stroke.fromZ, stroke.toZ);
  return Math.min(from, top) - Math.max(to, bottom) > Math.min(TOUCH, (top - bottom) / 2);
}

function tooHigh(
  context: CheckContext,
  hole: MetalHole,
  engagement: Engagement,
  allowed: number,
  stroke: Stroke,
  f: number,
  zone: Zone,
): Candidate {
  const { system } = context;
  const { shape } = hole;
  const grave = engagement.class === "heavy" || engagement.class === "extreme";
  const entry = shape.entry === null ? "" : `${entryWords(shape.entry.form, system)}, `;
  const kind =
    engagement.skin && engagement.class === "none"
      ? "for the skin"
      : `for the interrupted cut (${entry}${engagement.class})`;
  const none = engagement.allowedWhy.includes(NO_FEED_FITS);
  const why = none || engagement.allowedWhy === "" ? "" : `, ${engagement.allowedWhy}`;
  return {
    // Another entry asks for another feed over another stretch: a finding of its own.
    key: `${keyOf(stroke.fRef, hole)}${engagement.class}${entry}${zone.top}|${zone.bottom}${entryKey(hole)}`,
    severity: grave && f > FAR_OVER * allowed ? "error" : "warning",
    weight: f / allowed,
    place: at(context, stroke.fRef, hole.firstBlock),
    hole,
    message: `Feed ${say(f, "feedPerRev", system)} is too high ${kind}: ${none ? noFeed(engagement.allowedWhy) : `allowed is ${say(allowed, "feedPerRev", system)}${why}. Way out: ${wayOut(context, hole, allowed, stroke, zone)}`}.`,
    data: { measured: f, limit: allowed, unit: "mm/rev" },
    related: entryTold(context, hole),
  };
}

/** Why no feed fits, as sentences. */
function noFeed(why: string): string {
  const reason = why.replace(`: ${NO_FEED_FITS}`, "").replace(NO_FEED_FITS, "");
  return `${reason === "" ? "no feed fits" : `${reason}, so no feed fits`}. Way out: another drill or edge, or a flat entry`;
}

function wayOut(context: CheckContext, hole: MetalHole, allowed: number, stroke: Stroke, zone: Zone): string {
  const { shape } = hole;
  const word = feedWord(allowed, stroke.n, shape.state, context.system) ?? say(allowed, "feedPerRev", context.system);
  if (shape.endZ === null || zone.bottom <= shape.endZ + 1e-6) return `${word} over the full depth`;
  // No feed can begin above the stroke itself.
  const from = sayLevel(shape.axis, Math.min(zone.top, shape.startZ ?? zone.top), context.system);
  const to = sayLevel(shape.axis, zone.bottom, context.system);
  return `${word} from ${from} to ${to}, full feed from there`;
}
