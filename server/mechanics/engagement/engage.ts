/** A drill going into a solid: first contact, full engagement and every interrupted zone over depth. */
import type { DrillFront } from "./drill.ts";
import { breakHeights } from "./front-lines.ts";
import { largestWithin, type Measures, measure, type QuickMeasures, quickMeasures, withImbalance } from "./measures.ts";
import type { Solid } from "./solids.ts";

/** One stretch of depth over which some radius is in metal for part of the turn only. Heights of the tip, from above to below. */
export interface Zone {
  readonly from: number;
  readonly to: number;
  /** Axial length over which the corner is in metal for part of the turn, mm. */
  readonly rimLength: number;
  /** Axial length over which that part is below half a turn, mm. */
  readonly rimBelowHalf: number;
  /** Axial length over which less than half of the centre zone is in metal, mm: the axis runs in air. */
  readonly coreAir: number;
  /** Less than half of the centre zone in metal while the corner cuts in one arc only. */
  readonly oneSided: boolean;
  /** Largest missing arc at the corner while it cuts, in turns. */
  readonly voidArc: number;
  /** Largest normalised side force. */
  readonly side: number;
  /** Largest imbalance where the missing arc at the corner is 0.15 turns or more. */
  readonly imbalance: number;
  /** The measures where the zone is worst: largest side force and imbalance together. */
  readonly worst: Measures;
}

export interface EngagementCurve {
  /** Tip height of first contact; null: nothing is touched. */
  readonly firstContact: number | null;
  /** Tip height at which the corner first cuts all around with nothing interrupted; null: never above the bottom. */
  readonly full: number | null;
  /** Tip height at which the last metal is left; null: still in metal at the bottom. */
  readonly lastContact: number | null;
  readonly zones: readonly Zone[];
  /** Sum of the zones' rim lengths, mm. */
  readonly rimLength: number;
  /** At the heights where something changes and between them, from above to below. */
  readonly samples: readonly Measures[];
  /** At any tip height. */
  at(z: number): Measures;
}

/** Heights are known to this, mm. */
const HEIGHT_TOLERANCE = 1e-4;
/** Looks between two heights at which something may change. */
const BETWEEN = 4;

/**
 * The curve of engagement from above the part down to `bottom`.
 * @param bottom deepest tip height, mm, from the reference of the surface
 * @param top tip height to begin at; left out: just above the highest point that can touch. Give it for an exit, where the drill is
 *   in metal from the start
 */
export function engage(solid: Solid, front: DrillFront, bottom: number, top?: number): EngagementCurve {
  const looks = refine(solid, front, heights(solid, front, bottom, top));
  const at = (z: number): Measures => measure(solid, front, z);
  const zones = zonesOf(solid, front, looks);
  const touching = looks.filter((q) => q.area > 0);
  const last = touching.at(-1);
  return {
    firstContact: touching[0]?.z ?? null,
    full: looks.find((q) => q.rim === 1 && !q.interrupted)?.z ?? null,
    lastContact: last === undefined || last === looks.at(-1) ? null : last.z,
    zones,
    rimLength: zones.reduce((sum, zone) => sum + zone.rimLength, 0),
    samples: thin(looks).map((q) => withImbalance(solid, front, q)),
    at,
  };
}

/** Heights to look at, falling: each possible change from both sides, and a few between. */
function heights(solid: Solid, front: DrillFront, bottom: number, top: number | undefined): number[] {
  const found: number[] = [];
  breakHeights(solid, front, found);
  const reach = found.filter((z) => z > bottom);
  const from = top ?? (reach.length > 0 ? Math.max(...reach) : bottom) + 10 * HEIGHT_TOLERANCE;
  const changes = [from, ...reach.filter((z) => z < from), bottom].sort((a, b) => b - a);
  const out: number[] = [];
  for (let i = 0; i < changes.length; i++) {
    const z = changes[i] as number;
    if (i > 0 && (changes[i - 1] as number) - z < HEIGHT_TOLERANCE) continue;
    const before = out.at(-1);
    if (before !== undefined) for (let j = 1; j <= BETWEEN; j++) out.push(before + ((z - before) * j) / (BETWEEN + 1));
    if (z < from && z > bottom) out.push(z + HEIGHT_TOLERANCE / 4, z - HEIGHT_TOLERANCE / 4);
    else out.push(z);
  }
  return out;
}

const coreInAir = (q: QuickMeasures): boolean => q.interrupted && q.core < 0.5;
const rimCuts = (q: QuickMeasures): boolean => q.rim > 0 && q.rim < 1;
const rimHalf = (q: QuickMeasures): boolean => q.rim > 0 && q.rim < 0.5;

/** All that has a threshold, in one number, so that a change between two heights shows. */
function stateOf(q: QuickMeasures): number {
  return (
    (q.area > 0 ? 1 : 0) +
    (q.interrupted ? 2 : 0) +
    (rimCuts(q) ? 4 : 0) +
    (rimHalf(q) ? 8 : 0) +
    (coreInAir(q) ? 16 : 0) +
    (q.rim === 1 ? 32 : 0) +
    (q.voidArc >= 0.15 ? 64 : 0)
  );
}

/** Looks at every height and halves the way wherever something changed between two. */
function refine(solid: Solid, front: DrillFront, falling: readonly number[]): QuickMeasures[] {
  const out: QuickMeasures[] = [];
  for (const z of falling) {
    const here = quickMeasures(solid, front, z);
    const before = out.at(-1);
    if (before !== undefined) bisect(solid, front, before, here, out);
    out.push(here);
  }
  return out;
}

function bisect(solid: Solid, front: DrillFront, above: QuickMeasures, under: QuickMeasures, out: QuickMeasures[]): void {
  if (above.z - under.z <= HEIGHT_TOLERANCE || stateOf(above) === stateOf(under)) return;
  const middle = quickMeasures(solid, front, (above.z + under.z) / 2);
  bisect(solid, front, above, middle, out);
  out.push(middle);
  bisect(solid, front, middle, under, out);
}

/** Leaves out looks that lie closer together than a person can use. */
function thin(looks: readonly QuickMeasures[]): QuickMeasures[] {
  const out: QuickMeasures[] = [];
  for (const q of looks) {
    const before = out.at(-1);
    if (before !== undefined && before.z - q.z < 2 * HEIGHT_TOLERANCE) continue;
    out.push(q);
  }
  const last = looks.at(-1);
  if (last !== undefined && out.at(-1) !== last) out[out.length - 1] = last;
  return out;
}

function zonesOf(solid: Solid, front: DrillFront, looks: readonly QuickMeasures[]): Zone[] {
  const zones: Zone[] = [];
  let run: QuickMeasures[] = [];
  const close = (): void => {
    const first = run[0];
    const last = run.at(-1);
    if (first !== undefined && last !== undefined && first.z - last.z > 2 * HEIGHT_TOLERANCE) zones.push(zoneOf(solid, front, run));
    run = [];
  };
  for (const q of looks) {
    if (q.interrupted) run.push(q);
    else if (run.length > 0) close();
  }
  if (run.length > 0) close();
  return zones;
}

function zoneOf(solid: Solid, front: DrillFront, run: readonly QuickMeasures[]): Zone {
  const lengthOf = (holds: (q: QuickMeasures) => boolean): number => {
    let sum = 0;
    for (let i = 1; i < run.length; i++) {
      const a = run[i - 1] as QuickMeasures;
      const b = run[i] as QuickMeasures;
      if (holds(a) && holds(b)) sum += a.z - b.z;
    }
    return sum;
  };
  const cutting = run.filter(rimCuts);
  let sideAt = 0;
  for (let i = 1; i < run.length; i++) if ((run[i] as QuickMeasures).side > (run[sideAt] as QuickMeasures).side) sideAt = i;
  const peak = run[sideAt] as QuickMeasures;
  const above = run[Math.max(0, sideAt - 1)] as QuickMeasures;
  const under = run[Math.min(run.length - 1, sideAt + 1)] as QuickMeasures;
  const side = Math.max(peak.side, largestWithin((z) => quickMeasures(solid, front, z).side, under.z, above.z, 10));
  const full = run.map((q) => withImbalance(solid, front, q));
  const weight = (m: Measures): number => (m.rim > 0 ? 1 : 0) + m.side + m.imbalance + m.voidArc;
  const worst = full.reduce((a, b) => (weight(b) > weight(a) ? b : a));
  return {
    from: (run[0] as QuickMeasures).z,
    to: (run.at(-1) as QuickMeasures).z,
    rimLength: lengthOf(rimCuts),
    rimBelowHalf: lengthOf(rimHalf),
    coreAir: lengthOf(coreInAir),
    oneSided: run.some((q) => coreInAir(q) && rimCuts(q) && q.entries === 1),
    voidArc: cutting.reduce((gap, q) => Math.max(gap, q.voidArc), 0),
    side,
    imbalance: full.reduce((gap, m) => (m.rim > 0 && m.rim < 1 && m.voidArc >= 0.15 ? Math.max(gap, m.imbalance) : gap), 0),
    worst,
  };
}
