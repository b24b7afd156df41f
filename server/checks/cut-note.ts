import { problemsInside } from "../program/marks.ts";
import { sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const cutNote: Check = {
  id: "cut-note",
  family: "reading",
  severity: "warning",
  docs: {
    title: "A cut note cannot be read",
    what: "A comment that begins with CUT and is no note that Swarfline knows, or an allowance that names no check.",
    why: "The drawing's fact that it should carry is then not used: an inclined entry counts as flat.",
    formula: "",
    example: "(CUT ENTRY INCLINE STEEP)",
    better: "(CUT ENTRY INCLINE 30 DEG)",
    limits: "That the note says what the drawing says is not known.",
    source: "none: a form of this tool",
  },
  *detect(context) {
    for (const problem of problemsInside(context.execution.blocks)) {
      if (problem.code !== "cut-note") continue;
      yield {
        check: "cut-note",
        severity: "warning",
        place: { in: "program", span: problem.span },
        message: sentence(problem.text),
        count: 1,
        related: [],
        data: null,
        operation: -1,
      };
    }
  },
};
