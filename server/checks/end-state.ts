import { courseOf, HAS, type Moment } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import { topOf } from "./top.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { listed } from "./wording.ts";

export const endState: Check = {
  id: "end-state",
  family: "flow",
  severity: "info",
  docs: {
    title: "The program ends in a state that the next one may not expect",
    what: "At M2 or M30: a cycle or G91 still in force, or the tool below the top of the part.",
    why: "What is left in force meets the next program, or the hand that clears the part.",
    formula: "",
    example: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nM30",
    better: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG0 Z50. M9\nM5\nM30",
    limits:
      "M2 and M30 reset most controls and stop spindle and coolant, so it is information; only a tool in the part is a warning. G91 written to go home is the usual end and stays silent.",
    source: "common practice, no source; NISTIR 6556 section 3.6.1 for M2 and M30",
  },
  *detect(context) {
    const { execution } = context;
    // Lines alone, a snippet or a part of a program, have no end to look at.
    if (execution.stepCount === 0 || execution.holeCount === 0) return;
    const { moments } = courseOf(context);
    const end = moments.find((moment) => (moment.has & HAS.end) !== 0);
    if (end === undefined) return;
    const left = leftAt(context, end);
    if (left.what.length === 0) return;
    yield single(
      "end-state",
      left.severity,
      { in: "program", span: context.spanOf(0, end.block) },
      `At the end of the program ${listed(left.what)}. Way out: ${listed(left.out)} before it.`,
      { data: left.data },
    );
  },
};

interface Left {
  readonly what: string[];
  readonly out: string[];
  severity: FindingSeverity;
  data: { readonly measured: number; readonly limit: number; readonly unit: string } | null;
}

/** G91 was last written to go home: the usual end of a program, with nothing after it that could be read in it. */
function wentHome(context: CheckContext, end: Moment): boolean {
  let home = false;
  for (const moment of courseOf(context).moments) {
    if (moment.step >= end.step) break;
    if ((moment.has & (HAS.absolute | HAS.incremental)) !== 0)
      home = (moment.has & HAS.incremental) !== 0 && (moment.has & (HAS.home | HAS.machineMove)) !== 0;
  }
  return home;
}

function leftAt(context: CheckContext, end: Moment): Left {
  // M2 and M30 reset the modes themselves: what counts is what they met.
  const state = context.execution.stepState(Math.max(0, end.step - 1));
  const left: Left = { what: [], out: [], severity: "info", data: null };
  if (state.cycle !== 0 && end.cycleAfter !== 0) {
    left.what.push(`the cycle G${state.cycle / 10} is still active`);
    left.out.push("G80");
  }
  if (
    state.distance === 91 &&
    !state.unsure.includes("distance") &&
    end.distanceAfter === 91 &&
    !wentHome(context, end)
  ) {
    left.what.push("G91 is in force");
    left.out.push("G90");
  }
  const top = topOf(context);
  if (!end.homeAfter && end.toZ < top.z - 1e-6) {
    left.what.push(
      `the tool stands at Z ${sayLength(end.toZ, context)}, below the top at ${sayLength(top.z, context)}`,
    );
    left.out.push("a Z above the part");
    left.severity = "warning";
    left.data = { measured: end.toZ, limit: top.z, unit: "mm" };
  }
  return left;
}
