/**
 * How far a turn brings centre and peripheral zone out of balance: one of them in metal while the other, half a turn
 * away, is not. The largest value over all directions, from the directions in which something changes.
 */
import { type Arcs, SOME, TURN } from "./arcs.ts";
import { lineTurns } from "./creases.ts";
import type { DrillFront } from "./drill.ts";
import { leafTurns } from "./leaf-turns.ts";
import { Numbers } from "./numbers.ts";
import { panelEdges } from "./panels.ts";
import { lookOut, ray } from "./ray.ts";
import { found, look, type Scene } from "./scene.ts";

/** Directions of the first look; even, so that the opposite of each is one too. */
const RAYS = 16;
const COS = Float64Array.from({ length: RAYS }, (_, i) => Math.cos((i * TURN) / RAYS));
const SIN = Float64Array.from({ length: RAYS }, (_, i) => Math.sin((i * TURN) / RAYS));
const centreShare = new Float64Array(RAYS);
const outerShare = new Float64Array(RAYS);

/** What an imbalance needs to know of the look it belongs to. */
interface At {
  readonly z: number;
  readonly area: number;
  readonly interrupted: boolean;
}

function gapAt(scene: Scene, front: DrillFront, z: number, phi: number): number {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  lookOut(scene, front, z, c, s);
  const { centre } = ray;
  lookOut(scene, front, z, -c, -s);
  return Math.abs(centre - ray.outer);
}

/** Nothing is farther out of balance than this. */
const MOST = 1 - 1e-9;

/** The directions looked at, within one turn, and what was found there. */
const phis = new Numbers();
const gaps = new Numbers();
const turns = new Numbers();

export function imbalanceAt(scene: Scene, front: DrillFront, { z, area, interrupted }: At): number {
  if (area === 0 || area === 1) return 0;
  // Nothing interrupted: every direction is like every other.
  if (!interrupted) return gapAt(scene, front, z, 0);
  phis.count = gaps.count = 0;
  for (let i = 0; i < RAYS; i++) {
    lookOut(scene, front, z, COS[i] as number, SIN[i] as number);
    centreShare[i] = ray.centre;
    outerShare[i] = ray.outer;
  }
  for (let i = 0; i < RAYS; i++) {
    const gap = Math.abs((centreShare[i] as number) - (outerShare[(i + RAYS / 2) % RAYS] as number));
    if (gap > MOST) return 1;
    phis.push((i * TURN) / RAYS);
    gaps.push(gap);
  }
  findTurns(scene, front, z);
  for (let i = 0; i < turns.count; i++) {
    const turn = turns.at[i] as number;
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    lookOut(scene, front, z, c, s);
    const { centre, outer } = ray;
    lookOut(scene, front, z, -c, -s);
    const there = Math.abs(centre - ray.outer);
    const opposite = Math.abs(ray.centre - outer);
    if (there > MOST || opposite > MOST) return 1;
    const phi = ((turn % TURN) + TURN) % TURN;
    phis.push(phi);
    gaps.push(there);
    phis.push((phi + Math.PI) % TURN);
    gaps.push(opposite);
  }
  return largestBetween(scene, front, z);
}

/** Highest places that are looked at more closely. */
const HUMPS = 3;
/** A hump this much lower than the largest does not grow beyond it between two directions. */
const LOWER = 0.1;
/** Directions nearer than this are one, radians. */
const NEAR = 1e-7;

/** Climbs from every direction with none higher beside it, the highest first. */
function largestBetween(scene: Scene, front: DrillFront, z: number): number {
  const n = inOrder();
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, gaps.at[i] as number);
  let below = Number.POSITIVE_INFINITY;
  for (let hump = 0; hump < HUMPS; hump++) {
    let at = -1;
    for (let i = 0; i < n; i++) {
      const gap = gaps.at[i] as number;
      if (gap >= below || (at >= 0 && gap <= (gaps.at[at] as number))) continue;
      const under = gaps.at[i === 0 ? n - 1 : i - 1] as number;
      const over = gaps.at[i === n - 1 ? 0 : i + 1] as number;
      // A plateau is as high between its directions.
      if (gap >= under && gap >= over && (gap > under + 1e-9 || gap > over + 1e-9)) at = i;
    }
    const gap = at < 0 ? 0 : (gaps.at[at] as number);
    if (gap <= 0 || gap < largest - LOWER) break;
    below = gap;
    const phi = phis.at[at] as number;
    const low = at === 0 ? (phis.at[n - 1] as number) - TURN : (phis.at[at - 1] as number);
    const high = at === n - 1 ? (phis.at[0] as number) + TURN : (phis.at[at + 1] as number);
    largest = Math.max(
      largest,
      climb((x) => gapAt(scene, front, z, x), low, phi, high, gap),
    );
    if (largest > MOST) return 1;
  }
  return Math.min(1, largest);
}

/** Sorts the directions, leaves of equal ones the highest, and gives their number. */
function inOrder(): number {
  for (let i = 1; i < phis.count; i++) {
    const phi = phis.at[i] as number;
    const gap = gaps.at[i] as number;
    let j = i;
    for (; j > 0 && (phis.at[j - 1] as number) > phi; j--) {
      phis.at[j] = phis.at[j - 1] as number;
      gaps.at[j] = gaps.at[j - 1] as number;
    }
    phis.at[j] = phi;
    gaps.at[j] = gap;
  }
  let n = 0;
  for (let i = 0; i < phis.count; i++) {
    const gap = gaps.at[i] as number;
    if (n > 0 && (phis.at[i] as number) - (phis.at[n - 1] as number) < NEAR) {
      if (gap > (gaps.at[n - 1] as number)) gaps.at[n - 1] = gap;
      continue;
    }
    phis.at[n] = phis.at[i] as number;
    gaps.at[n++] = gap;
  }
  return n;
}

/**
 * Directions, each of which stands for its opposite too, in which the share of a zone bends: tangents, corners, and where
 * arcs end on its circles. The middles of narrow arcs and gaps find what lies between the directions of the first look.
 */
function findTurns(scene: Scene, front: DrillFront, z: number): void {
  const out = turns;
  out.count = 0;
  const { leaves, creases } = scene;
  for (const leaf of leaves) leafTurns(leaf, z, front.slope, out);
  for (const line of creases.lines) lineTurns(line, z, front.slope, out);
  for (let i = 0; i < creases.turns.count; i++) out.push(creases.turns.at[i] as number);
  for (const r of [front.centre, front.R]) {
    const arcs = arcsOn(scene, front, z, r);
    if (arcs === null) continue;
    for (let i = 0; i < arcs.count; i++) out.push(arcs.at[i] as number);
    middlesOf(arcs, out);
  }
  const edges = panelEdges(scene, front, z);
  for (let i = 1; i < edges.count; i++) {
    const from = edges.at[i - 1] as number;
    const width = (edges.at[i] as number) - from;
    for (const share of INTO) {
      const arcs = arcsOn(scene, front, z, from + share * width);
      if (arcs === null) break;
      middlesOf(arcs, out);
    }
  }
}

/** Where in a panel to look for narrow arcs: the middle first, which tells whether there are any. */
const INTO = [0.5, 0.12, 0.88];

function arcsOn(scene: Scene, front: DrillFront, z: number, r: number): Arcs | null {
  return look(scene, r, z + front.slope * r) === SOME ? found() : null;
}

function middlesOf(arcs: Arcs, out: Numbers): void {
  for (let j = 1; j < arcs.count; j++) {
    const a = arcs.at[j - 1] as number;
    const b = arcs.at[j] as number;
    if (b - a < TURN / RAYS) out.push((a + b) / 2);
  }
}

const MOST_STEPS = 30;
const STEEP = 2e-4;

/**
 * Largest value of a function with one hump between low and high, by golden section from the highest place known until
 * its neighbours are as high: soon where it is smooth, later where it has a corner or ends at an edge.
 */
function climb(value: (x: number) => number, low: number, at: number, high: number, known: number): number {
  let a = low;
  let b = high;
  let x = at;
  let top = known;
  let atLow = 0;
  let atHigh = 0;
  for (let i = 0; i < MOST_STEPS && top - Math.min(atLow, atHigh) > STEEP; i++) {
    const next = b - x > x - a ? x + GOLDEN * (b - x) : x - GOLDEN * (x - a);
    const there = value(next);
    if (there > top) {
      if (next > x) {
        a = x;
        atLow = top;
      } else {
        b = x;
        atHigh = top;
      }
      x = next;
      top = there;
    } else if (next > x) {
      b = next;
      atHigh = there;
    } else {
      a = next;
      atLow = there;
    }
  }
  return top;
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;
