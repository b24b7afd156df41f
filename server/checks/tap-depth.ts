import { type Candidate, depthPlace, holeKey, metalHoles, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { goesThrough } from "./through-hole.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const tapDepth: Check = {
  id: "tap-depth",
  family: "tap",
  severity: "error",
  docs: {
    title: "The tap goes deeper than its hole",
    what: "The bottom of a tap against the hole that earlier tools made at the same place: an error where it passes the tip of the drill, a warning where it passes the drill's full diameter.",
    why: "The tap meets the bottom of the hole and breaks.",
    formula: "Z of the tap >= Z of the drill's corner = Z of its tip + point length",
    example:
      "G21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG81 X0. Y0. Z-20. R2. F450.\nG80\nT9 M6\nS300 M3\nG43 H9 Z50. M8\nG84 X0. Y0. Z-25. R5. F525.\nG80",
    better:
      "G21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG81 X0. Y0. Z-25. R2. F450.\nG80\nT9 M6\nS300 M3\nG43 H9 Z50. M8\nG84 X0. Y0. Z-20. R5. F525.\nG80",
    limits:
      "Holes made in an earlier program, or under another work system, are not known; a spot, a chamfer or a counterbore alone is no hole for a tap and stays silent. A hole that goes through the declared stock is silent. The chamfer of the tap is not taken off.",
    source: "geometry, derived",
  },
  *detect(context) {
    yield* perCause("tap-depth", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const { endZ } = shape;
    if ((shape.kind !== "tap" && loads.tool?.family !== "tap") || endZ === null || shape.bored.length === 0) continue;
    if (goesThrough(context, hole) === true) continue;
    const drill = drillBefore(context, shape.bored, loads.tool?.DC ?? null);
    if (drill === null) continue;
    const point = pointOf(context, drill.tool, drill.diameter);
    const corner = drill.toZ + point;
    const past = endZ < drill.toZ - 1e-6;
    if (!past && endZ >= corner - 1e-6) continue;
    const axis = shape.axis.toUpperCase();
    const what = past
      ? `below the tip of ${toolName(drill.tool)} at ${sayLength(drill.toZ, context)}`
      : `below the full diameter of ${toolName(drill.tool)}, which ends at ${sayLength(corner, context)}`;
    yield {
      key: holeKey(hole),
      severity: past ? "error" : "warning",
      weight: corner - endZ,
      place: depthPlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} taps to ${axis} ${sayLength(endZ, context)}, ${what}: it meets the ${past ? "bottom" : "cone at the bottom"} of the hole. Way out: drill deeper, or tap to ${axis} ${sayLength(corner, context)} at most.`,
      data: { measured: endZ, limit: past ? drill.toZ : corner, unit: "mm" },
    };
  }
}

/** Least share of the tap that its drill has: common practice, no source. */
const PILOT = 0.6;

type Bored = { readonly diameter: number; readonly toZ: number; readonly tool: number | null };

/** The deepest hole for this tap: a spot, a chamfer or a counterbore is none. */
function drillBefore(context: CheckContext, bored: readonly Bored[], tap: number | null): Bored | null {
  let found: Bored | null = null;
  for (const one of bored) {
    const tool = one.tool === null ? null : context.execution.tool(one.tool);
    if (tool === null || tool.family === "spot" || tool.family === "countersink" || tool.family === "tap") continue;
    if (tap !== null && (tool.DC >= tap || tool.DC < PILOT * tap)) continue;
    if (found === null || one.toZ < found.toZ) found = one;
  }
  return found;
}

function pointOf(context: CheckContext, t: number | null, diameter: number): number {
  const tool = t === null ? null : context.execution.tool(t);
  if (tool === null) return 0;
  if (tool.PL !== null) return tool.PL;
  return tool.SIG === null || tool.SIG >= 180 ? 0 : diameter / 2 / Math.tan((tool.SIG * Math.PI) / 360);
}
