import { sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const setupCheck: Check = {
  id: "setup",
  severity: "error",
  docs: {
    title: "The setup has a fault",
    what: "A value in swarfline.yaml or in a tool table that cannot be read, a name that leads nowhere, a severity for a check that does not exist.",
    why: "What the value should have limited is unknown, and nothing is checked against it.",
    formula: "",
    example: "spindle: { maxRpm: ten thousand }",
    better: "spindle: { maxRpm: 10000 }",
    limits: "That a value is the right one for the machine is not known.",
    source: "none: a form of this tool",
  },
  *detect(context) {
    for (const problem of context.setup.problems) {
      yield {
        check: "setup",
        severity: problem.severity,
        place: { in: "file", file: problem.file, ...problem.range },
        message: sentence(problem.message),
        count: 1,
        related: [],
        data: null,
        operation: -1,
      };
    }
  },
};
