/** The part of a circle around the drill axis that lies in a primitive. Closed forms. Derived. */
import { ALL, type Arcs, NONE, SOME, TURN } from "./arcs.ts";
import { ACROSS, HALF_SPACE, type Leaf, OBLIQUE } from "./leaf.ts";
import { obliqueArcs } from "./oblique.ts";

/**
 * @param r radius of the circle, mm, above 0
 * @param h its height
 * @param out filled where the answer is SOME
 */
export function leafArcs(leaf: Leaf, r: number, h: number, out: Arcs): number {
  if (leaf.type === HALF_SPACE) {
    const limit = leaf.d - leaf.nz * h;
    const reach = leaf.q * r;
    // On a face itself a body counts as in metal, and the void beyond it as not.
    if (reach < 1e-12 || limit >= reach || limit <= -reach)
      return limit > 0 || (limit === 0 && !leaf.negated) ? ALL : NONE;
    return aroundMiddle(leaf, -limit / reach, out);
  }
  if (leaf.type === ACROSS) return slabArcs(leaf, r, h, out);
  if (leaf.type === OBLIQUE) return obliqueArcs(leaf, r, h, out);
  const radius = leaf.radiusAt(h);
  const inside = leaf.negated ? NONE : ALL;
  const outside = leaf.negated ? ALL : NONE;
  if (radius <= 0) return outside;
  const q = leaf.q;
  if (q < 1e-12) return r <= radius ? inside : outside;
  const c = (r * r + q * q - radius * radius) / (2 * r * q);
  if (c >= 1) return outside;
  if (c <= -1) return inside;
  return aroundMiddle(leaf, leaf.negated ? -c : c, out);
}

/** Where the cosine of the angle from the middle is c or more, -1 < c < 1. */
function aroundMiddle(leaf: Leaf, c: number, out: Arcs): number {
  const half = Math.acos(c);
  const s = Math.sqrt(1 - c * c);
  const { middle, ux, uy } = leaf;
  out.count = 0;
  const cosFrom = ux * c + uy * s;
  const sinFrom = uy * c - ux * s;
  const cosTo = ux * c - uy * s;
  const sinTo = uy * c + ux * s;
  const from = middle - half;
  const to = middle + half;
  if (from < 0) {
    out.push(0, to, 1, 0, cosTo, sinTo);
    out.push(from + TURN, TURN, cosFrom, sinFrom, 1, 0);
  } else if (to > TURN) {
    out.push(0, to - TURN, 1, 0, cosTo, sinTo);
    out.push(from, TURN, cosFrom, sinFrom, 1, 0);
  } else out.push(from, to, cosFrom, sinFrom, cosTo, sinTo);
  return SOME;
}

/** A cylinder across the drill axis is a slab at each height, between two parallel lines. */
function slabArcs(leaf: Leaf, r: number, h: number, out: Arcs): number {
  const rise = h - leaf.z;
  const half = leaf.radius * leaf.radius - rise * rise;
  const outside = leaf.negated ? ALL : NONE;
  if (half <= 0) return outside;
  const w = Math.sqrt(half);
  const near = (leaf.q - w) / r;
  const far = (leaf.q + w) / r;
  if (near >= 1 || far <= -1) return outside;
  if (near <= -1 && far >= 1) return leaf.negated ? NONE : ALL;
  const { middle, ux, uy } = leaf;
  // Angles from the middle at which the circle passes the far and the near line: the slab lies between.
  const cosA = Math.min(1, far);
  const cosB = Math.max(-1, near);
  const a = Math.acos(cosA);
  const b = Math.acos(cosB);
  const sinA = Math.sqrt(1 - cosA * cosA);
  const sinB = Math.sqrt(1 - cosB * cosB);
  out.count = 0;
  // Angle and direction at the four places, right (-) and left (+) of the middle.
  const xA = ux * cosA;
  const yA = uy * cosA;
  const xB = ux * cosB;
  const yB = uy * cosB;
  const pA = uy * sinA;
  const qA = ux * sinA;
  const pB = uy * sinB;
  const qB = ux * sinB;
  if (leaf.negated) {
    if (a > 0) out.insertTurned(middle - a, middle + a, xA + pA, yA - qA, xA - pA, yA + qA);
    if (b < Math.PI) out.insertTurned(middle + b, middle + TURN - b, xB - pB, yB + qB, xB + pB, yB - qB);
    return SOME;
  }
  if (a === 0) out.insertTurned(middle - b, middle + b, xB + pB, yB - qB, xB - pB, yB + qB);
  else if (b === Math.PI) out.insertTurned(middle + a, middle + TURN - a, xA - pA, yA + qA, xA + pA, yA - qA);
  else {
    out.insertTurned(middle + a, middle + b, xA - pA, yA + qA, xB - pB, yB + qB);
    out.insertTurned(middle - b, middle - a, xB + pB, yB - qB, xA + pA, yA - qA);
  }
  return SOME;
}
