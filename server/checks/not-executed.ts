import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const notExecuted: Check = {
  id: "not-executed",
  family: "flow",
  severity: "warning",
  docs: {
    title: "A code is read but what it does is not followed",
    what: "Codes whose effect only the control or the machine knows: measuring moves, returns from the reference point, and the like. The blocks after them are worked out with what is then unknown.",
    why: "Positions after them may be unknown, so silence about the holes there means nothing.",
    formula: "",
    example: "G31 Z-5. F100.",
    better: "G1 Z-5. F100.",
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
