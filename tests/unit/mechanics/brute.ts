/** The measures by looking at a fine grid of points: slow, plain, and knowing nothing of arcs. */
import type { DrillFront } from "../../../server/mechanics/engagement/drill.ts";
import { contains, type Solid } from "../../../server/mechanics/engagement/solids.ts";

export interface BruteMeasures {
  readonly area: number;
  readonly rim: number;
  readonly core: number;
  readonly side: number;
  readonly voidArc: number;
  readonly entries: number;
}

export function bruteMeasures(solid: Solid, front: DrillFront, z: number, radii = 160, angles = 1440): BruteMeasures {
  const { R, centre } = front;
  const inner = bruteRing(solid, front, z, 0, centre, radii, angles);
  const outer = bruteRing(solid, front, z, centre, R, radii, angles);
  const rim = rimMeasures(solid, front, z, 20 * angles);
  return {
    area: (2 * (inner.area + outer.area)) / (R * R),
    core: (2 * inner.area) / (centre * centre),
    side: Math.hypot(inner.sx + outer.sx, inner.sy + outer.sy) / (2 * R),
    ...rim,
  };
}

/** Share times r, and the side force, of a ring. */
function bruteRing(
  solid: Solid,
  front: DrillFront,
  z: number,
  from: number,
  to: number,
  radii: number,
  angles: number,
): { area: number; sx: number; sy: number } {
  let area = 0;
  let sx = 0;
  let sy = 0;
  const dr = (to - from) / radii;
  const da = (2 * Math.PI) / angles;
  const cos = Array.from({ length: angles }, (_, j) => Math.cos((j + 0.5) * da));
  const sin = Array.from({ length: angles }, (_, j) => Math.sin((j + 0.5) * da));
  for (let i = 0; i < radii; i++) {
    const r = from + (i + 0.5) * dr;
    let count = 0;
    for (let j = 0; j < angles; j++) {
      const c = cos[j] as number;
      const s = sin[j] as number;
      if (!contains(solid, r * c, r * s, z + front.slope * r)) continue;
      count++;
      // Over an arc, e^{iφ2} - e^{iφ1} is the integral of i·e^{iφ}.
      sx -= s * da * dr;
      sy += c * da * dr;
    }
    area += (count / angles) * r * dr;
  }
  return { area, sx, sy };
}

function rimMeasures(
  solid: Solid,
  front: DrillFront,
  z: number,
  angles: number,
): { rim: number; voidArc: number; entries: number } {
  const h = z + front.slope * front.R;
  const inside = Array.from({ length: angles }, (_, j) => {
    const a = ((j + 0.5) * 2 * Math.PI) / angles;
    return contains(solid, front.R * Math.cos(a), front.R * Math.sin(a), h);
  });
  const count = inside.filter(Boolean).length;
  let entries = 0;
  let gap = 0;
  let longest = 0;
  for (let j = 0; j < 2 * angles; j++) {
    const here = inside[j % angles] as boolean;
    const before = inside[(j + angles - 1) % angles] as boolean;
    if (j < angles && here && !before) entries++;
    gap = here ? 0 : gap + 1;
    longest = Math.max(longest, gap);
  }
  return { rim: count / angles, voidArc: Math.min(1, longest / angles), entries };
}

/** Largest |centre share - peripheral share|, the zones 180 degrees apart, over rays. */
export function bruteImbalance(solid: Solid, front: DrillFront, z: number, rays = 720, radii = 2000): number {
  const share = (phi: number, from: number, to: number): number => {
    let count = 0;
    for (let i = 0; i < radii; i++) {
      const r = from + ((i + 0.5) / radii) * (to - from);
      if (contains(solid, r * Math.cos(phi), r * Math.sin(phi), z + front.slope * r)) count++;
    }
    return count / radii;
  };
  let largest = 0;
  for (let j = 0; j < rays; j++) {
    const phi = (j * 2 * Math.PI) / rays;
    const gap = Math.abs(share(phi, 0, front.centre) - share(phi + Math.PI, front.centre, front.R));
    largest = Math.max(largest, gap);
  }
  return largest;
}
