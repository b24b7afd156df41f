import type { WordRef } from "../../grammar/blocks.ts";
import type { HoleLoads } from "../loads/types.ts";
import { say } from "../units/wording.ts";
import { anyHoles, at, type Candidate, contactPlace, type MetalHole, perCause } from "./cause.ts";
import { coolantCode, isCarbide } from "./coolant-code.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { toolName } from "./wording.ts";

export const coolantLate: Check = {
  id: "coolant-late",
  family: "coolant",
  severity: "warning",
  docs: {
    title: "Coolant is off, or comes after the edge is in metal",
    what: "The coolant state at the first contact of the drill with metal.",
    why: "A dry drill welds its chips into the flutes. Worse is coolant that comes on a hot carbide edge: it cracks. A pump and a long pipe need about two seconds.",
    formula: "seconds from the coolant code to first contact, from the programmed moves; at least 2 s",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50.\nG99 G81 X0. Y0. Z-20. R2. F450.\nM88\nX20.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nX20.\nG80 M9\nM30\n%",
    limits:
      "Off or late is an error with carbide in groups P, M and S, a warning with HSS, information in cast iron. Silent for tools declared `coolant: dry` and for magnesium. What the pump really gives is not known.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("coolant-late", context, candidates(context));
  },
};

const LEAD_SECONDS = 2;

function* candidates(context: CheckContext): Generator<Candidate> {
  // Coolant that comes after dry holes is one cause with them.
  const dry = new Set<number>();
  for (const hole of anyHoles(context)) {
    const { loads, shape } = hole;
    if (loads.tool?.coolant === "dry" || loads.material?.combustible === "magnesium") continue;
    const { kinds, leadSeconds } = loads.coolant;
    const ref = shape.state.from.coolant;
    const off = kinds.length === 0;
    const late = !off && leadSeconds !== null && leadSeconds < 0;
    const doubtful = off && shape.state.unsure.includes("coolant");
    if (off || late) {
      dry.add(hole.operation.index);
      yield {
        key: `o${hole.operation.index}w${ref}`,
        severity: doubtful ? "info" : level(loads),
        weight: 1,
        place: contactPlace(context, hole),
        hole,
        message: `${doubtful ? "On one of the ways to this hole coolant is off" : off ? "Coolant is off" : `Coolant comes ${say(-(leadSeconds ?? 0), "time", context.system)} late`}: ${toolName(shape.tool)} meets metal dry${inMaterial(loads)}. Way out: ${code(context, loads)} before the move down to the hole.`,
        data: late ? { measured: leadSeconds, limit: 0, unit: "s" } : null,
        related: whoSwitched(context, hole, ref),
      };
    } else if (!dry.has(hole.operation.index)) {
      const soon = tooSoon(context, hole);
      if (soon !== null) yield soon;
    }
  }
}

/** On, but so shortly before contact that pump and pipe have not filled. */
function tooSoon(context: CheckContext, hole: MetalHole): Candidate | null {
  const { loads, shape } = hole;
  const ref = shape.state.from.coolant;
  const switched = ref === 0 ? null : at(context, ref, hole.firstBlock);
  // M8 in the block of the first hole: the moves to it count, and they are no two seconds.
  const inBlock = switched?.in === "program" && switched.span.block === hole.firstBlock;
  const { leadSeconds } = loads.coolant;
  const short = leadSeconds !== null && leadSeconds < LEAD_SECONDS;
  if (!short && !(inBlock && leadSeconds === null)) return null;
  const before =
    leadSeconds === null
      ? `only in the block in which ${toolName(shape.tool)} meets metal`
      : `only ${say(leadSeconds, "time", context.system)} before ${toolName(shape.tool)} meets metal`;
  return {
    key: `o${hole.operation.index}w${ref}s`,
    severity: "info",
    weight: LEAD_SECONDS - (leadSeconds ?? 0),
    place: contactPlace(context, hole),
    hole,
    message: `Coolant is switched on ${before}; about ${LEAD_SECONDS} s are needed (common practice). Way out: switch it on at the approach, or a dwell before the hole.`,
    data: leadSeconds === null ? null : { measured: leadSeconds, limit: LEAD_SECONDS, unit: "s" },
    related: switched === null || inBlock ? [] : [{ place: switched, message: "Coolant is switched on here" }],
  };
}

/** Levels of common practice by edge and material group. */
function level(loads: HoleLoads): FindingSeverity {
  if (loads.tool === null) return "info";
  const group = loads.material?.group ?? null;
  if (group === "K") return "info";
  if (isCarbide(loads.tool.family) && !loads.tool.familyAssumed && (group === "P" || group === "M" || group === "S"))
    return "error";
  return "warning";
}

function inMaterial(loads: HoleLoads): string {
  return loads.material === null ? "" : ` in ${loads.material.key} (group ${loads.material.group})`;
}

function code(context: CheckContext, loads: HoleLoads): string {
  const through = loads.tool?.coolant === "through" ? coolantCode(context, "through") : null;
  return through ?? coolantCode(context, "flood") ?? "coolant on";
}

function whoSwitched(context: CheckContext, hole: MetalHole, ref: WordRef): Candidate["related"] & object {
  const tool = hole.shape.state.from.tool;
  if (ref !== 0) return [{ place: at(context, ref, hole.firstBlock), message: "Coolant was last switched here" }];
  if (tool !== 0)
    return [{ place: at(context, tool, hole.firstBlock), message: "No coolant code since this tool change" }];
  return [];
}
