import { eventFindings, eventsOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";

export const modalLeak: Check = {
  id: "modal-leak",
  family: "flow",
  severity: "info",
  docs: {
    title: "A called program leaves other modes behind than it found",
    what: "G90/G91, the plane, the units, the feed mode or the work coordinate system differ after a call from what they were before it.",
    why: "The next block of the caller moves in a mode that nobody sees in its text; an approach that turns out incremental scraps the part.",
    formula: "",
    example: "G90\nM98 P1002\nM30\nO1002\nG91\nM99",
    better: "G90\nM98 P1002\nM30\nO1002\nG91\nG90\nM99",
    limits: "Some programs do so on purpose: then switch this check off in the setup.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("modal-leak", eventsOf(context, "modal-leak"), (event) => {
      const text = said(event, "text", "a called program leaves other modes behind");
      return { severity: "info", message: sentence(text), key: text };
    });
  },
};
