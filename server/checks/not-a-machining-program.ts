import { eventFindings, eventsOf } from "./events.ts";
import type { Check } from "./types.ts";

export const notAMachiningProgram: Check = {
  id: "not-a-machining-program",
  family: "reading",
  severity: "error",
  docs: {
    title: "This is a drill tape for circuit boards",
    what: "The header of a printed-circuit drill file. It shares letters with machining programs, not their meaning.",
    why: "Its numbers would be read as holes in metal, and a gate would let pass what nobody has checked.",
    formula: "",
    example: "M48\nMETRIC,TZ\nT01C0.800\n%\nT01\nX0100Y0200\nM30",
    better: "G21 G90\nT1 M6\nG0 X10. Y20.\nM30",
    limits: "Only the usual header is known.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("not-a-machining-program", eventsOf(context, "not-a-machining-program"), () => ({
      severity: "error",
      message:
        "This is a drill tape for circuit boards (M48 and what follows are its header), not a machining program: it is refused, and nothing in it was checked.",
      key: "one",
    }));
  },
};
