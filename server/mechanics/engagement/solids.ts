/**
 * Metal and air around a drill axis, made of half-spaces, cylinders and the voids of earlier holes. Local frame: z along
 * the drill axis, positive out of the part, the axis at x = y = 0; lengths in mm.
 */

export type HalfSpace = {
  readonly kind: "half-space";
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly d: number;
};

/** What an earlier hole leaves: parallel to the axis and open upwards, its point a cone. */
export type Drilled = {
  readonly kind: "drilled";
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Height of its tip. */
  readonly tip: number;
  /** Tip to corner, 0 flat. The radius is 0 at the tip and grows evenly to the corner. */
  readonly point: number;
  /** Turned upside down: open downwards, the corner below the tip. */
  readonly down?: true;
};

export type Oblique = {
  readonly kind: "oblique";
  /** A point of the axis. */
  readonly through: readonly [number, number, number];
  /** Direction of the axis, of any length above 0. */
  readonly dir: readonly [number, number, number];
  readonly radius: number;
};

export type Primitive =
  /** nx·x + ny·y + nz·z <= d; the normal need not have length 1. */
  | HalfSpace
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
  | Drilled
  /** Endless cylinder in any other direction. */
  | Oblique;

export type Solid =
  | Primitive
  | { readonly kind: "union"; readonly parts: readonly Solid[] }
  | { readonly kind: "intersection"; readonly parts: readonly Solid[] }
  | { readonly kind: "not"; readonly part: Solid };

/** Metal everywhere: what a drill meets deep inside the part. */
export const EVERYWHERE: Solid = { kind: "intersection", parts: [] };

/** Metal nowhere. */
export const NOTHING: Solid = { kind: "union", parts: [] };

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
    case "drilled": {
      const { kind, x, y, radius, point } = solid;
      const upright = { kind, x, y, radius, tip: -solid.tip, point };
      return solid.down ? upright : { ...upright, down: true };
    }
    case "oblique": {
      const [x, y, z] = solid.through;
      const [dx, dy, dz] = solid.dir;
      return { ...solid, through: [x, y, -z], dir: [dx, dy, -dz] };
    }
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
    case "drilled":
      return { ...solid, tip: solid.tip + dz };
    case "oblique": {
      const [x, y, z] = solid.through;
      return { ...solid, through: [x, y, z + dz] };
    }
    case "union":
    case "intersection":
      return { ...solid, parts: solid.parts.map((part) => lifted(part, dz)) };
    case "not":
      return { kind: "not", part: lifted(solid.part, dz) };
  }
}

/** Radius that an earlier hole has at height h; 0 at its tip and beyond. */
export function drilledRadius(hole: Drilled, h: number): number {
  const above = hole.down ? hole.tip - h : h - hole.tip;
  if (above <= 0) return 0;
  return above >= hole.point ? hole.radius : (hole.radius * above) / hole.point;
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
    case "drilled": {
      const radius = drilledRadius(solid, z);
      return radius > 0 && (x - solid.x) ** 2 + (y - solid.y) ** 2 <= radius ** 2;
    }
    case "oblique": {
      const [dx, dy, dz] = solid.dir;
      const px = x - solid.through[0];
      const py = y - solid.through[1];
      const pz = z - solid.through[2];
      const t = (px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz);
      return (px - t * dx) ** 2 + (py - t * dy) ** 2 + (pz - t * dz) ** 2 <= solid.radius ** 2;
    }
    case "union":
      return solid.parts.some((part) => contains(part, x, y, z));
    case "intersection":
      return solid.parts.every((part) => contains(part, x, y, z));
    case "not":
      return !contains(solid.part, x, y, z);
  }
}

export { arcsAt } from "./scene.ts";
