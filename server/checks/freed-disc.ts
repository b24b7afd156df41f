import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, metalHoles, perCause } from "./cause.ts";
import { goesThrough } from "./through-hole.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const freedDisc: Check = {
  id: "freed-disc",
  family: "entry",
  severity: "info",
  docs: {
    title: "A disc comes free at breakthrough",
    what: "An insert drill that comes out on the other side of the part. Said once per operation, as a caution.",
    why: "The last thickness breaks out as a sharp disc. Between plates it jams the drill; with rotating work it can fly out through the chuck or the spindle bore.",
    formula: "",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT EXIT INCLINE 5 DEG)\nG99 G81 X0. Y0. Z-42. R2. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    limits:
      "Breakthrough is known only from stock in the setup, `stockBottom` of its dialect or an exit note. Where none is there, nothing is said.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("freed-disc", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { tool } = hole.loads;
    if (tool === null || tool.family !== "indexable" || hole.shape.kind === "back-bore") continue;
    if (goesThrough(context, hole) !== true) continue;
    const turning = context.setup.machine?.kind === "turn";
    yield {
      key: `o${hole.operation.index}`,
      severity: "info",
      weight: tool.DC,
      place: depthPlace(context, hole),
      hole,
      message: `Caution: at breakthrough ${toolName(hole.shape.tool)} frees a disc of about ${say(tool.DC, "length", context.system)} with a sharp rim. ${turning ? "It can fly out through the chuck or spindle bore: guard that side." : "Leave it a way out, keep it from jamming under the part, doors closed."}`,
      data: null,
    };
  }
}
