import { perCause } from "./cause.ts";
import { tooFast } from "./interrupted.ts";
import type { Check } from "./types.ts";

export const interruptedExit: Check = {
  id: "interrupted-exit",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The feed is too high for an interrupted exit",
    what: "The feed of every stroke by which the drill leaves the metal on one side before the other: an inclined underside, an edge, a cross bore that it breaks into and does not come out of.",
    why: "The side that is free pulls the drill over, the corner hooks in the last metal, and the edge breaks at the very end of a good hole.",
    formula: "As for an interrupted entry, over the part of the depth in which the drill comes out",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT EXIT INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R2. F200.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT EXIT INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R2. F90.\nG80 M9\nM30\n%",
    limits:
      "Known only from an exit note or from stock in the setup. A note tells no height: the drill is taken to be wholly through at the end of the hole.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause(
      "interrupted-exit",
      context,
      tooFast(context, (zone) => zone.where === "exit"),
    );
  },
};
