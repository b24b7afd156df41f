/** Shares of the centre zone and of the peripheral zone in metal, the edge laid in one direction. */
import { ALL, Arcs, measureWithin, NONE } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { HALF_SPACE, type Leaf } from "./leaf.ts";
import { inside } from "./leaf-spans.ts";
import { found, lookAlong, type Scene } from "./scene.ts";

/** The last direction looked at. */
export const ray = { centre: 0, outer: 0 };

/** @param c cosine and @param s sine of the direction; z height of the tip */
export function lookOut(scene: Scene, front: DrillFront, z: number, c: number, s: number): void {
  if (scene.walls !== null && beside(scene.walls, front, z, c, s)) return;
  const { centre, R } = front;
  const code = lookAlong(scene, c, s, z, front);
  if (code === NONE || code === ALL) {
    ray.centre = ray.outer = code === ALL ? 1 : 0;
    return;
  }
  const spans = found();
  ray.centre = measureWithin(spans, 0, centre) / centre;
  ray.outer = measureWithin(spans, centre, R) / (R - centre);
}

const MOST = 16;
const froms = new Float64Array(MOST);
const tos = new Float64Array(MOST);
const spare = new Arcs();

/** All of the walls leave metal: what they take away is added up; false where something is taken twice. */
function beside(walls: readonly Leaf[], front: DrillFront, z: number, c: number, s: number): boolean {
  const { R, slope, centre } = front;
  let n = 0;
  let fromCentre = 0;
  let fromOuter = 0;
  for (let i = 0; i < walls.length; i++) {
    const leaf = walls[i] as Leaf;
    spare.count = 0;
    if (leaf.type === HALF_SPACE) {
      const rise = leaf.nx * c + leaf.ny * s + leaf.nz * slope;
      const room = leaf.d - leaf.nz * z;
      if (Math.abs(rise) < 1e-12) {
        if (room > 0 || (room === 0 && !leaf.negated)) continue;
        ray.centre = ray.outer = 0;
        return true;
      }
      const r = room / rise;
      if (rise > 0) {
        if (r < R) spare.push(Math.max(0, r), R, 0, 0, 0, 0);
      } else if (r > 0) spare.push(0, Math.min(r, R), 0, 0, 0, 0);
    } else if (leaf.negated) inside(leaf, c, s, z, slope, R, spare);
    else return false;
    for (let j = 0; j < spare.count; j += 2) {
      const a = spare.at[j] as number;
      const b = spare.at[j + 1] as number;
      for (let m = 0; m < n; m++) if (a < (tos[m] as number) && b > (froms[m] as number)) return false;
      if (n === MOST) return false;
      froms[n] = a;
      tos[n++] = b;
      if (a < centre) fromCentre += Math.min(b, centre) - a;
      if (b > centre) fromOuter += b - Math.max(a, centre);
    }
  }
  ray.centre = Math.max(0, 1 - fromCentre / centre);
  ray.outer = Math.max(0, 1 - fromOuter / (R - centre));
  return true;
}
