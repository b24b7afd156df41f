/**
 * What of one circle is in metal: its share, and what its arcs leave of a turn's force. Where every wall takes one arc
 * away and no two of these overlap, as beside an edge or a few neighbours, no set of arcs is needed.
 */
import { ALL, entriesOf, largestGap, NONE, SOME, TURN } from "./arcs.ts";
import { ACROSS, HALF_SPACE, type Leaf, OBLIQUE } from "./leaf.ts";
import { leafArcs } from "./leaf-arcs.ts";
import { found, look, type Scene } from "./scene.ts";

/** The last circle looked at. */
class Circle {
  /** Share of the turn in metal. */
  share = 0;
  /** Sum over its arcs of e^{i·to} - e^{i·from}. */
  fx = 0;
  fy = 0;
  /** Largest missing arc, in turns, and the number of arcs in metal. */
  gap = 1;
  entries = 0;
  /** Arcs may meet or part at a radius near this one: no closed form has been asked. */
  tangled = false;

  none(): number {
    this.share = this.fx = this.fy = this.entries = 0;
    this.gap = 1;
    return NONE;
  }

  all(): number {
    this.share = 1;
    this.fx = this.fy = this.gap = this.entries = 0;
    return ALL;
  }
}

export const circle = new Circle();

const TANGLED = -1;
const MOST = 16;
const middles = new Float64Array(MOST);
const halves = new Float64Array(MOST);

/** Looks at the circle of radius r at height h: NONE, ALL or SOME, and the rest in `circle`. */
export function lookRound(scene: Scene, r: number, h: number): number {
  if (scene.walls !== null) {
    const code = beside(scene.walls, r, h);
    if (code !== TANGLED) {
      circle.tangled = false;
      return code;
    }
  }
  circle.tangled = true;
  const code = look(scene, r, h);
  if (code === NONE) return circle.none();
  if (code === ALL) return circle.all();
  const arcs = found();
  const n = arcs.count;
  let length = 0;
  let fx = 0;
  let fy = 0;
  for (let i = 0; i < n; i += 2) {
    length += (arcs.at[i + 1] as number) - (arcs.at[i] as number);
    fx += (arcs.cos[i + 1] as number) - (arcs.cos[i] as number);
    fy += (arcs.sin[i + 1] as number) - (arcs.sin[i] as number);
  }
  circle.share = length / TURN;
  circle.fx = fx;
  circle.fy = fy;
  circle.gap = largestGap(arcs);
  circle.entries = entriesOf(arcs);
  return SOME;
}

/** What has been taken away so far. */
let count = 0;
let taken = 0;
let widest = 0;

/** One arc taken away, by its middle and half its width; false where it has been taken already. */
function take(middle: number, half: number): boolean {
  if (count === MOST) return false;
  for (let j = 0; j < count; j++) {
    let apart = Math.abs(middle - (middles[j] as number));
    if (apart > TURN) apart -= TURN;
    if (apart > Math.PI) apart = TURN - apart;
    if (apart <= half + (halves[j] as number)) return false;
  }
  middles[count] = middle;
  halves[count++] = half;
  taken += half;
  if (half > widest) widest = half;
  return true;
}

/** All of the walls leave metal: what they take away is added up, as long as nothing is taken twice. */
function beside(walls: readonly Leaf[], r: number, h: number): number {
  count = 0;
  taken = 0;
  widest = 0;
  let fx = 0;
  let fy = 0;
  for (let i = 0; i < walls.length; i++) {
    const leaf = walls[i] as Leaf;
    let c: number;
    if (leaf.type === HALF_SPACE) {
      const limit = leaf.d - leaf.nz * h;
      const reach = leaf.q * r;
      if (reach < 1e-12 || limit >= reach || limit <= -reach) {
        if (limit > 0 || (limit === 0 && !leaf.negated)) continue;
        return circle.none();
      }
      c = -limit / reach;
    } else if (leaf.type === ACROSS && leaf.negated) {
      const rise = h - leaf.z;
      const half = leaf.radius * leaf.radius - rise * rise;
      if (half <= 0) continue;
      const w = Math.sqrt(half);
      const near = (leaf.q - w) / r;
      const far = (leaf.q + w) / r;
      if (near >= 1 || far <= -1) continue;
      if (near <= -1 && far >= 1) return circle.none();
      // Between the two lines the turn loses an arc on each side of the middle, or one where only one line is crossed.
      const s = crossing(leaf, Math.max(-1, near), Math.min(1, far));
      if (s === null) return TANGLED;
      fx += s * leaf.uy;
      fy -= s * leaf.ux;
      continue;
    } else if (leaf.type === ACROSS || leaf.type === OBLIQUE) {
      const code = leafArcs(leaf, r, h, found());
      if (code === ALL) continue;
      return code === NONE ? circle.none() : TANGLED;
    } else {
      const radius = leaf.radiusAt(h);
      const q = leaf.q;
      const allIn = radius > 0 && (q < 1e-12 ? r <= radius : radius >= q + r);
      if (allIn || radius <= Math.abs(q - r)) {
        if (allIn !== leaf.negated) continue;
        return circle.none();
      }
      c = (r * r + q * q - radius * radius) / (2 * r * q);
      if (leaf.negated) c = -c;
    }
    if (!(c > -1 && c < 1)) return TANGLED;
    // Taken away: as far as acos(-c) on both sides of the direction opposite to the middle.
    if (!take(leaf.middle + Math.PI, Math.acos(-c))) return TANGLED;
    const s = 2 * Math.sqrt(1 - c * c);
    fx -= s * leaf.uy;
    fy += s * leaf.ux;
  }
  if (count === 0) return circle.all();
  circle.share = 1 - taken / Math.PI;
  circle.fx = fx;
  circle.fy = fy;
  circle.gap = widest / Math.PI;
  circle.entries = count;
  return SOME;
}

/** Takes what lies between the lines at two cosines from the middle; what it leaves of the force, null where tangled. */
function crossing(leaf: Leaf, near: number, far: number): number | null {
  const a = Math.acos(far);
  const b = Math.acos(near);
  const force = 2 * (Math.sqrt(1 - near * near) - Math.sqrt(1 - far * far));
  const { middle } = leaf;
  if (far === 1) return take(middle, b) ? force : null;
  if (near === -1) return take(middle + Math.PI, Math.PI - a) ? force : null;
  const half = (b - a) / 2;
  return take(middle + a + half, half) && take(middle + TURN - a - half, half) ? force : null;
}
