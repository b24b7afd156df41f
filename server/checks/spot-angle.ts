import { sayOne } from "../units/wording.ts";
import { type Candidate, cyclePlace, holeKey, type MetalHole, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const spotAngle: Check = {
  id: "spot-angle",
  family: "tool",
  severity: "warning",
  docs: {
    title: "The spot is more pointed than the drill",
    what: "The point angle of the spot drill that was used at the hole before against that of the drill that follows.",
    why: "The corners of the drill meet the cone first, all at once, with the point in air: carbide corners chip.",
    formula: "SIG of the spot >= SIG of the drill",
    example:
      "%\nG21 G90 G94 G54\nT1 M6\nG0 X0. Y0. S1600 M3\nG43 H1 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-4. R2. F160.\nG80 M9\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT2 M6\nG0 X0. Y0. S1600 M3\nG43 H2 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-1.5 R2. F160.\nG80 M9\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits: "Spots made in an earlier program are not known. Both angles must be declared.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("spot-angle", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { tool } = hole.loads;
    if (tool === null || tool.SIG === null) continue;
    if (tool.family !== "twist-hss" && tool.family !== "solid-carbide" && tool.family !== "spade") continue;
    const spot = spotBefore(context, hole);
    if (spot === null || spot.angle >= tool.SIG - 0.5) continue;
    yield {
      key: `s${spot.tool}${holeKey(hole)}`,
      severity: tool.family === "solid-carbide" ? "warning" : "info",
      weight: tool.SIG - spot.angle,
      place: cyclePlace(context, hole),
      hole,
      message: `The spot of ${toolName(spot.tool)} has ${sayOne(spot.angle, "angle", context.system)}, the point of ${toolName(hole.shape.tool)} ${sayOne(tool.SIG, "angle", context.system)}: its corners hit first (common practice). Way out: a spot drill of ${sayOne(tool.SIG, "angle", context.system)} or more, or no spot.`,
      data: { measured: spot.angle, limit: tool.SIG, unit: "°" },
    };
  }
}

function spotBefore(context: CheckContext, hole: MetalHole): { tool: number; angle: number } | null {
  for (const earlier of hole.shape.bored) {
    const made = earlier.tool;
    if (made === null) continue;
    const tool = context.execution.tool(made);
    if (tool !== null && (tool.family === "spot" || tool.family === "countersink") && tool.SIG !== null) {
      return { tool: made, angle: tool.SIG };
    }
  }
  return null;
}
