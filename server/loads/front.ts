/** The front of a declared tool as the engagement sees it. */
import { type DrillFront, drillFront } from "../mechanics/engagement/drill.ts";
import type { Tool } from "../setup/types.ts";
import { known } from "./known.ts";
import { insertBoundary, pointAngle, pointLength } from "./tool-facts.ts";
import type { Known } from "./types.ts";

/** Nose radii apart, the front is a straight edge: PL where declared, else by the point angle. */
export function frontOf(tool: Tool): Known<DrillFront> {
  const kind = tool.family === "indexable" ? "two-insert" : "two-lip";
  const r1 = insertBoundary(tool).value;
  if (tool.PL !== null && tool.PL >= 0) {
    const length = pointLength(tool);
    if (!length.known) return length;
    return known(drillFront(kind, tool.DC, null, length.value.value, r1));
  }
  const angle = pointAngle(tool);
  // A reamer or a boring tool without a point angle counts as flat; a drill whose angle cannot be has no front.
  if (!angle.known && tool.SIG !== null) return angle;
  return known(drillFront(kind, tool.DC, angle.known ? angle.value.value : 180, null, r1));
}
