/** The measures counted out on a plain grid of 160 radii and 1440 directions: what a kernel is to be faster than. */
import type { DrillFront } from "../../server/mechanics/engagement/drill.ts";
import type { Inside } from "../unit/mechanics/scenes.ts";

const RADII = 160;
const ANGLES = 1440;
const COS = Float64Array.from({ length: ANGLES }, (_, j) => Math.cos(((j + 0.5) * 2 * Math.PI) / ANGLES));
const SIN = Float64Array.from({ length: ANGLES }, (_, j) => Math.sin(((j + 0.5) * 2 * Math.PI) / ANGLES));

export function gridMeasures(
  inside: Inside,
  { R, slope }: DrillFront,
  z: number,
): { readonly area: number; readonly side: number } {
  let area = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0; i < RADII; i++) {
    const r = ((i + 0.5) / RADII) * R;
    const h = z + slope * r;
    let count = 0;
    for (let j = 0; j < ANGLES; j++) {
      const c = COS[j] as number;
      const s = SIN[j] as number;
      if (!inside(r * c, r * s, h)) continue;
      count++;
      sx -= s;
      sy += c;
    }
    area += count * r;
  }
  return {
    area: ((2 * area) / (RADII * ANGLES)) * (1 / R),
    side: (Math.hypot(sx, sy) * Math.PI) / (RADII * ANGLES),
  };
}
