/** Stretches of depth over which nothing changes: the walls around the drill are parallel to it there. */

import { SOME } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { ACROSS, ALONG, DRILLED, HALF_SPACE, type Leaf } from "./leaf.ts";
import { obliqueWithin } from "./oblique.ts";
import type { Scene } from "./scene.ts";

/** True where the measures are the same for every tip height from high down to low. */
export function isSteady(scene: Scene, { R, slope }: DrillFront, high: number, low: number): boolean {
  for (const leaf of scene.leaves) {
    const clear =
      leaf.type === DRILLED ? steadyHole(leaf, R, slope, high, low) : steady(leaf, R, low, high + slope * R);
    if (!clear) return false;
  }
  return true;
}

function steady(leaf: Leaf, R: number, low: number, high: number): boolean {
  switch (leaf.type) {
    case ALONG:
      return true;
    case HALF_SPACE: {
      if (leaf.nz === 0) return true;
      const reach = leaf.q * R;
      const a = leaf.d - leaf.nz * low;
      const b = leaf.d - leaf.nz * high;
      return (a >= reach && b >= reach) || (a <= -reach && b <= -reach && (a !== 0 || b !== 0));
    }
    case ACROSS: {
      if (Math.abs(leaf.q) - leaf.radius >= R) return true;
      return low - leaf.z >= leaf.radius || leaf.z - high >= leaf.radius;
    }
    default:
      return obliqueWithin(leaf, R, low, high) !== SOME;
  }
}

/** An earlier hole is an endless one where the edge can reach only its wall, and none where it cannot reach it. */
function steadyHole(leaf: Leaf, R: number, slope: number, high: number, low: number): boolean {
  const { q, radius, up, point, z } = leaf;
  const nearest = q - radius;
  if (nearest >= R) return true;
  if (up < 0) return z - (high + slope * R) >= point || low >= z;
  if (low + slope * Math.max(0, nearest) - z >= point) return true;
  // A flat hole, and one blunter than the edge is steep, may be reached between its axis and the corner.
  const blunt = leaf.point === 0 || leaf.flare * slope > 1;
  if (blunt && slope > 0 && q < R) return high + slope * R <= z;
  const across = Math.min(R, q);
  const reached = (r: number): boolean => leaf.radiusAt(high + slope * r) > Math.abs(q - r);
  return !reached(across) && !reached(R);
}
