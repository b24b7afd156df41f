import { courseOf, HAS } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { single, wordPlace } from "./one-place.ts";
import { LOW, topOf } from "./top.ts";
import type { Check } from "./types.ts";

export const offsetCancelledLow: Check = {
  id: "offset-cancelled-low",
  family: "tool",
  severity: "warning",
  docs: {
    title: "The length offset is cancelled while the tool stands low",
    what: "G49 or H0 while the tool is less than 5 mm above the top of the part, with no move home in this block or the next.",
    why: "The next Z is then read without the length: the tool goes down into the part by its own length.",
    formula: "Z < top + 5 mm",
    example: "G21 T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG49\nG0 Z50.",
    better: "G21 T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG49\nG53 G0 Z0.",
    limits:
      "Only where the height is known since the last tool change. The top is that of the declared stock, else the dialect's `stockTop`.",
    source: "common practice, no source; the 5 mm as well",
  },
  *detect(context) {
    const { moments } = courseOf(context);
    for (let i = 0; i < moments.length; i++) {
      const moment = moments[i];
      if (moment === undefined) continue;
      const next = moments[i + 1];
      const home = HAS.home | HAS.machineMove | HAS.end | HAS.toolChange;
      if ((moment.has & (HAS.lengthOff | HAS.lengthOn)) === 0 || (moment.has & home) !== 0) continue;
      if (moment.homeBefore || Number.isNaN(moment.fromZ) || moment.step === 0) continue;
      // A move home in the next block is what the cancelling is for.
      if (moment.firstRow < 0 && next !== undefined && (next.has & home) !== 0) continue;
      const limit = topOf(context).z + LOW;
      if (!(moment.fromZ < limit)) continue;
      const { execution } = context;
      const { lengthOffset: before, unsure } = execution.stepState(moment.step - 1);
      if (unsure.includes("lengthOffset")) continue;
      const after = execution.stepState(moment.step).lengthOffset;
      const off = after.code === 49 || after.h === 0;
      if (!off || before.code === 49 || before.h === 0) continue;
      const word = after.code === 49 ? "G49" : "H0";
      yield single(
        "offset-cancelled-low",
        "warning",
        word === "G49" ? wordPlace(context, moment.block, "G", 49) : wordPlace(context, moment.block, "H"),
        `${word} cancels the length offset with the tool at Z ${sayLength(moment.fromZ, context)}, under ${sayLength(limit, context)}: the next Z is read without the length of the tool. Way out: raise the tool first, or leave ${word} out until the tool is home.`,
        { data: { measured: moment.fromZ, limit, unit: "mm" } },
      );
    }
  },
};
