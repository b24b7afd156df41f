import { courseOf, HAS, type Moment } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";
import { listed } from "./wording.ts";

export const startLine: Check = {
  id: "start-line",
  family: "state",
  severity: "off",
  docs: {
    title: "A tool's section does not set its modes",
    what: "After M6 and before its first hole, a tool's section does not write G90, a work system and G80 of its own.",
    why: "Who restarts at this tool starts with the modes of wherever the program was stopped.",
    formula: "",
    example: "T3 M6\nS2500 M3\nG0 X0. Y0.\nG43 H3 Z50. M8\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    better: "T3 M6\nS2500 M3\nG90 G54 G80 G0 X0. Y0.\nG43 H3 Z50. M8\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    limits: "Off unless the setup gives it a severity: it is a matter of style.",
    source: "common practice, no source",
  },
  *detect(context) {
    if (context.setup.dialect.machineKind !== "mill") return;
    let change: Moment | null = null;
    let has = 0;
    for (const moment of courseOf(context).moments) {
      if ((moment.has & HAS.toolChange) !== 0) {
        change = moment;
        has = 0;
      }
      has |= moment.has;
      if (change === null || (moment.has & HAS.cycle) === 0) continue;
      const missing = WANTED.filter(([bit]) => (has & bit) === 0).map(([, word]) => word);
      if (missing.length > 0)
        yield single(
          "start-line",
          "info",
          wordPlace(context, change.block, "M", 6),
          `Between this tool change and its first hole there is no ${listed(missing)}: a restart here takes the modes of before. Way out: a line with ${listed(missing)} after M6.`,
        );
      change = null;
    }
  },
};

const WANTED = [
  [HAS.absolute, "G90"],
  [HAS.workSystem, "work system"],
  [HAS.cancel, "G80"],
] as const;
