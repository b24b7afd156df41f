import { eventFindings, eventsOf, levelOf, said } from "./events.ts";
import type { Check } from "./types.ts";

const MEANING: { readonly [word: string]: string } = {
  R: "the level where the feed begins",
  Z: "the depth",
  Y: "the depth",
  X: "the depth",
  Q: "the depth of one peck",
  P: "the dwell",
};

export const cycleWordMissing: Check = {
  id: "cycle-word-missing",
  family: "cycle",
  severity: "error",
  docs: {
    title: "A cycle is called without a word that it needs",
    what: "R, Z, Q or P missing when a cycle is first called.",
    why: "The control stops, or takes a value from an earlier cycle: R from another hole is a crash.",
    formula: "",
    example: "G83 X10. Y10. Z-30. R2. F120.",
    better: "G83 X10. Y10. Z-30. R2. Q6. F120.",
    limits: "Which words may be left out differs between controls; the dialect says it.",
    source: "NISTIR 6556 section 3.5.16 and reference behaviour",
  },
  *detect(context) {
    yield* eventFindings("cycle-word-missing", eventsOf(context, "cycle-word-missing"), (event) => {
      const word = said(event, "word", "a word");
      const cycle = said(event, "cycle", "the cycle");
      const meaning = MEANING[word];
      const plane = said(event, "plane", "");
      if (plane !== "")
        return {
          severity: levelOf(event, "error"),
          message: `${cycle} drills along ${word} while ${plane} is in force, and has no ${word}. Way out: G17 before it, or ${word} where a right-angle head is in use.`,
        };
      return {
        severity: levelOf(event, "error"),
        message: `${cycle} needs ${word}${meaning === undefined ? "" : `, ${meaning}`}, and none was given since the cycle began. Way out: write ${word} in this block.`,
      };
    });
  },
};
