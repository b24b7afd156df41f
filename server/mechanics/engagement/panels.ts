/** The stretches of the radius over which the arcs keep their form. */
import type { DrillFront } from "./drill.ts";
import { Numbers } from "./numbers.ts";
import { breakRadii, type Scene } from "./scene.ts";

const found = new Numbers();
const edges = new Numbers();

/** Breaks nearer together than this share of the radius are one. */
const SAME = 1e-7;

/**
 * 0, R, the boundary of the zones and every radius between them where the arcs change their form. The list is used
 * again by the next call.
 */
export function panelEdges(scene: Scene, { R, centre, slope }: DrillFront, z: number): Numbers {
  const same = SAME * R;
  found.count = 0;
  breakRadii(scene, z, slope, found);
  found.sortWithin(same, R - same);
  edges.count = 0;
  edges.push(0);
  let before = 0;
  for (let i = 0; i < found.count; i++) {
    const r = found.at[i] as number;
    if (before < centre && r > centre - same) {
      edges.push(centre);
      before = centre;
    }
    if (r - before < same) continue;
    edges.push(r);
    before = r;
  }
  if (before < centre) edges.push(centre);
  edges.push(R);
  return edges;
}
