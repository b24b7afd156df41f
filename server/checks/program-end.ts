import { eventFindings, eventsOf, levelOf, said, withWayOut } from "./events.ts";
import type { Check } from "./types.ts";

export const programEnd: Check = {
  id: "program-end",
  family: "flow",
  severity: "warning",
  docs: {
    title: "The program has no end",
    what: "No M2, no M30 and no closing %.",
    why: "The control stops with an alarm at the end of the file, with spindle and coolant still on. Often the file was cut off on its way to the machine.",
    formula: "",
    example: "%\nG21 G90 G0 X10.",
    better: "%\nG21 G90 G0 X10.\nM30\n%",
    limits: "A subprogram that ends with M99 is not one that needs M30.",
    source: "NISTIR 6556 section 3.1 and reference behaviour",
  },
  *detect(context) {
    const required = context.setup.dialect.programEnd === "required";
    yield* eventFindings("program-end", eventsOf(context, "no-end"), (event) => ({
      severity: levelOf(event, required ? "error" : "warning"),
      message: withWayOut(said(event, "text", "the program has no end"), "M30 on the last block"),
    }));
  },
};
