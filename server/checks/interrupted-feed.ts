import { perCause } from "./cause.ts";
import { tooFast } from "./interrupted.ts";
import type { Check } from "./types.ts";

export const interruptedFeed: Check = {
  id: "interrupted-feed",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The feed is too high for an interrupted cut",
    what: "The feed of every stroke that passes a zone where the drill is in metal for part of the turn only: incline, edge, ridge, curved face, chain of holes, skin.",
    why: "The insert or lip hits metal once a turn and the other side has nothing to lean on: the drill is pushed aside, edges break out, the hole runs off.",
    formula:
      "allowed = max(fMin, share of the class · nominal feed of the tool's window). Within 10 % over: silence. Above: warning. Above 1.5 x allowed in class heavy or extreme: error",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R12. F200.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R12. F90.\nG80 M9\nM30\n%",
    limits:
      "The face is known only from a cut note, from `entries:` or from the stock in the setup and the holes drilled before; without stock the part counts as flat on top. The share is of the window's nominal feed, never of the programmed one. A cycle cannot change its feed on the way: the hole must be written out, which the editor proposes where it can.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause(
      "interrupted-feed",
      context,
      tooFast(context, (zone) => zone.where !== "exit"),
    );
  },
};
