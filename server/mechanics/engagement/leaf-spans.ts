/** The part of the cutting edge, laid in one direction, that lies in a primitive. Closed forms. Derived. */
import { ALL, type Arcs, complementInto, NONE, SOME } from "./arcs.ts";
import { ACROSS, DRILLED, HALF_SPACE, type Leaf, OBLIQUE } from "./leaf.ts";

/**
 * Radii within 0 to R at which the edge is in the primitive, or is not where it is negated.
 * @param c cosine and
 * @param s sine of the direction of the edge
 * @param z height of the tip
 * @param k rise of the edge per radius
 * @param spare buffer to use on the way
 */
export function leafSpans(
  leaf: Leaf,
  c: number,
  s: number,
  z: number,
  k: number,
  R: number,
  out: Arcs,
  spare: Arcs,
): number {
  // The other side of a half-space is one already.
  const turned = leaf.negated && leaf.type !== HALF_SPACE;
  const into = turned ? spare : out;
  into.count = 0;
  inside(leaf, c, s, z, k, R, into);
  if (turned) complementInto(spare, R, out);
  if (out.count === 0) return NONE;
  return out.count === 2 && out.at[0] === 0 && out.at[1] === R ? ALL : SOME;
}

/** Radii at which the edge is in the primitive, negated or not. */
export function inside(leaf: Leaf, c: number, s: number, z: number, k: number, R: number, out: Arcs): void {
  switch (leaf.type) {
    case HALF_SPACE: {
      const rise = leaf.nx * c + leaf.ny * s + leaf.nz * k;
      const room = leaf.d - leaf.nz * z;
      if (Math.abs(rise) < 1e-12) {
        if (room > 0 || (room === 0 && !leaf.negated)) span(0, R, 0, R, out);
      } else if (rise > 0) span(0, room / rise, 0, R, out);
      else span(room / rise, R, 0, R, out);
      return;
    }
    case ACROSS: {
      const u = c * leaf.ux + s * leaf.uy;
      const v = z - leaf.z;
      quadratic(u * u + k * k, k * v - u * leaf.q, leaf.q * leaf.q + v * v - leaf.radius ** 2, 0, R, out);
      return;
    }
    case OBLIQUE: {
      const { dx, dy, dz } = leaf;
      const gz = z - leaf.z;
      const e = c * dx + s * dy + k * dz;
      const g = gz * dz - leaf.x * dx - leaf.y * dy;
      const eg = k * gz - c * leaf.x - s * leaf.y;
      const gg = leaf.x * leaf.x + leaf.y * leaf.y + gz * gz;
      quadratic(1 + k * k - e * e, eg - e * g, gg - g * g - leaf.radius ** 2, 0, R, out);
      return;
    }
    case DRILLED:
      drilled(leaf, c, s, z, k, R, out);
      return;
    default:
      quadratic(1, -(leaf.x * c + leaf.y * s), leaf.q * leaf.q - leaf.radius ** 2, 0, R, out);
  }
}

/** The cone where the edge is between tip and corner of the earlier hole, its wall where it is beyond. */
function drilled(leaf: Leaf, c: number, s: number, z: number, k: number, R: number, out: Arcs): void {
  const v = leaf.up * (z - leaf.z);
  const rise = leaf.up * k;
  const along = -(leaf.x * c + leaf.y * s);
  if (Math.abs(rise) < 1e-12) {
    if (v > leaf.point) wall(leaf, along, 0, R, out);
    else if (v > 0) cone(leaf, along, v, 0, 0, R, out);
    return;
  }
  // Radii at which the edge is as high as tip and corner.
  const tip = -v / rise;
  const corner = (leaf.point - v) / rise;
  if (rise > 0) {
    cone(leaf, along, v, rise, Math.max(0, tip), Math.min(R, corner), out);
    wall(leaf, along, Math.max(0, corner), R, out);
  } else {
    wall(leaf, along, 0, Math.min(R, corner), out);
    cone(leaf, along, v, rise, Math.max(0, corner), Math.min(R, tip), out);
  }
}

function wall(leaf: Leaf, along: number, from: number, to: number, out: Arcs): void {
  quadratic(1, along, leaf.q * leaf.q - leaf.radius * leaf.radius, from, to, out);
}

function cone(leaf: Leaf, along: number, v: number, rise: number, from: number, to: number, out: Arcs): void {
  if (leaf.point === 0) return;
  const f = leaf.flare * leaf.flare;
  quadratic(1 - f * rise * rise, along - f * v * rise, leaf.q * leaf.q - f * v * v, from, to, out);
}

function span(from: number, to: number, low: number, high: number, out: Arcs): void {
  const a = Math.max(from, low);
  const b = Math.min(to, high);
  if (!(b > a)) return;
  // Two pieces of one span meet where its form changes.
  if (out.count > 0 && (out.at[out.count - 1] as number) >= a) out.at[out.count - 1] = b;
  else out.push(a, b, 0, 0, 0, 0);
}

/** Where a·r² + 2·b·r + c <= 0 between low and high. */
function quadratic(a: number, b: number, c: number, low: number, high: number, out: Arcs): void {
  if (!(high > low)) return;
  if (Math.abs(a) < 1e-15) {
    if (Math.abs(b) < 1e-15) {
      if (c <= 0) span(low, high, low, high, out);
    } else if (b > 0) span(low, -c / (2 * b), low, high, out);
    else span(-c / (2 * b), high, low, high, out);
    return;
  }
  const root = b * b - a * c;
  if (root <= 0) {
    if (a < 0) span(low, high, low, high, out);
    return;
  }
  // The larger in amount first, the other from their product: no difference of like numbers.
  const sum = b > 0 ? -b - Math.sqrt(root) : Math.sqrt(root) - b;
  const one = sum / a;
  const other = sum === 0 ? one : c / sum;
  const from = Math.min(one, other);
  const to = Math.max(one, other);
  if (a > 0) span(from, to, low, high, out);
  else {
    span(low, from, low, high, out);
    span(to, high, low, high, out);
  }
}
