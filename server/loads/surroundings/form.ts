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
  const voids = parts.flatMap((part) => (part.kind === "not" ? [part.part] : []));
  const metal = parts.filter((part) => part.kind !== "not");
  const [only] = metal;
  if (metal.length === 1 && only?.kind === "union") {
    const top = uppermost(only.parts, R);
    return top === null ? null : formOf(withVoids(top, voids), R);
  }
  const halves = metal.filter((part): part is HalfSpace => part.kind === "half-space").map(unit);
  if (halves.length < metal.length) return voids.length === 0 ? shaft(metal) : null;
  const faces = halves.filter(({ nz }) => nz > STRAIGHT);
  // A face that lies above another over the whole width of the drill is never met.
  const tops = faces.filter(
    (one) => !faces.some((other) => other !== one && heightOf(other, R, 1) <= heightOf(one, R, -1)),
  );
  // Faces below, which the drill leaves through, are no entry, nor is a void under the faces.
  const low = Math.min(...tops.map((face) => heightOf(face, R, -1)));
  const open = voids.filter((part) => topOf(part) > low + SAME);
  const tilted = tops.filter(({ nx, ny }) => Math.hypot(nx, ny) > STRAIGHT);
  const walls = halves.filter(({ nz }) => Math.abs(nz) <= STRAIGHT);
  if (open.length > 0) return tilted.length + walls.length === 0 ? chain(open, R) : null;
  if (walls.length === 1 && tilted.length === 0)
    return { kind: "edge-axis", insideMm: rounded((walls[0] as HalfSpace).d) };
  const [one, other, third] = tilted;
  if (walls.length > 0 || tops.length === 0 || third !== undefined) return null;
  // What interrupts it lies further in.
  if (one === undefined) return { kind: "flat" };
  const level = tops.filter((face) => !tilted.includes(face)).map((face) => face.d / face.nz);
  // A level face at the height of a crest cuts nothing off it.
  if (level.length > 0 && (other === undefined || Math.min(...level) < crestOf(one, other) - SAME)) return null;
  return other === undefined ? { kind: "incline", angleDeg: rounded(tilt(one)) } : ridge(one, other);
}

const withVoids = (metal: Solid, voids: readonly Solid[]): Solid =>
  voids.length === 0
    ? metal
    : {
        kind: "intersection",
        parts: [
          ...(metal.kind === "intersection" ? metal.parts : [metal]),
          ...voids.map((part): Solid => ({ kind: "not", part })),
        ],
      };

/** Highest place of a void, as far as it is told at once. */
function topOf(part: Solid): number {
  if (part.kind === "across") return part.z + part.radius;
  if (part.kind === "half-space" && part.nz > STRAIGHT && part.nx === 0 && part.ny === 0) return part.d / part.nz;
  if (part.kind === "intersection") return Math.min(...part.parts.map(topOf));
  if (part.kind === "union") return Math.max(...part.parts.map(topOf));
  return Number.POSITIVE_INFINITY;
}

/** The one body that lies on all others over the whole width of the drill: what the drill enters. */
function uppermost(bodies: readonly Solid[], R: number): Solid | null {
  const ends = bodies.map((body) => {
    const parts = body.kind === "intersection" ? body.parts : [body];
    const faces = parts.filter((part): part is HalfSpace => part.kind === "half-space").map(unit);
    const tops = faces.filter(({ nz }) => nz > STRAIGHT);
    const walls = faces.length < parts.length || faces.some(({ nz }) => Math.abs(nz) <= STRAIGHT);
    const end = (side: 1 | -1): number => Math.min(...tops.map((face) => heightOf(face, R, side)));
    // Beside a wall there is air down to whatever lies below.
    return { body, low: walls ? Number.NEGATIVE_INFINITY : end(-1), high: end(1) };
  });
  const top = ends.find((one) => ends.every((other) => other === one || other.high <= one.low + SAME));
  return top?.body ?? null;
}

/** mm */
const SAME = 1e-6;

/** Highest (+1) or lowest (-1) place of a face within the drill's circle. */
function heightOf({ nx, ny, nz, d }: HalfSpace, R: number, end: 1 | -1): number {
  return (d + end * R * Math.hypot(nx, ny)) / nz;
}

function unit({ nx, ny, nz, d, kind }: HalfSpace): HalfSpace {
  const length = Math.hypot(nx, ny, nz);
  return { kind, nx: nx / length, ny: ny / length, nz: nz / length, d: d / length };
}

const tilt = ({ nx, ny, nz }: HalfSpace): number => Math.atan2(Math.hypot(nx, ny), nz) * DEG;

/** Along the fall of the first of two opposite faces, z = (d - n·t) / nz, where they meet. */
function meeting(one: HalfSpace, other: HalfSpace): number {
  const n1 = Math.hypot(one.nx, one.ny);
  const n2 = -Math.hypot(other.nx, other.ny);
  return (one.d / one.nz - other.d / other.nz) / (n1 / one.nz - n2 / other.nz);
}

const crestOf = (one: HalfSpace, other: HalfSpace): number =>
  (one.d - Math.hypot(one.nx, one.ny) * meeting(one, other)) / one.nz;

/** Two faces that fall away to opposite sides; the steeper of them tells the flank. */
function ridge(one: HalfSpace, other: HalfSpace): EntryForm | null {
  const cross = one.nx * other.ny - one.ny * other.nx;
  const along = one.nx * other.nx + one.ny * other.ny;
  if (Math.abs(cross) > STRAIGHT || along > 0) return null;
  const t = meeting(one, other);
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
