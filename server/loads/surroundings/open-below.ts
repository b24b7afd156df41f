/**
 * The part without its level underside: a flat exit interrupts no cut, and what an entry or a void beside the hole does must
 * not be mixed with a point that comes out. An inclined underside stays.
 */
import type { Solid } from "../../mechanics/engagement/solids.ts";

/** mm */
const SAME = 1e-6;

/** @param solid metal; voids taken from it stay as they are */
export function openBelow(solid: Solid): Solid {
  const lowest = lowestOf(solid);
  return lowest === null ? solid : without(solid, lowest);
}

/** Height of a level face that looks down; null where it is none. */
function undersideOf(part: Solid): number | null {
  if (part.kind !== "half-space" || part.nz >= 0 || part.nx !== 0 || part.ny !== 0) return null;
  return part.d / part.nz;
}

/** The lowest level underside of all bodies. */
function lowestOf(solid: Solid): number | null {
  const own = undersideOf(solid);
  if (own !== null) return own;
  if (solid.kind !== "union" && solid.kind !== "intersection") return null;
  let lowest: number | null = null;
  for (const part of solid.parts) {
    const z = lowestOf(part);
    if (z !== null && (lowest === null || z < lowest)) lowest = z;
  }
  return lowest;
}

function without(solid: Solid, level: number): Solid {
  if (solid.kind !== "union" && solid.kind !== "intersection") return solid;
  const isLowest = (part: Solid): boolean => {
    const z = undersideOf(part);
    return z !== null && z <= level + SAME;
  };
  const parts = solid.kind === "intersection" ? solid.parts.filter((part) => !isLowest(part)) : solid.parts;
  return { kind: solid.kind, parts: parts.map((part) => without(part, level)) };
}
