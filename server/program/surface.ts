/** Where the tip meets the part: the top of the declared stock on a line along the drill axis. */
import { AXIS_INDEX, type Bounds, boundsOf } from "../setup/stock-extent.ts";
import type { ResolvedSetup, StockBox, StockCylinder, StockSolid, Vec3 } from "../setup/types.ts";

export interface SurfaceHit {
  readonly z: number;
  readonly declared: boolean;
  /** The line misses the stock: the surface is the highest of all. */
  readonly beside?: boolean;
}

export class Surface {
  readonly #solids: readonly StockSolid[];
  readonly #voids: readonly StockSolid[];
  readonly #bounds: Bounds | null;
  readonly #wcs: string;
  readonly #offsets: ReadonlyMap<string, Vec3>;
  readonly #assumed: SurfaceHit;

  constructor(setup: ResolvedSetup) {
    const stock = setup.workpiece?.stock ?? null;
    this.#solids = stock?.solids ?? [];
    this.#voids = stock?.voids ?? [];
    this.#bounds = boundsOf(this.#solids);
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
    if (this.#bounds === null || shift === null) return this.#assumed;
    const square = [0, 1, 2].filter((i) => i !== axis);
    const point: [number, number, number] = [0, 0, 0];
    point[square[0] ?? 0] = u + (shift[square[0] ?? 0] ?? 0);
    point[square[1] ?? 1] = v + (shift[square[1] ?? 1] ?? 0);
    const whole = this.#bounds[axis as 0 | 1 | 2][1];
    const top = Number.isNaN(u) || Number.isNaN(v) ? Number.NEGATIVE_INFINITY : this.#top(axis, point);
    // Beside the stock: the highest place of it is the safer reading.
    const beside = top === Number.NEGATIVE_INFINITY;
    return { z: (beside ? whole : top) - (shift[axis] ?? 0), declared: true, beside };
  }

  /** Highest metal on the line through `point`: the top of a solid, or the floor of a void in one. −Infinity: none. */
  #top(axis: number, point: Point): number {
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

type Point = readonly [number, number, number];
type Span = readonly [low: number, high: number];
/** Thinner metal than this is none, mm. */
const SKIN = 1e-6;

function spans(solids: readonly StockSolid[], axis: number, point: Point): Span[] {
  return solids.flatMap((solid) => {
    const span = spanOf(solid, axis, point);
    return span === null ? [] : [span];
  });
}

/** The part of the line through `point` along the axis that lies in a solid; null where the line misses it. */
function spanOf(solid: StockSolid, axis: number, point: Point): Span | null {
  const whole = solid.kind === "box" ? inBox(solid, axis, point) : inCylinder(solid, axis, point);
  if (whole === null) return null;
  let [low, high] = whole;
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

function inBox(box: StockBox, axis: number, point: Point): Span | null {
  const ranges = [box.x, box.y, box.z];
  for (let i = 0; i < 3; i++) {
    if (i === axis) continue;
    const range = ranges[i] ?? [0, 0];
    const value = point[i] ?? 0;
    if (value < range[0] || value > range[1]) return null;
  }
  return ranges[axis] ?? [0, 0];
}

function inCylinder(cylinder: StockCylinder, axis: number, point: Point): Span | null {
  const { through, span } = cylinder;
  if (typeof cylinder.axis !== "string") return inLeaning(cylinder, cylinder.axis, axis, point);
  const along = AXIS_INDEX[cylinder.axis];
  const radius = cylinder.diameter / 2;
  if (along === axis) {
    let square = 0;
    for (let i = 0; i < 3; i++) if (i !== axis) square += ((point[i] ?? 0) - (through[i] ?? 0)) ** 2;
    return square > radius * radius ? null : span;
  }
  const value = point[along] ?? 0;
  if (value < span[0] || value > span[1]) return null;
  const side = 3 - along - axis;
  const distance = (point[side] ?? 0) - (through[side] ?? 0);
  const rise = radius * radius - distance * distance;
  if (rise < 0) return null;
  const centre = through[axis] ?? 0;
  return [centre - Math.sqrt(rise), centre + Math.sqrt(rise)];
}

/**
 * A cylinder about a direction d. With m from `through` to the line at its height, a point of the line t further up is
 * inside where |m + t e|² − ((m + t e)·d)² <= R² and (m + t e)·d lies in the span. Derived.
 */
function inLeaning({ through, diameter, span }: StockCylinder, d: Vec3, axis: number, point: Point): Span | null {
  const [i, j] = [(axis + 1) % 3, (axis + 2) % 3];
  const di = d[i] ?? 0;
  const dj = d[j] ?? 0;
  const up = d[axis] ?? 0;
  const mi = (point[i] ?? 0) - (through[i] ?? 0);
  const mj = (point[j] ?? 0) - (through[j] ?? 0);
  const along = mi * di + mj * dj;
  const centre = through[axis] ?? 0;
  const flat = Math.hypot(di, dj);
  if (flat < 1e-12) {
    const ends = span.map((end) => centre + end / up);
    return Math.hypot(mi, mj) > diameter / 2 ? null : [Math.min(...ends), Math.max(...ends)];
  }
  // Square to d and e the line stays at one distance; across it the circle is drawn out by the lean.
  const aside = (mi * dj - mj * di) / flat;
  const rest = (diameter / 2) ** 2 - aside * aside;
  if (!(rest >= 0)) return null;
  const middle = (up * along) / (flat * flat);
  const half = Math.sqrt(rest) / flat;
  let low = middle - half;
  let high = middle + half;
  if (Math.abs(up) < 1e-12) {
    if (along < span[0] || along > span[1]) return null;
  } else {
    const ends = span.map((end) => (end - along) / up);
    low = Math.max(low, Math.min(...ends));
    high = Math.min(high, Math.max(...ends));
  }
  return high >= low ? [centre + low, centre + high] : null;
}
