import { HAS, momentsWith } from "./course.ts";
import { eventFindings, eventsOf, levelOf, said, withWayOut } from "./events.ts";
import type { Check, CheckContext } from "./types.ts";

export const toolChange: Check = {
  id: "tool-change",
  family: "tool",
  severity: "warning",
  docs: {
    title: "A tool change that does not change the tool as meant",
    what: "M6 without a T, a T that is never loaded before metal is cut, a change while a cycle is active, which is an error where the next position drills with the new tool.",
    why: "The next holes are drilled with the tool of the operation before.",
    formula: "",
    example: "M6\nG43 H3 Z50.",
    better: "T3 M6\nG43 H3 Z50.",
    limits: "Staging the next tool early is normal and stays silent.",
    source: "NISTIR 6556 section 3.7.3; common practice",
  },
  *detect(context) {
    yield* eventFindings("tool-change", eventsOf(context, "tool-change"), (event) => ({
      severity: goesOn(context, event.span.block) ? "error" : levelOf(event, "warning"),
      message: withWayOut(
        said(event, "text", "this tool change does not load a tool"),
        "T with the number of the tool in the block of M6 or before it",
      ),
    }));
  },
};

/** The cycle was not ended before the change, and the next position drills with the new tool. */
function goesOn(context: CheckContext, block: number): boolean {
  const { execution } = context;
  for (const moment of momentsWith(context, HAS.toolChange)) {
    if (moment.block !== block || moment.cycleAfter === 0 || moment.firstRow < 0) continue;
    return execution.holesOfBlock(moment.firstRow).length > 0;
  }
  return false;
}
