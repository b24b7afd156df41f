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

/**
 * Metal at a point? Asked some hundred thousand times for each height, so all bodies lie in lists of numbers.
 */
export function insideOf({ bodies, voids, holes }: Surroundings): Inside {
  const inMetal = anyOf(bodies);
  const inVoid = voids.length === 0 ? null : anyOf(voids);
  const list = holes.flatMap((hole) => [hole.x, hole.y, hole.tip, hole.radius, hole.point]);
  const inHole = (x: number, y: number, z: number): boolean => {
    for (let i = 0; i < list.length; i += 5) {
      const above = z - (list[i + 2] as number);
      if (above <= 0) continue;
      const dx = x - (list[i] as number);
      const dy = y - (list[i + 1] as number);
      const full = list[i + 3] as number;
      const point = list[i + 4] as number;
      const radius = above >= point ? full : (full * above) / point;
      if (dx * dx + dy * dy <= radius * radius) return true;
    }
    return false;
  };
  return (x, y, z) => inMetal(x, y, z) && !inHole(x, y, z) && !inVoid?.(x, y, z);
}

/** In one of the bodies. */
function anyOf(bodies: readonly Body[]): Inside {
  const boxes = bodies
    .filter((body) => body.kind === "box")
    .map((box) => ({
      sides: Float64Array.from([...box.low, ...box.high]),
      cuts: Float64Array.from(box.cut.flatMap(({ through, normal }) => [...normal, ...through])),
    }));
  const cylinders = bodies
    .filter((body) => body.kind === "cylinder")
    .map(({ through, dir, radius, span }) =>
      Float64Array.from([
        ...through,
        ...dir,
        radius,
        ...(span ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]),
      ]),
    );
  return (x, y, z) => {
    for (let i = 0; i < boxes.length; i++) {
      const { sides, cuts } = boxes[i] as (typeof boxes)[number];
      if (x < (sides[0] as number) || x > (sides[3] as number)) continue;
      if (y < (sides[1] as number) || y > (sides[4] as number)) continue;
      if (z < (sides[2] as number) || z > (sides[5] as number)) continue;
      if (!cutOff(cuts, x, y, z)) return true;
    }
    for (let i = 0; i < cylinders.length; i++) if (inCylinder(cylinders[i] as Float64Array, x, y, z)) return true;
    return false;
  };
}

function cutOff(cuts: Float64Array, x: number, y: number, z: number): boolean {
  for (let i = 0; i < cuts.length; i += 6) {
    const away =
      (x - (cuts[i + 3] as number)) * (cuts[i] as number) +
      (y - (cuts[i + 4] as number)) * (cuts[i + 1] as number) +
      (z - (cuts[i + 5] as number)) * (cuts[i + 2] as number);
    if (away > 0) return true;
  }
  return false;
}

function inCylinder(c: Float64Array, x: number, y: number, z: number): boolean {
  const gx = x - (c[0] as number);
  const gy = y - (c[1] as number);
  const gz = z - (c[2] as number);
  const dx = c[3] as number;
  const dy = c[4] as number;
  const dz = c[5] as number;
  const radius = c[6] as number;
  const long = dx * dx + dy * dy + dz * dz;
  // The distance from the axis is the length of the cross product over that of the direction.
  const cx = gy * dz - gz * dy;
  const cy = gz * dx - gx * dz;
  const cz = gx * dy - gy * dx;
  if (cx * cx + cy * cy + cz * cz > radius * radius * long) return false;
  const t = (gx * dx + gy * dy + gz * dz) / long;
  return t >= (c[7] as number) && t <= (c[8] as number);
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

/** Boxes as the six planes that bound them: a box that is turned is none any more. */
function asPlanes(box: Extract<Body, { kind: "box" }>): readonly Plane[] {
  const planes: Plane[] = [...box.cut];
  for (const axis of [0, 1, 2] as const) {
    const normal: [number, number, number] = [0, 0, 0];
    normal[axis] = 1;
    planes.push(
      { through: box.high, normal: [...normal] },
      { through: box.low, normal: [-normal[0], -normal[1], -normal[2]] },
    );
  }
  return planes;
}

/** All turned about the drill axis, or turned over in x as well. */
export function moved({ bodies, voids, holes }: Surroundings, angle: number, mirror: boolean): Surroundings {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const turn = ([x, y, z]: Vector): Vector => {
    const u = mirror ? -x : x;
    return [c * u - s * y, s * u + c * y, z];
  };
  const body = (one: Body): Body => {
    if (one.kind === "cylinder") return { ...one, through: turn(one.through), dir: turn(one.dir) };
    const cut = asPlanes(one).map(({ through, normal }) => ({ through: turn(through), normal: turn(normal) }));
    return { kind: "box", low: [-1e3, -1e3, -1e3], high: [1e3, 1e3, 1e3], cut };
  };
  const hole = (one: Hole): Hole => {
    const [x, y] = turn([one.x, one.y, 0]);
    return { ...one, x, y };
  };
  return { bodies: bodies.map(body), voids: voids.map(body), holes: holes.map(hole) };
}
