import type { EngagementZone } from "../loads/types.ts";
import type { Stroke } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause, ruledBy } from "./cause.ts";
import { stateAt } from "./cuts.ts";
import { levelIn } from "./family.ts";
import { cuttingStrokes, FEED_SILENT, feedIsWrong, isRubbing, rubbingFeed } from "./feed.ts";
import { speedFault, speedSlip } from "./speed-slip.ts";
import type { Check, CheckContext } from "./types.ts";
import { vcWindow } from "./vc-window.ts";
import { feedWord, sayRange, toolName } from "./wording.ts";

export const feedWindow: Check = {
  id: "feed-window",
  family: "feed",
  severity: "warning",
  docs: {
    title: "The feed is outside the tool's window",
    what: "The feed per revolution against the window that the tool declares for the material or its group. Above is a warning; below is information, and silent in an interrupted, skin or breakthrough zone. Where the edge only rubs it is a warning in every zone.",
    why: "Above the window edges chip and chips jam. Below it the edge rubs, hardens the metal and makes long chips.",
    formula: "f = vf / n (mm/rev, mm/min, 1/min)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F800.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Only windows declared for the tool are judged. A hole with several feeds is judged low by its fastest stroke outside such zones: slower ones are meant so, as long as they do not rub.",
    source: "the tool's own data; rubbing limits: common practice, no source",
  },
  *detect(context) {
    yield* perCause("feed-window", context, candidates(context));
  },
};

/** A stretch of less is no stretch, mm. */
const TOUCH = 0.1;

function* candidates(context: CheckContext): Generator<Candidate> {
  const onPurpose = askedFor(context);
  const speaksOfSpeed = levelIn(context.setup.severity, vcWindow) !== "off";
  for (const hole of metalHoles(context)) {
    const window = hole.loads.window?.f ?? null;
    if (window === null || hole.shape.kind === "tap" || feedIsWrong(hole)) continue;
    if (speaksOfSpeed && ofSpeed(context, hole)) continue;
    const strokes = cuttingStrokes(hole.shape);
    const [min, , max] = window;
    const fastest = fastestOf(strokes);
    if (fastest !== null && fastest.f > max * FEED_SILENT) yield high(context, hole, fastest, fastest.f, window);
    const floor = hole.loads.tool === null ? null : rubbingFeed(hole.loads.tool, hole.loads.material);
    const rubbing = fastestOf(strokes.filter(({ f }) => f !== null && isRubbing(f, hole.loads)));
    if (rubbing !== null && floor !== null) {
      // A stroke slower than the others is meant so: it needs to cut, no more.
      const enough = fastest !== null && rubbing.f < fastest.f ? floor : min;
      yield low(context, hole, rubbing, rubbing.f, window, { floor, enough });
      continue;
    }
    const slow = isInterrupted(hole) ? fastestOf(strokes.filter((stroke) => wholeWay(hole, stroke) > TOUCH)) : fastest;
    if (slow !== null && slow.f * FEED_SILENT < min && !onPurpose.has(slow.fRef))
      yield low(context, hole, slow, slow.f, window, null);
  }
}

/** The S is what is wrong, and the check on the cutting speed tells both. */
function ofSpeed(context: CheckContext, hole: MetalHole): boolean {
  const fault = speedFault(context, hole);
  return fault !== null && speedSlip(hole, fault) !== null;
}

/**
 * F words below the window that an interrupted zone asks for. One F for a row of holes suits the one of them that is
 * interrupted; that it stays low further down is told by a check of its own.
 */
function askedFor(context: CheckContext): ReadonlySet<number> {
  const refs = new Set<number>();
  for (const hole of metalHoles(context)) {
    const min = hole.loads.window?.f?.[0];
    if (min === undefined || !isInterrupted(hole)) continue;
    const asked = zonesOf(hole).some(({ allowedFeed }) => allowedFeed === null || allowedFeed < min);
    if (!asked) continue;
    for (const stroke of cuttingStrokes(hole.shape)) if (passesZone(hole, stroke)) refs.add(stroke.fRef);
  }
  return refs;
}

type Fed = Stroke & { readonly f: number };

function fastestOf(strokes: readonly Stroke[]): Fed | null {
  let fastest: Fed | null = null;
  for (const stroke of strokes) {
    const { f } = stroke;
    if (f !== null && (fastest === null || f > fastest.f)) fastest = { ...stroke, f };
  }
  return fastest;
}

function isInterrupted({ loads: { engagement } }: MetalHole): boolean {
  return engagement !== null && (engagement.class !== "none" || engagement.skin);
}

function zonesOf({ loads: { engagement } }: MetalHole): readonly EngagementZone[] {
  return engagement === null ? [] : engagement.zones.filter((zone) => zone.class !== "none" || engagement.skin);
}

/** Part of a stroke with all of the drill in metal, mm: below the first contact and outside the interrupted zones. */
function wholeWay(hole: MetalHole, { fromZ, toZ }: Stroke): number {
  const { engagement } = hole.loads;
  if (engagement === null) return Math.abs(fromZ - toZ);
  const bottom = Math.min(fromZ, toZ);
  let z = Math.min(Math.max(fromZ, toZ), engagement.firstContactZ);
  let way = 0;
  const zones = zonesOf(hole)
    .map((zone) => ({ top: Math.max(zone.fromZ, zone.toZ), end: Math.min(zone.fromZ, zone.toZ) }))
    .sort((one, other) => other.top - one.top);
  for (const { top, end } of zones) {
    way += Math.max(0, z - Math.max(top, bottom));
    z = Math.min(z, end);
  }
  return way + Math.max(0, z - bottom);
}

type Range = readonly [number, number, number];

function rangeWords(context: CheckContext, hole: MetalHole, [min, , max]: Range): string {
  const material = hole.loads.material === null ? "" : ` in ${hole.loads.material.key}`;
  return `the ${sayRange(min, max, "feedPerRev", context.system)} of ${toolName(hole.shape.tool)}${material}`;
}

function high(context: CheckContext, hole: MetalHole, stroke: Stroke, f: number, window: Range): Candidate {
  const max = window[2];
  const word = feedWord(max, stroke.n, stateAt(hole.shape, stroke), context.system);
  return {
    key: keyOf(stroke.fRef, hole),
    severity: "warning",
    weight: f / max,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `Feed ${say(f, "feedPerRev", context.system)} is above ${rangeWords(context, hole, window)}.${word === null ? "" : ` Way out: ${word} or less.`}`,
    data: { measured: f, limit: max, unit: "mm/rev" },
  };
}

/** @param rubs where the edge only rubs: feed below which it does, and feed that would be enough */
function low(
  context: CheckContext,
  hole: MetalHole,
  stroke: Stroke,
  f: number,
  window: Range,
  rubs: { readonly floor: number; readonly enough: number } | null,
): Candidate {
  const min = window[0];
  const { system } = context;
  const why = rubs === null ? "" : `; under ${say(rubs.floor, "feedPerRev", system)} the edge rubs (common practice)`;
  return {
    key: keyOf(stroke.fRef, hole),
    severity: rubs === null ? "info" : "warning",
    weight: min / f,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `Feed ${say(f, "feedPerRev", system)} is below ${rangeWords(context, hole, window)}${why}.${wayUp(context, hole, stroke, rubs?.enough ?? min, rubs?.floor ?? null)}`,
    data: { measured: f, limit: min, unit: "mm/rev" },
  };
}

/** In the interrupted cut the window is no way out: there the feed allowed for it is, else what does not rub. */
function wayUp(context: CheckContext, hole: MetalHole, stroke: Stroke, enough: number, floor: number | null): string {
  const wordOf = (feed: number, toward: "up" | "down"): string | null =>
    feedWord(feed, stroke.n, stateAt(hole.shape, stroke), context.system, toward);
  const full = wordOf(enough, "up");
  if (full === null) return "";
  if (!isInterrupted(hole)) return ` Way out: ${full} or more.`;
  if (floor === null || !passesZone(hole, stroke)) return ` Way out: ${full} or more outside the interrupted cut.`;
  const beside = wholeWay(hole, stroke) > TOUCH ? `, ${full} or more outside it` : "";
  const allowed = hole.loads.engagement?.allowedFeed ?? null;
  const inside = allowed === null ? `${wordOf(floor, "up")} or more` : wordOf(allowed, "down");
  return ` Way out: ${inside} in the interrupted cut${beside}.`;
}

/** Some of the stroke lies in an interrupted zone. */
function passesZone(hole: MetalHole, stroke: Stroke): boolean {
  const { fromZ, toZ } = stroke;
  const { engagement } = hole.loads;
  if (engagement === null) return false;
  const way = Math.min(Math.max(fromZ, toZ), engagement.firstContactZ) - Math.min(fromZ, toZ);
  return way - wholeWay(hole, stroke) > TOUCH;
}
