/**
 * How far a turn brings centre and peripheral zone out of balance: one of them in metal while the other, half a turn
 * away, is not. The largest value over all directions, from the directions in which something changes.
 */
import { ALL, type Arcs, measureWithin, NONE, SOME, TURN } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { leafTurns } from "./leaf-turns.ts";
import { panelEdges } from "./panels.ts";
import { found, look, lookAlong, type Scene } from "./scene.ts";

/** Directions of the first look; even, so that the opposite of each is one too. */
const RAYS = 32;
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

/** Shares of the two zones in metal in one direction. */
const zones = { centre: 0, outer: 0 };

function share(scene: Scene, front: DrillFront, z: number, c: number, s: number): void {
  const code = lookAlong(scene, c, s, z, front);
  if (code === NONE || code === ALL) {
    zones.centre = zones.outer = code === ALL ? 1 : 0;
    return;
  }
  const spans = found();
  zones.centre = measureWithin(spans, 0, front.centre) / front.centre;
  zones.outer = measureWithin(spans, front.centre, front.R) / (front.R - front.centre);
}

function gapAt(scene: Scene, front: DrillFront, z: number, phi: number): number {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  share(scene, front, z, c, s);
  const centre = zones.centre;
  share(scene, front, z, -c, -s);
  return Math.abs(centre - zones.outer);
}

/** Nothing is farther out of balance than this. */
const MOST = 1 - 1e-9;

export function imbalanceAt(scene: Scene, front: DrillFront, { z, area, interrupted }: At): number {
  if (area === 0 || area === 1) return 0;
  // Nothing interrupted: every direction is like every other.
  if (!interrupted) return gapAt(scene, front, z, 0);
  for (let i = 0; i < RAYS; i++) {
    share(scene, front, z, COS[i] as number, SIN[i] as number);
    centreShare[i] = zones.centre;
    outerShare[i] = zones.outer;
  }
  const phis: number[] = [];
  const gaps: number[] = [];
  let best = 0;
  for (let i = 0; i < RAYS; i++) {
    const gap = Math.abs((centreShare[i] as number) - (outerShare[(i + RAYS / 2) % RAYS] as number));
    if (gap > MOST) return 1;
    phis.push((i * TURN) / RAYS);
    gaps.push(gap);
  }
  for (const turn of turnsOf(scene, front, z)) {
    const phi = turn < 0 ? turn + TURN : turn % TURN;
    const gap = gapAt(scene, front, z, phi);
    if (gap > MOST) return 1;
    phis.push(phi);
    gaps.push(gap);
  }
  const order = phis.map((_, i) => i).sort((i, j) => (phis[i] as number) - (phis[j] as number));
  // Every hump that could hold the largest value, the higher first.
  const humps: [number, number, number][] = [];
  const n = order.length;
  for (let i = 0; i < n; i++) {
    const before = order[(i + n - 1) % n] as number;
    const here = order[i] as number;
    const after = order[(i + 1) % n] as number;
    const gap = gaps[here] as number;
    best = Math.max(best, gap);
    if (gap < (gaps[before] as number) || gap < (gaps[after] as number)) continue;
    const low = (phis[before] as number) - (i === 0 ? TURN : 0);
    const high = (phis[after] as number) + (i === n - 1 ? TURN : 0);
    if (gap > (gaps[before] as number) || gap > (gaps[after] as number)) humps.push([gap, low, high]);
  }
  humps.sort((a, b) => b[0] - a[0]);
  for (const [, low, high] of humps.slice(0, HUMPS))
    best = Math.max(
      best,
      largestWithin((phi) => gapAt(scene, front, z, phi), low, high, 12),
    );
  return Math.min(1, best);
}

const HUMPS = 3;

/**
 * Directions, and their opposites, in which the share of a zone bends: tangents, and where arcs end on its circles. The
 * middles of the arcs of every panel find what is too narrow for the first look.
 */
function turnsOf(scene: Scene, front: DrillFront, z: number): number[] {
  const out: number[] = [];
  for (const leaf of scene.leaves) leafTurns(leaf, z, front.slope, out);
  for (const r of [front.centre, front.R]) {
    const arcs = arcsOn(scene, r, z + front.slope * r);
    if (arcs !== null) for (let i = 0; i < arcs.count; i++) out.push(arcs.at[i] as number);
  }
  const edges = panelEdges(scene, front, z);
  for (let i = 1; i < edges.length; i++) {
    const r = ((edges[i - 1] as number) + (edges[i] as number)) / 2;
    const arcs = arcsOn(scene, r, z + front.slope * r);
    if (arcs === null) continue;
    for (let j = 1; j < arcs.count; j++) out.push(((arcs.at[j - 1] as number) + (arcs.at[j] as number)) / 2);
  }
  const n = out.length;
  for (let i = 0; i < n; i++) out.push((out[i] as number) + Math.PI);
  return out;
}

function arcsOn(scene: Scene, r: number, h: number): Arcs | null {
  return look(scene, r, h) === SOME ? found() : null;
}

/** Largest value of a function with one hump between low and high, by golden section. */
export function largestWithin(value: (x: number) => number, low: number, high: number, steps: number): number {
  const g = (Math.sqrt(5) - 1) / 2;
  let a = low;
  let b = high;
  let c = b - g * (b - a);
  let d = a + g * (b - a);
  let fc = value(c);
  let fd = value(d);
  let best = Math.max(fc, fd);
  for (let i = 0; i < steps; i++) {
    if (fc > fd) {
      b = d;
      d = c;
      fd = fc;
      c = b - g * (b - a);
      fc = value(c);
      best = Math.max(best, fc);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + g * (b - a);
      fd = value(d);
      best = Math.max(best, fd);
    }
  }
  return best;
}
