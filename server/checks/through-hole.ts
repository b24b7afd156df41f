import { AXIS_INDEX, extentOf } from "../setup/stock-extent.ts";
import type { MetalHole } from "./cause.ts";
import type { CheckContext } from "./types.ts";

/**
 * Whether a hole comes out on the other side, as far as the setup and the notes tell: an exit note says so, and so does
 * stock, or an underside in the dialect, that the tip passes. null: not known.
 */
export function goesThrough(context: CheckContext, hole: MetalHole): boolean | null {
  const { shape } = hole;
  if (shape.exit !== null) return true;
  const bottom = bottomOf(context, hole);
  return bottom === null || shape.endZ === null ? null : shape.endZ < bottom - 1e-6;
}

/** Lowest face of the declared stock along the hole's axis, mm. null: no stock for the hole's work system. */
export function bottomOf(context: CheckContext, { shape }: MetalHole): number | null {
  const stock = context.setup.workpiece?.stock ?? null;
  // Without declared stock the dialect may know the underside of the part.
  if (stock === null) return shape.axis === "z" ? context.setup.dialect.stockBottom : null;
  if (stock.wcs !== shape.wcs) return null;
  let bottom: number | null = null;
  for (const solid of stock.solids) {
    const [low] = extentOf(solid, AXIS_INDEX[shape.axis]);
    if (bottom === null || low < bottom) bottom = low;
  }
  return bottom;
}
