import { eventFindings, eventsOf, levelOf, said } from "./events.ts";
import type { Check } from "./types.ts";
import { listed } from "./wording.ts";

export const cycleDataInherited: Check = {
  id: "cycle-data-inherited",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "A cycle takes its data from another cycle",
    what: "A cycle word is not written and is taken over from a cycle with another code that was still active.",
    why: "Controls differ: some keep R, Z, Q and P until G80, others want them again and stop. A depth from another tool's cycle is rarely the one that was meant.",
    formula: "",
    example: "G81 X10. Y10. Z-12. R2. F180.\nG83 X20. Q4.",
    better: "G81 X10. Y10. Z-12. R2. F180.\nG83 X20. Z-12. R2. Q4.",
    limits: "Silent where the dialect keeps data within one code only; then the word is missing.",
    source: "NISTIR 6556 section 3.5.16; common practice for controls that keep the data",
  },
  *detect(context) {
    yield* eventFindings("cycle-data-inherited", eventsOf(context, "cycle-data-inherited"), (event) => {
      const words = said(event, "word", "cycle data").split(/,\s*/);
      const several = words.length > 1;
      return {
        severity: levelOf(event, "warning"),
        message: `${listed(words)} ${several ? "are" : "is"} taken over from ${said(event, "cycle", "another cycle")}. Not every control does so. Way out: write ${several ? "them" : "it"} in this block.`,
      };
    });
  },
};
