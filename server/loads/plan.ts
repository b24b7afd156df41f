/** Where the edge is in metal over one turn, seen along the drill: rings of radius with the arcs in each. */
import type { DrillFront } from "../mechanics/engagement/drill.ts";
import { arcsAt, type Solid } from "../mechanics/engagement/solids.ts";
import type { EngagedRing } from "./types.ts";

export function planOf(solid: Solid, front: DrillFront, z: number, rings: number): EngagedRing[] {
  const width = front.R / rings;
  return Array.from({ length: rings }, (_, i) => {
    const r = (i + 0.5) * width;
    return { fromR: i * width, toR: (i + 1) * width, arcs: [...arcsAt(solid, r, z + front.slope * r)] };
  });
}
