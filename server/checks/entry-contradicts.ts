import type { EngagementClass } from "../loads/types.ts";
import { type Candidate, contactPlace, entryKey, metalHoles, perCause } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import { entryWords } from "./entry-words.ts";
import type { Check, CheckContext } from "./types.ts";

export const entryContradicts: Check = {
  id: "entry-contradicts",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The note and the stock tell two different entries",
    what: "The class of the entry that a cut note or `entries:` tells, against the class that the declared stock and the holes drilled before come to.",
    why: "One of the two is wrong, and the note is the one that rules: a feed that is right for the note may break the drill on the part.",
    formula: "the classes lie two steps or more apart (none, light, medium, heavy, extreme)",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-40. R12. F90.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-40. R2. F180.\nG80 M9\nM30\n%",
    limits: "Only where stock is declared and its place is known. A skin is no matter of form: it is not compared.",
    source: "classes: common practice, no source",
  },
  *detect(context) {
    yield* perCause("entry-contradicts", context, candidates(context));
  },
};

const ORDER: readonly EngagementClass[] = ["none", "light", "medium", "heavy", "extreme"];
const STEPS = 2;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { entry } = hole.shape;
    const { engagement } = hole.loads;
    if (entry === null || engagement === null || engagement.byPart === null || engagement.skin) continue;
    const apart = ORDER.indexOf(engagement.class) - ORDER.indexOf(engagement.byPart);
    if (Math.abs(apart) < STEPS) continue;
    // A chain is told once for its run, and the first of its holes has nothing beside it yet.
    if (entry.form.kind === "chain" && apart > 0) continue;
    const told = entryWords(entry.form, context.system);
    const whole = engagement.byPart === "none" ? "an entry that is not interrupted" : `class ${engagement.byPart}`;
    const by = entry.from === "note" ? "The note" : "The entry in the setup";
    const grave =
      apart > 0
        ? `${by} rules: its feed costs time if the stock is right`
        : `${by} rules: its feed is too high if the stock is right`;
    yield {
      key: `${entryKey(hole)}`,
      severity: "warning",
      weight: Math.abs(apart),
      place: contactPlace(context, hole),
      hole,
      message: `${by} tells ${told} (class ${engagement.class}), the stock and the holes drilled before come to ${whole}. ${grave}. Way out: look at the drawing, and put right ${entry.from === "note" ? "the note" : "`entries:`"} or \`stock:\` of the workpiece.`,
      data: null,
      related: entryTold(context, hole),
    };
  }
}
