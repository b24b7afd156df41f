/** What of the part stands around one hole: stock and earlier holes as one solid in the frame of the hole. */

import { isNothing, isPlain, keyOf, pruned } from "../../mechanics/engagement/prune.ts";
import { below, intersectionOf, lifted, not, type Solid } from "../../mechanics/engagement/solids.ts";
import type { HoleFrame, HoleShape } from "../../program/types.ts";
import type { Tool } from "../../setup/types.ts";
import type { Body } from "./grid.ts";
import { openBelow } from "./open-below.ts";
import type { StockField } from "./stock.ts";

/**
 * Holes with equal surroundings share one object. The height 0 of the solid is the surface that the shape counts with
 * (`surfaceZ`); x and y are those of the program, from the axis.
 */
export interface Around {
  readonly solid: Solid;
  readonly key: string;
  /** The face is that of the declared stock; else a flat one is assumed and only earlier holes are known. */
  readonly declared: boolean;
  /** Earlier holes reach into this one. */
  readonly holes: boolean;
  /** Heights at which plates touch, falling. */
  readonly joints: readonly number[];
  /** Nothing of the part is where the drill goes. */
  readonly air: boolean;
}

/** Why nothing is said of the surroundings of a hole whose part is declared. */
export interface Unplaced {
  readonly why: string;
}

/** An earlier hole that reaches into one, its axis `dx`, `dy` from it and its heights `dz` higher. */
export interface Near {
  readonly body: Body;
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
}

/** mm above the highest place of the part, and below the end of the hole, that are looked at. */
const ROOM = 1;

/**
 * @param stock null: none is declared
 * @param u, v place of the hole in its own coordinates, square to its axis
 * @param near earlier holes that reach into it
 * @returns null where a flat face is all that there is
 */
export function aroundOf(
  shape: HoleShape,
  tool: Tool,
  frame: HoleFrame | null,
  stock: StockField | null,
  u: number,
  v: number,
  near: readonly Near[],
): Around | Unplaced | null {
  const { endZ, startZ, surfaceZ } = shape;
  if (endZ === null || startZ === null) return null;
  const R = tool.DC / 2;
  const w = AXIS[shape.axis];
  let metal: Solid;
  let top = Math.max(surfaceZ, startZ);
  let declared = false;
  let joints: readonly number[] = [];
  if (stock === null) {
    if (near.length === 0) return null;
    metal = below(faceOf(shape));
  } else if (frame === null || frame.stock === null) {
    return { why: `how ${shape.wcs} lies to the stock is not known: no \`workOffsets\` for both` };
  } else {
    const [a, b, h] = frame.stock;
    const plain = near.length === 0 ? stock.plainTop(w, u + a, v + b, R) : null;
    if (plain !== null && Math.abs(plain - h - faceOf(shape)) < SAME) return null;
    metal = openBelow(lifted(stock.around(w, u + a, v + b, R), -h));
    // Nothing of the part is higher; what goes right through it ends more than this above.
    top = stock.top(w) - h;
    declared = true;
    joints = stock
      .joints(w, u + a, v + b, R)
      .map((z) => z - h - surfaceZ)
      .filter((z) => z < -SAME && z > endZ - surfaceZ + SAME);
  }
  const holes = [...near.map(drilledBy), ...shape.bored.map((bored) => drilledOn(bored, tool))];
  const whole = holes.length === 0 ? metal : intersectionOf(metal, ...holes.map(not));
  const [low, high] = [endZ - surfaceZ - ROOM, top - surfaceZ + ROOM / 2];
  const solid = pruned(lifted(whole, -surfaceZ), R, low, high);
  const air = isNothing(solid);
  // Holes of the program on the drill's own line are known to the shape; those of the blank are not.
  const asBlank = (): Solid => (holes.length === 0 ? solid : pruned(lifted(metal, -surfaceZ), R, low, high));
  if (!air && isPlain(solid) && joints.length === 0 && !hasGap(solid) && !hasBore(asBlank())) return null;
  if (air && shape.bored.length > 0) return null;
  const key = joints.length === 0 ? keyOf(solid) : `${keyOf(solid)} joints ${joints.map((z) => z.toFixed(6)).join()}`;
  return { solid, key, declared, joints, holes: near.length > 0, air };
}

const AXIS = { x: 0, y: 1, z: 2 } as const;
/** mm */
const SAME = 1e-6;

/** The face of the part where the hole begins, whatever was drilled on its line before. */
function faceOf(shape: HoleShape): number {
  return shape.surfaceFrom === "previous-hole" ? (shape.topZ ?? shape.surfaceZ) : shape.surfaceZ;
}

function drilledBy({ body, dx, dy, dz }: Near): Solid {
  return { kind: "drilled", x: dx, y: dy, radius: body.radius, tip: body.end + dz, point: body.point };
}

/** A hole on the same line: its point is not kept, and no cut hangs on the form of a pilot's bottom. */
function drilledOn(bored: HoleShape["bored"][number], _tool: Tool): Solid {
  return { kind: "drilled", x: 0, y: 0, radius: bored.diameter / 2, tip: bored.toZ, point: 0 };
}

/** A round void on the drill's own line. */
function hasBore(solid: Solid): boolean {
  if (solid.kind === "not") return solid.part.kind !== "half-space";
  return solid.kind === "intersection" && solid.parts.some(hasBore);
}

/** Metal, air and metal again down the middle of an uninterrupted hole: plates with air between, or a chamber in the part. */
function hasGap(solid: Solid): boolean {
  if (solid.kind === "union") return solid.parts.length > 1;
  if (solid.kind === "not") return solid.part.kind === "intersection" || solid.part.kind === "half-space";
  return solid.kind === "intersection" && solid.parts.some(hasGap);
}
