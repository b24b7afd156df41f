/** Feeds that are too high where the drill is in metal for part of the turn only: shared by entry and exit. */
import { NO_FEED_FITS } from "../loads/allowed-feed.ts";
import type { Engagement, EngagementZone } from "../loads/types.ts";
import type { Stroke } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, ruledBy } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import { entryOf, entryWords } from "./entry-words.ts";
import { cuttingStrokes, feedIsWrong } from "./feed.ts";
import type { CheckContext } from "./types.ts";
import { feedWord, sayLevel } from "./wording.ts";

const SILENT = 1.1;
const FAR_OVER = 1.5;
/**
 * mm: zones come with this much added above first contact and below full engagement, twice as much in castings and
 * skin. A stroke that only runs through the added part has done no harm.
 */
const MARGIN = 1;
const TOUCH = 0.1;

export interface Limit {
  readonly zone: EngagementZone;
  readonly allowed: number;
}

/** Every stroke that is too fast for a zone of these, the zone that it passes worst; one for each F word of a hole. */
export function* tooFast(context: CheckContext, wanted: (zone: EngagementZone) => boolean): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { engagement } = hole.loads;
    if (engagement === null || engagement.zones.length === 0 || feedIsWrong(hole)) continue;
    const limits = limitsOf(hole, engagement, wanted);
    if (limits.length === 0) continue;
    const worst = new Map<number, { stroke: Stroke; f: number; limit: Limit }>();
    for (const stroke of cuttingStrokes(hole.shape)) {
      const { f, fRef } = stroke;
      if (f === null) continue;
      for (const limit of limits) {
        if (!isTooFast(stroke, f, limit, hole, engagement)) continue;
        const known = worst.get(fRef);
        if (known === undefined || f / limit.allowed > known.f / known.limit.allowed)
          worst.set(fRef, { stroke, f, limit });
      }
    }
    for (const { stroke, f, limit } of worst.values()) yield tooHigh(context, hole, engagement, limit, stroke, f);
  }
}

/** Every zone that a stroke is too fast for, wherever in the hole it lies. */
export function limitsPassed(hole: MetalHole, stroke: Stroke): Limit[] {
  const { engagement } = hole.loads;
  const { f } = stroke;
  if (engagement === null || f === null || feedIsWrong(hole)) return [];
  return limitsOf(hole, engagement, () => true).filter((limit) => isTooFast(stroke, f, limit, hole, engagement));
}

function isTooFast(stroke: Stroke, f: number, limit: Limit, hole: MetalHole, engagement: Engagement): boolean {
  return f > SILENT * limit.allowed && passes(stroke, limit.zone, hole, engagement);
}

function limitsOf(hole: MetalHole, engagement: Engagement, wanted: (zone: EngagementZone) => boolean): Limit[] {
  const limits: Limit[] = [];
  const nominal = hole.loads.window?.f?.[1] ?? Number.POSITIVE_INFINITY;
  for (const zone of engagement.zones) {
    const { allowedFeed } = zone;
    if (allowedFeed === null || !wanted(zone) || (zone.class === "none" && !engagement.skin)) continue;
    // The whole nominal feed is no reduction: what is above it is a matter of the window.
    if (allowedFeed < nominal * (1 - 1e-9)) limits.push({ zone, allowed: allowedFeed });
  }
  return limits;
}

function passes(stroke: Stroke, zone: EngagementZone, hole: MetalHole, engagement: Engagement): boolean {
  const top = zone.where === "entry" ? Math.min(zone.fromZ, engagement.firstContactZ) : zone.fromZ;
  // In skin the corner must be 1 to 2 mm below: of the 2 mm in the zone one is asked for.
  const added = !engagement.skin && hole.loads.material?.group === "K" ? 2 * MARGIN : MARGIN;
  const bottom = Math.min(top, toTheEnd(zone, hole) ? zone.toZ : zone.toZ + added);
  const from = Math.max(stroke.fromZ, stroke.toZ);
  const to = Math.min(stroke.fromZ, stroke.toZ);
  return Math.min(from, top) - Math.max(to, bottom) > Math.min(TOUCH, (top - bottom) / 2);
}

const toTheEnd = (zone: EngagementZone, { shape }: MetalHole): boolean =>
  shape.endZ !== null && zone.toZ <= shape.endZ + 1e-6;

function tooHigh(
  context: CheckContext,
  hole: MetalHole,
  engagement: Engagement,
  { zone, allowed }: Limit,
  stroke: Stroke,
  f: number,
): Candidate {
  const { system } = context;
  const grave = zone.class === "heavy" || zone.class === "extreme";
  const none = zone.allowedWhy.includes(NO_FEED_FITS);
  const why = none || zone.allowedWhy === "" ? "" : `, ${zone.allowedWhy}`;
  const fitting = wayOut(context, hole, allowed, stroke, zone);
  const out = none
    ? noFeed(zone.allowedWhy)
    : `allowed is ${say(allowed, "feedPerRev", system)}${why}. Way out: ${fitting}`;
  const kind = whatFor(context, hole, engagement, zone);
  // Notes that tell other entries ask for other feeds, each over its own stretch; what the part tells is one thing.
  const told = `${kind}: ${none ? "no feed fits" : fitting}`;
  return {
    key: keyOf(stroke.fRef, hole),
    severity: grave && f > FAR_OVER * allowed ? "error" : "warning",
    weight: f / allowed,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `Feed ${say(f, "feedPerRev", system)} is too high ${kind}: ${out}.`,
    data: { measured: f, limit: allowed, unit: "mm/rev" },
    also: { thing: hole.shape.entry === null ? kindOf(engagement, zone) : told, text: told },
    related: entryTold(context, hole),
  };
}

/** What the part tells is one thing for each kind: the chain and the pass that takes the web are told apart. */
function kindOf({ form }: Engagement, { where }: EngagementZone): string {
  return `${where} ${form?.kind ?? ""}${form?.kind === "chain" ? form.sides : ""}`;
}

function whatFor(context: CheckContext, hole: MetalHole, engagement: Engagement, zone: EngagementZone): string {
  const { system } = context;
  if (engagement.skin && zone.class === "none") return "for the skin";
  if (zone.where === "exit") {
    const { exit } = hole.shape;
    const face = exit === null ? "" : `${entryWords(exit.form, system)}, `;
    return `where the drill comes out on one side first (${face}class ${zone.class})`;
  }
  if (zone.where === "inside") {
    const { axis } = hole.shape;
    const range = `${sayLevel(axis, zone.fromZ, system)} to ${sayLevel(axis, zone.toZ, system)}`;
    if (zone.joint === "touching") return `across the joint of two plates (${range}, taken as clamped)`;
    if (zone.joint === "gap") return `across the air inside the hole (${range})`;
    return `for the interrupted cut inside the hole (${range}, class ${zone.class})`;
  }
  const entry = entryOf(hole, system);
  return `for the interrupted cut (${entry === "" ? "" : `${entry}, `}class ${zone.class})`;
}

/** Why no feed fits, as sentences. */
function noFeed(why: string): string {
  const reason = why.replace(`: ${NO_FEED_FITS}`, "").replace(NO_FEED_FITS, "");
  return `${reason === "" ? "no feed fits" : `${reason}, so no feed fits`}. Way out: another drill or edge, or a flat entry`;
}

function wayOut(context: CheckContext, hole: MetalHole, allowed: number, stroke: Stroke, zone: EngagementZone): string {
  const { shape } = hole;
  const { system } = context;
  const word = feedWord(allowed, stroke.n, shape.state, system) ?? say(allowed, "feedPerRev", system);
  // No feed can begin above the stroke itself.
  const from = sayLevel(shape.axis, Math.min(zone.fromZ, shape.startZ ?? zone.fromZ), system);
  if (zone.where === "exit") return `${word} from ${from} to the end`;
  if (toTheEnd(zone, hole)) return `${word} over the full depth`;
  return `${word} from ${from} to ${sayLevel(shape.axis, zone.toZ, system)}, full feed from there`;
}
