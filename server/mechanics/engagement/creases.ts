/**
 * The lines in which two primitives meet, where they are straight: planes, and walls parallel to the drill axis. At the
 * radii where such a line pierces the front one surface takes over from the other. Derived.
 */
import type { DrillFront } from "./drill.ts";
import { ACROSS, ALONG, DRILLED, HALF_SPACE, type Leaf, OBLIQUE } from "./leaf.ts";
import { Numbers } from "./numbers.ts";

/** p + t·v */
export interface Line {
  readonly px: number;
  readonly py: number;
  readonly pz: number;
  readonly vx: number;
  readonly vy: number;
  readonly vz: number;
}

/** What the pairs of a set of primitives give, whatever the height. */
export interface Creases {
  readonly lines: readonly Line[];
  /** Radii of lines parallel to the drill axis, and the directions in which they lie. */
  readonly radii: Numbers;
  readonly turns: Numbers;
  /** Level planes against upright walls: at these radii the wall begins and ends on the plane. */
  readonly rims: readonly { readonly plane: Leaf; readonly wall: Leaf }[];
}

/** Primitives whose pairs are looked at. */
const MOST = 64;

export function creasesOf(leaves: readonly Leaf[]): Creases {
  const lines: Line[] = [];
  const radii = new Numbers(0);
  const turns = new Numbers(0);
  const rims: { plane: Leaf; wall: Leaf }[] = [];
  // Of so many the pairs would cost more than they save: the quadrature finds the bends by itself.
  const pairs = leaves.length <= MOST ? leaves : [];
  for (const [i, one] of pairs.entries()) {
    for (let j = i + 1; j < leaves.length; j++) {
      const other = leaves[j] as Leaf;
      const a = upright(one);
      const b = upright(other);
      if (a && b) uprightLines(one, other, radii, turns);
      else if (one.type === HALF_SPACE && other.type === HALF_SPACE) {
        const line = meetingLine(one, other);
        if (line !== null) lines.push(line);
      }
      if (level(one) && isWall(other)) rims.push({ plane: one, wall: other });
      else if (level(other) && isWall(one)) rims.push({ plane: other, wall: one });
    }
  }
  return { lines, radii, turns, rims };
}

const level = (leaf: Leaf): boolean => leaf.type === HALF_SPACE && leaf.q < 1e-12;
const isWall = (leaf: Leaf): boolean =>
  leaf.type === ALONG || leaf.type === DRILLED || (leaf.type === HALF_SPACE && Math.abs(leaf.nz) < 1e-12);
const upright = (leaf: Leaf): boolean => leaf.type !== ACROSS && leaf.type !== OBLIQUE && isWall(leaf);

/** Where two upright walls meet. */
function uprightLines(one: Leaf, other: Leaf, radii: Numbers, turns: Numbers): void {
  const add = (x: number, y: number): void => {
    radii.push(Math.hypot(x, y));
    turns.push(Math.atan2(y, x));
  };
  if (one.type === HALF_SPACE && other.type === HALF_SPACE) {
    const line = meetingLine(one, other);
    if (line !== null) add(line.px, line.py);
    return;
  }
  const circle = one.type === HALF_SPACE ? other : one;
  const second = one.type === HALF_SPACE ? one : other;
  // The foot of the common chord from the middle of the circle, and half the chord.
  let nx: number;
  let ny: number;
  let foot: number;
  if (second.type === HALF_SPACE) {
    nx = second.nx / second.q;
    ny = second.ny / second.q;
    foot = second.d / second.q - nx * circle.x - ny * circle.y;
  } else {
    nx = second.x - circle.x;
    ny = second.y - circle.y;
    const apart = Math.hypot(nx, ny);
    if (apart < 1e-12) return;
    nx /= apart;
    ny /= apart;
    foot = (apart * apart + circle.radius ** 2 - second.radius ** 2) / (2 * apart);
  }
  const half = circle.radius ** 2 - foot * foot;
  if (half <= 0) return;
  const w = Math.sqrt(half);
  for (const side of [w, -w]) add(circle.x + nx * foot - ny * side, circle.y + ny * foot + nx * side);
}

/** Radii at which the line pierces the front, the tip at height z, or comes nearest to the axis. */
export function lineRadii(line: Line, z: number, k: number, out: Numbers): void {
  const { px, py, vx, vy } = line;
  const across = vx * vx + vy * vy;
  if (across > 1e-12) {
    const t = -(px * vx + py * vy) / across;
    out.push(Math.hypot(px + t * vx, py + t * vy));
  }
  const n = pierce(line, z, k);
  for (let i = 0; i < n; i++) {
    const t = pierced[i] as number;
    out.push(Math.hypot(px + t * vx, py + t * vy));
  }
}

/** Directions in which the line pierces the front, the tip at height z. */
export function lineTurns(line: Line, z: number, k: number, out: Numbers): void {
  const { px, py, vx, vy } = line;
  const n = pierce(line, z, k);
  for (let i = 0; i < n; i++) {
    const t = pierced[i] as number;
    out.push(Math.atan2(py + t * vy, px + t * vx));
  }
}

const pierced = new Float64Array(2);

/** Places on the line, into `pierced`, and their number: (px + t·vx)² + (py + t·vy)² = r² and pz + t·vz = z + k·r. */
function pierce({ px, py, pz, vx, vy, vz }: Line, z: number, k: number): number {
  const g = pz - z;
  if (k < 1e-12) {
    if (Math.abs(vz) < 1e-12) return 0;
    pierced[0] = -g / vz;
    return 1;
  }
  const a = (vx * vx + vy * vy) * k * k - vz * vz;
  const b = (px * vx + py * vy) * k * k - g * vz;
  const c = (px * px + py * py) * k * k - g * g;
  if (Math.abs(a) < 1e-12) {
    if (Math.abs(b) < 1e-12) return 0;
    pierced[0] = -c / (2 * b);
    return 1;
  }
  const root = b * b - a * c;
  if (root < 0) return 0;
  const w = Math.sqrt(root);
  pierced[0] = (-b - w) / a;
  pierced[1] = (w - b) / a;
  return 2;
}

function meetingLine(a: Leaf, b: Leaf): Line | null {
  const vx = a.ny * b.nz - a.nz * b.ny;
  const vy = a.nz * b.nx - a.nx * b.nz;
  const vz = a.nx * b.ny - a.ny * b.nx;
  const w = vx * vx + vy * vy + vz * vz;
  if (w < 1e-18) return null;
  // Point of the line nearest to the origin: (d1·n2 - d2·n1) × v / |v|².
  const qx = a.d * b.nx - b.d * a.nx;
  const qy = a.d * b.ny - b.d * a.ny;
  const qz = a.d * b.nz - b.d * a.nz;
  return { px: (qy * vz - qz * vy) / w, py: (qz * vx - qx * vz) / w, pz: (qx * vy - qy * vx) / w, vx, vy, vz };
}

/** Tip heights at which the line touches the circle of the corner or comes nearest to the axis. */
export function lineHeights(line: Line, front: DrillFront, out: Numbers): void {
  const { px, py, pz, vx, vy, vz } = line;
  const across = vx * vx + vy * vy;
  if (across < 1e-12) return;
  const t = -(px * vx + py * vy) / across;
  const near = Math.hypot(px + t * vx, py + t * vy);
  if (near > front.R) return;
  out.push(pz + t * vz - front.slope * near);
  const half = Math.sqrt((front.R ** 2 - near ** 2) / across);
  for (const s of [t - half, t + half]) out.push(pz + s * vz - front.slope * front.R);
}

/** Tip heights at which the edge reaches the rim of a wall on a level plane, nearest to the axis and farthest from it. */
export function rimHeights(plane: Leaf, wall: Leaf, front: DrillFront, out: Numbers): void {
  const h = plane.d / plane.nz;
  if (!Number.isFinite(h)) return;
  const add = (r: number): void => {
    if (r > 0 && r < front.R) out.push(h - front.slope * r);
  };
  if (wall.type === HALF_SPACE) {
    add(Math.abs(wall.d) / wall.q);
    return;
  }
  const radius = wall.radiusAt(h);
  if (radius <= 0) return;
  add(Math.abs(wall.q - radius));
  add(wall.q + radius);
}
