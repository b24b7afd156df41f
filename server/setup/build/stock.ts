/** The stock from what the setup says: every form becomes boxes and cylinders with cut planes. */
import type { Infer } from "../schema/node.ts";
import type { STOCK } from "../schema/stock.ts";
import type { CutPlane, Stock, StockSolid } from "../types.ts";
import { type Building, byDefault } from "./context.ts";
import { axisOf } from "./directions.ts";

type Written = Infer<typeof STOCK>;
type WrittenBody = NonNullable<Written["solids"]>[number];

/** Null: part of it is broken, and a stock that nobody described is worse than none. */
export function buildStock(written: Written, path: string, building: Building): Stock | null {
  const { unknown } = building.findings;
  const broken = ["voids", "wcs"].some((key) => unknown.has(`${path}.${key}`));
  if (written.solids === undefined || broken) {
    unknown.set(path, `${path}: a part of the stock could not be read`);
    return null;
  }
  if (written.wcs === undefined) byDefault(building, `${path}.wcs`, "default, G54");
  const solids = written.solids.flatMap((body, i) => bodies(body, `${path}.solids[${i}]`));
  const voids = (written.voids ?? []).flatMap((body, i) => bodies(body, `${path}.voids[${i}]`));
  return { wcs: (written.wcs ?? "G54").toUpperCase(), solids, voids, skin: null };
}

function bodies(written: WrittenBody, path: string): StockSolid[] {
  const cut = cuts(written, path);
  const { box: b, cylinder: c } = written;
  if (b?.x !== undefined && b.y !== undefined && b.z !== undefined)
    return [{ kind: "box", x: b.x, y: b.y, z: b.z, cut, path: `${path}.box` }];
  if (c?.axis !== undefined && c.through !== undefined && c.diameter !== undefined && c.span !== undefined) {
    const { axis, span } = axisOf(c.axis, c.through, c.span);
    return [{ kind: "cylinder", axis, through: c.through, diameter: c.diameter, span, cut, path: `${path}.cylinder` }];
  }
  return [];
}

function cuts(written: WrittenBody, path: string): CutPlane[] {
  return (written.cut ?? []).flatMap(({ through, normal }, i) =>
    through === undefined || normal === undefined ? [] : [{ through, normal, path: `${path}.cut[${i}]` }],
  );
}
