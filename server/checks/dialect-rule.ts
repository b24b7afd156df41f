import type { Span } from "../text/place.ts";
import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import { slipsOf } from "./missing-point.ts";
import type { Check, CheckContext } from "./types.ts";

const letterAt = ({ execution: { blocks } }: CheckContext, { block, start }: Span): string =>
  blocks.textOf(block).charAt(start).toUpperCase();

export const dialectRule: Check = {
  id: "dialect-rule",
  family: "reading",
  severity: "error",
  docs: {
    title: "This control refuses the block or reads it differently",
    what: "Words that conflict, are missing, or that the control in the setup reads in a way of its own: two G codes of one group, axis words with nothing to use them, a plane or unit change inside a cycle.",
    why: "The block stops the machine, or does something else than on the control it was written for.",
    formula: "",
    example: "G90 G91 G0 X10.",
    better: "G91 G0 X10.",
    limits: "Rules come from the dialect in the setup. A key that is set wrong there gives wrong findings here.",
    source: "NISTIR 6556 for `nist`; common practice, no source, for `generic-mill`",
  },
  *detect(context) {
    const slips = slipsOf(context);
    const events = eventsOf(context, "dialect", "plane-change-in-cycle", "units-change-in-cycle").filter(
      // Told as an error by `missing-point`, with its word.
      ({ data, span }) => data.rule !== "missing-point" || !slips.has(letterAt(context, span)),
    );
    yield* eventFindings("dialect-rule", events, (event) => {
      if (event.kind === "plane-change-in-cycle") {
        return {
          severity: levelOf(event, "error"),
          message: sentence(
            said(
              event,
              "text",
              "the plane changes while a cycle is active: its depth would be read on another axis. Way out: G80 first, then the plane",
            ),
          ),
        };
      }
      if (event.kind === "units-change-in-cycle") {
        return {
          severity: levelOf(event, "error"),
          message: sentence(
            said(
              event,
              "text",
              "the units change while a cycle is active: its R, Z and Q keep their numbers in the other unit. Way out: G80 first, then the unit, then the cycle with all its words",
            ),
          ),
        };
      }
      const severity = levelOf(event, "warning");
      const message = sentence(said(event, "text", "this control reads the block differently"));
      return severity === "error" ? { severity, message } : { severity, message, key: message };
    });
  },
};
