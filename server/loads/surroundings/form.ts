/** The entry that a solid comes to, in the words of a cut note, where it is one of them: rules of tools are told in these. */
import type { EntryForm } from "../../../grammar/entry.ts";
import type { Solid } from "../../mechanics/engagement/solids.ts";

type HalfSpace = Extract<Solid, { kind: "half-space" }>;

const DEG = 180 / Math.PI;
/** Of a normal of length 1: less is square to the axis, or along it. */
const STRAIGHT = 1e-6;
const ROUND = 1e6;
const rounded = (value: number): number => Math.round(value * ROUND) / ROUND;

/**
 * @param solid pruned, the drill axis at x = y = 0
 * @param R radius of the drill, mm
 * @returns null where it is none of the plain forms
 */
export function formOf(solid: Solid, R: number): EntryForm | null {
  const parts = solid.kind === "intersection" ? solid.parts : [solid];
  const halves = parts.filter((part): part is HalfSpace => part.kind === "half-space").map(unit);
  const voids = parts.flatMap((part) => (part.kind === "not" ? [part.part] : []));
  if (halves.length + voids.length < parts.length) return shaft(parts);
  // Faces below, which the drill leaves through, are no entry.
  const faces = halves.filter(({ nz }) => nz > STRAIGHT);
  // A face that lies above another over the whole width of the drill is never met.
  const tops = faces.filter(
    (one) => !faces.some((other) => other !== one && heightOf(other, R, 1) <= heightOf(one, R, -1)),
  );
  const tilted = tops.filter(({ nx, ny }) => Math.hypot(nx, ny) > STRAIGHT);
  const walls = halves.filter(({ nz }) => Math.abs(nz) <= STRAIGHT);
  if (voids.length > 0) return tilted.length + walls.length === 0 ? chain(voids, R) : null;
  if (walls.length === 1 && tilted.length === 0)
    return { kind: "edge-axis", insideMm: rounded((walls[0] as HalfSpace).d) };
  if (walls.length > 0 || tops.length > tilted.length) return null;
  const [one, other, third] = tilted;
  if (one === undefined || third !== undefined) return null;
  return other === undefined ? { kind: "incline", angleDeg: rounded(tilt(one)) } : ridge(one, other);
}

/** Highest (+1) or lowest (-1) place of a face within the drill's circle. */
function heightOf({ nx, ny, nz, d }: HalfSpace, R: number, end: 1 | -1): number {
  return (d + end * R * Math.hypot(nx, ny)) / nz;
}

function unit({ nx, ny, nz, d, kind }: HalfSpace): HalfSpace {
  const length = Math.hypot(nx, ny, nz);
  return { kind, nx: nx / length, ny: ny / length, nz: nz / length, d: d / length };
}

const tilt = ({ nx, ny, nz }: HalfSpace): number => Math.atan2(Math.hypot(nx, ny), nz) * DEG;

/** Two faces that fall away to opposite sides; the steeper of them tells the flank. */
function ridge(one: HalfSpace, other: HalfSpace): EntryForm | null {
  const cross = one.nx * other.ny - one.ny * other.nx;
  const along = one.nx * other.nx + one.ny * other.ny;
  if (Math.abs(cross) > STRAIGHT || along > 0) return null;
  // Along the fall of the first the two faces are z = (d - n·t) / nz: they meet at the crest.
  const n1 = Math.hypot(one.nx, one.ny);
  const n2 = -Math.hypot(other.nx, other.ny);
  const t = (one.d / one.nz - other.d / other.nz) / (n1 / one.nz - n2 / other.nz);
  return { kind: "ridge", flankDeg: rounded(Math.max(tilt(one), tilt(other))), offsetMm: rounded(Math.abs(t)) };
}

/** Equal holes beside this one, on one side or on two opposite ones. */
function chain(voids: readonly Solid[], R: number): EntryForm | null {
  const holes = voids.filter((part) => part.kind === "drilled" || part.kind === "along");
  if (holes.length < voids.length || holes.some(({ radius }) => Math.abs(radius - R) > 1e-3)) return null;
  const [one, other, third] = holes;
  if (one === undefined || third !== undefined) return null;
  const pitchMm = rounded(Math.hypot(one.x, one.y));
  if (other === undefined) return { kind: "chain", pitchMm, sides: 1 };
  const pitch = Math.hypot(other.x, other.y);
  const opposite = Math.hypot(one.x + other.x, one.y + other.y) < 0.02 * R;
  return opposite && Math.abs(pitch - pitchMm) < 0.02 * R ? { kind: "chain", pitchMm, sides: 2 } : null;
}

/** A shaft across the drill. */
function shaft(parts: readonly Solid[]): EntryForm | null {
  const rounds = parts.filter((part) => part.kind === "across");
  const [one] = rounds;
  if (one === undefined || rounds.length > 1 || parts.length > 1) return null;
  return { kind: "cylinder", diameterMm: 2 * one.radius, shape: "convex", offsetMm: rounded(Math.abs(one.offset)) };
}
