/** Directions in space from what the setup says of them. */
import type { Vec3 } from "../types.ts";

export type AxisName = "x" | "y" | "z";
/** `x+`: along X, towards larger values. */
export type SideName = `${AxisName}${"+" | "-"}`;

/** Closer to an axis than this sine is along it. */
const STRAIGHT = 1e-12;

/**
 * An axis with its span. A direction gets length 1; one along X, Y or Z becomes that axis, and its span, measured from
 * `through`, a span of coordinates.
 */
export function axisOf(
  axis: AxisName | Vec3,
  through: Vec3,
  span: readonly [number, number],
): { readonly axis: AxisName | Vec3; readonly span: readonly [number, number] } {
  if (typeof axis === "string") return { axis, span };
  const unit = normalised(axis);
  for (const [i, name] of (["x", "y", "z"] as const).entries()) {
    const aside = Math.hypot(...unit.filter((_, k) => k !== i));
    if (aside > STRAIGHT) continue;
    const at = through[i] ?? 0;
    return { axis: name, span: (unit[i] ?? 1) > 0 ? [at + span[0], at + span[1]] : [at - span[1], at - span[0]] };
  }
  return { axis: unit, span };
}

export function normalised([x, y, z]: Vec3): Vec3 {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
}

/** An axis, a side, or degrees seen from above, from X towards Y. */
export function directionOf(way: AxisName | SideName | number): Vec3 {
  if (typeof way === "number") return [cosine(way), sine(way), 0];
  const length = way.endsWith("-") ? -1 : 1;
  return [way.startsWith("x") ? length : 0, way.startsWith("y") ? length : 0, way.startsWith("z") ? length : 0];
}

/** One direction turned towards another one, square to it. */
export function turned(from: Vec3, towards: Vec3, degrees: number): Vec3 {
  const [c, s] = [cosine(degrees), sine(degrees)];
  return [tidy(c * from[0] + s * towards[0]), tidy(c * from[1] + s * towards[1]), tidy(c * from[2] + s * towards[2])];
}

export function crossed([ax, ay, az]: Vec3, [bx, by, bz]: Vec3): Vec3 {
  return [tidy(ay * bz - az * by), tidy(az * bx - ax * bz), tidy(ax * by - ay * bx)];
}

export const opposite = ([x, y, z]: Vec3): Vec3 => [tidy(-x), tidy(-y), tidy(-z)];

/** A point moved along a direction. */
export function moved([x, y, z]: Vec3, direction: Vec3, by: number): Vec3 {
  return [x + by * direction[0], y + by * direction[1], z + by * direction[2]];
}

const sine = (degrees: number): number => tidy(Math.sin((degrees * Math.PI) / 180));
const cosine = (degrees: number): number => tidy(Math.cos((degrees * Math.PI) / 180));

/** To fifteen places: the sine of 30 degrees is 0.5, and a quarter turn leaves exactly 0. */
const tidy = (value: number): number => Math.round(value * 1e15) / 1e15 + 0;
