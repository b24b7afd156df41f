import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const flowStructure: Check = {
  id: "flow-structure",
  family: "flow",
  severity: "error",
  docs: {
    title: "A jump or loop has no partner, or a wrong one",
    what: "GOTO to a block that is not in the program or stands twice, DO without END, loops that cross, loop numbers other than 1 to 3, jumps into a loop.",
    why: "The control stops there with an alarm, with the tool where it happens to be; a number that stands twice goes to the wrong block.",
    formula: "",
    example: "#1 = 1\nWHILE [#1 LT 4] DO1\n#1 = #1 + 1\nEND2",
    better: "#1 = 1\nWHILE [#1 LT 4] DO1\n#1 = #1 + 1\nEND1",
    limits: "Only what a run meets is told of jumps; loops are looked at in the whole text.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("flow-structure", eventsOf(context, "flow"), (event) => {
      const text = said(event, "text", "this jump leads nowhere");
      return { severity: levelOf(event, "error"), message: sentence(text), key: `${event.span.block}${text}` };
    });
  },
};
