import { flowNeed, pressureNeed } from "../loads/coolant-need.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, cyclePlace, metalHoles, perCause } from "./cause.ts";
import { everyCut } from "./cuts.ts";
import { throughDoubt } from "./through-coolant.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const coolantSupply: Check = {
  id: "coolant-supply",
  family: "coolant",
  severity: "warning",
  docs: {
    title: "Coolant pressure or flow is too low for the drill",
    what: "What the machine gives under the active coolant code against what the tool asks for; for insert and gun drills without such data against a rule of thumb.",
    why: "On big drills the flow carries the chips out. Too little, and they are cut again and jam.",
    formula:
      "Insert drill: flow about 0.9 · D (L/min, mm) to 3 x D deep, half as much again from 4 x D. In gal/min and inches: 6 · D. Pressure of an insert drill: 10 bar at 15 mm falling to 4 bar at 50 mm, half as much again from 4 x D, twice in stainless steel. Gun drill: 69 bar (1000 psi)",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M89\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    limits:
      "A pump gives its flow at one pressure; small coolant holes let through less. For solid carbide no pressure is published: only the tool's own is judged. Filters and leaks are not known.",
    source:
      "the tool's own data; else common practice, no source; gun drills: Cutting Tool Engineering, 1999 (a tradition, not a limit)",
  },
  *detect(context) {
    yield* perCause("coolant-supply", context, candidates(context));
  },
};

/** Share of a rule of thumb below which it is worth a word. */
const RULE_MARGIN = 0.9;

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of everyCut(context, metalHoles(context))) {
    const { loads, shape } = hole;
    const { kinds, pressure, flow } = loads.coolant;
    if (shape.state.unsure.includes("coolant")) continue;
    if (loads.tool === null || kinds.length === 0 || loads.tool.coolant === "dry") continue;
    const ref = shape.state.from.coolant;
    // A code that is not known may bring what this one lacks.
    if (!kinds.includes("through") && throughDoubt(context, hole) !== null) continue;
    const base = {
      severity: "warning" as const,
      place: ref === 0 ? cyclePlace(context, hole) : at(context, ref, hole.firstBlock),
      hole,
    };
    const need = flowNeed(loads);
    if (need !== null && flow !== null && flow < need.flow * (need.declared ? 0.999 : RULE_MARGIN)) {
      yield {
        ...base,
        key: `o${hole.operation.index}w${ref}flow`,
        weight: need.flow / Math.max(flow, 1e-6),
        message: `Flow ${say(flow, "flow", system)} is below the ${say(need.flow, "flow", system)} that ${toolName(shape.tool)} ${need.declared ? "asks for" : "needs (common practice)"}. Way out: another coolant code, a stronger pump, or a smaller drill.`,
        data: { measured: flow, limit: need.flow, unit: "L/min" },
      };
    }
    const wanted = pressureNeed(loads);
    if (wanted === null || pressure === null) continue;
    const { declared, from } = wanted;
    if (pressure >= wanted.pressure * (declared ? 0.999 : RULE_MARGIN)) continue;
    yield {
      ...base,
      severity: declared ? "warning" : "info",
      key: `o${hole.operation.index}w${ref}pressure`,
      weight: wanted.pressure / Math.max(pressure, 1e-6),
      message: `Pressure ${say(pressure, "pressure", system)} is below the ${say(wanted.pressure, "pressure", system)} that ${toolName(shape.tool)} ${declared ? "asks for" : `should have (${from})`}. Way out: another coolant code or a stronger pump${declared ? "" : "; or `minPressure` of the tool, where its maker asks for less"}.`,
      data: { measured: pressure, limit: wanted.pressure, unit: "bar" },
    };
  }
}
