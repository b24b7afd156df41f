/**
 * The entry and exit forms a drawing knows, as solids. The reference, z = 0, is where the drill axis pierces the
 * surface; where the axis runs in air (an edge), it is the height of the face. Derived.
 */
import { edgeAreaShare } from "./closed-forms.ts";
import { below, intersectionOf, mirrored, not, type Solid, unionOf } from "./solids.ts";

/** Same fields as the entry language of cut notes and `entries:`. Lengths mm, angles degrees. */
export type SurfaceForm =
  | { readonly kind: "flat" }
  | { readonly kind: "skin" }
  /** Angle from a face square to the drill, 0 to below 90. */
  | { readonly kind: "incline"; readonly angleDeg: number }
  /** Share of the area of the hole that is in metal, above 0 to below 1. */
  | { readonly kind: "edge-area"; readonly areaShare: number }
  /** Distance of the axis from a straight edge, positive over metal. */
  | { readonly kind: "edge-axis"; readonly insideMm: number }
  | { readonly kind: "ridge"; readonly flankDeg: number; readonly offsetMm: number }
  | {
      readonly kind: "cylinder";
      readonly diameterMm: number;
      readonly shape: "convex" | "concave";
      readonly offsetMm: number;
    }
  /** One or two opposite neighbours already drilled at this pitch. */
  | { readonly kind: "chain"; readonly pitchMm: number; readonly sides: 1 | 2 };

const RAD = Math.PI / 180;

/**
 * Metal as the drill meets it at the entry.
 * @param DC drill diameter, mm: neighbours of a chain have it too, and an area share is a share of its circle
 */
export function entrySurface(form: SurfaceForm, DC: number): Solid {
  switch (form.kind) {
    case "flat":
    case "skin":
      return below(0);
    case "incline":
      return { kind: "half-space", nx: Math.tan(form.angleDeg * RAD), ny: 0, nz: 1, d: 0 };
    case "edge-area":
      return edge(edgeDistance(form.areaShare, DC));
    case "edge-axis":
      return edge(form.insideMm);
    case "ridge":
      return ridge(form.flankDeg, form.offsetMm);
    case "cylinder":
      return cylinder(form.diameterMm / 2, form.shape, form.offsetMm);
    case "chain":
      return chain(form.pitchMm, form.sides, DC);
  }
}

/** Metal as the drill leaves it: the entry form seen from below. z = 0 is where the axis leaves the surface. */
export function exitSurface(form: SurfaceForm, DC: number): Solid {
  return mirrored(entrySurface(form, DC));
}

/** A face that ends at a straight edge, `inside` mm from the axis. */
export function edge(inside: number): Solid {
  return intersectionOf(below(0), { kind: "half-space", nx: 1, ny: 0, nz: 0, d: inside });
}

/** Two flanks that fall away from a crest, the axis `offset` beside it. */
export function ridge(flankDeg: number, offset: number): Solid {
  const slope = Math.tan(flankDeg * RAD);
  // The crest lies at x = -offset, so that the flank at the axis falls towards +x.
  const crest = Math.abs(offset) * slope;
  const at = -offset * slope;
  return intersectionOf(
    { kind: "half-space", nx: slope, ny: 0, nz: 1, d: crest + at },
    { kind: "half-space", nx: -slope, ny: 0, nz: 1, d: crest - at },
  );
}

/** A shaft (convex) or a bore (concave) across the drill axis, its axis `offset` beside it; |offset| < radius. */
export function cylinder(radius: number, shape: "convex" | "concave", offset: number): Solid {
  const rise = Math.sqrt(Math.max(0, radius * radius - offset * offset));
  if (shape === "concave") {
    const bore: Solid = { kind: "across", square: 0, offset, z: rise, radius };
    return intersectionOf(below(rise), not(bore));
  }
  const shaft: Solid = { kind: "across", square: 0, offset, z: -rise, radius };
  // Below its middle the shaft goes on straight: the entry knows nothing of its far side.
  const under = intersectionOf(
    below(-rise),
    { kind: "half-space", nx: 1, ny: 0, nz: 0, d: offset + radius },
    { kind: "half-space", nx: -1, ny: 0, nz: 0, d: radius - offset },
  );
  return unionOf(shaft, under);
}

/** A flat face with one or two opposite holes already drilled, through and parallel to the axis. */
export function chain(pitch: number, sides: 1 | 2, neighbourDiameter: number): Solid {
  const holes: Solid[] = [{ kind: "along", x: pitch, y: 0, radius: neighbourDiameter / 2 }];
  if (sides === 2) holes.push({ kind: "along", x: -pitch, y: 0, radius: neighbourDiameter / 2 });
  return intersectionOf(below(0), ...holes.map(not));
}

/** The solid with a concentric hole of this diameter already in it. */
export function withPilot(solid: Solid, diameter: number): Solid {
  return intersectionOf(solid, not({ kind: "along", x: 0, y: 0, radius: diameter / 2 }));
}

/**
 * The solid with a hole across the drill axis, its axis `depth` below the reference and `offset` beside the drill axis.
 */
export function withCrossHole(solid: Solid, diameter: number, depth: number, offset = 0): Solid {
  return intersectionOf(solid, not({ kind: "across", square: 0, offset, z: -depth, radius: diameter / 2 }));
}

/**
 * Distance of the axis from a straight edge, mm, positive over metal, that leaves the given share of the circle in
 * metal. Inverts α = 1 - (arccos c - c · √(1 - c²)) / π, c = a / R.
 * @param areaShare 0 to 1
 */
export function edgeDistance(areaShare: number, DC: number): number {
  let low = -DC / 2;
  let high = DC / 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (edgeAreaShare(middle, DC) < areaShare) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
