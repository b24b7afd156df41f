import type { HoleLoads } from "../loads/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, cyclePlace, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const coolantSupply: Check = {
  id: "coolant-supply",
  severity: "warning",
  docs: {
    title: "Coolant pressure or flow is too low for the drill",
    what: "What the machine gives under the active coolant code against what the tool asks for; for insert drills without such data against a rule of thumb.",
    why: "On big drills the flow carries the chips out. Too little, and they are cut again and jam.",
    formula:
      "Insert drill: flow about 0.9 · D (L/min, mm) to 3 x D deep, half as much again beyond. In gal/min and inches: 6 · D",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M89\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    limits:
      "A pump gives its flow at one pressure; small coolant holes let through less. Filters and leaks are not known.",
    source: "the tool's own data; else common practice, no source",
  },
  *detect(context) {
    yield* perCause("coolant-supply", context, candidates(context));
  },
};

/** Share of a rule of thumb below which it is worth a word. */
const RULE_MARGIN = 0.9;

export interface FlowNeed {
  /** L/min */
  readonly flow: number;
  readonly declared: boolean;
}

/** Flow the drill asks for: its own figure, else for insert drills the rule of thumb. null: no rule. */
export function flowNeed(loads: HoleLoads): FlowNeed | null {
  const { tool, depthRatio } = loads;
  if (tool === null) return null;
  if (tool.minFlow !== null) return { flow: tool.minFlow, declared: true };
  if (tool.family !== "indexable" || tool.familyAssumed) return null;
  return { flow: 0.9 * tool.DC * (depthRatio !== null && depthRatio > 3 ? 1.5 : 1), declared: false };
}

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    const { kinds, pressure, flow } = loads.coolant;
    if (loads.tool === null || kinds.length === 0 || loads.tool.coolant === "dry") continue;
    const ref = shape.state.from.coolant;
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
        message: `Flow ${say(flow, "flow", system)} is below the ${say(need.flow, "flow", system)} that ${toolName(shape.tool)} ${need.declared ? "asks for" : "needs (common practice, 0.9 D)"}. Way out: another coolant code, a stronger pump, or a smaller drill.`,
        data: { measured: flow, limit: need.flow, unit: "L/min" },
      };
    }
    const wanted = loads.tool.minPressure;
    if (wanted !== null && pressure !== null && pressure < wanted * 0.999) {
      yield {
        ...base,
        key: `o${hole.operation.index}w${ref}pressure`,
        weight: wanted / Math.max(pressure, 1e-6),
        message: `Pressure ${say(pressure, "pressure", system)} is below the ${say(wanted, "pressure", system)} that ${toolName(shape.tool)} asks for. Way out: another coolant code or a stronger pump.`,
        data: { measured: pressure, limit: wanted, unit: "bar" },
      };
    }
  }
}
