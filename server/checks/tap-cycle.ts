import { type Candidate, cyclePlace, holeKey, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { toolName } from "./wording.ts";

export const tapCycle: Check = {
  id: "tap-cycle",
  family: "tap",
  severity: "error",
  docs: {
    title: "Tool and cycle do not belong together",
    what: "A tap in a drilling, pecking or boring cycle, or a drill, spot drill or reamer in a tapping cycle.",
    why: "A drilling cycle pulls the tap out at rapid without turning it back; a tapping cycle reverses a drill in its hole.",
    formula: "",
    example: "G21 G90 G94\nT9 M6\nS300 M3\nG43 H9 Z50. M8\nG81 X0. Y0. Z-20. R5. F525.\nG80",
    better: "G21 G90 G94\nT9 M6\nS300 M3\nG43 H9 Z50. M8\nG84 X0. Y0. Z-20. R5. F525.\nG80",
    limits:
      "A tap in G85 may be meant, with a floating holder that reverses by itself: information only. A kind of tool that only a comment names gives information too.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("tap-cycle", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const { tool } = loads;
    if (tool === null || shape.longHand) continue;
    const tap = tool.family === "tap";
    if (tap === (shape.kind === "tap")) continue;
    if (!tap && tool.family === "bore") continue;
    const code = `G${shape.state.cycle / 10}`;
    const soft = tool.familyAssumed || (tap && shape.kind === "bore");
    const severity: FindingSeverity = soft ? "info" : "error";
    yield {
      key: holeKey(hole),
      severity,
      weight: 1,
      place: cyclePlace(context, hole),
      hole,
      message: tap
        ? `${toolName(shape.tool)} is a tap and ${code} does not turn it back: ${shape.kind === "bore" ? "only a holder that reverses by itself gets it out" : "it is pulled out of its thread"}. Way out: G84, or G74 for a left-hand thread.`
        : `${toolName(shape.tool)} is no tap and ${code} reverses it at the bottom. Way out: a drilling cycle, or the T of the tap.`,
      data: null,
    };
  }
}
