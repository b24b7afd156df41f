/**
 * Metal and air around a drill axis, made of half-spaces and cylinders. Local frame: z along the drill axis, positive
 * out of the part, the axis at x = y = 0; lengths in mm. For every solid the part of a circle around the axis and the
 * part of a straight edge that lie inside it are known in closed form. Derived.
 */
import { type ArcSet, arcAround, complement, FULL_TURN, intersect, NO_ARC, unite } from "./arcs.ts";

export type Solid =
  /** nx·x + ny·y + nz·z <= d; the normal need not have length 1. */
  | { readonly kind: "half-space"; readonly nx: number; readonly ny: number; readonly nz: number; readonly d: number }
  /** Endless cylinder parallel to the drill axis. */
  | { readonly kind: "along"; readonly x: number; readonly y: number; readonly radius: number }
  /**
   * Endless cylinder square to the drill axis at height z; `square` is the direction, radians, in which its axis lies
   * `offset` away.
   */
  | {
      readonly kind: "across";
      readonly square: number;
      readonly offset: number;
      readonly z: number;
      readonly radius: number;
    }
  | { readonly kind: "union"; readonly parts: readonly Solid[] }
  | { readonly kind: "intersection"; readonly parts: readonly Solid[] }
  | { readonly kind: "not"; readonly part: Solid };

/** Metal everywhere: what a drill meets deep inside the part. */
export const EVERYWHERE: Solid = { kind: "intersection", parts: [] };

/** All that is below height z. */
export function below(z: number): Solid {
  return { kind: "half-space", nx: 0, ny: 0, nz: 1, d: z };
}

export function unionOf(...parts: Solid[]): Solid {
  return { kind: "union", parts };
}

export function intersectionOf(...parts: Solid[]): Solid {
  return { kind: "intersection", parts };
}

export function not(part: Solid): Solid {
  return { kind: "not", part };
}

/** The same solid upside down, z for -z: an exit seen as an entry. */
export function mirrored(solid: Solid): Solid {
  switch (solid.kind) {
    case "half-space":
      return { ...solid, nz: -solid.nz };
    case "along":
      return solid;
    case "across":
      return { ...solid, z: -solid.z };
    case "union":
    case "intersection":
      return { ...solid, parts: solid.parts.map(mirrored) };
    case "not":
      return { kind: "not", part: mirrored(solid.part) };
  }
}

/** The same solid moved along the drill axis by dz. */
export function lifted(solid: Solid, dz: number): Solid {
  switch (solid.kind) {
    case "half-space":
      return { ...solid, d: solid.d + solid.nz * dz };
    case "along":
      return solid;
    case "across":
      return { ...solid, z: solid.z + dz };
    case "union":
    case "intersection":
      return { ...solid, parts: solid.parts.map((part) => lifted(part, dz)) };
    case "not":
      return { kind: "not", part: lifted(solid.part, dz) };
  }
}

/** True when the point is in the solid. */
export function contains(solid: Solid, x: number, y: number, z: number): boolean {
  switch (solid.kind) {
    case "half-space":
      return solid.nx * x + solid.ny * y + solid.nz * z <= solid.d;
    case "along":
      return (x - solid.x) ** 2 + (y - solid.y) ** 2 <= solid.radius ** 2;
    case "across": {
      const u = x * Math.cos(solid.square) + y * Math.sin(solid.square) - solid.offset;
      return u * u + (z - solid.z) ** 2 <= solid.radius ** 2;
    }
    case "union":
      return solid.parts.some((part) => contains(part, x, y, z));
    case "intersection":
      return solid.parts.every((part) => contains(part, x, y, z));
    case "not":
      return !contains(solid.part, x, y, z);
  }
}

/**
 * The part of the circle of radius r at height h that lies in the solid.
 * @param r mm, above 0
 */
export function arcsAt(solid: Solid, r: number, h: number): ArcSet {
  switch (solid.kind) {
    case "half-space":
      return slabArc(solid.nx, solid.ny, solid.d - solid.nz * h, r);
    case "along": {
      const q = Math.hypot(solid.x, solid.y);
      if (q < 1e-12) return r <= solid.radius ? FULL_TURN : NO_ARC;
      const c = (r * r + q * q - solid.radius * solid.radius) / (2 * r * q);
      if (c >= 1) return NO_ARC;
      return c <= -1 ? FULL_TURN : arcAround(Math.atan2(solid.y, solid.x), Math.acos(c));
    }
    case "across": {
      const half = solid.radius * solid.radius - (h - solid.z) ** 2;
      if (half <= 0) return NO_ARC;
      const w = Math.sqrt(half);
      const cx = Math.cos(solid.square);
      const cy = Math.sin(solid.square);
      return intersect(slabArc(cx, cy, solid.offset + w, r), slabArc(-cx, -cy, w - solid.offset, r));
    }
    case "union":
      return solid.parts.reduce<ArcSet>(
        (set, part) => (set === FULL_TURN ? set : unite(set, arcsAt(part, r, h))),
        NO_ARC,
      );
    case "intersection":
      return solid.parts.reduce<ArcSet>(
        (set, part) => (set.length === 0 ? set : intersect(set, arcsAt(part, r, h))),
        FULL_TURN,
      );
    case "not":
      return complement(arcsAt(solid.part, r, h));
  }
}

/** Arc where nx·x + ny·y <= limit on the circle of radius r. */
function slabArc(nx: number, ny: number, limit: number, r: number): ArcSet {
  const m = Math.hypot(nx, ny) * r;
  if (m < 1e-12 || limit >= m || limit <= -m) return limit >= 0 ? FULL_TURN : NO_ARC;
  return arcAround(Math.atan2(-ny, -nx), Math.acos(-limit / m));
}
