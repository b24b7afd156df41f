/** Regions milled so far: a tool may be down in them. Boxes around cuts that touch; an island in one is not seen. */

export interface Region {
  /** Coordinates that it stands in. */
  readonly frame: number;
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
  /** Lowest level cut. */
  readonly low: number;
}

const NEAR = 0.01;
/** More regions than this become one another's: the box gets coarser, never the list longer. */
const MOST = 32;

export class MilledRegions {
  /** Replaced, never changed in place, so that a checkpoint may keep it. */
  #regions: readonly Region[] = [];

  mark(): readonly Region[] {
    return this.#regions;
  }

  standsAs(mark: readonly Region[]): boolean {
    const own = this.#regions;
    return own === mark || (own.length === mark.length && own.every((region, i) => same(region, mark[i])));
  }

  restore(mark: readonly Region[]): void {
    this.#regions = mark;
  }

  /** A cut from one point to another, down to a level. */
  add(frame: number, from: readonly [number, number], to: readonly [number, number], low: number): void {
    let box: Region = {
      frame,
      u0: Math.min(from[0], to[0]),
      u1: Math.max(from[0], to[0]),
      v0: Math.min(from[1], to[1]),
      v1: Math.max(from[1], to[1]),
      low,
    };
    if (this.#regions.some((region) => region.low <= low && within(box, region))) return;
    const apart: Region[] = [];
    for (const region of this.#regions) {
      if (touch(region, box)) box = union(region, box);
      else apart.push(region);
    }
    if (apart.length >= MOST) {
      const twin = apart.findIndex((region) => region.frame === frame);
      const [oldest] = apart.splice(Math.max(twin, 0), 1);
      if (oldest?.frame === frame) box = union(oldest, box);
    }
    this.#regions = [...apart, box];
  }

  /** Whether a level at a place was milled free. */
  covers(frame: number, u: number, v: number, z: number): boolean {
    return this.#regions.some(
      (region) =>
        region.frame === frame &&
        u >= region.u0 - NEAR &&
        u <= region.u1 + NEAR &&
        v >= region.v0 - NEAR &&
        v <= region.v1 + NEAR &&
        z >= region.low - NEAR,
    );
  }
}

function same(a: Region, b: Region | undefined): boolean {
  return (
    b !== undefined &&
    a.frame === b.frame &&
    a.u0 === b.u0 &&
    a.u1 === b.u1 &&
    a.v0 === b.v0 &&
    a.v1 === b.v1 &&
    a.low === b.low
  );
}

const within = (a: Region, b: Region): boolean =>
  a.frame === b.frame && a.u0 >= b.u0 && a.u1 <= b.u1 && a.v0 >= b.v0 && a.v1 <= b.v1;

const touch = (a: Region, b: Region): boolean =>
  a.frame === b.frame && a.u0 <= b.u1 + NEAR && b.u0 <= a.u1 + NEAR && a.v0 <= b.v1 + NEAR && b.v0 <= a.v1 + NEAR;

const union = (a: Region, b: Region): Region => ({
  frame: b.frame,
  u0: Math.min(a.u0, b.u0),
  u1: Math.max(a.u1, b.u1),
  v0: Math.min(a.v0, b.v0),
  v1: Math.max(a.v1, b.v1),
  low: Math.min(a.low, b.low),
});
