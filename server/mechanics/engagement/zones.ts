/** The interrupted stretches of a curve, and the largest of each measure in them. */
import type { DrillFront } from "./drill.ts";
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
  /** Part of it lies where the point has come out for good: there the hole guides the drill, and a core in air says nothing. */
  readonly leaves: boolean;
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
  exitFrom: number,
): Zone[] {
  const zones: Zone[] = [];
  let run: Look[] = [];
  const close = (): void => {
    const first = run[0];
    const last = run.at(-1);
    if (first !== undefined && last !== undefined && first.z - last.z > 2 * grain.change)
      zones.push(new Stretch(scene, front, run, exact, exitFrom));
    run = [];
  };
  for (const q of looks) {
    if (q.interrupted) run.push(q);
    else if (run.length > 0) close();
  }
  if (run.length > 0) close();
  return zones;
}

/** The imbalance of lips is asked for by nobody but a person, so it waits until it is. */
class Stretch implements Zone {
  readonly from: number;
  readonly to: number;
  readonly rimLength: number;
  readonly rimBelowHalf: number;
  readonly coreAir: number;
  readonly oneSided: boolean;
  readonly leaves: boolean;
  readonly voidArc: number;
  readonly side: number;
  readonly worst: Measures;
  readonly #scene: Scene;
  readonly #front: DrillFront;
  /** Heights of the looks at which the imbalance counts, until it has been asked for. */
  #wide: readonly number[] = [];
  #imbalance = -1;

  constructor(scene: Scene, front: DrillFront, run: readonly Look[], exact: (z: number) => number, exitFrom: number) {
    this.from = exact((run[0] as Look).z);
    this.to = exact((run.at(-1) as Look).z);
    this.#scene = scene;
    this.#front = front;
    const wide = run.filter((q) => rimCuts(q) && q.voidArc >= WIDE_GAP);
    if (front.kind === "two-insert") this.#imbalance = largestImbalance(wide);
    else this.#wide = wide.map((q) => q.z);
    let rimLength = 0;
    let rimBelowHalf = 0;
    let coreAir = 0;
    let voidArc = 0;
    let oneSided = false;
    for (let i = 0; i < run.length; i++) {
      const b = run[i] as Look;
      if (rimCuts(b)) voidArc = Math.max(voidArc, b.voidArc);
      const out = b.z < exitFrom;
      if (!out && coreInAir(b) && rimCuts(b) && b.entries === 1) oneSided = true;
      const a = run[i - 1];
      if (a === undefined) continue;
      const length = a.z - b.z;
      if (rimCuts(a) && rimCuts(b)) rimLength += length;
      if (out) continue;
      if (rimHalf(a) && rimHalf(b)) rimBelowHalf += length;
      if (coreInAir(a) && coreInAir(b)) coreAir += length;
    }
    this.rimLength = rimLength;
    this.rimBelowHalf = rimBelowHalf;
    this.coreAir = coreAir;
    this.oneSided = oneSided;
    this.leaves = (run.at(-1) as Look).z < exitFrom;
    this.voidArc = voidArc;
    this.side = largestSide(scene, front, run);
    this.worst = worstOf(front, run);
  }

  get imbalance(): number {
    if (this.#imbalance < 0) {
      this.#imbalance = largestImbalance(this.#wide.map((z) => lookFrom(this.#scene, this.#front, z)));
      this.#wide = [];
    }
    return this.#imbalance;
  }
}

function largestImbalance(looks: readonly Look[]): number {
  let largest = 0;
  for (const q of looks) if (largest < 1) largest = Math.max(largest, q.imbalance);
  return largest;
}

/** Share of the most metal in a zone below which it is no worst case: the first hair of a ridge is all gap and no force. */
const HAIR = 0.1;

/** The imbalance counts for inserts alone, and only where the rim loses a wide arc. */
function worstOf(front: DrillFront, run: readonly Look[]): Look {
  const inserts = front.kind === "two-insert";
  const least = HAIR * run.reduce((area, q) => Math.max(area, q.area), 0);
  let worst = run[0] as Look;
  let most = -1;
  for (const q of run) {
    if (q.area < least) continue;
    const quick = (q.rim > 0 ? 1 : 0) + q.side + q.voidArc;
    const counts = inserts && rimCuts(q) && q.voidArc >= WIDE_GAP;
    if (quick + (counts ? 1 : 0) <= most) continue;
    const weight = counts ? quick + q.imbalance : quick;
    if (weight > most) {
      most = weight;
      worst = q;
    }
  }
  return worst;
}

/**
 * Between the looks beside the largest one: by parabolas, and by halves where one surface takes over from another and
 * the hump has a corner.
 */
function largestSide(scene: Scene, front: DrillFront, run: readonly Look[]): number {
  let at = 0;
  for (let i = 1; i < run.length; i++) if ((run[i] as Look).side > (run[at] as Look).side) at = i;
  let peak = run[at] as Look;
  let above = run.findLast((q, i) => i < at && q.z - peak.z > APART) ?? peak;
  let under = run.find((q, i) => i > at && peak.z - q.z > APART) ?? peak;
  for (let i = 0; i < CLOSER; i++) {
    const p = above.z - peak.z;
    const q = peak.z - under.z;
    const a = peak.side - above.side;
    const b = peak.side - under.side;
    // At an end or beside a plateau the largest value is one that was looked at.
    if (p === 0 || q === 0 || a === 0 || b === 0) break;
    if ((a < SAME_SIDE && b < SAME_SIDE) || Math.max(p, q) < 2 * APART) break;
    let shift = (a * q * q - b * p * p) / (2 * (a * q + b * p));
    if (i % 2 === 1 || Math.abs(shift) < APART || !(shift > -p && shift < q)) shift = p > q ? -p / 2 : q / 2;
    const here = lookFrom(scene, front, peak.z - shift);
    if (here.side > peak.side) {
      if (shift < 0) under = peak;
      else above = peak;
      peak = here;
    } else if (shift < 0) above = here;
    else under = here;
  }
  return peak.side;
}

const CLOSER = 8;
/** mm; looks nearer together than this stand on both sides of a change. */
const APART = 2e-3;
/** Side forces nearer than this are one. */
const SAME_SIDE = 1e-4;
