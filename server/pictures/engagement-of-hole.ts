/** What the engagement pictures need of a hole, and which of several holes they are drawn of. */
import type { Engagement, HoleLoads } from "../loads/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import type { EngagementCurveInput } from "./engagement-curve.ts";
import type { EngagementPlanInput } from "./engagement-plan.ts";
import { CLASSES } from "./engagement-style.ts";

/** The two coordinates square to each drill axis, in order. */
export const SQUARE_AXES = { x: ["Y", "Z"], y: ["X", "Z"], z: ["X", "Y"] } as const;

/**
 * Whether there is something to draw. Skin and an exit that a note tells are not: the first is whole metal, and of the
 * second no height is known but where it ends.
 */
export function isInterrupted(engagement: Engagement | null): engagement is Engagement {
  return engagement !== null && engagement.class !== "none";
}

/**
 * The first of those with the hardest class, and of these the one that walks farthest; null: none is interrupted. Samples
 * are not asked for: of ten thousand holes they would take a second.
 */
export function hardestEntry<T extends { readonly loads: HoleLoads }>(holes: Iterable<T>): T | null {
  let hardest: { readonly hole: T; readonly rank: number; readonly walk: number } | null = null;
  for (const hole of holes) {
    const { engagement } = hole.loads;
    if (!isInterrupted(engagement)) continue;
    const rank = CLASSES.indexOf(engagement.class);
    const walk = hole.loads.walk ?? 0;
    if (hardest === null || rank > hardest.rank || (rank === hardest.rank && walk > hardest.walk))
      hardest = { hole, rank, walk };
  }
  return hardest?.hole ?? null;
}

/** Where the drill is whole in metal and nothing is interrupted any more; null: never in this hole. */
export function wholeFrom({ fullZ, at }: Engagement, endZ: number | null): number | null {
  // Where it never is, the end of the hole stands for it. A hole beside it may end there too: what is below is not drilled.
  const z = endZ === null || fullZ - BELOW > endZ ? fullZ - BELOW : endZ + BELOW;
  return at(z).rim >= WHOLE ? fullZ : null;
}

/** Of a deep hole only the beginning is drawn, where something is to be seen there and nothing below. */
function cutOf({ samples, gaps }: Engagement, startZ: number, last: number, endZ: number): number | undefined {
  const cutZ = last - AFTER * (startZ - last);
  // It must leave out more than it leaves.
  if (cutZ - endZ < startZ - cutZ) return undefined;
  const whole = samples.every(({ z, rim }) => z > last || rim >= WHOLE) && gaps.every(({ toZ }) => toZ >= last);
  return whole ? cutZ : undefined;
}

/** Shown below the last zone, as a share of what is above. */
const AFTER = 0.3;
/** Shown of the way through air, as a share of the way to the last zone. */
const AIR = 0.1;
/** mm; on a flat front the change itself lies between air and metal. */
const BELOW = 1e-3;
const WHOLE = 1 - 1e-6;

/** @param rings how many the front is cut into */
export function planOfHole(
  { shape }: HoleLoads,
  engagement: Engagement,
  rings: number,
  system: UnitSystem,
): EngagementPlanInput {
  const { worst, front, source } = engagement;
  return {
    radiusMm: front.R,
    centreMm: front.centre,
    kind: front.kind,
    rings: engagement.plan(worst.z, rings),
    directionKnown: source === "stock",
    axes: SQUARE_AXES[shape.axis],
    zMm: worst.z,
    area: worst.area,
    rim: worst.rim,
    system,
  };
}

export function curveOfHole({ shape }: HoleLoads, engagement: Engagement, system: UnitSystem): EngagementCurveInput {
  const { samples, zones, firstContactZ, worst, fullZ } = engagement;
  const endZ = shape.endZ ?? fullZ;
  // The kernel looks from the highest place of the part, which may lie far above this hole.
  const last = zones.reduce((least, { toZ }) => Math.min(least, toZ), firstContactZ);
  const above = zones.reduce((most, { fromZ }) => Math.max(most, fromZ), firstContactZ + AIR * (firstContactZ - last));
  const startZ = Math.min(shape.startZ ?? above, above);
  const cutZ = cutOf(engagement, startZ, last, endZ);
  const drawn = samples.filter(({ z }) => z <= Math.max(startZ, firstContactZ) && (cutZ === undefined || z > cutZ));
  return {
    samples: cutZ === undefined ? drawn : [...drawn, engagement.at(cutZ)],
    zones,
    cutZ,
    firstContactZ,
    fullZ: wholeFrom(engagement, shape.endZ),
    startZ,
    endZ,
    worstZ: worst.z,
    axis: shape.axis,
    system,
  };
}
