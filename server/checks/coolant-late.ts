import type { WordRef } from "../../grammar/blocks.ts";
import { secondsToMetal } from "../loads/coolant.ts";
import type { HoleLoads } from "../loads/types.ts";
import type { Operation } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { anyHoles, at, type Candidate, contactPlace, type MetalHole, perCause } from "./cause.ts";
import { coolantCode, isCarbide } from "./coolant-code.ts";
import { coolantDoubt } from "./coolant-doubt.ts";
import { everyCut } from "./cuts.ts";
import { wordPlace } from "./one-place.ts";
import type { Check, CheckContext, FindingPlace, FindingSeverity } from "./types.ts";
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
      "Off or late is an error with carbide in groups P, M and S, a warning with HSS, information in cast iron. Silent for tools declared `coolant: dry`, for magnesium, and after an M code that is not known, which may have switched coolant on. What the pump really gives is not known.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("coolant-late", context, candidates(context));
  },
};

const LEAD_SECONDS = 2;

function* candidates(context: CheckContext): Generator<Candidate> {
  // Coolant that comes after dry holes is one cause with them.
  const dry = new Map<number, number>();
  for (const hole of everyCut(context, anyHoles(context))) {
    if (drillsDry(hole)) continue;
    const { loads, shape, operation } = hole;
    if (loads.coolant.kinds.length > 0 || dryDoubt(context, hole) !== null) continue;
    const later = hole.whole !== undefined;
    // Shapes come in the order of their first hole.
    if (!later && !dry.has(operation.index)) dry.set(operation.index, hole.firstHole);
    const ref = shape.state.from.coolant;
    const doubtful = shape.state.unsure.includes("coolant");
    yield {
      key: `o${operation.index}w${ref}`,
      severity: doubtful ? "info" : level(loads),
      weight: 1,
      place: contactPlace(context, hole),
      hole,
      message: `${doubtful ? "On one of the ways to this hole coolant is off" : "Coolant is off"}: ${toolName(shape.tool)} ${later ? "goes on into" : "meets"} metal dry${inMaterial(loads)}. Way out: ${code(context, loads)} before ${later ? "this stroke" : "the move down to the hole"}.`,
      data: null,
      related: whoSwitched(context, hole, ref),
    };
  }
  const holes = new Map(anyHoles(context).map((hole) => [hole.shape, hole]));
  for (const operation of context.execution.operations) {
    const firstDry = dry.get(operation.index) ?? Number.POSITIVE_INFINITY;
    for (const lead of operation.coolantLeads) {
      const hole = holes.get(context.execution.shapeOf(lead.hole));
      if (hole === undefined || lead.hole >= firstDry || drillsDry(hole)) continue;
      const soon = tooSoon(context, hole, lead);
      if (soon !== null) yield soon;
    }
  }
}

function drillsDry({ loads }: MetalHole): boolean {
  return loads.tool?.coolant === "dry" || loads.material?.combustible === "magnesium";
}

/** The unknown M code that may have switched coolant on for a hole that is dry without it. */
export function dryDoubt(context: CheckContext, hole: MetalHole): string | null {
  if (drillsDry(hole) || hole.loads.coolant.kinds.length > 0) return null;
  // Coolant that was switched off after the code is off, whatever the code did.
  return coolantDoubt(context, hole, hole.shape.state.from.coolant);
}

/** On, but so shortly before contact that pump and pipe have not filled: told of the first hole after it alone. */
function tooSoon(context: CheckContext, all: MetalHole, lead: Operation["coolantLeads"][number]): Candidate | null {
  const { shape } = all;
  const { block } = lead;
  const hole = { ...all, count: 1, firstBlock: block, firstHole: lead.hole };
  const { ref } = lead;
  const switched = ref === 0 ? null : at(context, ref, block);
  // M8 in the block of the first hole: the moves to it count, and they are no two seconds.
  const inBlock = switched?.in === "program" && switched.span.block === block;
  const seconds = lead.seconds === null ? null : lead.seconds + secondsToMetal(shape, lead.stroke);
  const short = seconds !== null && seconds < LEAD_SECONDS;
  if (!short && !(inBlock && seconds === null)) return null;
  const tool = toolName(shape.tool);
  const before =
    seconds === null
      ? `only in the block in which ${tool} meets metal`
      : `only ${say(seconds, "time", context.system)} before ${tool} meets metal`;
  return {
    key: `o${hole.operation.index}w${ref}s`,
    severity: "info",
    weight: LEAD_SECONDS - (seconds ?? 0),
    place: strokePlace(context, hole),
    hole,
    message: `Coolant is switched on ${before}; about ${LEAD_SECONDS} s are needed (common practice). Way out: switch it on at the approach, or a dwell before the hole.`,
    data: seconds === null ? null : { measured: seconds, limit: LEAD_SECONDS, unit: "s" },
    related: switched === null || inBlock ? [] : [{ place: switched, message: "Coolant is switched on here" }],
  };
}

/** A shape has the words of its first hole; the block of another one has its own. */
function strokePlace(context: CheckContext, hole: MetalHole): FindingPlace {
  const { shape, firstBlock } = hole;
  if (shape.longHand) return wordPlace(context, firstBlock, shape.axis.toUpperCase());
  const step = context.execution.stepOf(firstBlock);
  if (step < 0) return contactPlace(context, hole);
  const { cycle, z } = context.execution.stepState(step).from;
  return contactPlace(context, { ...hole, shape: { ...shape, refs: { ...shape.refs, cycle, z } } });
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
