/**
 * The common entry forms in closed form, for derivations that a person can follow and as the measure of the kernel.
 * Depths t are of the tip below the point where the axis pierces the surface, mm, negative before. Derived, checked by
 * brute force; the lens of two circles read in MathWorld.
 */
import { pointSlope } from "../kinematics.ts";

const RAD = Math.PI / 180;
const clamp = (x: number): number => Math.min(1, Math.max(-1, x));

export interface EntryLength {
  /** Depth of the tip at first contact, mm; negative when the corner hits first. */
  readonly first: number;
  /** Depth of the tip at which the point is in metal all around, mm. */
  readonly full: number;
  /** Axial travel between, mm. */
  readonly length: number;
  /** The tip touches before the corner. */
  readonly tipFirst: boolean;
}

/** Steepest incline on which the tip touches first, degrees: 90 - SIG / 2. */
export function tipFirstLimit(SIG: number): number {
  return 90 - SIG / 2;
}

/**
 * A plane inclined by angleDeg. Tip first: L = (D / 2) · (cot(SIG / 2) + tan θ); corner first: L = D · tan θ.
 * @param angleDeg θ from a face square to the drill, 0 to below 90
 */
export function inclineEntry(DC: number, SIG: number, angleDeg: number): EntryLength {
  const R = DC / 2;
  const cot = pointSlope(SIG);
  const tan = Math.tan(angleDeg * RAD);
  const tipFirst = tan <= cot;
  const first = tipFirst ? 0 : R * (cot - tan);
  const full = R * (cot + tan);
  return { first, full, length: full - first, tipFirst };
}

/**
 * Engaged share of the turn at radius r on an incline: ε = arccos((r · cot κ - t) / (r · tan θ)) / π.
 * @param r mm, above 0
 * @param angleDeg above 0 to below 90
 */
export function inclineShare(SIG: number, angleDeg: number, r: number, t: number): number {
  return Math.acos(clamp((r * pointSlope(SIG) - t) / (r * Math.tan(angleDeg * RAD)))) / Math.PI;
}

/**
 * Engaged share of the area of a cone point on an incline while the contact is an ellipse inside the hole, 0 <= t <= R
 * · (cot κ - tan θ): α = (t · tan κ)² / (R² · (1 - e²)^1.5), e = tan θ · tan κ below 1.
 */
export function inclineEllipseShare(DC: number, SIG: number, angleDeg: number, t: number): number {
  const tan = 1 / pointSlope(SIG);
  const e = Math.tan(angleDeg * RAD) * tan;
  return (t * tan) ** 2 / ((DC / 2) ** 2 * (1 - e * e) ** 1.5);
}

/** Engaged share of the area of a flat front on an incline: a straight edge t / tan θ from the axis. */
export function inclineFlatShare(DC: number, angleDeg: number, t: number): number {
  return edgeAreaShare(t / Math.tan(angleDeg * RAD), DC);
}

/** Height of the arc over its chord, mm: s(y) = Rs - √(Rs² - y²). @param y half the chord, |y| <= Rs */
export function sagitta(surfaceRadius: number, y: number): number {
  return surfaceRadius - Math.sqrt(surfaceRadius * surfaceRadius - y * y);
}

/** Axial travel from first contact to full engagement on a shaft met at its crown, mm: L = R · cot κ + s(R). */
export function convexEntryLength(DC: number, SIG: number, surfaceRadius: number): number {
  return (DC / 2) * pointSlope(SIG) + sagitta(surfaceRadius, DC / 2);
}

/**
 * The same in a bore met at its bottom, mm: R · cot κ, or s(R) where the corner hits first.
 * @param surfaceRadius above R
 */
export function concaveEntryLength(DC: number, SIG: number, surfaceRadius: number): number {
  return Math.max((DC / 2) * pointSlope(SIG), sagitta(surfaceRadius, DC / 2));
}

/**
 * Engaged share of the turn at radius r while a hole of diameter d is crossed square, the axes meeting, at distance dz
 * from its axis: ε = (2 / π) · arccos(min(1, √((d / 2)² - dz²) / r)); 1 outside.
 */
export function crossHoleShare(crossDiameter: number, r: number, dz: number): number {
  const half = (crossDiameter / 2) ** 2 - dz * dz;
  return half <= 0 ? 1 : (2 / Math.PI) * Math.acos(Math.min(1, Math.sqrt(half) / r));
}

/** Interrupted depth of a crossed hole, mm: d + R · cot κ. */
export function crossHoleLength(DC: number, SIG: number, crossDiameter: number): number {
  return crossDiameter + (DC / 2) * pointSlope(SIG);
}

/**
 * Engaged share of the turn at the corner beside a straight edge, the axis `inside` mm over metal: ε = 1 - arccos(a /
 * R) / π.
 */
export function edgeRimShare(inside: number, DC: number): number {
  return 1 - Math.acos(clamp(inside / (DC / 2))) / Math.PI;
}

/** Engaged share of the area beside a straight edge: α = 1 - (arccos c - c · √(1 - c²)) / π, c = a / R. */
export function edgeAreaShare(inside: number, DC: number): number {
  const c = clamp(inside / (DC / 2));
  return 1 - (Math.acos(c) - c * Math.sqrt(1 - c * c)) / Math.PI;
}

/** Area common to two circles, mm². @param distance of their centres, mm, 0 or more */
export function lensArea(r1: number, r2: number, distance: number): number {
  if (distance >= r1 + r2) return 0;
  if (distance <= Math.abs(r1 - r2)) return Math.PI * Math.min(r1, r2) ** 2;
  const d = distance;
  const one = r1 * r1 * Math.acos(clamp((d * d + r1 * r1 - r2 * r2) / (2 * d * r1)));
  const other = r2 * r2 * Math.acos(clamp((d * d + r2 * r2 - r1 * r1) / (2 * d * r2)));
  const kite = (-d + r1 + r2) * (d + r1 - r2) * (d - r1 + r2) * (d + r1 + r2);
  return one + other - Math.sqrt(Math.max(0, kite)) / 2;
}

export interface ChainCut {
  /** Share of the turn at the corner in metal. */
  readonly rim: number;
  /** Arc of the corner that runs in the neighbour, degrees. */
  readonly voidArcDeg: number;
  /** Share of the area the neighbour has taken away. */
  readonly removedShare: number;
  /** Height of the cusp left on the side wall, mm. */
  readonly cusp: number;
  /** Length of the chord through the lens, mm. */
  readonly chord: number;
  /** Web left between the holes, mm; 0 where they overlap. */
  readonly web: number;
}

/** A hole beside an equal one already drilled. @param pitch distance of the axes, mm, above 0 */
export function chainCut(DC: number, pitch: number): ChainCut {
  const R = DC / 2;
  const half = pitch >= DC ? 0 : Math.acos(pitch / DC);
  const h = Math.sqrt(Math.max(0, R * R - (pitch * pitch) / 4));
  return {
    rim: 1 - half / Math.PI,
    voidArcDeg: (2 * half) / RAD,
    removedShare: lensArea(R, R, pitch) / (Math.PI * R * R),
    cusp: pitch >= DC ? 0 : R - h,
    chord: 2 * h,
    web: Math.max(0, pitch - DC),
  };
}
