import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const notExecuted: Check = {
  id: "not-executed",
  severity: "warning",
  docs: {
    title: "A call or jump is read but not run",
    what: "Subprogram calls, loops and jumps that Swarfline reads and does not follow. The blocks after them are worked out as if the statement were not there.",
    why: "Holes that a subprogram or a loop makes are missing from the review, so silence about them means nothing.",
    formula: "",
    example: "M98 P1002",
    better: "G81 X10. Y10. Z-12. R2. F180.",
    limits: "It tells that something is missing, not what.",
    source: "none: a limit of this tool",
  },
  *detect(context) {
    yield* eventFindings("not-executed", eventsOf(context, "not-executed"), (event) => {
      const text = said(event, "text", "this statement is read but not run");
      return {
        severity: "warning",
        message: `${sentence(text)} Holes that depend on it are not checked.`,
        key: text,
      };
    });
  },
};
