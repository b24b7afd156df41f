import type { HoleLoads } from "../loads/types.ts";
import { at, type Candidate, contactPlace, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { coolantCode, isCarbide } from "./coolant-code.ts";
import { coolantDoubt } from "./coolant-doubt.ts";
import { everyCut } from "./cuts.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { toolName, trim } from "./wording.ts";

export const throughCoolant: Check = {
  id: "through-coolant",
  family: "coolant",
  severity: "warning",
  docs: {
    title: "Coolant does not come through the tool",
    what: "Coolant is on, but not through the spindle, for a tool that is made for it or a hole that is too deep for a jet from outside.",
    why: "From outside no coolant reaches the bottom once the drill fills the hole: chips pack, the edge burns. On a tool with coolant holes chips go up into the holes.",
    formula: "depth / diameter; from outside to about 1 for insert drills and 5 for solid carbide, gun drills never",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Depths are common practice. A hole in cast iron drilled dry or with air on purpose is declared at the tool. Silent after an M code that is not known, where no code for coolant through the tool is declared.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("through-coolant", context, candidates(context));
  },
};

/** Depth over diameter to which coolant from outside serves. Common practice, no source. */
const OUTSIDE_TO = { indexable: 1, "solid-carbide": 5, gun: 0 } as const;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of everyCut(context, metalHoles(context))) {
    const { loads, shape } = hole;
    const { kinds } = loads.coolant;
    if (shape.state.unsure.includes("coolant")) continue;
    const need = wanting(loads);
    if (need === null || throughDoubt(context, hole) !== null) continue;
    const ref = shape.state.from.coolant;
    const code = coolantCode(context, "through");
    yield {
      key: `o${hole.operation.index}w${ref}`,
      // Cast iron is often drilled dry or with air: common practice, no source.
      severity: loads.material?.group === "K" ? "info" : need.severity,
      weight: loads.depthRatio ?? 0,
      place: ref === 0 ? contactPlace(context, hole) : at(context, ref, hole.firstBlock),
      hole,
      message: `Only ${kinds.join(" and ")} coolant is on: ${toolName(shape.tool)} ${need.words}. Way out: ${code ?? "no code for it is declared for this machine; another drill or short pecks"}${code === null ? "" : " in its place"}.`,
      data:
        need.limit === null || loads.depthRatio === null
          ? null
          : { measured: loads.depthRatio, limit: need.limit, unit: "" },
      related: ref === 0 ? [] : [{ place: contactPlace(context, hole), message: "First hole it is needed for" }],
    };
  }
}

/** What the hole needs coolant through the tool for, where it has only another kind. */
function wanting(loads: HoleLoads): ReturnType<typeof needOf> {
  const { kinds } = loads.coolant;
  // Coolant that is off altogether is one cause, and the check for that speaks.
  if (kinds.length === 0 || kinds.includes("through") || loads.tool?.coolant === "dry") return null;
  return needOf(loads);
}

/** The unknown M code that may be coolant through the tool, for a hole that needs it; none where its code is declared. */
export function throughDoubt(context: CheckContext, hole: MetalHole): string | null {
  if (wanting(hole.loads) === null || coolantCode(context, "through") !== null) return null;
  return coolantDoubt(context, hole);
}

function needOf(loads: HoleLoads): { severity: FindingSeverity; words: string; limit: number | null } | null {
  const { tool, depthRatio } = loads;
  if (tool === null) return null;
  const deep = depthRatio === null ? "" : `; the hole is ${trim(depthRatio, 1)} x D deep`;
  if (tool.coolant === "through") {
    const severe = isCarbide(tool.family) && depthRatio !== null && depthRatio > 3;
    return {
      severity: severe ? "error" : "warning",
      words: `is made for coolant through the tool${deep}`,
      limit: null,
    };
  }
  // Rules of thumb by family need a family that someone declared.
  if (tool.familyAssumed) return null;
  if (tool.family !== "indexable" && tool.family !== "solid-carbide" && tool.family !== "gun") return null;
  const limit = OUTSIDE_TO[tool.family];
  if (depthRatio === null || depthRatio <= limit * 1.05) return null;
  return {
    severity: "warning",
    words: `drills ${trim(depthRatio, 1)} x D, and from outside coolant serves to about ${limit} x D (common practice)`,
    limit,
  };
}
