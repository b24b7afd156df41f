/** The stock from what the setup says: every form becomes boxes and cylinders with cut planes. */
import type { Infer } from "../schema/node.ts";
import { size } from "../schema/places.ts";
import type { STOCK } from "../schema/stock.ts";
import { type Bounds, boundsOf } from "../stock-extent.ts";
import type { Skin, Stock, StockSolid } from "../types.ts";
import { type Building, byDefault } from "./context.ts";
import { axisOf } from "./directions.ts";
import { crossHoleOf, holeOf, platesOf, slotOf } from "./stock-forms.ts";
import { cutBy, meets, planesOf, type WrittenPlanes } from "./stock-planes.ts";

type Written = Infer<typeof STOCK>;
type WrittenSolid = NonNullable<Written["solids"]>[number];
type WrittenVoid = NonNullable<Written["voids"]>[number];

/** Null: part of it is broken, and a stock that nobody described is worse than none. */
export function buildStock(written: Written, path: string, building: Building): Stock | null {
  const { unknown } = building.findings;
  const broken = ["voids", "wcs"].some((key) => unknown.has(`${path}.${key}`));
  if (written.solids === undefined || broken) {
    unknown.set(path, `${path}: a part of the stock could not be read`);
    return null;
  }
  if (written.wcs === undefined) byDefault(building, `${path}.wcs`, "default, G54");
  const solids = built(written.solids, `${path}.solids`, solidsOf, building);
  const bounds = solids === null ? null : boundsOf(solids);
  const voids = bounds === null ? null : voidsIn(bounds, written.voids ?? [], `${path}.voids`, building);
  if (solids === null || voids === null) {
    unknown.set(path, `${path}: a part of the stock makes no sense`);
    return null;
  }
  return { wcs: (written.wcs ?? "G54").toUpperCase(), solids, voids, skin: skinOf(written, path, building) };
}

function skinOf({ skin }: Written, path: string, building: Building): Skin | null {
  if (skin?.thickness === undefined || building.findings.unknown.has(`${path}.skin.on`)) return null;
  if (skin.on === undefined) byDefault(building, `${path}.skin.on`, "default, all");
  return { thickness: skin.thickness, on: skin.on ?? "all" };
}

/** Null: one of them makes no sense. */
function built<W extends WrittenPlanes>(
  written: readonly W[],
  path: string,
  make: (each: W, path: string) => readonly StockSolid[],
  building: Building,
): readonly StockSolid[] | null {
  const all: StockSolid[] = [];
  let whole = true;
  for (const [i, each] of written.entries()) {
    const at = `${path}[${i}]`;
    const bodies = cutBy(make(each, at), planesOf(each, at), building);
    if (bodies === null) whole = false;
    else all.push(...bodies);
  }
  return whole ? all : null;
}

const solidsOf = (written: WrittenSolid, path: string): StockSolid[] =>
  written.plates === undefined ? baseOf(written, path) : platesOf(written.plates, `${path}.plates`);

/** Null: one of them makes no sense. */
function voidsIn(
  metal: Bounds,
  written: readonly WrittenVoid[],
  path: string,
  building: Building,
): readonly StockSolid[] | null {
  const above = written.filter((each, i) => floorAbove(metal, each, `${path}[${i}]`, building));
  if (above.length > 0) return null;
  const voids = built(written, path, (each, at) => voidsOf(metal, each, at), building);
  return (
    voids?.filter((body) => {
      if (meets(body, metal)) return true;
      building.findings.sayAt(body.path, "expected a void that meets the metal, got one beside it", "warning");
      return false;
    }) ?? null
  );
}

function voidsOf(metal: Bounds, written: WrittenVoid, path: string): StockSolid[] {
  const { slot, hole, crossHole } = written;
  if (slot !== undefined) return slotOf(slot, metal, `${path}.slot`);
  if (hole !== undefined) return holeOf(hole, metal, `${path}.hole`);
  if (crossHole !== undefined) return crossHoleOf(crossHole, metal, `${path}.crossHole`);
  return baseOf(written, path);
}

function floorAbove([, , [, top]]: Bounds, { slot, hole }: WrittenVoid, path: string, building: Building): boolean {
  const [form, at] = slot !== undefined ? [slot, `${path}.slot.floor`] : [hole, `${path}.hole.floor`];
  if (form === undefined || typeof form.floor !== "number" || form.floor < top) return false;
  const why = `expected a floor below the top of the metal at ${size(top)}, got ${size(form.floor)}`;
  building.findings.sayAt(at, why);
  building.findings.unknown.set(at, why);
  return true;
}

function baseOf({ box: b, cylinder: c }: Pick<WrittenSolid, "box" | "cylinder">, path: string): StockSolid[] {
  if (b?.x !== undefined && b.y !== undefined && b.z !== undefined)
    return [{ kind: "box", x: b.x, y: b.y, z: b.z, cut: [], path: `${path}.box` }];
  if (c?.axis !== undefined && c.through !== undefined && c.diameter !== undefined && c.span !== undefined) {
    const { axis, span } = axisOf(c.axis, c.through, c.span);
    const { through, diameter } = c;
    return [{ kind: "cylinder", axis, through, diameter, span, cut: [], path: `${path}.cylinder` }];
  }
  return [];
}
