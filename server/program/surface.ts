/** Where the tip meets the part: the top of the declared stock on a line along the drill axis. */
import type { ResolvedSetup, StockSolid, Vec3 } from "../setup/types.ts";

export interface SurfaceHit {
  readonly z: number;
  readonly declared: boolean;
  /** The line misses the stock: the surface is the highest of all. */
  readonly beside?: boolean;
}

const AXIS_INDEX = { x: 0, y: 1, z: 2 } as const;

export class Surface {
  readonly #solids: readonly StockSolid[];
  readonly #voids: readonly StockSolid[];
  readonly #wcs: string;
  readonly #offsets: ReadonlyMap<string, Vec3>;
  readonly #assumed: SurfaceHit;

  constructor(setup: ResolvedSetup) {
    const stock = setup.workpiece?.stock ?? null;
    this.#solids = stock?.solids ?? [];
    this.#voids = stock?.voids ?? [];
    this.#wcs = stock?.wcs ?? "";
    this.#offsets = setup.workpiece?.workOffsets ?? new Map();
    this.#assumed = { z: setup.dialect.stockTop, declared: false };
  }

  /** Whether every hole of one work system has the same surface. */
  get constant(): boolean {
    return this.#solids.length === 0;
  }

  /**
   * @param shift from the coordinates of `u` and `v` to those of the stock; null: not known
   * @param axis index of the drill axis
   * @param u, v work coordinates square to it, in order; NaN unknown
   */
  at(shift: Vec3 | null, axis: number, u: number, v: number): SurfaceHit {
    if (this.#solids.length === 0 || shift === null) return this.#assumed;
    const square = [0, 1, 2].filter((i) => i !== axis);
    const point: [number, number, number] = [0, 0, 0];
    point[square[0] ?? 0] = u + (shift[square[0] ?? 0] ?? 0);
    point[square[1] ?? 1] = v + (shift[square[1] ?? 1] ?? 0);
    const whole = Math.max(...this.#solids.map((solid) => extent(solid, axis)));
    const top = Number.isNaN(u) || Number.isNaN(v) ? Number.NEGATIVE_INFINITY : this.#top(axis, point);
    // Beside the stock: the highest place of it is the safer reading.
    const beside = top === Number.NEGATIVE_INFINITY;
    return { z: (beside ? whole : top) - (shift[axis] ?? 0), declared: true, beside };
  }

  /** Highest metal on the line through `point`: the top of a solid, or the floor of a void in one. −Infinity: none. */
  #top(axis: number, point: readonly [number, number, number]): number {
    const solids = spans(this.#solids, axis, point);
    if (this.#voids.length === 0) return Math.max(...solids.map(([, high]) => high));
    const voids = spans(this.#voids, axis, point);
    let top = Number.NEGATIVE_INFINITY;
    for (const level of [...solids.map(([, high]) => high), ...voids.map(([low]) => low)]) {
      if (level <= top) continue;
      const under = level - SKIN;
      const within = ([low, high]: Span): boolean => under > low && under < high;
      if (solids.some(within) && !voids.some(within)) top = level;
    }
    return top;
  }

  /**
   * What to add to coordinates of a work system to have those that the stock is declared in; null where that is not
   * known. The stock stands still: where its system has a declared offset, one that the program sets (G10) moves the
   * program over the stock.
   * @param offset of the work system as it is now; null: not declared
   */
  shiftOf(wcs: string, offset: Vec3 | null): Vec3 | null {
    const home = this.#offsets.get(this.#wcs);
    if (home === undefined || offset === null) return wcs === this.#wcs ? [0, 0, 0] : null;
    const shift: Vec3 = [offset[0] - home[0], offset[1] - home[1], offset[2] - home[2]];
    return shift.some(Number.isNaN) ? null : shift;
  }
}

type Span = readonly [low: number, high: number];
/** Thinner metal than this is none, mm. */
const SKIN = 1e-6;

function spans(solids: readonly StockSolid[], axis: number, point: readonly [number, number, number]): Span[] {
  return solids.flatMap((solid) => {
    const span = spanOf(solid, axis, point);
    return span === null ? [] : [span];
  });
}

function extent(solid: StockSolid, axis: number): number {
  if (solid.kind === "box") return [solid.x, solid.y, solid.z][axis]?.[1] ?? Number.NEGATIVE_INFINITY;
  return AXIS_INDEX[solid.axis] === axis ? solid.span[1] : (solid.through[axis] ?? 0) + solid.diameter / 2;
}

/** The part of the line through `point` along the axis that lies in a solid; null where the line misses it. */
function spanOf(solid: StockSolid, axis: number, point: readonly [number, number, number]): Span | null {
  let low: number;
  let high: number;
  if (solid.kind === "box") {
    const ranges = [solid.x, solid.y, solid.z];
    for (let i = 0; i < 3; i++) {
      if (i === axis) continue;
      const range = ranges[i] ?? [0, 0];
      const value = point[i] ?? 0;
      if (value < range[0] || value > range[1]) return null;
    }
    [low, high] = ranges[axis] ?? [0, 0];
  } else {
    const along = AXIS_INDEX[solid.axis];
    const radius = solid.diameter / 2;
    if (along === axis) {
      let square = 0;
      for (let i = 0; i < 3; i++) if (i !== axis) square += ((point[i] ?? 0) - (solid.through[i] ?? 0)) ** 2;
      if (square > radius * radius) return null;
      [low, high] = solid.span;
    } else {
      const value = point[along] ?? 0;
      if (value < solid.span[0] || value > solid.span[1]) return null;
      const side = 3 - along - axis;
      const distance = (point[side] ?? 0) - (solid.through[side] ?? 0);
      const rise = radius * radius - distance * distance;
      if (rise < 0) return null;
      const centre = solid.through[axis] ?? 0;
      low = centre - Math.sqrt(rise);
      high = centre + Math.sqrt(rise);
    }
  }
  for (const { through, normal } of solid.cut) {
    // Kept: normal · (q − through) <= 0.
    let rest = 0;
    for (let i = 0; i < 3; i++) if (i !== axis) rest += (normal[i] ?? 0) * ((point[i] ?? 0) - (through[i] ?? 0));
    const n = normal[axis] ?? 0;
    if (Math.abs(n) < 1e-12) {
      if (rest > 1e-9) return null;
      continue;
    }
    const limit = (through[axis] ?? 0) - rest / n;
    if (n > 0) high = Math.min(high, limit);
    else low = Math.max(low, limit);
  }
  return high >= low ? [low, high] : null;
}
