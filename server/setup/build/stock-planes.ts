/** What cuts a body of the stock: written planes, inclined faces and ridges, all as planes. */
import type { Infer } from "../schema/node.ts";
import { size } from "../schema/places.ts";
import type { FACE, RIDGE } from "../schema/stock-forms.ts";
import { type Bounds, boundsAlong, dot, extentAlong, extentOf } from "../stock-extent.ts";
import type { CutPlane, StockSolid, Vec3 } from "../types.ts";
import type { Building } from "./context.ts";
import { crossed, directionOf, normalised, opposite, turned } from "./directions.ts";

export interface WrittenPlanes {
  readonly cut?: readonly { readonly through?: Vec3; readonly normal?: Vec3 }[];
  readonly face?: Infer<typeof FACE>;
  readonly ridge?: Infer<typeof RIDGE>;
}

/** @param path of the body */
export function planesOf({ cut, face, ridge }: WrittenPlanes, path: string): CutPlane[] {
  const planes: CutPlane[] = [];
  for (const [i, { through, normal }] of (cut ?? []).entries())
    if (through !== undefined && normal !== undefined) planes.push({ through, normal, path: `${path}.cut[${i}]` });
  for (const [i, { incline, towards, through, side }] of (face ?? []).entries()) {
    if (incline === undefined || towards === undefined || through === undefined) continue;
    const normal = turned(directionOf(side ?? "z+"), directionOf(towards), incline);
    planes.push({ through, normal, path: `${path}.face[${i}]` });
  }
  if (ridge?.flank !== undefined && ridge.along !== undefined && ridge.crest !== undefined) {
    const up = directionOf(ridge.side ?? "z+");
    const across = crossed(up, directionOf(ridge.along));
    for (const towards of [across, opposite(across)])
      planes.push({ through: ridge.crest, normal: turned(up, towards, ridge.flank), path: `${path}.ridge` });
  }
  return planes;
}

/**
 * The bodies of one form with its planes, without those that the planes leave nothing of. Says where a plane leaves
 * nothing of any, or cuts nothing off.
 * @returns null where nothing is left
 */
export function cutBy(
  bodies: readonly StockSolid[],
  planes: readonly CutPlane[],
  building: Building,
): StockSolid[] | null {
  /** How far outside the planes of each form pass, at least. */
  const idle = new Map(planes.map(({ path }) => [path, Number.POSITIVE_INFINITY]));
  let left = bodies;
  for (const { through, normal, path } of planes) {
    const unit = normalised(normal);
    const at = dot(unit, through);
    const reach = left.map((body) => extentAlong(body, unit));
    const outside = at - Math.max(...reach.map(([, high]) => high));
    idle.set(path, Math.min(idle.get(path) ?? outside, outside));
    left = left.filter((_, i) => (reach[i]?.[0] ?? at) < at - NOTHING);
    if (left.length > 0) continue;
    const why = "expected some of the body to be left, got a cut that takes the whole body away";
    building.findings.sayAt(path, why);
    building.findings.unknown.set(path, why);
    return null;
  }
  for (const [path, outside] of idle) {
    if (outside < -NOTHING) continue;
    const why = `expected a cut through the body, got one that passes ${size(Math.max(0, outside))} outside it`;
    building.findings.sayAt(path, why, "warning");
  }
  return left.map((body) => ({ ...body, cut: [...body.cut, ...planes] }));
}

/** Whether a body reaches into the box around the metal. */
export function meets(body: StockSolid, metal: Bounds): boolean {
  for (const axis of [0, 1, 2] as const) {
    const [low, high] = extentOf(body, axis);
    if (high <= metal[axis][0] || low >= metal[axis][1]) return false;
  }
  return body.cut.every(({ through, normal }) => {
    const unit = normalised(normal);
    return boundsAlong(metal, unit)[0] < dot(unit, through);
  });
}

/** Thinner than this is nothing, mm. */
const NOTHING = 1e-6;
