/**
 * A circle around the drill axis and a cylinder in any direction: at each height the cylinder is an ellipse whose middle
 * wanders with the height, so that the circle has up to four crossings, the roots of a quartic. Derived.
 */
import { ALL, type Arcs, NONE, SOME, TURN } from "./arcs.ts";
import type { Leaf } from "./leaf.ts";
import type { Numbers } from "./numbers.ts";
import { quarticCrossings } from "./quartic.ts";

/** Looks round the circle for the place that is farthest from any crossing, with their cosines and sines. */
const LOOKS = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => (i * Math.PI) / 4);
const COS = LOOKS.map(Math.cos);
const SIN = LOOKS.map(Math.sin);

export function obliqueArcs(leaf: Leaf, r: number, h: number, out: Arcs): number {
  const { ux, uy, dz, radius } = leaf;
  // In the frame turned so that the axis leans towards +x: e·(r·cos - xc)² + (r·sin - yc)² <= radius².
  const e = dz * dz;
  const xc = leaf.x * ux + leaf.y * uy + (Math.sqrt(1 - e) / dz) * (h - leaf.z);
  const yc = leaf.y * ux - leaf.x * uy;
  out.count = 0;
  const away = Math.hypot(xc, yc);
  // The ellipse is nowhere narrower than the cylinder and nowhere wider than radius / dz. A nearness that grows with the
  // radius may come between two looks: only what is certain for the whole front would be NONE or ALL.
  if (away - radius / dz >= r) return leaf.negated ? whole(out) : SOME;
  if (away + r <= radius) return leaf.negated ? SOME : whole(out);
  const A = (r * r * (1 + e)) / 2 + e * xc * xc + yc * yc - radius * radius;
  const B = -2 * e * r * xc;
  const C = -2 * r * yc;
  const D = (-r * r * (1 - e)) / 2;
  let far = 0;
  let best = 0;
  for (let i = 0; i < 8; i++) {
    const c = COS[i] as number;
    const s = SIN[i] as number;
    const value = A + B * c + C * s + D * (c * c - s * s);
    if (Math.abs(value) > Math.abs(best)) {
      best = value;
      far = i;
    }
  }
  if (best === 0) return leaf.negated ? SOME : whole(out);
  // tan of half the angle from the place opposite to the farthest: its pole lies where no crossing is.
  const turn = (LOOKS[far] as number) + Math.PI;
  const ct = -(COS[far] as number);
  const st = -(SIN[far] as number);
  const b = B * ct + C * st;
  const c = C * ct - B * st;
  const d = D * (ct * ct - st * st);
  const f = -2 * D * ct * st;
  const lead = A - b + d;
  const roots = quarticCrossings(
    (2 * c - 4 * f) / lead,
    (2 * A - 6 * d) / lead,
    (2 * c + 4 * f) / lead,
    (A + b + d) / lead,
  );
  const inside = lead < 0 !== leaf.negated;
  if (roots.length === 0) return inside ? whole(out) : SOME;
  // Beyond the last root and before the first the sign is that of the lead.
  const angles = roots.map((t) => turn + leaf.middle + 2 * Math.atan(t));
  const first = inside ? 1 : 0;
  for (let i = first; i < angles.length; i += 2) {
    const from = angles[i] as number;
    const last = i + 1 >= angles.length;
    const to = last ? (angles[0] as number) + TURN : (angles[i + 1] as number);
    out.insertTurned(
      from % TURN,
      (from % TURN) + to - from,
      Math.cos(from),
      Math.sin(from),
      Math.cos(to),
      Math.sin(to),
    );
  }
  return SOME;
}

/** The whole circle, as an arc: at another radius it may be less. */
function whole(out: Arcs): number {
  out.push(0, TURN, 1, 0, 1, 0);
  return SOME;
}

/** Whether a circle of any radius up to R at heights from low to high misses the cylinder (NONE) or lies in it (ALL). */
export function obliqueWithin(leaf: Leaf, R: number, low: number, high: number): number {
  // Squared distance of the point at height h of the drill axis from the cylinder's: a parabola in h.
  const { dx, dy, dz } = leaf;
  const level = 1 - dz * dz;
  const p = leaf.x * dx + leaf.y * dy;
  const squared = (h: number): number => {
    const g = h - leaf.z;
    const along = g * dz - p;
    return leaf.x * leaf.x + leaf.y * leaf.y + g * g - along * along;
  };
  const nearest = leaf.z - (p * dz) / level;
  const at = Math.min(high, Math.max(low, nearest));
  if (Number.isFinite(at) && Math.sqrt(Math.max(0, squared(at))) - R >= leaf.radius) return NONE;
  if (!Number.isFinite(low) || !Number.isFinite(high)) return SOME;
  const farthest = Math.sqrt(Math.max(squared(low), squared(high)));
  return farthest + R <= leaf.radius ? ALL : SOME;
}

/** Directions looked at for the nearest and farthest places of the cylinder, and more of them about where it stands. */
const TURNS = 24;
const ABOUT = [0, 0.004, 0.012, 0.03, 0.07, 0.15];

/**
 * The largest and smallest of what `pair` gives over a turn, two values for a direction (NaN: none), each found between
 * its neighbours by parabolas.
 * @param about directions in which the cylinder stands: a slim one lies between the steps of the turn
 */
export function turningValues(
  pair: (c: number, s: number, into: [number, number]) => void,
  about: readonly number[],
  out: Numbers,
): void {
  const look: [number, number] = [Number.NaN, Number.NaN];
  const phis = Array.from({ length: TURNS }, (_, i) => (i * TURN) / TURNS);
  for (const middle of about)
    for (const away of ABOUT) for (const phi of [middle + away, middle - away]) phis.push((phi + 2 * TURN) % TURN);
  phis.sort((a, b) => a - b);
  const n = phis.length;
  for (const which of [0, 1] as const) {
    const value = (phi: number): number => {
      look[0] = look[1] = Number.NaN;
      pair(Math.cos(phi), Math.sin(phi), look);
      return look[which];
    };
    const values = phis.map(value);
    for (let i = 0; i < n; i++) {
      const before = (i + n - 1) % n;
      const after = (i + 1) % n;
      const a = values[before] as number;
      const b = values[i] as number;
      const c = values[after] as number;
      if (!(b >= a && b >= c) && !(b <= a && b <= c)) continue;
      const low = (phis[i] as number) - (phis[before] as number) + (i === 0 ? TURN : 0);
      const high = (phis[after] as number) - (phis[i] as number) + (i === n - 1 ? TURN : 0);
      out.push(polish(value, phis[i] as number, low, high, a, b, c));
    }
  }
}

function polish(
  value: (x: number) => number,
  at: number,
  low: number,
  high: number,
  before: number,
  here: number,
  after: number,
): number {
  let x = at;
  let p = low;
  let q = high;
  let a = before;
  let b = here;
  let c = after;
  for (let i = 0; i < 5; i++) {
    const bend = (b - a) * q + (b - c) * p;
    if (!(Math.abs(bend) > 1e-14 * (1 + Math.abs(b))) || p === 0 || q === 0) break;
    x += Math.max(-p, Math.min(q, ((b - a) * q * q - (b - c) * p * p) / (2 * bend)));
    const next = value(x);
    if (!Number.isFinite(next)) break;
    p = q = Math.min(p, q) / 8;
    a = value(x - p);
    b = next;
    c = value(x + q);
    if (!Number.isFinite(a) || !Number.isFinite(c)) break;
  }
  return b;
}
