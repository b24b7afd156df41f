/** Integrals over the radius of what is in metal, panel by panel. Gauss-Legendre; checked against brute force. */
import { ALL, NONE, SOME } from "./arcs.ts";
import { circle, lookRound } from "./circle.ts";
import { FIVE, SEVEN, THREE } from "./rules.ts";
import type { Scene } from "./scene.ts";

/** Shares nearer than this to 0 or 1 count as 0 or 1. */
export const SHARE_NOISE = 1e-6;

/** Integrals over the radius. */
export class Sums {
  /** Share times r. */
  area = 0;
  /** Share alone. */
  edge = 0;
  sx = 0;
  sy = 0;
  /** Some radius is in metal for part of the turn only. */
  partial = false;
  touching = false;

  clear(): void {
    this.area = this.edge = this.sx = this.sy = 0;
    this.partial = this.touching = false;
  }
}

/**
 * What the error may come to, as a share of a measure, judged by how the Legendre coefficients fall: slowly where there
 * is a bend inside the panel, since one surface takes over from another. Where no arcs meet there is none, and the
 * judgement is far too strict. Chosen by trial: the largest error over 4000 random cuts is 3.4e-4.
 */
const BEND = 2e-4;
const SMOOTH = 1e-2;
const HALVINGS = 7;
/** Panels that count for less than this need fewer points. */
const NARROW = 0.2;
const SLIM = 0.02;

/**
 * Adds the integrals from radius a to b, mm. Halves the panel where the integrand is not smooth.
 * @param z height of the tip
 * @param k rise of the edge per radius
 * @param counts the most by which the value of a measure changes for each mm of the panel
 */
export function integrate(
  scene: Scene,
  k: number,
  z: number,
  a: number,
  b: number,
  counts: number,
  sums: Sums,
  halvings = HALVINGS,
): void {
  const width = b - a;
  if (!(width > 0)) return;
  const rule = width * counts < SLIM ? THREE : width * counts < NARROW ? FIVE : SEVEN;
  const { points, at, weight, high } = rule;
  let area = 0;
  let edge = 0;
  let sx = 0;
  let sy = 0;
  let partial = false;
  let touching = false;
  let tangled = false;
  let c1 = 0;
  let c2 = 0;
  let c3 = 0;
  let c4 = 0;
  for (let i = 0; i < points; i++) {
    const r = a + width * (at[i] as number);
    const code = lookRound(scene, r, z + k * r);
    if (i === 0 && code !== SOME) {
      // Between two breaks nothing becomes part of a turn that was none of it or all of it.
      if (code === ALL) {
        sums.area += ((a + b) / 2) * width;
        sums.edge += width;
        sums.touching = true;
      }
      return;
    }
    if (code === NONE) continue;
    const { share, fx, fy } = circle;
    if (circle.tangled) tangled = true;
    if (share === 0) continue;
    const dr = (weight[i] as number) * width;
    touching = true;
    if (share > SHARE_NOISE && share < 1 - SHARE_NOISE) partial = true;
    area += share * r * dr;
    edge += share * dr;
    sx += fx * dr;
    sy += fy * dr;
    // One mixed value is enough: a bend shows in all three.
    const mixed = share + 0.31 * fx + 0.47 * fy;
    const j = 4 * i;
    c1 += (high[j] as number) * mixed;
    c2 += (high[j + 1] as number) * mixed;
    c3 += (high[j + 2] as number) * mixed;
    c4 += (high[j + 3] as number) * mixed;
  }
  if (halvings > 0) {
    const top = Math.abs(c3) + Math.abs(c4);
    const under = Math.abs(c1) + Math.abs(c2);
    if (top * top * width * counts > (tangled ? BEND : SMOOTH) * (top + under)) {
      const middle = (a + b) / 2;
      integrate(scene, k, z, a, middle, counts, sums, halvings - 1);
      integrate(scene, k, z, middle, b, counts, sums, halvings - 1);
      return;
    }
  }
  sums.area += area;
  sums.edge += edge;
  sums.sx += sx;
  sums.sy += sy;
  if (partial) sums.partial = true;
  if (touching) sums.touching = true;
}
