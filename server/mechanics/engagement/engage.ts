/** A drill going into a solid: first contact, full engagement and every interrupted zone over depth. */
import type { DrillFront } from "./drill.ts";
import { breakHeights } from "./front-lines.ts";
import { largestWithin, type Measures, measure, type QuickMeasures, quickMeasures, withImbalance } from "./measures.ts";
import type { Solid } from "./solids.ts";

/**
 * One stretch of depth over which some radius is in metal for part of the turn only. Heights of the tip, from above to
 * below.
 */
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

/** How finely heights are told apart, mm. */
interface Grain {
  /** Possible changes nearer together than this are one. */
  readonly change: number;
  /** Heights of changes that have no closed form are known to this. */
  readonly halving: number;
}

/** A tenth of a micrometre and a micrometre; over more than a metre, as fine as the rounding of such lengths lets it. */
function grainOf(range: number): Grain {
  const scale = Math.max(1, range / 1000);
  return { change: 1e-4 * scale, halving: 1e-3 * scale };
}

/** Rounding left when half of the centre zone is in metal: a share must be below a half by more than this. */
const HALF = 0.5 - 1e-6;
/**
 * Most looks spent on the changes between two heights. Some seven things may change there, each found in some twenty; more
 * is a state that flickers with the rounding of absurd sizes, and would never end.
 */
const MOST_LOOKS = 200;
/** Looks between two heights at which something may change. */
const BETWEEN = 4;

/**
 * The curve of engagement from above the part down to `bottom`.
 * @param bottom deepest tip height, mm, from the reference of the surface
 * @param top tip height to begin at; left out: just above the highest point that can touch. Give it for an exit, where
 *   the drill is in metal from the start
 */
export function engage(solid: Solid, front: DrillFront, bottom: number, top?: number): EngagementCurve {
  const { changes, grain } = changesOf(solid, front, bottom, top);
  const looks = refine(solid, front, heights(changes, grain), grain).map((q) => withImbalance(solid, front, q));
  // A look just beside a change stands for the change itself.
  const exact = (z: number): number => changes.find((change) => Math.abs(change - z) <= grain.change) ?? z;
  const zones = zonesOf(solid, front, looks, exact, grain);
  const touching = looks.filter((q) => q.touching);
  const first = touching[0];
  const last = touching.at(-1);
  const full = looks.find((q) => q.rim === 1 && !q.interrupted);
  return {
    firstContact: first === undefined ? null : exact(first.z),
    full: full === undefined ? null : exact(full.z),
    lastContact: last === undefined || last === looks.at(-1) ? null : exact(last.z),
    zones,
    rimLength: zones.reduce((sum, zone) => sum + zone.rimLength, 0),
    samples: thin(looks, grain),
    at: (z) => measure(solid, front, z),
  };
}

/** Tip heights, falling, at which something may change: top, bottom and all the closed forms give between them. */
function changesOf(
  solid: Solid,
  front: DrillFront,
  bottom: number,
  top: number | undefined,
): { changes: number[]; grain: Grain } {
  const found: number[] = [];
  breakHeights(solid, front, found);
  const reach = found.filter((z) => z > bottom);
  const highest = top ?? (reach.length > 0 ? Math.max(...reach) : bottom);
  const grain = grainOf(highest - bottom);
  const from = top ?? highest + 10 * grain.change;
  const sorted = [from, ...reach.filter((z) => z < from), bottom].sort((a, b) => b - a);
  const changes = sorted.filter((z, i) => i === 0 || z === bottom || (sorted[i - 1] as number) - z >= grain.change);
  return { changes, grain };
}

/** Heights to look at, falling: each change from both sides, and a few between. */
function heights(changes: readonly number[], grain: Grain): number[] {
  const out: number[] = [];
  for (const [i, z] of changes.entries()) {
    const before = out.at(-1);
    if (before !== undefined) for (let j = 1; j <= BETWEEN; j++) out.push(before + ((z - before) * j) / (BETWEEN + 1));
    if (i > 0 && i + 1 < changes.length) out.push(z + grain.change / 4, z - grain.change / 4);
    else out.push(z);
  }
  return out;
}

const coreInAir = (q: QuickMeasures): boolean => q.interrupted && q.core < HALF;
const rimCuts = (q: QuickMeasures): boolean => q.rim > 0 && q.rim < 1;
const rimHalf = (q: QuickMeasures): boolean => q.rim > 0 && q.rim < HALF;

/** All that has a threshold, in one number, so that a change between two heights shows. */
function stateOf(q: QuickMeasures): number {
  return (
    (q.touching ? 1 : 0) +
    (q.interrupted ? 2 : 0) +
    (rimCuts(q) ? 4 : 0) +
    (rimHalf(q) ? 8 : 0) +
    (coreInAir(q) ? 16 : 0) +
    (q.rim === 1 ? 32 : 0) +
    (q.voidArc >= 0.15 ? 64 : 0)
  );
}

/** Looks at every height and halves the way wherever something changed between two. */
function refine(solid: Solid, front: DrillFront, falling: readonly number[], grain: Grain): QuickMeasures[] {
  const out: QuickMeasures[] = [];
  const look = (z: number): QuickMeasures => quickMeasures(solid, front, z);
  for (const z of falling) {
    const here = look(z);
    const before = out.at(-1);
    if (before !== undefined) halve(look, before, here, { out, grain, left: MOST_LOOKS });
    keep(out, here);
  }
  return out;
}

interface Halving {
  readonly out: QuickMeasures[];
  readonly grain: Grain;
  left: number;
}

/** Keeps the looks on both sides of every change between the two, and none of the others on the way there. */
function halve(look: (z: number) => QuickMeasures, above: QuickMeasures, under: QuickMeasures, work: Halving): void {
  if (stateOf(above) === stateOf(under)) return;
  if (above.z - under.z <= work.grain.halving || work.left <= 0) {
    keep(work.out, above);
    keep(work.out, under);
    return;
  }
  work.left--;
  const middle = look((above.z + under.z) / 2);
  halve(look, above, middle, work);
  halve(look, middle, under, work);
}

function keep(out: QuickMeasures[], look: QuickMeasures): void {
  if (out.at(-1) !== look) out.push(look);
}

/** Of looks that lie closer together than a person can use, leaves the last: it shows what has changed. */
function thin(looks: readonly Measures[], grain: Grain): Measures[] {
  const out: Measures[] = [];
  for (const q of looks) {
    const before = out.at(-1);
    if (before !== undefined && before.z - q.z < grain.halving) out.pop();
    out.push(q);
  }
  return out;
}

function zonesOf(
  solid: Solid,
  front: DrillFront,
  looks: readonly Measures[],
  exact: (z: number) => number,
  grain: Grain,
): Zone[] {
  const zones: Zone[] = [];
  let run: Measures[] = [];
  const close = (): void => {
    const first = run[0];
    const last = run.at(-1);
    if (first !== undefined && last !== undefined && first.z - last.z > 2 * grain.change)
      zones.push(zoneOf(solid, front, run, exact));
    run = [];
  };
  for (const q of looks) {
    if (q.interrupted) run.push(q);
    else if (run.length > 0) close();
  }
  if (run.length > 0) close();
  return zones;
}

function zoneOf(solid: Solid, front: DrillFront, run: readonly Measures[], exact: (z: number) => number): Zone {
  const lengthOf = (holds: (q: Measures) => boolean): number => {
    let sum = 0;
    for (let i = 1; i < run.length; i++) {
      const a = run[i - 1] as Measures;
      const b = run[i] as Measures;
      if (holds(a) && holds(b)) sum += a.z - b.z;
    }
    return sum;
  };
  const cutting = run.filter(rimCuts);
  let sideAt = 0;
  for (let i = 1; i < run.length; i++) if ((run[i] as Measures).side > (run[sideAt] as Measures).side) sideAt = i;
  const peak = run[sideAt] as Measures;
  const above = run[Math.max(0, sideAt - 1)] as Measures;
  const under = run[Math.min(run.length - 1, sideAt + 1)] as Measures;
  const side = Math.max(
    peak.side,
    largestWithin((z) => quickMeasures(solid, front, z).side, under.z, above.z, 10),
  );
  const weight = (m: Measures): number => (m.rim > 0 ? 1 : 0) + m.side + m.imbalance + m.voidArc;
  const worst = run.reduce((a, b) => (weight(b) > weight(a) ? b : a));
  return {
    from: exact((run[0] as Measures).z),
    to: exact((run.at(-1) as Measures).z),
    rimLength: lengthOf(rimCuts),
    rimBelowHalf: lengthOf(rimHalf),
    coreAir: lengthOf(coreInAir),
    oneSided: run.some((q) => coreInAir(q) && rimCuts(q) && q.entries === 1),
    voidArc: cutting.reduce((gap, q) => Math.max(gap, q.voidArc), 0),
    side,
    imbalance: run.reduce(
      (gap, m) => (m.rim > 0 && m.rim < 1 && m.voidArc >= 0.15 ? Math.max(gap, m.imbalance) : gap),
      0,
    ),
    worst,
  };
}
