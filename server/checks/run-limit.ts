import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const runLimit: Check = {
  id: "run-limit",
  family: "flow",
  severity: "warning",
  docs: {
    title: "The program runs without end, or too long to be checked whole",
    what: "Loops, jumps, calls and repeats that make more blocks, holes or strokes than anybody would wait for: a counter that never rises, a jump back without a condition, a repeat count in a called program that is itself repeated.",
    why: "At the machine it never ends. Here it is stopped, and what comes after is not checked.",
    formula: "",
    example: "N10 #1 = #1 + 1\nGOTO 10",
    better: "#1 = 0\nN10 #1 = #1 + 1\nIF [#1 LT 8] GOTO 10",
    limits:
      "Per program 200 000 blocks and holes beyond its text (`maxLoopSteps` of the dialect) and 2 million strokes. A program that is meant to run on without end (a bar feeder) is checked for as many blocks as fit.",
    source: "none: a limit of this tool",
  },
  *detect(context) {
    yield* eventFindings("run-limit", eventsOf(context, "run-limit"), (event) => ({
      severity: "warning",
      message: sentence(said(event, "text", "the run was cut short")),
    }));
  },
};
