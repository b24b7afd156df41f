/** Friendly forms of the stock as boxes and cylinders. What is missing in a form was told by its schema. */
import type { Infer } from "../schema/node.ts";
import type { PLATES } from "../schema/stock-forms.ts";
import type { CROSS_HOLE, HOLE, SLOT } from "../schema/stock-voids.ts";
import { AXIS_INDEX, type Bounds, boundsAlong, dot, type Range } from "../stock-extent.ts";
import type { CutPlane, StockBox, StockCylinder, Vec3 } from "../types.ts";
import { axisOf, crossed, directionOf, moved, normalised, opposite } from "./directions.ts";

/** What goes right through ends this far outside, so that no two faces fall into one, mm. */
const OUT = 1;

const outside = ([low, high]: Range): Range => [low - OUT, high + OUT];

/** Each plate keeps the path of its own layer. */
export function platesOf({ x, y, top, layers }: Infer<typeof PLATES>, path: string): StockBox[] {
  if (x === undefined || y === undefined || top === undefined) return [];
  const plates: StockBox[] = [];
  let down = top;
  for (const [i, { plate, gap }] of (layers ?? []).entries()) {
    const from = down;
    down -= plate ?? gap ?? 0;
    if (plate !== undefined) plates.push({ kind: "box", x, y, z: [down, from], cut: [], path: `${path}.layers[${i}]` });
  }
  return plates;
}

export function slotOf(written: Infer<typeof SLOT>, metal: Bounds, path: string): StockBox[] {
  const { along, through, width, span } = written;
  if (along === undefined || through === undefined || width === undefined) return [];
  const z = heights(written, metal);
  const [x, y] = [outside(metal[0]), outside(metal[1])];
  const across = (middle: number): Range => [middle - width / 2, middle + width / 2];
  if (along === "x") return [{ kind: "box", x: span ?? x, y: across(through[1]), z, cut: [], path }];
  if (along === "y") return [{ kind: "box", x: across(through[0]), y: span ?? y, z, cut: [], path }];
  const point: Vec3 = [through[0], through[1], 0];
  const run = directionOf(along);
  const aside = crossed(directionOf("z+"), run);
  const side = (normal: Vec3, away: number): CutPlane => ({ through: moved(point, normal, away), normal, path });
  const cut = [side(aside, width / 2), side(opposite(aside), width / 2)];
  if (span === undefined) return [{ kind: "box", x, y, z, cut, path }];
  cut.push(side(opposite(run), -span[0]), side(run, span[1]));
  // No larger than need be: what is far from a hole is not looked at there.
  const half = [Math.abs(aside[0]) * (width / 2), Math.abs(aside[1]) * (width / 2)] as const;
  const around = (i: 0 | 1): Range => {
    const ends = span.map((end) => point[i] + end * run[i]);
    return outside([Math.min(...ends) - half[i], Math.max(...ends) + half[i]]);
  };
  return [{ kind: "box", x: around(0), y: around(1), z, cut, path }];
}

export function holeOf(written: Infer<typeof HOLE>, metal: Bounds, path: string): StockCylinder[] {
  const { at, diameter } = written;
  if (at === undefined || diameter === undefined) return [];
  const span = heights(written, metal);
  return [{ kind: "cylinder", axis: "z", through: [at[0], at[1], 0], diameter, span, cut: [], path }];
}

export function crossHoleOf(written: Infer<typeof CROSS_HOLE>, metal: Bounds, path: string): StockCylinder[] {
  const { along, through, diameter } = written;
  if (along === undefined || through === undefined || diameter === undefined) return [];
  const { axis, span } = axisOf(along, through, written.span ?? across(along, through, metal));
  return [{ kind: "cylinder", axis, through, diameter, span, cut: [], path }];
}

function heights({ floor, top }: Infer<typeof HOLE>, [, , z]: Bounds): Range {
  const [low, high] = outside(z);
  return [floor === undefined || floor === "none" ? low : floor, top ?? high];
}

/** Right through the metal, as far as a cylinder across it may reach. */
function across(along: "x" | "y" | "z" | Vec3, through: Vec3, metal: Bounds): Range {
  if (typeof along === "string") return outside(metal[AXIS_INDEX[along]]);
  const unit = normalised(along);
  const [low, high] = outside(boundsAlong(metal, unit));
  const from = dot(unit, through);
  return [low - from, high - from];
}
