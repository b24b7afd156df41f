import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const mainReturn: Check = {
  id: "main-return",
  family: "flow",
  severity: "info",
  docs: {
    title: "M99 at the main level starts the program over",
    what: "An M99 that no call leads to.",
    why: "The control goes back to the first block and runs on without end. Bar work does so on purpose; elsewhere an M30 was meant.",
    formula: "",
    example: "G0 X5.\nM99",
    better: "G0 X5.\nM30",
    limits: "A subprogram that is opened by itself ends so too.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("main-return", eventsOf(context, "main-return"), (event) => ({
      severity: "info",
      message: sentence(said(event, "text", "M99 at the main level starts the program over")),
    }));
  },
};
