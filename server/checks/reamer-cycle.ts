import { type Candidate, cyclePlace, holeKey, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const reamerCycle: Check = {
  id: "reamer-cycle",
  family: "tap",
  severity: "warning",
  docs: {
    title: "A reamer is pulled out at rapid, or pecked",
    what: "A reamer in a cycle that leaves the hole at rapid (G81, G82), or that pecks (G73, G83).",
    why: "A reamer that leaves at rapid scores the bore; one that pecks leaves a ring at each depth.",
    formula: "",
    example: "G21 G90 G94\nT12 M6 (12 REAMER)\nS300 M3\nM8\nG81 X0. Y0. Z-20. R5. F60.\nG80",
    better: "G21 G90 G94\nT12 M6 (12 REAMER)\nS300 M3\nM8\nG85 X0. Y0. Z-20. R5. F60.\nG80",
    limits: "Some carbide reamers are meant to leave fast. A reamer that only a comment names gives information.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("reamer-cycle", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    if (loads.tool?.family !== "ream" || shape.longHand) continue;
    const kind = context.setup.dialect.cycles.get(shape.state.cycle);
    const pecks = kind === "peck" || kind === "chip-break";
    if (!pecks && kind !== "drill" && kind !== "dwell-drill") continue;
    const code = `G${shape.state.cycle / 10}`;
    yield {
      key: holeKey(hole),
      severity: loads.tool.familyAssumed ? "info" : "warning",
      weight: 1,
      place: cyclePlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} is a reamer, and ${code} ${pecks ? "pecks with it" : "pulls it out at rapid"} (common practice). Way out: G85, which feeds in and out.`,
      data: null,
    };
  }
}
