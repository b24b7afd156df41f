import { ACROSS, courseOf, HAS, Z_WORD } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";

export const listAfterCancel: Check = {
  id: "list-after-cancel",
  family: "cycle",
  severity: "info",
  docs: {
    title: "A list of positions goes on after the cycle has ended",
    what: "G0 or G1 with X or Y ends a drilling cycle without G80, and more blocks with nothing but X and Y follow.",
    why: "These positions look like holes of the list, but the tool only moves there: the holes are missing.",
    formula: "",
    example: "G81 X0. Y0. Z-5. R2. F100.\nX10.\nG0 X20.\nX30.\nX40.\nG80",
    better: "G81 X0. Y0. Z-5. R2. F100.\nX10.\nX20.\nX30.\nX40.\nG80",
    limits:
      "A path round a clamp looks the same, so it is information only; one position alone and lists after G80 stay silent.",
    source: "common practice, no source",
  },
  *detect(context) {
    for (const moment of courseOf(context).moments) {
      const { has, letters, rows } = moment;
      if (moment.cycleBefore === 0 || moment.cycleAfter !== 0 || rows < 1) continue;
      if ((has & ~(HAS.rapid | HAS.feed)) !== 0 || (letters & ACROSS) === 0 || (letters & Z_WORD) !== 0) continue;
      if (context.execution.stepState(moment.step).cycle !== 0) continue;
      if (context.execution.stepState(moment.step - 1).unsure.includes("cycle")) continue;
      const code = (has & HAS.rapid) !== 0 ? "G0" : "G1";
      yield single(
        "list-after-cancel",
        "info",
        { in: "program", span: context.spanOf(0, moment.block) },
        `${code} ends the cycle here: this position and ${rows === 1 ? "the one" : `the ${rows}`} after it are moves, no holes. Way out: leave ${code} out if they are to be drilled, or write G80 first if not.`,
        { count: rows + 1 },
      );
    }
  },
};
