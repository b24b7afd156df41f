/**
 * The measures of an interrupted cut with the tip at one height: how much of each turn is in metal, where, and what
 * side force it leaves. Definitions: common practice, no source; the integrals are ours, checked against brute force.
 */
import { entriesOf, largestGap, measureWithin, shareOf } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import { breakRadii, spansAlong } from "./front-lines.ts";
import { integrate, SHARE_NOISE, type Sums } from "./quadrature.ts";
import { arcsAt, type Solid } from "./solids.ts";

export interface Measures {
  /** Tip height, mm, from the reference of the surface. */
  readonly z: number;
  /** Engaged share of the area of the hole, 0 to 1. */
  readonly area: number;
  /** Engaged share of the turn at the corner, 0 to 1. */
  readonly rim: number;
  /** Largest single missing arc at the corner, in turns; 1 when the corner is in air. */
  readonly voidArc: number;
  /** Engaged share of the area of the centre zone, 0 to 1. */
  readonly core: number;
  /** Largest over the turn of |centre zone share - peripheral zone share|, the zones 180 degrees apart, 0 to 1. */
  readonly imbalance: number;
  /** Mean side force in the frame of the part, normalised: s = π·S / (kc·f·R), 0 to 1. */
  readonly side: number;
  /** Times per turn that the corner enters metal. */
  readonly entries: number;
  /** Some radius is in metal for part of the turn only. */
  readonly interrupted: boolean;
  /** Any metal at all, however little. */
  readonly touching: boolean;
}

/** The measures without the imbalance, which costs more than all the others. */
export type QuickMeasures = Omit<Measures, "imbalance">;

export function quickMeasures(solid: Solid, front: DrillFront, z: number): QuickMeasures {
  const { R, centre } = front;
  const edges = panelEdges(solid, front, z);
  const core: Sums = { area: 0, sx: 0, sy: 0, partial: false, touching: false };
  const outer: Sums = { area: 0, sx: 0, sy: 0, partial: false, touching: false };
  for (let i = 0; i + 1 < edges.length; i++) {
    const a = edges[i] as number;
    const b = edges[i + 1] as number;
    integrate(solid, front, z, a, b, b <= centre + 1e-12 ? core : outer);
  }
  const rimArcs = arcsAt(solid, R, z + front.slope * R);
  const rim = snap(shareOf(rimArcs));
  const sx = core.sx + outer.sx;
  const sy = core.sy + outer.sy;
  return {
    z,
    area: snap((2 * (core.area + outer.area)) / (R * R)),
    rim,
    voidArc: rim === 1 ? 0 : largestGap(rimArcs),
    core: snap((2 * core.area) / (centre * centre)),
    side: Math.min(1, Math.hypot(sx, sy) / (2 * R)),
    entries: rim === 1 ? 0 : entriesOf(rimArcs),
    interrupted: core.partial || outer.partial || (rim > 0 && rim < 1),
    touching: core.touching || outer.touching || rimArcs.length > 0,
  };
}

/** All measures with the tip at height z. */
export function measure(solid: Solid, front: DrillFront, z: number): Measures {
  return withImbalance(solid, front, quickMeasures(solid, front, z));
}

export function withImbalance(solid: Solid, front: DrillFront, quick: QuickMeasures): Measures {
  return { ...quick, imbalance: imbalanceAt(solid, front, quick) };
}

function snap(share: number): number {
  if (share < SHARE_NOISE) return 0;
  return share > 1 - SHARE_NOISE ? 1 : share;
}

/** 0, R, the boundary of the zones and every radius between them where the arcs change their form. */
function panelEdges(solid: Solid, front: DrillFront, z: number): number[] {
  const found: number[] = [];
  breakRadii(solid, z, front, found);
  const edges = [0, front.centre, front.R, ...found.filter((r) => r > 0 && r < front.R)].sort((a, b) => a - b);
  return edges.filter((r, i) => i === 0 || r - (edges[i - 1] as number) > 1e-9 * front.R || r === front.R);
}

/** Rays per turn in the first look for the largest imbalance; even, so that the opposite of a ray is one too. */
const RAYS = 72;

function imbalanceAt(solid: Solid, front: DrillFront, quick: QuickMeasures): number {
  if (quick.area === 0 || quick.area === 1) return 0;
  // Nothing interrupted: every ray is like every other.
  if (!quick.interrupted) return gapAt(solid, front, quick.z, 0);
  const centreShare: number[] = [];
  const outerShare: number[] = [];
  for (let i = 0; i < RAYS; i++) {
    const spans = spansAlong(solid, (i * 2 * Math.PI) / RAYS, quick.z, front);
    centreShare.push(measureWithin(spans, 0, front.centre) / front.centre);
    outerShare.push(measureWithin(spans, front.centre, front.R) / (front.R - front.centre));
  }
  let best = 0;
  let at = 0;
  for (let i = 0; i < RAYS; i++) {
    const value = Math.abs((centreShare[i] as number) - (outerShare[(i + RAYS / 2) % RAYS] as number));
    if (value > best) {
      best = value;
      at = i;
    }
  }
  if (best > 1 - 1e-9) return 1;
  // The largest value between the rays: golden section around the best one.
  const step = (2 * Math.PI) / RAYS;
  const refined = largestWithin((phi) => gapAt(solid, front, quick.z, phi), (at - 1) * step, (at + 1) * step);
  return Math.min(1, Math.max(best, refined));
}

function gapAt(solid: Solid, front: DrillFront, z: number, phi: number): number {
  const centre = measureWithin(spansAlong(solid, phi, z, front), 0, front.centre) / front.centre;
  const outer = spansAlong(solid, phi + Math.PI, z, front);
  return Math.abs(centre - measureWithin(outer, front.centre, front.R) / (front.R - front.centre));
}

/** Largest value of a function with one hump between low and high, by golden section. */
export function largestWithin(value: (x: number) => number, low: number, high: number, steps = 16): number {
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
