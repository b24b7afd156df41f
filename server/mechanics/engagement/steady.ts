/** Stretches of depth over which nothing changes: the walls around the drill are parallel to it there. */

import { SOME } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { ACROSS, ALONG, DRILLED, HALF_SPACE, type Leaf } from "./leaf.ts";
import { obliqueWithin } from "./oblique.ts";
import type { Scene } from "./scene.ts";

/** True where the measures are the same for every tip height from high down to low. */
export function isSteady(scene: Scene, { R, slope }: DrillFront, high: number, low: number): boolean {
  for (const leaf of scene.leaves) if (!steady(leaf, R, low, high + slope * R)) return false;
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
    case DRILLED: {
      if (leaf.q - leaf.radius >= R) return true;
      const a = leaf.up * (low - leaf.z);
      const b = leaf.up * (high - leaf.z);
      return Math.min(a, b) >= leaf.point || Math.max(a, b) <= 0;
    }
    case ACROSS: {
      if (Math.abs(leaf.q) - leaf.radius >= R) return true;
      return low - leaf.z >= leaf.radius || leaf.z - high >= leaf.radius;
    }
    default:
      return obliqueWithin(leaf, R, low, high) !== SOME;
  }
}
