/** A drill going into a solid: first contact, full engagement and every interrupted zone over depth. */
import type { DrillFront } from "./drill.ts";
import { type Look, lookFrom, type Measures } from "./measures.ts";
import { Numbers } from "./numbers.ts";
import { pruned } from "./prune.ts";
import { breakHeights, Scene } from "./scene.ts";
import { contains, type Solid } from "./solids.ts";
import { type Grain, grainOf, shareTo, stateOf } from "./states.ts";
import { isSteady } from "./steady.ts";
import { type Zone, zonesOf } from "./zones.ts";

export type { Zone } from "./zones.ts";

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
  /** Largest share of the area in metal at any height, and the first tip height that has it (0: nothing is cut). */
  readonly mostArea: number;
  readonly mostAreaZ: number;
  /** Largest share of the edge in metal, mean over the turn. */
  readonly mostEdge: number;
  /** At the heights where something changes and between them, from above to below. */
  readonly samples: readonly Measures[];
  /** At any tip height. */
  at(z: number): Measures;
}

/**
 * Most looks spent on the changes between two heights. Some seven things may change there, each found in some twenty; more
 * is a state that flickers with the rounding of absurd sizes, and would never end.
 */
const MOST_LOOKS = 200;
/** Looks between two heights at which something may change: 1 and none where they are near each other, in radii. */
const BETWEEN = 2;
const SHORT = 0.1;
const CLOSE = 0.01;

/**
 * The curve of engagement from above the part down to `bottom`.
 * @param bottom deepest tip height, mm, from the reference of the surface
 * @param top tip height to begin at; left out: just above the highest point that can touch. Give it for an exit, where
 *   the drill is in metal from the start
 */
export function engage(solid: Solid, front: DrillFront, bottom: number, top?: number): EngagementCurve {
  const high = top === undefined ? Number.POSITIVE_INFINITY : top + front.slope * front.R;
  const near = pruned(solid, front.R, bottom, high);
  return new Curve(new Scene(near), near, front, bottom, top);
}

/** Thousands of curves are kept and few of their looks are ever asked for again: those of the latest stay, no others. */
let latest: { readonly curve: Curve; readonly samples: readonly Measures[] } | null = null;

class Curve implements EngagementCurve {
  readonly firstContact: number | null;
  readonly full: number | null;
  readonly lastContact: number | null;
  readonly zones: readonly Zone[];
  readonly rimLength: number;
  readonly mostArea: number;
  readonly mostAreaZ: number;
  readonly mostEdge: number;
  readonly #scene: Scene;
  readonly #front: DrillFront;
  readonly #bottom: number;
  readonly #top: number | undefined;

  constructor(scene: Scene, near: Solid, front: DrillFront, bottom: number, top: number | undefined) {
    this.#scene = scene;
    this.#front = front;
    this.#bottom = bottom;
    this.#top = top;
    const { changes, grain } = changesOf(scene, front, bottom, top);
    const looks = looksAt(scene, front, changes, grain);
    // A look just beside a change stands for the change itself.
    const exact = (z: number): number => changes.find((change) => Math.abs(change - z) <= grain.change) ?? z;
    const first = looks.find((q) => q.touching);
    const last = looks.findLast((q) => q.touching);
    const full = looks.find((q) => q.rim === 1 && !q.interrupted);
    this.firstContact = first === undefined ? null : exact(first.z);
    this.full = full === undefined ? null : exact(full.z);
    this.lastContact = last === undefined || last === looks.at(-1) ? null : exact(last.z);
    this.zones = zonesOf(scene, front, looks, exact, grain, exitOf(near, looks));
    this.rimLength = this.zones.reduce((sum, zone) => sum + zone.rimLength, 0);
    let most = { area: 0, z: 0 };
    let area = 0;
    let edge = 0;
    for (const q of looks) {
      if (q.area > area) area = q.area;
      if (q.area > most.area + SAME_SHARE) most = q;
      if (q.edge > edge) edge = q.edge;
    }
    this.mostArea = area;
    this.mostAreaZ = most.area === 0 ? 0 : exact(most.z);
    this.mostEdge = edge;
    latest = { curve: this, samples: thin(looks, grain) };
  }

  get samples(): readonly Measures[] {
    if (latest?.curve !== this) {
      const { changes, grain } = changesOf(this.#scene, this.#front, this.#bottom, this.#top);
      latest = { curve: this, samples: thin(looksAt(this.#scene, this.#front, changes, grain), grain) };
    }
    return latest.samples;
  }

  at(z: number): Measures {
    return lookFrom(this.#scene, this.#front, z);
  }
}

/** Tip height below which the point has come out for good, having been in metal; −∞ where it has not. */
function exitOf(near: Solid, looks: readonly Look[]): number {
  if (!looks.some((q) => q.interrupted)) return Number.NEGATIVE_INFINITY;
  const inMetal = (q: Look): boolean => contains(near, 0, 0, q.z);
  const last = looks.at(-1);
  if (last === undefined || inMetal(last)) return Number.NEGATIVE_INFINITY;
  return looks.findLast(inMetal)?.z ?? Number.NEGATIVE_INFINITY;
}

/** Shares nearer than this are one: of a steady stretch the top is named. */
const SAME_SHARE = 1e-6;

const found = new Numbers();

/** Tip heights, falling, at which something may change: top, bottom and all the closed forms give between them. */
function changesOf(
  scene: Scene,
  front: DrillFront,
  bottom: number,
  top: number | undefined,
): { changes: number[]; grain: Grain } {
  found.count = 0;
  breakHeights(scene, front, found);
  found.sortWithin(bottom, top ?? Number.POSITIVE_INFINITY);
  const highest = top ?? (found.count > 0 ? (found.at[found.count - 1] as number) : bottom);
  const grain = grainOf(highest - bottom);
  const changes = [top ?? highest + 10 * grain.change];
  for (let i = found.count - 1; i >= 0; i--) {
    const z = found.at[i] as number;
    if ((changes.at(-1) as number) - z >= grain.change) changes.push(z);
  }
  changes.push(bottom);
  return { changes, grain };
}

/** Looks, falling: each change from both sides, a few between, and wherever the halves of the way differ. */
function looksAt(scene: Scene, front: DrillFront, changes: readonly number[], grain: Grain): Look[] {
  const out: Look[] = [];
  const at = (z: number): Look => lookFrom(scene, front, z);
  const see = (here: Look): void => {
    const before = out.at(-1);
    if (before !== undefined) narrow(at, before, here, 0, { out, grain, left: MOST_LOOKS });
    keep(out, here);
  };
  for (let i = 1; i < changes.length; i++) {
    const from = (changes[i - 1] as number) - (i === 1 ? 0 : grain.change / 4);
    const to = (changes[i] as number) + (i === changes.length - 1 ? 0 : grain.change / 4);
    see(at(from));
    if (isSteady(scene, front, from, to)) {
      keep(out, (out.at(-1) as Look).movedTo(to));
      continue;
    }
    const apart = (from - to) / front.R;
    const between = apart < CLOSE ? 0 : apart < SHORT ? 1 : BETWEEN;
    for (let j = 1; j <= between; j++) see(at(from + ((to - from) * j) / (between + 1)));
    see(at(to));
  }
  return out;
}

interface Narrowing {
  readonly out: Look[];
  readonly grain: Grain;
  left: number;
}

/**
 * Keeps the looks on both sides of every change between the two, and none of the others on the way there.
 * @param fresh 1 when the upper one is the last look, -1 when the lower one is
 */
function narrow(at: (z: number) => Look, above: Look, under: Look, fresh: number, work: Narrowing): void {
  const change = stateOf(above) ^ stateOf(under);
  if (change === 0) return;
  const { halving } = work.grain;
  if (above.z - under.z <= halving || work.left <= 0) {
    keep(work.out, above);
    keep(work.out, under);
    return;
  }
  work.left--;
  // A value that passes its threshold tells about where; the next look is meant to fall just beyond.
  const share = work.left % 4 === 0 ? 0.5 : shareTo(change, above, under);
  const aimed = above.z + (under.z - above.z) * share - fresh * 0.4 * halving;
  const z = Math.min(above.z - 0.4 * halving, Math.max(under.z + 0.4 * halving, aimed));
  const middle = at(z);
  narrow(at, above, middle, -1, work);
  narrow(at, middle, under, 1, work);
}

function keep(out: Look[], look: Look): void {
  if (out.at(-1) !== look) out.push(look);
}

/** Of looks that lie closer together than a person can use, leaves the last; both sides of a step stay. */
function thin(looks: readonly Look[], grain: Grain): Look[] {
  const out: Look[] = [];
  for (const q of looks) {
    const before = out.at(-1);
    if (before !== undefined && before.z - q.z < grain.halving && isAlike(before, q)) out.pop();
    out.push(q);
  }
  return out;
}

/** Shares nearer than this are one to a person. */
const ALIKE = 1e-3;

const isAlike = (a: Look, b: Look): boolean =>
  Math.abs(a.area - b.area) < ALIKE && Math.abs(a.rim - b.rim) < ALIKE && Math.abs(a.core - b.core) < ALIKE;
