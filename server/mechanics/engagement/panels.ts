/** The stretches of the radius over which the arcs keep their form. */
import type { DrillFront } from "./drill.ts";
import { breakRadii, type Scene } from "./scene.ts";

const edges: number[] = [];

/** Breaks nearer together than this share of the radius are one. */
const SAME = 1e-7;

/**
 * 0, R, the boundary of the zones and every radius between them where the arcs change their form. The list is used
 * again by the next call.
 */
export function panelEdges(scene: Scene, { R, centre, slope }: DrillFront, z: number): readonly number[] {
  edges.length = 0;
  breakRadii(scene, z, slope, edges);
  // Sorted and thinned in place: insertion, since there are few.
  let n = 0;
  for (let i = 0; i < edges.length; i++) {
    const r = edges[i] as number;
    if (!(r > SAME * R && r < R * (1 - SAME)) || Math.abs(r - centre) < SAME * R) continue;
    let j = n++;
    for (; j > 0 && (edges[j - 1] as number) > r; j--) edges[j] = edges[j - 1] as number;
    edges[j] = r;
  }
  edges.length = n;
  let to = 0;
  let before = 0;
  for (let i = 0; i < n; i++) {
    const r = edges[i] as number;
    if (r - before < SAME * R) continue;
    edges[to++] = r;
    before = r;
  }
  edges.length = to;
  let place = to;
  while (place > 0 && (edges[place - 1] as number) > centre) place--;
  edges.splice(place, 0, centre);
  edges.unshift(0);
  edges.push(R);
  return edges;
}
