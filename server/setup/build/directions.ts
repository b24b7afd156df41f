/** Directions in space from what the setup says of them. */
import type { Vec3 } from "../types.ts";

/** Closer to an axis than this sine is along it. */
const STRAIGHT = 1e-12;

/**
 * An axis with its span. A direction gets length 1; one along X, Y or Z becomes that axis, and its span, measured from
 * `through`, a span of coordinates.
 */
export function axisOf(
  axis: "x" | "y" | "z" | Vec3,
  through: Vec3,
  span: readonly [number, number],
): { readonly axis: "x" | "y" | "z" | Vec3; readonly span: readonly [number, number] } {
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
