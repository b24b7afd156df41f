import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const unknownBranch: Check = {
  id: "unknown-branch",
  family: "flow",
  severity: "info",
  docs: {
    title: "A condition depends on a value that is not known",
    what: "IF, WHILE and repeat whose condition, and calls and cycles whose count, needs a variable that the program does not set: a system variable, a retained one, an argument.",
    why: "Both ways are run and checked, and what differs after them is unknown: fewer positions and loads can be checked there.",
    formula: "",
    example: "IF [#500 EQ 1] GOTO 20\nG0 X5.\nN20 M30",
    better: "#500 = 1\nIF [#500 EQ 1] GOTO 20\nG0 X5.\nN20 M30",
    limits:
      "Of a loop, call or cycle of unknown length the first two turns are seen. Holes of two ways are not compared with each other, and a hole that only some ways drill counts neither as a pilot nor as a neighbour of one after the ways have met.",
    source: "none: how this tool reads what it cannot know",
  },
  *detect(context) {
    yield* eventFindings("unknown-branch", eventsOf(context, "branch"), (event) => {
      const text = said(event, "text", "a condition is not known");
      return { severity: "info", message: sentence(text), key: `${event.span.block}${text}` };
    });
  },
};
