import { HAS, momentsWith } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";
import { listed } from "./wording.ts";

export const endRunning: Check = {
  id: "end-running",
  family: "state",
  severity: "info",
  docs: {
    title: "Spindle or coolant is on when the program ends",
    what: "M2 or M30 with the spindle turning or a coolant code in force.",
    why: "A control that stops neither by itself leaves them running while the part is taken out.",
    formula: "",
    example: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG0 Z50.\nM30",
    better: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG0 Z50. M9\nM5\nM30",
    limits:
      "Most controls stop both at M2 and M30, so it is information, and silent where the dialect says so (`endStopsSpindle: true`).",
    source: "common practice, no source; NISTIR 6556 section 3.6.1 for M2 and M30",
  },
  *detect(context) {
    const { execution, setup } = context;
    if (setup.dialect.endStopsSpindle || execution.holeCount === 0) return;
    for (const moment of momentsWith(context, HAS.end)) {
      if (moment.step === 0) continue;
      const state = execution.stepState(moment.step - 1);
      const what: string[] = [];
      const out: string[] = [];
      if (state.spindle !== "stopped" && (moment.has & HAS.spindleOff) === 0) {
        what.push(`the spindle still turns (${state.spindle === "cw" ? "M3" : "M4"})`);
        out.push("M5");
      }
      if (state.coolant.length > 0 && (moment.has & HAS.coolantOff) === 0) {
        what.push(`${listed(state.coolant)} still runs`);
        out.push("M9");
      }
      if (what.length === 0) return;
      const message = `At the end of the program ${listed(what)}. Way out: ${listed(out)} before it, or \`endStopsSpindle: true\` of the dialect where the control stops them.`;
      yield single("end-running", "info", { in: "program", span: context.spanOf(0, moment.block) }, message);
      return;
    }
  },
};
