import { say } from "../units/wording.ts";
import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const cycleDepthOrder: Check = {
  id: "cycle-depth-order",
  severity: "error",
  docs: {
    title: "The numbers of a cycle cannot be right",
    what: "The R plane below the bottom of the hole, a peck of zero or less, a repeat count that is no count.",
    why: "R below Z usually means a lost minus sign or a bare Z move while the cycle was still active: the drill would be driven down at rapid. A peck of zero never reaches the bottom.",
    formula: "R >= Z, Q > 0",
    example: "G81 X10. Y10. Z25. R2. F180.",
    better: "G81 X10. Y10. Z-25. R2. F180.",
    limits: "Whether the depth is the right depth is not known here.",
    source: "NISTIR 6556 section 3.5.16 and reference behaviour",
  },
  *detect(context) {
    const events = eventsOf(context, "r-below-z", "cycle-word-bad");
    // The event tells the levels as the program writes them.
    const mm = context.system === "inch" ? 25.4 : 1;
    yield* eventFindings("cycle-depth-order", events, (event) => {
      if (event.kind === "r-below-z") {
        const { r, z } = event.data;
        const known = typeof r === "number" && typeof z === "number";
        const levels = known
          ? `R ${say(r * mm, "length", context.system)} lies below the bottom ${say(z * mm, "length", context.system)}`
          : "R lies below the bottom";
        return {
          severity: levelOf(event, "error"),
          message: `${levels}. Way out: the sign of Z, or G80 before a move that is no hole.`,
          data: known ? { measured: r * mm, limit: z * mm, unit: "mm" } : null,
        };
      }
      const word = said(event, "word", "the word");
      const value = event.data.value;
      return {
        severity: levelOf(event, "error"),
        message: sentence(
          said(event, "text", `${word}${said(event, "value", "")} is not possible: ${word} must be more than zero`),
        ),
        data: typeof value === "number" ? { measured: value, limit: 0, unit: "" } : null,
      };
    });
  },
};
