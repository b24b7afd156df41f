/**
 * Random surroundings of a drill, told twice: as solids for the kernel, and as a plain question for a point that knows
 * nothing of the kernel's solids.
 */
import type { Solid } from "../../../server/mechanics/engagement/solids.ts";

type Vector = readonly [number, number, number];

/** The side that the normal points away from. */
export interface Plane {
  readonly through: Vector;
  readonly normal: Vector;
}

export type Body =
  | { readonly kind: "box"; readonly low: Vector; readonly high: Vector; readonly cut: readonly Plane[] }
  | {
      readonly kind: "cylinder";
      readonly through: Vector;
      readonly dir: Vector;
      readonly radius: number;
      /** Along the axis from `through`, in lengths of `dir`; null: endless. */
      readonly span: readonly [number, number] | null;
    };

export interface Hole {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly tip: number;
  readonly point: number;
}

export interface Surroundings {
  readonly bodies: readonly Body[];
  readonly voids: readonly Body[];
  readonly holes: readonly Hole[];
}

/** For the kernel. */
export function solidOf({ bodies, voids, holes }: Surroundings): Solid {
  const metal: Solid = { kind: "union", parts: bodies.map(bodySolid) };
  const air = [...voids.map(bodySolid), ...holes.map((hole): Solid => ({ kind: "drilled", ...hole }))];
  return { kind: "intersection", parts: [metal, ...air.map((part): Solid => ({ kind: "not", part }))] };
}

function planeSolid({ through, normal }: Plane): Solid {
  const [nx, ny, nz] = normal;
  return { kind: "half-space", nx, ny, nz, d: nx * through[0] + ny * through[1] + nz * through[2] };
}

function bodySolid(body: Body): Solid {
  const parts: Solid[] = [];
  if (body.kind === "box") {
    for (const axis of [0, 1, 2] as const) {
      const normal: [number, number, number] = [0, 0, 0];
      normal[axis] = 1;
      parts.push(planeSolid({ through: body.high, normal }));
      normal[axis] = -1;
      parts.push(planeSolid({ through: body.low, normal }));
    }
    parts.push(...body.cut.map(planeSolid));
    return { kind: "intersection", parts };
  }
  const { through, dir, radius, span } = body;
  const [x, y, z] = through;
  const [dx, dy, dz] = dir;
  if (dx === 0 && dy === 0) parts.push({ kind: "along", x, y, radius });
  else if (dz === 0) {
    const square = Math.atan2(dy, dx) + Math.PI / 2;
    parts.push({ kind: "across", square, offset: x * Math.cos(square) + y * Math.sin(square), z, radius });
  } else parts.push({ kind: "oblique", through, dir, radius });
  if (span !== null) {
    const end = (t: number): Vector => [x + t * dx, y + t * dy, z + t * dz];
    parts.push(planeSolid({ through: end(span[1]), normal: dir }));
    parts.push(planeSolid({ through: end(span[0]), normal: [-dx, -dy, -dz] }));
  }
  return { kind: "intersection", parts };
}

export type Inside = (x: number, y: number, z: number) => boolean;

/** Metal at a point? */
export function insideOf({ bodies, voids, holes }: Surroundings): Inside {
  const metal = bodies.map(insideBody);
  const air = [...voids.map(insideBody), ...holes.map(insideHole)];
  return (x, y, z) => {
    let any = false;
    for (let i = 0; i < metal.length && !any; i++) any = (metal[i] as Inside)(x, y, z);
    if (!any) return false;
    for (let i = 0; i < air.length; i++) if ((air[i] as Inside)(x, y, z)) return false;
    return true;
  };
}

function insideBody(body: Body): Inside {
  if (body.kind === "box") {
    const [x0, y0, z0] = body.low;
    const [x1, y1, z1] = body.high;
    const { cut } = body;
    return (x, y, z) => {
      if (x < x0 || x > x1 || y < y0 || y > y1 || z < z0 || z > z1) return false;
      for (const { through, normal } of cut) {
        const away = (x - through[0]) * normal[0] + (y - through[1]) * normal[1] + (z - through[2]) * normal[2];
        if (away > 0) return false;
      }
      return true;
    };
  }
  const [px, py, pz] = body.through;
  const [dx, dy, dz] = body.dir;
  const long = dx * dx + dy * dy + dz * dz;
  const { radius, span } = body;
  return (x, y, z) => {
    const gx = x - px;
    const gy = y - py;
    const gz = z - pz;
    if (span !== null) {
      const t = (gx * dx + gy * dy + gz * dz) / long;
      if (t < span[0] || t > span[1]) return false;
    }
    // The distance from the axis is the length of the cross product over that of the direction.
    const cx = gy * dz - gz * dy;
    const cy = gz * dx - gx * dz;
    const cz = gx * dy - gy * dx;
    return cx * cx + cy * cy + cz * cz <= radius * radius * long;
  };
}

function insideHole({ x: hx, y: hy, radius, tip, point }: Hole): Inside {
  return (x, y, z) => {
    if (z <= tip) return false;
    const far = Math.sqrt((x - hx) ** 2 + (y - hy) ** 2);
    return far <= radius && (point === 0 || far / radius <= (z - tip) / point);
  };
}

/** Numbers between 0 and 1, the same on every run (mulberry32, public domain, from memory). */
export function randomFrom(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Surroundings of the kinds that parts have, around a drill of radius R whose face lies near z = 0. */
export function randomSurroundings(random: () => number, R: number): Surroundings {
  const between = (low: number, high: number): number => Math.round((low + (high - low) * random()) * 1000) / 1000;
  const chance = (share: number): boolean => random() < share;
  const unit = (): Vector => {
    const turn = between(0, 2 * Math.PI);
    const lean = between(0, Math.PI);
    return [Math.sin(lean) * Math.cos(turn), Math.sin(lean) * Math.sin(turn), Math.cos(lean)];
  };
  const level = (): Vector => {
    const turn = between(0, 2 * Math.PI);
    return [Math.cos(turn), Math.sin(turn), 0];
  };
  const cylinder = (low: number, high: number, endless: number): Body => {
    const dir = chance(0.3) ? ([0, 0, 1] as const) : chance(0.5) ? level() : unit();
    const through: Vector = [between(-1.5 * R, 1.5 * R), between(-1.5 * R, 1.5 * R), between(-2 * R, 0.5 * R)];
    const span = chance(endless) ? null : ([between(-3 * R, 0), between(0.2 * R, 3 * R)] as const);
    return { kind: "cylinder", through, dir, radius: between(low * R, high * R), span };
  };
  const plane = (): Plane => {
    const [nx, ny] = level();
    const lean = between(0, 0.5 * Math.PI);
    const steep = Math.sin(lean);
    return {
      through: [between(-R, R), between(-R, R), between(-0.5 * R, 0.2 * R)],
      normal: [nx * steep, ny * steep, Math.cos(lean)],
    };
  };
  const box = (): Body => ({
    kind: "box",
    low: [
      chance(0.7) ? -99 : between(-1.5 * R, 0),
      chance(0.7) ? -99 : between(-1.5 * R, 0),
      chance(0.6) ? -99 : between(-3 * R, -0.3 * R),
    ],
    high: [chance(0.7) ? 99 : between(0, 1.5 * R), chance(0.7) ? 99 : between(0, 1.5 * R), between(-0.2 * R, 0.3 * R)],
    cut: Array.from({ length: Math.floor(random() * 3) }, plane),
  });
  const hole = (): Hole => {
    const turn = between(0, 2 * Math.PI);
    const apart = between(0, 2 * R);
    const radius = between(0.2 * R, 1.5 * R);
    return {
      x: apart * Math.cos(turn),
      y: apart * Math.sin(turn),
      radius,
      tip: between(-3 * R, 0),
      point: chance(0.3) ? 0 : chance(0.1) ? 1e-3 : radius * between(0.1, 1),
    };
  };
  const some = (most: number): number => Math.floor(random() * (most + 1));
  const bodies: Body[] = [chance(0.8) ? box() : cylinder(1, 6, 0.5)];
  if (chance(0.25)) bodies.push(chance(0.5) ? box() : cylinder(0.5, 3, 0.5));
  return {
    bodies,
    voids: Array.from({ length: chance(0.5) ? some(2) : 0 }, () => cylinder(0.1, 1.5, 0.7)),
    holes: Array.from({ length: some(3) }, hole),
  };
}

/** The whole turned about the drill axis. */
export function turned({ bodies, voids, holes }: Surroundings, angle: number): Surroundings | null {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const turn = ([x, y, z]: Vector): Vector => [c * x - s * y, s * x + c * y, z];
  const body = (one: Body): Body => {
    if (one.kind === "cylinder") return { ...one, through: turn(one.through), dir: turn(one.dir) };
    throw new Error("a box turned is none");
  };
  if ([...bodies, ...voids].some((one) => one.kind === "box")) return null;
  return {
    bodies: bodies.map(body),
    voids: voids.map(body),
    holes: holes.map((hole) => ({ ...hole, x: c * hole.x - s * hole.y, y: s * hole.x + c * hole.y })),
  };
}
