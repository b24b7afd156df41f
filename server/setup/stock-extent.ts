/** How far the bodies of a stock reach. */
import type { StockSolid, Vec3 } from "./types.ts";

export type Range = readonly [low: number, high: number];

/** In X, Y and Z. */
export type Bounds = readonly [Range, Range, Range];

export const AXIS_INDEX = { x: 0, y: 1, z: 2 } as const;

/** From and to of a body in one coordinate, its cut planes left aside. */
export function extentOf(solid: StockSolid, axis: 0 | 1 | 2): Range {
  if (solid.kind === "box") return ([solid.x, solid.y, solid.z] as const)[axis];
  const { through, span } = solid;
  const radius = solid.diameter / 2;
  if (typeof solid.axis === "string")
    return AXIS_INDEX[solid.axis] === axis ? span : [through[axis] - radius, through[axis] + radius];
  const along = solid.axis[axis];
  const ends = span.map((distance) => through[axis] + distance * along);
  const disc = radius * Math.sqrt(Math.max(0, 1 - along * along));
  return [Math.min(...ends) - disc, Math.max(...ends) + disc];
}

/** The box around all bodies; null: there are none. */
export function boundsOf(solids: readonly StockSolid[]): Bounds | null {
  if (solids.length === 0) return null;
  const around = (axis: 0 | 1 | 2): Range => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const solid of solids) {
      const [from, to] = extentOf(solid, axis);
      low = Math.min(low, from);
      high = Math.max(high, to);
    }
    return [low, high];
  };
  return [around(0), around(1), around(2)];
}

/** From and to of a body along a direction of length 1, its cut planes left aside: that of its farthest points. */
export function extentAlong(solid: StockSolid, direction: Vec3): Range {
  if (solid.kind === "box") return boundsAlong([solid.x, solid.y, solid.z], direction);
  const axis: Vec3 =
    typeof solid.axis !== "string"
      ? solid.axis
      : [solid.axis === "x" ? 1 : 0, solid.axis === "y" ? 1 : 0, solid.axis === "z" ? 1 : 0];
  const origin = typeof solid.axis === "string" ? solid.through[AXIS_INDEX[solid.axis]] : 0;
  const along = dot(direction, axis);
  const ends = solid.span.map((at) => dot(direction, solid.through) + (at - origin) * along);
  const disc = (solid.diameter / 2) * Math.sqrt(Math.max(0, 1 - along * along));
  return [Math.min(...ends) - disc, Math.max(...ends) + disc];
}

export function boundsAlong(bounds: Bounds, direction: Vec3): Range {
  let low = 0;
  let high = 0;
  for (const [i, range] of bounds.entries()) {
    const n = direction[i] ?? 0;
    low += n * range[n > 0 ? 0 : 1];
    high += n * range[n > 0 ? 1 : 0];
  }
  return [low, high];
}

export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
