/**
 * Where the picture of one primitive changes: the radii at which its arc appears, ends or changes its form, and the
 * heights at which tip, zone boundary or corner meet it. Derived.
 */
import type { DrillFront } from "./drill.ts";
import { ACROSS, ALONG, DRILLED, HALF_SPACE, type Leaf } from "./leaf.ts";
import { Numbers } from "./numbers.ts";
import { turningValues } from "./oblique.ts";

/** Radii, the tip at height z. Unsorted, may lie outside 0 to R. */
export function leafRadii(leaf: Leaf, z: number, k: number, out: Numbers): void {
  switch (leaf.type) {
    case HALF_SPACE: {
      const room = leaf.d - leaf.nz * z;
      const up = leaf.nz * k + leaf.q;
      const down = leaf.nz * k - leaf.q;
      if (Math.abs(up) > 1e-12) out.push(room / up);
      if (leaf.q > 0 && Math.abs(down) > 1e-12) out.push(room / down);
      return;
    }
    case ALONG:
      out.push(Math.abs(leaf.q - leaf.radius));
      out.push(leaf.q + leaf.radius);
      return;
    case DRILLED:
      drilledRadii(leaf, z, k, out);
      return;
    case ACROSS: {
      const v = z - leaf.z;
      // The two walls of the slab reach the circle where a straight edge in the direction of the slab does.
      for (const c of [1, -1]) roots(1 + k * k, k * v - c * leaf.q, leaf.q ** 2 + v * v - leaf.radius ** 2, out);
      if (k > 1e-12) {
        out.push((leaf.radius - v) / k);
        out.push((-leaf.radius - v) / k);
      }
      return;
    }
    default:
      obliqueRadii(leaf, z, k, out);
  }
}

/** The circle touches the earlier hole where its radius is that of the hole more or less than the distance. */
function drilledRadii(leaf: Leaf, z: number, k: number, out: Numbers): void {
  const { q, radius, flare, point } = leaf;
  const v = leaf.up * (z - leaf.z);
  const rise = leaf.up * k;
  const near = Math.abs(q - radius);
  if (v + rise * near >= point) out.push(near);
  if (v + rise * (q + radius) >= point) out.push(q + radius);
  if (Math.abs(rise) > 1e-12) {
    out.push(-v / rise);
    if (point > 0) out.push((point - v) / rise);
  }
  if (point === 0) return;
  const g = flare * rise;
  const f = flare * v;
  if (Math.abs(1 - g) > 1e-12) {
    onCone(point, v, rise, (q + f) / (1 - g), out);
    onCone(point, v, rise, (f - q) / (1 - g), out);
  }
  if (Math.abs(1 + g) > 1e-12) onCone(point, v, rise, (q - f) / (1 + g), out);
}

/** Only between tip and corner is the wall of a hole a cone. */
function onCone(point: number, v: number, rise: number, r: number, out: Numbers): void {
  const above = v + rise * r;
  if (above > 0 && above < point) out.push(r);
}

/** Nearest and farthest radius at which an edge meets the cylinder, over all directions. */
function obliqueRadii(leaf: Leaf, z: number, k: number, out: Numbers): void {
  const { dx, dy, dz } = leaf;
  const gz = z - leaf.z;
  const g = gz * dz - leaf.x * dx - leaf.y * dy;
  const C = leaf.x * leaf.x + leaf.y * leaf.y + gz * gz - g * g - leaf.radius ** 2;
  // Where its axis pierces the front, by a few steps from the plane of the tip.
  let about = 0;
  let r = 0;
  for (let i = 0; i < 3; i++) {
    const t = (gz + k * r) / dz;
    const x = leaf.x + t * dx;
    const y = leaf.y + t * dy;
    r = Math.hypot(x, y);
    about = Math.atan2(y, x);
  }
  turningValues(
    (c, s, into) => {
      const e = c * dx + s * dy + k * dz;
      const a = 1 + k * k - e * e;
      const b = k * gz - c * leaf.x - s * leaf.y - e * g;
      const root = b * b - a * C;
      if (root < 0 || a < 1e-12) return;
      const w = Math.sqrt(root);
      into[0] = (-b - w) / a;
      into[1] = (w - b) / a;
    },
    [about],
    out,
  );
}

function roots(a: number, b: number, c: number, out: Numbers): void {
  const root = b * b - a * c;
  if (root < 0) return;
  const w = Math.sqrt(root);
  out.push((-b - w) / a);
  out.push((w - b) / a);
}

/** Tip heights. Unsorted. */
export function leafHeights(leaf: Leaf, front: DrillFront, out: Numbers): void {
  const { R, slope: k, centre } = front;
  switch (leaf.type) {
    case HALF_SPACE:
      if (Math.abs(leaf.nz) < 1e-12) return;
      for (const r of [0, centre, R]) {
        out.push((leaf.d + leaf.q * r) / leaf.nz - k * r);
        if (leaf.q > 0 && r > 0) out.push((leaf.d - leaf.q * r) / leaf.nz - k * r);
      }
      return;
    case ALONG:
      return;
    case DRILLED:
      drilledHeights(leaf, front, out);
      return;
    case ACROSS:
      acrossHeights(leaf, front, out);
      return;
    default:
      obliqueHeights(leaf, front, out);
  }
}

/** The circle of radius r first touches the void, and is later all within it, at heights of the cone or at its tip. */
function drilledHeights(leaf: Leaf, { R, slope: k, centre }: DrillFront, out: Numbers): void {
  const { q, radius, point, z, up } = leaf;
  if (q - radius >= R) return;
  const add = (r: number, away: number): void => {
    if (away <= radius) out.push(z + (up * (point * away)) / radius - k * r);
  };
  for (const r of [0, centre, R]) {
    const near = Math.abs(q - r);
    add(r, near);
    if (r > 0 && q > 0) add(r, q + r);
    // Where the cone ends the arc goes on another way.
    if (near < radius && (q + r > radius || up < 0)) add(r, radius);
    if (up < 0) add(r, 0);
  }
  // Where the edge passes the axis of the void, or its wall, the first touch may lie between the zone boundaries.
  for (const r of [q, Math.abs(q - radius), q + radius]) if (r > 0 && r < R) add(r, Math.abs(q - r));
}

function acrossHeights(leaf: Leaf, { R, slope: k, centre }: DrillFront, out: Numbers): void {
  const { q: offset, radius, z } = leaf;
  const touch = (k * radius) / Math.sqrt(1 + k * k);
  const spots = [0, R, -R, centre, -centre, offset, offset + touch, offset - touch, offset + radius, offset - radius];
  for (const u of spots) {
    const half = radius ** 2 - (u - offset) ** 2;
    if (Math.abs(u) > R || half < 0) continue;
    const w = Math.sqrt(half);
    // At the far end of the same chord the circle of the corner is as high as here, whatever u is.
    for (const r of [Math.abs(u), R]) {
      out.push(z + w - k * r);
      out.push(z - w - k * r);
    }
  }
}

/** Highest and lowest places of the cylinder over the circles of tip, zone boundary and corner. */
function obliqueHeights(leaf: Leaf, { R, slope: k, centre }: DrillFront, out: Numbers): void {
  const { dx, dy, dz, radius } = leaf;
  const a = 1 - dz * dz;
  for (const r of [0, centre, R]) {
    const found = new Numbers();
    const pair = (c: number, s: number, into: [number, number]): void => {
      const px = r * c - leaf.x;
      const py = r * s - leaf.y;
      const e = px * dx + py * dy;
      const b = -e * dz;
      const root = b * b - a * (px * px + py * py - e * e - radius * radius);
      if (root < 0) return;
      const w = Math.sqrt(root);
      into[0] = leaf.z + (-b - w) / a;
      into[1] = leaf.z + (w - b) / a;
    };
    if (r === 0) {
      const at: [number, number] = [Number.NaN, Number.NaN];
      pair(1, 0, at);
      found.push(at[0]);
      found.push(at[1]);
    } else turningValues(pair, axisTurns(leaf, r), found);
    for (let i = 0; i < found.count; i++) {
      const h = found.at[i] as number;
      if (Number.isFinite(h)) out.push(h - k * r);
    }
  }
}

/** Directions in which the axis passes the cylinder of radius r, or comes nearest to it. */
function axisTurns(leaf: Leaf, r: number): readonly number[] {
  const { ux, uy } = leaf;
  const side = leaf.y * ux - leaf.x * uy;
  const half = Math.sqrt(Math.max(0, r * r - side * side));
  return [half, -half].map((along) => Math.atan2(side * ux + along * uy, along * ux - side * uy));
}
