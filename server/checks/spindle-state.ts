import type { WordRef } from "../../grammar/blocks.ts";
import { anyHoles, at, type Candidate, contactPlace, keyOf, type MetalHole, perCause } from "./cause.ts";
import { HAS, momentsWith } from "./course.ts";
import { everyCut } from "./cuts.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { toolName } from "./wording.ts";

export const spindleState: Check = {
  id: "spindle-state",
  family: "state",
  severity: "error",
  docs: {
    title: "The spindle does not turn as the drill needs it",
    what: "Metal is met, or a later stroke goes on into it, with the spindle stopped, turning the wrong way for the tool's hand, with S0 or with no S at all.",
    why: "A drill that stands still, or turns backwards, breaks at the first touch. After M6 the spindle stands: each tool needs its own M3.",
    formula: "",
    example: "T1 M6\nG43 H1 Z50.\nG81 X0. Y0. Z-5. R2. F100.",
    better: "T1 M6\nS800 M3\nG43 H1 Z50. M8\nG81 X0. Y0. Z-5. R2. F100.",
    limits:
      "An S that the operator or an earlier program has set is not known, so a missing S is a warning. Tapping cycles that start the spindle themselves are silent where the dialect says so.",
    source: "NISTIR 6556 sections 3.6.2 and 3.6.3; common practice",
  },
  *detect(context) {
    yield* perCause("spindle-state", context, candidates(context));
  },
};

interface Fault {
  readonly kind: string;
  readonly severity: FindingSeverity;
  readonly ref: WordRef;
  readonly message: string;
}

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const cut of everyCut(context, anyHoles(context))) yield* judge(context, cut);
}

function* judge(context: CheckContext, hole: MetalHole): Generator<Candidate> {
  const fault = faultOf(context, hole);
  if (fault === null) return;
  const { kind, ref, severity, message } = fault;
  yield {
    key: `${kind}${hole.shape.tool ?? ""}${keyOf(ref, hole)}`,
    severity,
    weight: 1,
    place: contactPlace(context, hole),
    hole,
    message,
    data: null,
    related: ref === 0 ? [] : [{ place: at(context, ref, hole.firstBlock), message: "The spindle was last told here" }],
  };
}

function faultOf(context: CheckContext, hole: MetalHole): Fault | null {
  const { shape, loads } = hole;
  const { state } = shape;
  const { dialect } = context.setup;
  const tap = shape.kind === "tap";
  const rigid = tap && !dialect.tapNeedsSpindle;
  const from = state.from.spindle;
  const later = hole.whole !== undefined;
  if (state.s === 0 && !rigid) {
    return {
      kind: "zero",
      severity: "error",
      ref: state.from.s,
      message: `S0: ${toolName(shape.tool)} goes ${later ? "on " : ""}into metal without turning. Way out: a speed before ${later ? "this stroke" : "the first hole"}.`,
    };
  }
  if (state.unsure.includes("spindle")) {
    if (state.spindle !== "stopped" || rigid) return null;
    return {
      kind: "stopped-on-one-way",
      severity: "warning",
      ref: from,
      message: `On one of the ways to this hole the spindle stands still when ${toolName(shape.tool)} meets metal: ${state.unsureWhy ?? "which is taken is not known"}. Way out: M3 with S where the ways have met.`,
    };
  }
  if (state.spindle === "stopped" && !rigid) {
    const code = loads.tool?.hand === "left" ? "M4" : "M3";
    return {
      kind: "stopped",
      severity: "error",
      ref: from,
      message: `The spindle stands still when ${toolName(shape.tool)} ${later ? "goes on into" : "meets"} metal. Way out: ${code} with S ${later ? "before this stroke" : "after the tool change"}.`,
    };
  }
  const wanted = wantedDirection(context, hole);
  if (wanted !== null && state.spindle !== "stopped" && state.spindle !== wanted) {
    const code = wanted === "cw" ? "M3" : "M4";
    const written = wanted === "cw" ? "M4" : "M3";
    if (tap && wanted === "ccw") {
      const other =
        loads.tool?.hand === "left" ? "" : `, or G84 for a right-hand tap (\`hand: left\` declares the other)`;
      return {
        kind: `left-thread${state.cycle}`,
        severity: "error",
        ref: from,
        message: `G${state.cycle / 10} cuts a left-hand thread, and ${written} turns ${toolName(shape.tool)} the other way. Way out: ${code}${other}.`,
      };
    }
    return {
      kind: "wrong-way",
      severity: "error",
      ref: from,
      message: `The spindle turns the wrong way for ${toolName(shape.tool)}: ${written} is in force. Way out: ${code}${wanted === "cw" ? ", or `hand: left` at the tool in the setup" : ""}.`,
    };
  }
  // One that is written and not known is told at its word.
  if (state.s === null && state.sWhy === null) {
    return {
      kind: "no-speed",
      severity: "warning",
      ref: 0,
      message: `No S since the start of the program: ${toolName(shape.tool)} turns at whatever speed was left from before. Way out: S with ${state.spindle === "ccw" ? "M4" : "M3"}.`,
    };
  }
  return null;
}

/** The cycle turns the spindle as it needs it, whatever ran before. */
function setsDirection(context: CheckContext, { firstBlock }: MetalHole): boolean {
  const { execution, setup } = context;
  const { rigidTap } = setup.dialect;
  if (rigidTap === "always") return true;
  if (rigidTap !== "m29-before" && rigidTap !== "m29-in-block") return false;
  const step = execution.stepOf(firstBlock);
  let rigid = false;
  for (const moment of momentsWith(context, HAS.rigidTap | HAS.toolChange)) {
    if (moment.step > step) break;
    rigid = (moment.has & HAS.rigidTap) !== 0;
  }
  return rigid;
}

function wantedDirection(context: CheckContext, hole: MetalHole): "cw" | "ccw" | null {
  const { shape, loads } = hole;
  if (shape.kind === "tap") {
    const kind = context.setup.dialect.cycles.get(shape.state.cycle);
    // A left-hand tap may go with G84 and M4.
    if (kind === "tap") return loads.tool?.hand === "left" ? null : "cw";
    return kind === "tap-left" && !setsDirection(context, hole) ? "ccw" : null;
  }
  return loads.tool?.hand === "left" ? "ccw" : "cw";
}
