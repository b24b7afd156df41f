/** The declared stock as solids around a drill axis: each body that can reach the hole, in the hole's own frame. */
import { intersectionOf, not, type Solid, unionOf } from "../../mechanics/engagement/solids.ts";
import type { Stock, StockSolid, Vec3 } from "../../setup/types.ts";

type Range = readonly [low: number, high: number];

interface Body {
  readonly solid: StockSolid;
  /** Extent in X, Y and Z of the stock. */
  readonly box: readonly [Range, Range, Range];
}

const AXIS = { x: 0, y: 1, z: 2 } as const;
/** The two coordinates square to each drill axis, in order. */
export const SQUARE = [
  [1, 2],
  [0, 2],
  [0, 1],
] as const;

export class StockField {
  readonly #solids: readonly Body[];
  readonly #voids: readonly Body[];
  /** Extent of all solids. */
  readonly #whole: readonly [Range, Range, Range];

  constructor(stock: Stock) {
    this.#solids = stock.solids.map(bodyOf);
    this.#voids = stock.voids.map(bodyOf);
    const all = (axis: 0 | 1 | 2): Range => [
      Math.min(...this.#solids.map(({ box }) => box[axis][0])),
      Math.max(...this.#solids.map(({ box }) => box[axis][1])),
    ];
    this.#whole = [all(0), all(1), all(2)];
  }

  /** Highest place of the stock along an axis. */
  top(w: 0 | 1 | 2): number {
    return this.#whole[w][1];
  }

  /**
   * Top of the one plain block that the drill stands over with its whole width, nothing else near; null: it is not so.
   * Spares the thousand holes of a plate the geometry.
   */
  plainTop(w: 0 | 1 | 2, a: number, b: number, R: number): number | null {
    const [only, second] = this.#solids;
    if (only === undefined || second !== undefined || only.solid.kind !== "box" || only.solid.cut.length > 0)
      return null;
    const [i, j] = SQUARE[w];
    if (!inside(only.box[i], a, R) || !inside(only.box[j], b, R)) return null;
    for (const { box } of this.#voids) if (reaches(box[i], a, R) && reaches(box[j], b, R)) return null;
    return only.box[w][1];
  }

  /** Heights at which one plate of a stack ends and the next begins under the whole drill, falling. Boxes that touch are one casting. */
  joints(w: 0 | 1 | 2, a: number, b: number, R: number): readonly number[] {
    if (this.#solids.length < 2) return NO_JOINTS;
    const [i, j] = SQUARE[w];
    const under = this.#solids.filter(
      ({ solid, box }) => stackOf(solid) !== null && inside(box[i], a, R) && inside(box[j], b, R),
    );
    const found = under.flatMap(({ solid, box }) => {
      const low = box[w][0];
      const next = (other: Body): boolean =>
        stackOf(other.solid) === stackOf(solid) && Math.abs(other.box[w][1] - low) < TOUCHING;
      return under.some(next) ? [low] : [];
    });
    return found.sort((one, other) => other - one);
  }

  /**
   * The stock within reach of a drill of radius R.
   * @param w drill axis
   * @param a, b place of the hole in the stock's coordinates, square to the axis
   * @returns x and y from the drill axis, z as in the stock's coordinates
   */
  around(w: 0 | 1 | 2, a: number, b: number, R: number): Solid {
    const [i, j] = SQUARE[w];
    const near = ({ box }: Body): boolean => reaches(box[i], a, R) && reaches(box[j], b, R);
    const solids = this.#solids.filter(near).map((body) => solidOf(body.solid, w, a, b));
    const voids = this.#voids.filter(near).map((body) => not(solidOf(body.solid, w, a, b)));
    const metal = unionOf(...solids);
    return voids.length === 0 ? metal : intersectionOf(metal, ...voids);
  }
}

const fields = new WeakMap<Stock, StockField>();

export function fieldOf(stock: Stock): StockField {
  let field = fields.get(stock);
  if (field === undefined) {
    field = new StockField(stock);
    fields.set(stock, field);
  }
  return field;
}

const inside = ([low, high]: Range, at: number, R: number): boolean => at - R >= low && at + R <= high;
const reaches = ([low, high]: Range, at: number, R: number): boolean => at + R > low && at - R < high;

function bodyOf(solid: StockSolid): Body {
  if (solid.kind === "box") return { solid, box: [solid.x, solid.y, solid.z] };
  const { axis, through, diameter, span } = solid;
  const radius = diameter / 2;
  const along = typeof axis === "string" ? AXIS[axis] : -1;
  if (along >= 0) {
    const range = (i: 0 | 1 | 2): Range => (i === along ? span : [through[i] - radius, through[i] + radius]);
    return { solid, box: [range(0), range(1), range(2)] };
  }
  const dir = unit(axis as Vec3);
  const range = (i: 0 | 1 | 2): Range => {
    const ends = [through[i] + span[0] * dir[i], through[i] + span[1] * dir[i]];
    const disc = radius * Math.sqrt(Math.max(0, 1 - dir[i] * dir[i]));
    return [Math.min(...ends) - disc, Math.max(...ends) + disc];
  };
  return { solid, box: [range(0), range(1), range(2)] };
}

function unit(v: Vec3): Vec3 {
  const length = Math.hypot(...v);
  return [v[0] / length, v[1] / length, v[2] / length];
}

function solidOf(solid: StockSolid, w: 0 | 1 | 2, a: number, b: number): Solid {
  const [i, j] = SQUARE[w];
  /** Kept: normal · point <= limit, the point in the stock's coordinates. */
  const half = (normal: Vec3, limit: number): Solid => ({
    kind: "half-space",
    nx: normal[i],
    ny: normal[j],
    nz: normal[w],
    d: limit - normal[i] * a - normal[j] * b,
  });
  const cuts = solid.cut.map(({ through, normal }) => half(normal, dot(normal, through)));
  if (solid.kind === "box") {
    const faces = ([solid.x, solid.y, solid.z] as const).flatMap(([low, high], axis) => {
      const n = axisVector(axis as 0 | 1 | 2);
      return [half(n, high), half([-n[0], -n[1], -n[2]], -low)];
    });
    return intersectionOf(...faces, ...cuts);
  }
  const { through, span } = solid;
  const radius = solid.diameter / 2;
  const along = typeof solid.axis === "string" ? AXIS[solid.axis] : null;
  const dir = along === null ? unit(solid.axis as Vec3) : axisVector(along);
  // Along one of the axes the span is in that coordinate, else from the point of the axis.
  const origin = along === null ? dot(dir, through) : 0;
  const ends = [half(dir, origin + span[1]), half([-dir[0], -dir[1], -dir[2]], -origin - span[0])];
  return intersectionOf(round(), ...ends, ...cuts);

  function round(): Solid {
    const near = Math.hypot(through[i] - a, through[j] - b) <= SAME_LINE;
    // Programs and drawings round: a bore this near to the axis is on it, as holes of the program are.
    const x = along === w && near ? 0 : through[i] - a;
    const y = along === w && near ? 0 : through[j] - b;
    const z = through[w];
    if (along === w) return { kind: "along", x, y, radius };
    if (along === i) return { kind: "across", square: Math.PI / 2, offset: y, z, radius };
    if (along === j) return { kind: "across", square: 0, offset: x, z, radius };
    return leaning(x, y, z, [dir[i], dir[j], dir[w]], radius);
  }
}

/** A cylinder about a direction: one of the plain kinds where it lies so, else an oblique one. */
function leaning(x: number, y: number, z: number, dir: Vec3, radius: number): Solid {
  const flat = Math.hypot(dir[0], dir[1]);
  if (flat < STRAIGHT) return { kind: "along", x, y, radius };
  if (Math.abs(dir[2]) < STRAIGHT) {
    // Square to the axis line, to its left.
    const square = Math.atan2(dir[0], -dir[1]);
    return { kind: "across", square, offset: x * Math.cos(square) + y * Math.sin(square), z, radius };
  }
  return { kind: "oblique", through: [x, y, z], dir, radius };
}

/** The stack of plates a body came from; null: it is none. */
function stackOf({ path }: StockSolid): string | null {
  const at = path.lastIndexOf(".layers[");
  return at < 0 ? null : path.slice(0, at);
}

const NO_JOINTS: readonly number[] = [];
/** mm: plates this near to each other touch. */
const TOUCHING = 1e-3;
const STRAIGHT = 1e-9;
/** mm */
const SAME_LINE = 0.01;

const axisVector = (axis: 0 | 1 | 2): Vec3 => [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
