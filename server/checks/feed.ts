/** What several checks need to know about a feed: is it possible at all, where does the edge rub, which feed would fit. */
import { feedFloor } from "../loads/allowed-feed.ts";
import type { HoleLoads } from "../loads/types.ts";
import type { HoleShape, Stroke } from "../program/types.ts";
import type { DrillFamily, Tool, WorkMaterial } from "../setup/types.ts";
import type { MetalHole } from "./cause.ts";
import type { CheckContext } from "./types.ts";

/**
 * Feed strokes that cut metal, with what is known of their feed: from the first in metal on, those that go deeper than
 * the tool has been. A move within its own hole cuts nothing, however fast.
 */
export function cuttingStrokes(shape: HoleShape): readonly Stroke[] {
  let strokes = cutting.get(shape);
  if (strokes === undefined) {
    strokes = cuttingOf(shape);
    cutting.set(shape, strokes);
  }
  return strokes;
}

/** Shapes that an edit leaves alone are the same objects in the next review. */
const cutting = new WeakMap<HoleShape, readonly Stroke[]>();

function cuttingOf(shape: HoleShape): readonly Stroke[] {
  if (shape.firstCut < 0) return [];
  const strokes = shape.strokes.slice(shape.firstCut);
  if (strokes.length === 1 || shape.kind === "back-bore") return strokes;
  let deepest = Number.POSITIVE_INFINITY;
  return strokes.filter((stroke) => {
    if (stroke.toZ >= deepest - 1e-6) return false;
    deepest = stroke.toZ;
    return true;
  });
}

/**
 * Strokes in metal that began after a retract, the first included. A change of feed within one stroke down is no peck.
 */
export function pecksInMetal(shape: HoleShape): number {
  const strokes = cuttingStrokes(shape);
  let pecks = strokes.length === 0 ? 0 : 1;
  for (let i = 1; i < strokes.length; i++) {
    const before = strokes[i - 1]?.toZ ?? 0;
    if (Math.abs((strokes[i]?.fromZ ?? 0) - before) > 1e-6) pecks++;
  }
  return pecks;
}

export interface FeedRange {
  /** mm/rev */
  readonly min: number;
  readonly max: number;
}

const DRILLS: ReadonlySet<DrillFamily> = new Set(["twist-hss", "solid-carbide", "indexable", "spade", "gun"]);

/**
 * Feeds outside this range are wrong in mode or unit, whatever the material.
 * Drills: f/D 0.001 to 0.06 (common practice, no source); gun drills run far finer. Reamers, spots, countersinks and
 * boring bars: twice as wide both ways. Without a diameter 0.002 to 1 mm/rev (common practice, no source).
 */
export function plausibleFeed(tool: Tool | null): FeedRange {
  if (tool === null) return { min: 0.002, max: 1 };
  const wide = widening(tool);
  return { min: (0.001 / wide) * tool.DC, max: 0.06 * wide * tool.DC };
}

const widening = (tool: Tool): number => (!DRILLS.has(tool.family) || tool.family === "gun" ? 2 : 1);

/** The feed of a stroke lies where no drill works, so its mode or unit must be wrong. Taps have their lead instead. */
export function implausibleFeed(f: number, loads: HoleLoads): boolean {
  if (loads.shape.kind === "tap" || loads.tool?.family === "tap") return false;
  const range = plausibleFeed(loads.tool);
  return f < range.min || f > range.max;
}

const wrongFeeds = new WeakMap<HoleLoads["limits"], boolean>();

/**
 * True where the feed is so wrong that what is worked out from it would only repeat one cause. Many checks ask.
 * The limits are one object as long as the loads stay the same, from review to review.
 */
export function feedIsWrong(hole: MetalHole): boolean {
  const { shape, loads } = hole;
  let wrong = wrongFeeds.get(loads.limits);
  if (wrong === undefined) {
    wrong = cuttingStrokes(shape).some((stroke) => stroke.f !== null && implausibleFeed(stroke.f, loads));
    wrongFeeds.set(loads.limits, wrong);
  }
  return wrong;
}

/**
 * Feed below which the edge rubs instead of cutting, mm/rev. Common practice, no source; the tool's own value wins.
 * null: no rule for this family.
 */
export function rubbingFeed(tool: Tool, material: WorkMaterial | null): number | null {
  if (tool.entry.fMin !== null) return tool.entry.fMin;
  return RUBBING.has(tool.family) ? feedFloor(tool, material).value : null;
}

/** Share by which a feed may miss a limit before it is worth a word. */
export const FEED_SILENT = 1.02;

/** True where the edge only rubs: below the rule for its family, and below what the tool's own window allows. */
export function isRubbing(f: number, { tool, material, window }: HoleLoads): boolean {
  const floor = tool === null ? null : rubbingFeed(tool, material);
  return floor !== null && f * FEED_SILENT < Math.min(floor, window?.f?.[0] ?? floor);
}

const RUBBING: ReadonlySet<DrillFamily> = new Set(["indexable", "solid-carbide", "twist-hss", "spade"]);

/**
 * The loads of a hole where its feed is highest. Loads are worked out for the first stroke in metal; where a later one
 * runs faster, as after a slow entry, that one loads the machine most.
 */
export function heaviest(context: CheckContext, hole: MetalHole): MetalHole {
  const { shape } = hole;
  let faster = fromFastest.get(shape);
  if (faster === undefined) {
    const fastest = fastestOf(shape);
    // The same hole, taken from another stroke: its loads are kept by a likeness of its own.
    const state = shape.strokes[fastest]?.own?.state ?? shape.state;
    faster = fastest < 0 ? null : { ...shape, firstCut: fastest, state, likeness: {} };
    fromFastest.set(shape, faster);
  }
  return faster === null ? hole : { ...hole, shape: faster, loads: context.loads(faster), whole: hole.whole ?? hole };
}

/** null: no stroke is faster than the first in metal. Shapes that an edit leaves alone are the same objects. */
const fromFastest = new WeakMap<HoleShape, HoleShape | null>();

function fastestOf(shape: HoleShape): number {
  const first = shape.strokes[shape.firstCut]?.f ?? null;
  if (first === null) return -1;
  let fastest: Stroke | null = null;
  let most = first * 1.001;
  for (const stroke of cuttingStrokes(shape)) {
    if (stroke.f === null || stroke.f <= most) continue;
    most = stroke.f;
    fastest = stroke;
  }
  return fastest === null ? -1 : shape.strokes.indexOf(fastest);
}

/** The hole as it would be with all its feeds multiplied. It is no hole of the program: its id belongs to none. */
export function withFeed(shape: HoleShape, factor: number): HoleShape {
  return {
    ...shape,
    id: -1,
    strokes: shape.strokes.map((stroke) => ({ ...stroke, f: stroke.f === null ? null : stroke.f * factor })),
  };
}

/**
 * The largest feed (mm/rev, first stroke in metal) at which the loads pass a test, found by halving with the same loads
 * that found the fault. null: no feed above the rubbing limit passes.
 * @param what names the test: one search for each hole and test
 */
export function feedThatFits(
  context: CheckContext,
  hole: MetalHole,
  what: string,
  fits: (loads: HoleLoads) => boolean,
): number | null {
  // The limits are one object as long as the loads stay the same, from review to review.
  let searches = found.get(hole.loads.limits);
  if (searches === undefined) {
    searches = new Map();
    found.set(hole.loads.limits, searches);
  }
  let fitting = searches.get(what);
  if (fitting === undefined) {
    fitting = searchFeed(context, hole, fits);
    searches.set(what, fitting);
  }
  return fitting;
}

const found = new WeakMap<HoleLoads["limits"], Map<string, number | null>>();

function searchFeed(context: CheckContext, hole: MetalHole, fits: (loads: HoleLoads) => boolean): number | null {
  const { loads, shape } = hole;
  if (loads.f === null || loads.tool === null) return null;
  const least = Math.max(rubbingFeed(loads.tool, loads.material) ?? 0, 0.001 * loads.tool.DC);
  let low = Math.min(least / loads.f, 1);
  let high = 1;
  const passes = (factor: number): boolean => fits(context.loads(withFeed(shape, factor)));
  if (!passes(low)) return null;
  for (let step = 0; step < 24 && high - low > 1e-4; step++) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return low * loads.f;
}
