import { ACROSS, HAS, momentsWith } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const cycleAtHome: Check = {
  id: "cycle-at-home",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "A cycle is called where the machine stands, without X and Y",
    what: "The first block of a cycle has no X and no Y, and none was written since the tool change or the move home.",
    why: "Most controls drill at once where the spindle stands: at the tool change position, over a clamp or the table.",
    formula: "",
    example: "T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG99 G81 Z-5. R2. F450.\nX10. Y10.\nG80",
    better: "T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG0 X10. Y10.\nG99 G81 Z-5. R2. F450.\nX20.\nG80",
    limits:
      "A block that only sets the cycle up (repeat 0, or a dialect with `cycleWithoutXy: store`) is silent. Turning codes of system A are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    if (context.setup.dialect.cycleWithoutXy === "store" || context.setup.dialect.machineKind !== "mill") return;
    for (const moment of momentsWith(context, HAS.cycle)) {
      if (moment.placed || (moment.letters & ACROSS) !== 0 || moment.cycleBefore !== 0) continue;
      // Nothing was drilled: it only stores.
      if (context.execution.holesOfBlock(moment.block).length === 0) continue;
      const code = context.execution.stepState(moment.step).cycle / 10;
      yield single(
        "cycle-at-home",
        "warning",
        wordPlace(context, moment.block, "G", code),
        `G${code} without X and Y drills where the machine stands after the tool change or the move home. Way out: X and Y of the first hole before it, or L0 in this block.`,
      );
    }
  },
};
