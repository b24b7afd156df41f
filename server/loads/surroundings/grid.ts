/**
 * Finds the holes drilled before that a new one cuts into: a hash of cells, one size of cell for each octave of diameters,
 * so that ten thousand holes cost ten thousand look-ups and one large bore among them does not fill its cell with all
 * the small ones. Holes are forgotten in the reverse order of their coming, which is how a search goes on after an edit.
 */

import { IntColumn } from "../../program/columns.ts";
import { type HoleWays, surelyBefore } from "../../program/hole-ways.ts";

/** What a hole takes out of the metal. */
export interface Body {
  /** Holes of one line stand in the same coordinates. */
  readonly line: number;
  /** Of the line: the same in each search, so that what is found does not hang on what was searched before. */
  readonly lineHash: number;
  readonly radius: number;
  /** Tip to corner, mm. */
  readonly point: number;
  readonly top: number;
  /** Highest metal that its own drill can meet: beside the axis a face may stand higher than at it. */
  readonly high: number;
  readonly end: number;
  /** The least whole power of two that the diameter does not pass. */
  readonly octave: number;
}

/** mm by which circles and depths must overlap: more than sums of increments leave. */
export const TOUCH = 1e-3;
/** Two axes this near are one line, mm. */
const SAME_LINE = 0.01;
/** A hole that overlaps this many earlier ones is not searched on for more. */
export const MOST_NEAR = 24;

/** Radius of the hole at a height. */
function radiusAt(body: Body, z: number): number {
  return body.point <= 0 ? body.radius : body.radius * Math.min(1, Math.max(0, (z - body.end) / body.point));
}

/** Share of the diameter: an overlap that ends above this depth is a light cut for any drill. Common practice, no source. */
const SHALLOW = 0.05;

/**
 * Distance below which a hole cuts into an earlier one, and not only where two spots graze at the surface; 0: their depths
 * do not meet. Both are widest at the top.
 */
function reachOf(own: Body, other: Body): number {
  const z = Math.min(own.top, other.top) - SHALLOW * 2 * own.radius;
  if (z - Math.max(own.end, other.end) <= TOUCH) return 0;
  return radiusAt(own, z) + radiusAt(other, z);
}

/** Wholly within a flat-bottomed recess that was made before: the entry is its floor. */
function inRecess(own: Body, other: Body, pitch: number): boolean {
  return other.point <= 0.1 * other.radius && pitch + own.radius <= other.radius + TOUCH;
}

/** Metal left between two holes below which it counts as thin, mm: max(0.1 D, 1). Common practice, no source. */
export function thinBelow(diameter: number): number {
  return Math.max(0.1 * diameter, 1);
}

interface Level {
  readonly octave: number;
  readonly cell: number;
  /** Holes in the order of their coming. */
  readonly holes: IntColumn;
}

/** What is searched, by hole. The columns may be replaced by others that begin alike. */
export interface Bodies {
  /** Body of a hole; null: it takes no metal, or its place or tool is not known. */
  at(hole: number): Body | null;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly ways: HoleWays;
}

/** Holes near one that may not be there with it, looked at before the search ends: only loops drill so many at one place. */
const MOST_UNSURE = 256;

const FEWEST_SLOTS = 1 << 10;

export class NeighbourGrid {
  #heads = new Int32Array(FEWEST_SLOTS).fill(-1);
  /** Hole before it in its chain, by hole; -1 none. */
  readonly #next = new IntColumn();
  /** Finest first. */
  readonly #levels: Level[] = [];
  bodies: Bodies = NOTHING;
  // The best of the search under way.
  #best = -1;
  #bestSquare = 0;
  /** What the last search found: every earlier hole whose circle and depth this one shares, however little. */
  readonly near: number[] = [];
  /** The nearest hole that this one leaves a thin web to, −1 none. */
  web = -1;
  #webWidth = 0;
  #own = -1;
  #unsure = 0;

  /** @param hole larger than every hole added before */
  add(hole: number, body: Body): void {
    const level = this.#levelOf(body);
    while (this.#next.length <= hole) this.#next.push(-1);
    level.holes.push(hole);
    if (this.#next.length > this.#heads.length) this.#grow();
    else this.#link(level, body, hole);
  }

  #link(level: Level, body: Body, hole: number): void {
    const slot = this.#slotOf(level, body, hole);
    this.#next.data[hole] = this.#heads[slot] ?? -1;
    this.#heads[slot] = hole;
  }

  /** Chains stay short: as many slots again, and all holes hung in anew in the order of their coming. */
  #grow(): void {
    this.#heads = new Int32Array(this.#heads.length * 4).fill(-1);
    for (let hole = 0; hole < this.#next.length; hole++) {
      const body = this.bodies.at(hole);
      if (body !== null) this.#link(this.#levelOf(body), body, hole);
    }
  }

  #levelOf({ octave }: Body): Level {
    let level = this.#levels.find((each) => each.octave === octave);
    if (level === undefined) {
      level = { cell: 2 ** octave, octave, holes: new IntColumn() };
      this.#levels.push(level);
      this.#levels.sort((a, b) => a.octave - b.octave);
    }
    return level;
  }

  #slotOf(level: Level, body: Body, hole: number): number {
    const x = this.bodies.x[hole] ?? 0;
    const y = this.bodies.y[hole] ?? 0;
    const slot = slotOf(level, body.lineHash, Math.floor(x / level.cell), Math.floor(y / level.cell));
    return slot & (this.#heads.length - 1);
  }

  /** Forgets this hole and all that came after it; their bodies and places are still those they were added with. */
  forget(hole: number): void {
    for (let last = this.#next.length - 1; last >= hole; last--) {
      const body = this.bodies.at(last);
      if (body !== null) {
        const level = this.#levelOf(body);
        this.#heads[this.#slotOf(level, body, last)] = this.#next.at(last);
        level.holes.length--;
      }
      this.#next.length--;
    }
  }

  trim(): void {
    this.#next.trim();
    for (const { holes } of this.#levels) holes.trim();
  }

  /**
   * The nearest (of equally near ones the earliest) of the holes added that this one cuts into, -1 none. Holes on its own
   * axis line do not count, nor those that may not be there with it.
   */
  earlier(body: Body, x: number, y: number, hole: number): number {
    this.#own = hole;
    this.#unsure = 0;
    this.#best = -1;
    this.#bestSquare = Number.POSITIVE_INFINITY;
    this.near.length = 0;
    this.web = -1;
    this.#webWidth = Number.POSITIVE_INFINITY;
    const mask = this.#heads.length - 1;
    for (const level of this.#levels) {
      const { cell, holes } = level;
      const reach = body.radius + cell / 2 + thinBelow(2 * body.radius);
      const x0 = Math.floor((x - reach) / cell);
      const x1 = Math.floor((x + reach) / cell);
      const y0 = Math.floor((y - reach) / cell);
      const y1 = Math.floor((y + reach) / cell);
      // A wide tool over fine cells: the list is shorter.
      if ((x1 - x0 + 1) * (y1 - y0 + 1) > holes.length) {
        for (let i = 0; i < holes.length && this.near.length < MOST_NEAR; i++) this.#look(holes.at(i), body, x, y);
        continue;
      }
      for (let ix = x0; ix <= x1; ix++) {
        for (let iy = y0; iy <= y1; iy++) {
          let hole = this.#heads[slotOf(level, body.lineHash, ix, iy) & mask] ?? -1;
          while (hole >= 0 && this.near.length < MOST_NEAR) hole = this.#look(hole, body, x, y);
        }
      }
    }
    return this.#best;
  }

  /** @returns the next hole of the chain */
  #look(hole: number, body: Body, x: number, y: number): number {
    const other = this.bodies.at(hole);
    if (other === null) return -1;
    const next = this.#next.at(hole);
    const dx = (this.bodies.x[hole] ?? 0) - x;
    const dy = (this.bodies.y[hole] ?? 0) - y;
    const widest = body.radius + other.radius;
    const square = dx * dx + dy * dy;
    const far = widest + thinBelow(2 * body.radius);
    if (square >= far * far || square <= SAME_LINE * SAME_LINE || other.line !== body.line) return next;
    if (!surelyBefore(this.bodies.ways, hole, this.#own)) return ++this.#unsure > MOST_UNSURE ? -1 : next;
    const pitch = Math.sqrt(square);
    // What a hole leaves is open upwards.
    if (body.high - Math.max(body.end, other.end) <= TOUCH) return next;
    if (pitch >= widest - TOUCH) {
      const together = Math.min(body.top, other.top) - Math.max(body.end, other.end);
      if (together > TOUCH && pitch - widest < this.#webWidth - 1e-9) {
        this.web = hole;
        this.#webWidth = pitch - widest;
      }
      return next;
    }
    this.near.push(hole);
    if (pitch >= reachOf(body, other) - TOUCH || inRecess(body, other, pitch)) return next;
    const nearer = this.#bestSquare - square;
    if (nearer > 1e-9 || (nearer > -1e-9 && hole < this.#best)) {
      this.#best = hole;
      this.#bestSquare = square;
    }
    return next;
  }
}

function slotOf(level: Level, lineHash: number, ix: number, iy: number): number {
  const mixed = Math.imul(ix, 73856093) ^ Math.imul(iy, 19349663) ^ lineHash;
  return mixed ^ (mixed >>> 15) ^ Math.imul(level.octave + 64, 40503);
}

const NOTHING: Bodies = { at: () => null, x: new Float64Array(0), y: new Float64Array(0), ways: [] };
