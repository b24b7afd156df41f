/** The interrupted stretches of a curve, and the largest of each measure in them. */
import type { DrillFront } from "./drill.ts";
import { largestWithin } from "./imbalance.ts";
import { type Look, lookFrom, type Measures } from "./measures.ts";
import type { Scene } from "./scene.ts";
import { coreInAir, type Grain, rimCuts, rimHalf, WIDE_GAP } from "./states.ts";

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

export function zonesOf(
  scene: Scene,
  front: DrillFront,
  looks: readonly Look[],
  exact: (z: number) => number,
  grain: Grain,
): Zone[] {
  const zones: Zone[] = [];
  let run: Look[] = [];
  const close = (): void => {
    const first = run[0];
    const last = run.at(-1);
    if (first !== undefined && last !== undefined && first.z - last.z > 2 * grain.change)
      zones.push(zoneOf(scene, front, run, exact));
    run = [];
  };
  for (const q of looks) {
    if (q.interrupted) run.push(q);
    else if (run.length > 0) close();
  }
  if (run.length > 0) close();
  return zones;
}

function zoneOf(scene: Scene, front: DrillFront, run: readonly Look[], exact: (z: number) => number): Zone {
  const lengthOf = (holds: (q: Look) => boolean): number => {
    let sum = 0;
    for (let i = 1; i < run.length; i++) {
      const a = run[i - 1] as Look;
      const b = run[i] as Look;
      if (holds(a) && holds(b)) sum += a.z - b.z;
    }
    return sum;
  };
  const cutting = run.filter(rimCuts);
  let sideAt = 0;
  for (let i = 1; i < run.length; i++) if ((run[i] as Look).side > (run[sideAt] as Look).side) sideAt = i;
  const peak = run[sideAt] as Look;
  const above = run[Math.max(0, sideAt - 1)] as Look;
  const under = run[Math.min(run.length - 1, sideAt + 1)] as Look;
  const side = Math.max(
    peak.side,
    largestWithin((z) => lookFrom(scene, front, z).side, under.z, above.z, 10),
  );
  const weight = (m: Look): number => (m.rim > 0 ? 1 : 0) + m.side + m.imbalance + m.voidArc;
  const worst = run.reduce((a, b) => (weight(b) > weight(a) ? b : a));
  return {
    from: exact((run[0] as Look).z),
    to: exact((run.at(-1) as Look).z),
    rimLength: lengthOf(rimCuts),
    rimBelowHalf: lengthOf(rimHalf),
    coreAir: lengthOf(coreInAir),
    oneSided: run.some((q) => coreInAir(q) && rimCuts(q) && q.entries === 1),
    voidArc: cutting.reduce((gap, q) => Math.max(gap, q.voidArc), 0),
    side,
    imbalance: run.reduce((gap, m) => (rimCuts(m) && m.voidArc >= WIDE_GAP ? Math.max(gap, m.imbalance) : gap), 0),
    worst,
  };
}
