import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const subprogram: Check = {
  id: "subprogram",
  family: "flow",
  severity: "warning",
  docs: {
    title: "A called program is missing, has no return, or calls itself",
    what: "M98, G65, G66 and structured calls whose program stands neither in the file nor among the setup's subprograms; called programs without M99; calls nested deeper than the control goes.",
    why: "What a missing program drills is not seen, so silence about it means nothing. A missing M99 or a call too deep stops the control in mid-job.",
    formula: "",
    example: "M98 P1002",
    better: "M98 P1002\nM30\nO1002\nG0 X5.\nM99",
    limits:
      "A program that is stored in the control only cannot be seen; `subprograms` in the setup names the files it is kept in.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("subprogram", eventsOf(context, "subprogram"), (event) => {
      const text = said(event, "text", "a called program could not be followed");
      return { severity: levelOf(event, "warning"), message: sentence(text), key: text };
    });
  },
};
