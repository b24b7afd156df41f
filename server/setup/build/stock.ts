/** The stock from what the setup says: every form becomes boxes and cylinders with cut planes. */
import type { Infer } from "../schema/node.ts";
import type { STOCK } from "../schema/stock.ts";
import type { Stock, StockSolid } from "../types.ts";
import { type Building, byDefault } from "./context.ts";
import { axisOf } from "./directions.ts";
import { platesOf } from "./stock-forms.ts";
import { cutBy, planesOf, type WrittenPlanes } from "./stock-planes.ts";

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
  const voids = built(written.voids ?? [], `${path}.voids`, voidsOf, building);
  if (solids === null || voids === null) {
    unknown.set(path, `${path}: a part of the stock makes no sense`);
    return null;
  }
  return { wcs: (written.wcs ?? "G54").toUpperCase(), solids, voids, skin: null };
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

const voidsOf = (written: WrittenVoid, path: string): StockSolid[] => baseOf(written, path);

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
