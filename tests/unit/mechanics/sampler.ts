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

export function sample(inside: Inside, front: DrillFront, z: number, radii = RADII): Sampled {
  const { R, centre, slope } = front;
  const ray = { area: 0, core: 0, edge: 0, centre: 0 };
  /** One ray, its metal added up in closed form between the places where metal begins and ends. */
  const along = (c: number, s: number): void => {
    const at = (r: number): boolean => inside(r * c, r * s, z + slope * r);
    ray.area = ray.core = ray.edge = ray.centre = 0;
    let before = 0;
    let was = at(1e-9 * R);
    let from = 0;
    const close = (to: number): void => {
      ray.area += (to * to - from * from) / 2;
      ray.edge += to - from;
      const a = Math.min(centre, from);
      const b = Math.min(centre, to);
      ray.core += (b * b - a * a) / 2;
      ray.centre += b - a;
    };
    for (let i = 0; i <= radii; i++) {
      const r = i === radii ? R * (1 - 1e-9) : ((i + 0.5) / radii) * R;
      const is = at(r);
      if (is !== was) {
        let low = before;
        let high = r;
        for (let n = 0; n < HALVINGS; n++) {
          const middle = (low + high) / 2;
          if (at(middle) === was) low = middle;
          else high = middle;
        }
        if (was) close(low);
        else from = low;
      }
      was = is;
      before = r;
    }
    if (was) close(R);
  };
  const sums = { area: 0, core: 0, edge: 0, sx: 0, sy: 0 };
  const centreShare = new Float64Array(ANGLES);
  const outerShare = new Float64Array(ANGLES);
  const step = (2 * Math.PI) / ANGLES;
  for (let j = 0; j < ANGLES; j++) {
    const c = Math.cos((j + 0.5) * step);
    const s = Math.sin((j + 0.5) * step);
    along(c, s);
    sums.area += ray.area;
    sums.core += ray.core;
    sums.edge += ray.edge;
    // Over an arc, e^{iφ2} - e^{iφ1} is the integral of i·e^{iφ}.
    sums.sx -= s * ray.edge;
    sums.sy += c * ray.edge;
    centreShare[j] = ray.centre / centre;
    outerShare[j] = (ray.edge - ray.centre) / (R - centre);
  }
  const gapAt = (phi: number): number => {
    along(Math.cos(phi), Math.sin(phi));
    const here = ray.centre / centre;
    along(-Math.cos(phi), -Math.sin(phi));
    return Math.abs(here - (ray.edge - ray.centre) / (R - centre));
  };
  return {
    area: (2 * sums.area) / ANGLES / (R * R),
    core: (2 * sums.core) / ANGLES / (centre * centre),
    edge: sums.edge / ANGLES / R,
    side: (Math.hypot(sums.sx, sums.sy) * step) / (2 * R),
    imbalance: largestGap(centreShare, outerShare, gapAt),
    ...rimOf(inside, front, z),
  };
}

/** The largest over the rays, and between those that come nearest to it. */
function largestGap(centreShare: Float64Array, outerShare: Float64Array, gapAt: (phi: number) => number): number {
  const step = (2 * Math.PI) / ANGLES;
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
    let middle = (j + 0.5) * step;
    for (let width = step; width > step / 300; width /= 6) {
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
