/** Integrals over the radius of what is in metal, panel by panel. Gauss-Legendre; checked against brute force. */
import { arcsOf, shareOf } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { arcsAt, type Solid } from "./solids.ts";

/** Shares nearer than this to 0 or 1 count as 0 or 1. */
export const SHARE_NOISE = 1e-6;

/** Integrals over the radius: share·r, and the two parts of the side force. */
export interface Sums {
  area: number;
  sx: number;
  sy: number;
  /** Some radius is in metal for part of the turn only. */
  partial: boolean;
  touching: boolean;
}

// 8 points on 0 to 1 (Abramowitz and Stegun, table 25.4, from memory; proved by the tests).
const NODES = [0.019855071751231884, 0.10166676129318664, 0.2372337950418355, 0.4082826787521751];
const WEIGHTS = [0.05061426814518813, 0.11119051722668724, 0.15685332293894366, 0.18134189168918102];

interface Node {
  /** Place and weight in a panel of width 1. */
  readonly at: number;
  readonly weight: number;
  /** By these the value counts in the two highest Legendre coefficients that 8 points know. */
  readonly p6: number;
  readonly p7: number;
}

/**
 * The arcs begin and end like a square root at the ends of a panel; u = sin²(πt/2) takes that away, so that few points
 * are enough.
 */
const PANEL: readonly Node[] = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => {
  const t = i < 4 ? (NODES[i] as number) : 1 - (NODES[7 - i] as number);
  const w = WEIGHTS[i < 4 ? i : 7 - i] as number;
  const x2 = (2 * t - 1) ** 2;
  const p6 = (231 * x2 ** 3 - 315 * x2 ** 2 + 105 * x2 - 5) / 16;
  const p7 = ((2 * t - 1) * (429 * x2 ** 3 - 693 * x2 ** 2 + 315 * x2 - 35)) / 16;
  return {
    at: Math.sin((Math.PI / 2) * t) ** 2,
    weight: w * (Math.PI / 2) * Math.sin(Math.PI * t),
    p6: 13 * w * p6,
    p7: 15 * w * p7,
  };
});

/** Highest coefficients above this show a bend inside the panel: where one surface takes over from another. */
const BEND = 2e-3;
const HALVINGS = 5;

/**
 * Adds the integrals from radius a to b, mm, the tip at height z. Halves the panel where the integrand is not smooth.
 */
export function integrate(
  solid: Solid,
  front: DrillFront,
  z: number,
  a: number,
  b: number,
  sums: Sums,
  halvings = HALVINGS,
): void {
  const width = b - a;
  if (width <= 0) return;
  const part: Sums = { area: 0, sx: 0, sy: 0, partial: false, touching: false };
  let c6 = 0;
  let c7 = 0;
  for (const node of PANEL) {
    const r = a + width * node.at;
    const arcs = arcsAt(solid, r, z + front.slope * r);
    if (arcs.length === 0) continue;
    const dr = node.weight * width;
    const share = shareOf(arcs);
    let fx = 0;
    let fy = 0;
    arcsOf(arcs, (from, to) => {
      fx += Math.cos(to) - Math.cos(from);
      fy += Math.sin(to) - Math.sin(from);
    });
    part.touching = true;
    if (share > SHARE_NOISE && share < 1 - SHARE_NOISE) part.partial = true;
    part.area += share * r * dr;
    part.sx += fx * dr;
    part.sy += fy * dr;
    // One mixed value is enough: a bend shows in all three.
    const mixed = share + 0.31 * fx + 0.47 * fy;
    c6 += node.p6 * mixed;
    c7 += node.p7 * mixed;
  }
  if (halvings > 0 && Math.abs(c6) + Math.abs(c7) > BEND) {
    const middle = (a + b) / 2;
    integrate(solid, front, z, a, middle, sums, halvings - 1);
    integrate(solid, front, z, middle, b, sums, halvings - 1);
    return;
  }
  sums.area += part.area;
  sums.sx += part.sx;
  sums.sy += part.sy;
  sums.partial ||= part.partial;
  sums.touching ||= part.touching;
}
