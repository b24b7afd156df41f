import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const reach: Check = {
  id: "reach",
  family: "tool",
  severity: "error",
  docs: {
    title: "The hole is deeper than the drill is long",
    what: "The depth of the hole below its surface against the usable length LU of the tool. Error where even the corner goes deeper; warning where only the point does.",
    why: "Beyond the flutes chips cannot leave, the shank rubs, the drill breaks.",
    formula: "depth to the tip = surface - Z; depth to the corner = depth to the tip - PL (mm)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-70. R2. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits: "Counted from the surface that is met; walls above it, holder and nose are not known.",
    source: "the tool's own data (ISO 13399 LU)",
  },
  *detect(context) {
    yield* perCause("reach", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    const usable = loads.tool?.LU ?? null;
    if (usable === null || shape.endZ === null || shape.kind === "back-bore") continue;
    // A drill that goes on in a hole of its own diameter stands in that hole too.
    const top = shape.surfaceFrom === "previous-hole" ? (shape.topZ ?? shape.surfaceZ) : shape.surfaceZ;
    const tip = top - shape.endZ;
    if (tip <= usable + 0.005) continue;
    const corner = tip - (loads.pointLength ?? 0);
    const surely = corner > usable + 0.005;
    yield {
      key: holeKey(hole),
      severity: surely ? "error" : "warning",
      weight: tip / usable,
      place: depthPlace(context, hole),
      hole,
      message: `The hole is ${say(tip, "length", context.system)} deep to the tip${(loads.pointLength ?? 0) < 0.005 ? "" : ` (${say(corner, "length", context.system)} to the corner)`}; ${toolName(shape.tool)} is usable to ${say(usable, "length", context.system)}. Way out: a longer drill${surely ? "" : ", or make sure that the point may stand out"}.`,
      data: { measured: tip, limit: usable, unit: "mm" },
    };
  }
}
