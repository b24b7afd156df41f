/**
 * The measures by looking at points: slow, plain, and knowing nothing of arcs or of the kernel's solids. The grid has 160
 * radii and 1440 directions, midpoints. A grid alone errs by up to a cell where a surface runs along its rings or rays
 * (0.6 % of the area for a ring), so each change between two neighbours of a ray is halved down to a nanometre: what is
 * left is what lies between two points whole, and the step from ray to ray.
 */
import type { DrillFront } from "../../../server/mechanics/engagement/drill.ts";
import type { Inside } from "./scenes.ts";

export interface Sampled {
  readonly area: number;
  readonly edge: number;
  readonly core: number;
  readonly side: number;
  readonly rim: number;
  readonly voidArc: number;
  readonly entries: number;
  readonly imbalance: number;
  /** Smallest arc or gap at the corner, in turns: what is smaller than a step of the grid may not be seen. */
  readonly narrowest: number;
}

const RADII = 160;
const ANGLES = 1440;
const RIM = 4 * ANGLES;
const HALVINGS = 26;
const STEP = (2 * Math.PI) / ANGLES;

/** One ray, its metal added up in closed form between the places where metal begins and ends. */
class Ray {
  area = 0;
  core = 0;
  edge = 0;
  centre = 0;
  readonly #inside: Inside;
  readonly #front: DrillFront;
  readonly #z: number;
  readonly #radii: number;

  constructor(inside: Inside, front: DrillFront, z: number, radii: number) {
    this.#inside = inside;
    this.#front = front;
    this.#z = z;
    this.#radii = radii;
  }

  look(c: number, s: number): void {
    const { R, slope } = this.#front;
    const inside = this.#inside;
    const z = this.#z;
    const radii = this.#radii;
    this.area = this.core = this.edge = this.centre = 0;
    let before = 0;
    let was = inside(1e-9 * R * c, 1e-9 * R * s, z);
    let from = 0;
    for (let i = 0; i <= radii; i++) {
      const r = i === radii ? R * (1 - 1e-9) : ((i + 0.5) / radii) * R;
      const is = inside(r * c, r * s, z + slope * r);
      if (is !== was) {
        const change = this.#change(before, r, c, s, was);
        if (was) this.#add(from, change);
        else from = change;
        was = is;
      }
      before = r;
    }
    if (was) this.#add(from, R);
  }

  #change(from: number, to: number, c: number, s: number, was: boolean): number {
    let low = from;
    let high = to;
    for (let n = 0; n < HALVINGS; n++) {
      const r = (low + high) / 2;
      if (this.#inside(r * c, r * s, this.#z + this.#front.slope * r) === was) low = r;
      else high = r;
    }
    return low;
  }

  #add(from: number, to: number): void {
    const { centre } = this.#front;
    this.area += (to * to - from * from) / 2;
    this.edge += to - from;
    const a = Math.min(centre, from);
    const b = Math.min(centre, to);
    this.core += (b * b - a * a) / 2;
    this.centre += b - a;
  }
}

export function sample(inside: Inside, front: DrillFront, z: number, radii = RADII): Sampled {
  const { R, centre } = front;
  const ray = new Ray(inside, front, z, radii);
  let area = 0;
  let core = 0;
  let edge = 0;
  let sx = 0;
  let sy = 0;
  const centreShare = new Float64Array(ANGLES);
  const outerShare = new Float64Array(ANGLES);
  for (let j = 0; j < ANGLES; j++) {
    const c = Math.cos((j + 0.5) * STEP);
    const s = Math.sin((j + 0.5) * STEP);
    ray.look(c, s);
    area += ray.area;
    core += ray.core;
    edge += ray.edge;
    // Over an arc, e^{iφ2} - e^{iφ1} is the integral of i·e^{iφ}.
    sx -= s * ray.edge;
    sy += c * ray.edge;
    centreShare[j] = ray.centre / centre;
    outerShare[j] = (ray.edge - ray.centre) / (R - centre);
  }
  const gapAt = (phi: number): number => {
    ray.look(Math.cos(phi), Math.sin(phi));
    const here = ray.centre / centre;
    ray.look(-Math.cos(phi), -Math.sin(phi));
    return Math.abs(here - (ray.edge - ray.centre) / (R - centre));
  };
  return {
    area: (2 * area) / ANGLES / (R * R),
    core: (2 * core) / ANGLES / (centre * centre),
    edge: edge / ANGLES / R,
    side: (Math.hypot(sx, sy) * STEP) / (2 * R),
    imbalance: largestGap(centreShare, outerShare, gapAt),
    ...rimOf(inside, front, z),
  };
}

/** The largest over the rays, and between those that come nearest to it. */
function largestGap(centreShare: Float64Array, outerShare: Float64Array, gapAt: (phi: number) => number): number {
  const gaps = Array.from(centreShare, (share, j) =>
    Math.abs(share - (outerShare[(j + ANGLES / 2) % ANGLES] as number)),
  );
  let largest = Math.max(...gaps);
  const humps = gaps
    .map((gap, j) => ({ gap, j }))
    .filter(({ gap, j }) => {
      const a = gaps[(j + ANGLES - 1) % ANGLES] as number;
      const b = gaps[(j + 1) % ANGLES] as number;
      return gap >= a && gap >= b && (gap > a || gap > b);
    })
    .sort((a, b) => b.gap - a.gap);
  for (const { j } of humps.slice(0, 4)) {
    let middle = (j + 0.5) * STEP;
    for (let width = STEP; width > STEP / 300; width /= 6) {
      let best = gapAt(middle);
      let at = middle;
      for (let i = -6; i <= 6; i++) {
        const phi = middle + (i * width) / 6;
        const gap = gapAt(phi);
        if (gap > best) {
          best = gap;
          at = phi;
        }
      }
      middle = at;
      largest = Math.max(largest, best);
    }
  }
  return largest;
}

/** The circle of the corner alone, with four times as many directions, each change halved too. */
function rimOf(
  inside: Inside,
  { R, slope }: DrillFront,
  z: number,
): Pick<Sampled, "rim" | "voidArc" | "entries" | "narrowest"> {
  const h = z + slope * R;
  const at = (phi: number): boolean => inside(R * Math.cos(phi), R * Math.sin(phi), h);
  const step = (2 * Math.PI) / RIM;
  const changes: number[] = [];
  const first = at(step / 2);
  let was = first;
  for (let j = 1; j <= RIM; j++) {
    const is = at((j + 0.5) * step);
    if (is !== was) {
      let low = (j - 0.5) * step;
      let high = (j + 0.5) * step;
      for (let n = 0; n < HALVINGS; n++) {
        const middle = (low + high) / 2;
        if (at(middle) === was) low = middle;
        else high = middle;
      }
      changes.push(low);
    }
    was = is;
  }
  const n = changes.length;
  if (n === 0) return { rim: first ? 1 : 0, voidArc: first ? 0 : 1, entries: 0, narrowest: 1 };
  let metal = 0;
  let voidArc = 0;
  let narrowest = 1;
  for (let i = 0; i < n; i++) {
    const turns =
      ((changes[(i + 1) % n] as number) - (changes[i] as number) + (i === n - 1 ? 2 * Math.PI : 0)) / (2 * Math.PI);
    // Before the first change the circle is what it is at the first look.
    const inMetal = (i % 2 === 0) !== first;
    if (inMetal) metal += turns;
    else voidArc = Math.max(voidArc, turns);
    narrowest = Math.min(narrowest, turns);
  }
  return { rim: metal, voidArc, entries: n / 2, narrowest };
}
