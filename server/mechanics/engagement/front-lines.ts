/**
 * Where the front of a drill meets a solid: along one straight edge, the radii at which arcs appear or end, and the
 * heights at which the picture changes. All closed forms. Derived.
 */
import { type ArcSet, complement, intersect, NO_ARC, unite } from "./arcs.ts";
import type { DrillFront } from "./drill.ts";
import type { Solid } from "./solids.ts";

/**
 * Radii, as sorted spans within 0 to R, at which the straight edge in direction phi lies in the solid, the tip at
 * height z.
 */
export function spansAlong(solid: Solid, phi: number, z: number, front: DrillFront): ArcSet {
  const R = front.R;
  switch (solid.kind) {
    case "half-space": {
      const rise = solid.nx * Math.cos(phi) + solid.ny * Math.sin(phi) + solid.nz * front.slope;
      const room = solid.d - solid.nz * z;
      if (Math.abs(rise) < 1e-12) return room >= 0 ? [0, R] : NO_ARC;
      const r = room / rise;
      return rise > 0 ? span(0, r, R) : span(r, R, R);
    }
    case "along":
      return within(
        1,
        -(solid.x * Math.cos(phi) + solid.y * Math.sin(phi)),
        solid.x ** 2 + solid.y ** 2 - solid.radius ** 2,
        R,
      );
    case "across": {
      const c = Math.cos(phi - solid.square);
      const v = z - solid.z;
      const a = c * c + front.slope * front.slope;
      const b = front.slope * v - c * solid.offset;
      return within(a, b, solid.offset ** 2 + v * v - solid.radius ** 2, R);
    }
    case "union":
      return solid.parts.reduce<ArcSet>((set, part) => unite(set, spansAlong(part, phi, z, front), R), NO_ARC);
    case "intersection":
      return solid.parts.reduce<ArcSet>((set, part) => intersect(set, spansAlong(part, phi, z, front)), [0, R]);
    case "not":
      return complement(spansAlong(solid.part, phi, z, front), R);
  }
}

function span(from: number, to: number, R: number): ArcSet {
  const a = Math.max(0, from);
  const b = Math.min(R, to);
  return b > a ? [a, b] : NO_ARC;
}

/** Where a·r² + 2·b·r + c <= 0 within 0 to R. */
function within(a: number, b: number, c: number, R: number): ArcSet {
  if (a < 1e-15) return c <= 0 ? [0, R] : NO_ARC;
  const root = b * b - a * c;
  if (root <= 0) return NO_ARC;
  const w = Math.sqrt(root);
  return span((-b - w) / a, (w - b) / a, R);
}

/** Radii at which an arc appears, ends or changes its form, the tip at height z. Unsorted, may lie outside 0 to R. */
export function breakRadii(solid: Solid, z: number, front: DrillFront, out: number[]): void {
  const k = front.slope;
  switch (solid.kind) {
    case "half-space": {
      const m = Math.hypot(solid.nx, solid.ny);
      const room = solid.d - solid.nz * z;
      for (const side of [m, -m]) {
        const rise = solid.nz * k + side;
        if (Math.abs(rise) > 1e-12) out.push(room / rise);
      }
      return;
    }
    case "along": {
      const q = Math.hypot(solid.x, solid.y);
      out.push(Math.abs(q - solid.radius), q + solid.radius);
      return;
    }
    case "across": {
      const v = z - solid.z;
      // The two walls of the slab reach the circle where a straight edge in the direction of the slab does.
      for (const c of [1, -1])
        roots(1 + k * k, k * v - c * solid.offset, solid.offset ** 2 + v * v - solid.radius ** 2, out);
      if (k > 1e-12) out.push((solid.radius - v) / k, (-solid.radius - v) / k);
      return;
    }
    case "union":
    case "intersection":
      for (let i = 0; i < solid.parts.length; i++) {
        const part = solid.parts[i] as Solid;
        breakRadii(part, z, front, out);
        for (let j = i + 1; j < solid.parts.length; j++) creaseRadii(part, solid.parts[j] as Solid, z, k, out);
      }
      return;
    case "not":
      breakRadii(solid.part, z, front, out);
  }
}

function roots(a: number, b: number, c: number, out: number[]): void {
  const root = b * b - a * c;
  if (root < 0) return;
  const w = Math.sqrt(root);
  out.push((-b - w) / a, (w - b) / a);
}

/**
 * Radii at which the line in which two half-spaces meet pierces the cone of the point, or comes nearest to the axis.
 */
function creaseRadii(one: Solid, other: Solid, z: number, k: number, out: number[]): void {
  if (one.kind !== "half-space" || other.kind !== "half-space") return;
  const line = meetingLine(one, other);
  if (line === null) return;
  const { px, py, pz, vx, vy, vz } = line;
  const across = vx * vx + vy * vy;
  if (across > 1e-12) {
    const t = -(px * vx + py * vy) / across;
    out.push(Math.hypot(px + t * vx, py + t * vy));
  }
  // (px + t·vx)² + (py + t·vy)² = r² and pz + t·vz = z + k·r.
  if (k < 1e-12) {
    if (Math.abs(vz) > 1e-12) {
      const t = (z - pz) / vz;
      out.push(Math.hypot(px + t * vx, py + t * vy));
    }
    return;
  }
  const ts: number[] = [];
  const g = pz - z;
  const a = across * k * k - vz * vz;
  const b = (px * vx + py * vy) * k * k - g * vz;
  const c = (px * px + py * py) * k * k - g * g;
  if (Math.abs(a) > 1e-12) roots(a, b, c, ts);
  else if (Math.abs(b) > 1e-12) ts.push(-c / (2 * b));
  for (const t of ts) out.push((g + t * vz) / k);
}

type HalfSpace = Extract<Solid, { kind: "half-space" }>;

function meetingLine(
  a: HalfSpace,
  b: HalfSpace,
): { px: number; py: number; pz: number; vx: number; vy: number; vz: number } | null {
  const vx = a.ny * b.nz - a.nz * b.ny;
  const vy = a.nz * b.nx - a.nx * b.nz;
  const vz = a.nx * b.ny - a.ny * b.nx;
  const w = vx * vx + vy * vy + vz * vz;
  if (w < 1e-18) return null;
  // Point of the line nearest to the origin: (d1·n2 - d2·n1) × v / |v|².
  const qx = a.d * b.nx - b.d * a.nx;
  const qy = a.d * b.ny - b.d * a.ny;
  const qz = a.d * b.nz - b.d * a.nz;
  return { px: (qy * vz - qz * vy) / w, py: (qz * vx - qx * vz) / w, pz: (qx * vy - qy * vx) / w, vx, vy, vz };
}

/** Tip heights at which tip, zone boundary or corner meet the solid, or the edge touches it. Unsorted. */
export function breakHeights(solid: Solid, front: DrillFront, out: number[]): void {
  const { R, slope: k, centre } = front;
  switch (solid.kind) {
    case "half-space": {
      if (Math.abs(solid.nz) < 1e-12) return;
      const m = Math.hypot(solid.nx, solid.ny);
      for (const r of [0, centre, R])
        out.push((solid.d + m * r) / solid.nz - k * r, (solid.d - m * r) / solid.nz - k * r);
      return;
    }
    case "along":
      return;
    case "across": {
      const touch = (k * solid.radius) / Math.sqrt(1 + k * k);
      const spots = [0, R, -R, centre, -centre, solid.offset, solid.offset + touch, solid.offset - touch];
      spots.push(solid.offset + solid.radius, solid.offset - solid.radius);
      for (const u of spots) {
        const half = solid.radius ** 2 - (u - solid.offset) ** 2;
        if (Math.abs(u) > R || half < 0) continue;
        const w = Math.sqrt(half);
        // At the far end of the same chord the circle of the corner is as high as here, whatever u is.
        for (const r of [Math.abs(u), R]) out.push(solid.z + w - k * r, solid.z - w - k * r);
      }
      return;
    }
    case "union":
    case "intersection":
      for (const [i, part] of solid.parts.entries()) {
        breakHeights(part, front, out);
        for (const other of solid.parts.slice(i + 1)) creaseHeights(part, other, front, out);
      }
      return;
    case "not":
      breakHeights(solid.part, front, out);
  }
}

/** Tip heights at which the line where two half-spaces meet touches the corner circle or comes nearest to the axis. */
function creaseHeights(one: Solid, other: Solid, front: DrillFront, out: number[]): void {
  if (one.kind !== "half-space" || other.kind !== "half-space") return;
  const line = meetingLine(one, other);
  if (line === null) return;
  const { px, py, pz, vx, vy, vz } = line;
  const across = vx * vx + vy * vy;
  if (across < 1e-12) return;
  const t = -(px * vx + py * vy) / across;
  const near = Math.hypot(px + t * vx, py + t * vy);
  if (near > front.R) return;
  out.push(pz + t * vz - front.slope * near);
  const half = Math.sqrt((front.R ** 2 - near ** 2) / across);
  for (const s of [t - half, t + half]) out.push(pz + s * vz - front.slope * front.R);
}
