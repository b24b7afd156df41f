import { ITEM } from "../../grammar/blocks.ts";
import { courseOf, HAS, type Moment } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check, CheckContext } from "./types.ts";

export const rigidTapStart: Check = {
  id: "rigid-tap-start",
  family: "tap",
  severity: "warning",
  docs: {
    title: "M29 is not followed by what rigid tapping needs",
    what: "M29 with no S in force, M3 or M4 between M29 and the tapping cycle, or M29 with no tapping cycle after it.",
    why: "M29 takes the spindle over at the S it is given; M3 after it gives it back, and the tap runs without being tied to the feed.",
    formula: "",
    example: "T9 M6\nG43 H9 Z50. M8\nG0 X0. Y0.\nM29 S300\nM3\nG84 Z-20. R5. F525.\nG80",
    better: "T9 M6\nG43 H9 Z50. M8\nG0 X0. Y0.\nM29 S300\nG84 Z-20. R5. F525.\nG80",
    limits: "Only where the dialect makes rigid tapping with M29 (`rigidTap`).",
    source: "common practice, no source",
  },
  *detect(context) {
    const { rigidTap } = context.setup.dialect;
    if (rigidTap !== "m29-before" && rigidTap !== "m29-in-block") return;
    const { moments } = courseOf(context);
    for (let i = 0; i < moments.length; i++) {
      const moment = moments[i];
      if (moment === undefined || (moment.has & HAS.rigidTap) === 0) continue;
      const place = wordPlace(context, moment.block, "M", 29);
      if (context.execution.stepState(moment.step).s === null)
        yield single(
          "rigid-tap-start",
          "warning",
          place,
          "M29 has no S, and none was written before it: the speed of the tap is whatever was left. Way out: S in the block of M29.",
        );
      if (rigidTap === "m29-before") yield* between(context, moments, i);
    }
  },
};

function* between(context: CheckContext, moments: readonly Moment[], from: number) {
  const start = moments[from];
  if (start === undefined || taps(context, start)) return;
  for (let i = from + 1; i < moments.length; i++) {
    const moment = moments[i];
    if (moment === undefined || (moment.has & (HAS.call | HAS.end)) !== 0) return;
    if ((moment.has & HAS.spindleOn) !== 0) {
      yield single(
        "rigid-tap-start",
        "warning",
        wordPlace(context, moment.block, "M", 3, 4, 13, 14),
        `The spindle is switched on between M29 and the tapping cycle: that ends rigid tapping. Way out: leave it out, or write it before M29 in ${context.nameOf(start.block)}.`,
        { related: [{ place: wordPlace(context, start.block, "M", 29), message: "M29 stands here" }] },
      );
      return;
    }
    if (taps(context, moment)) return;
    if ((moment.has & (HAS.cycle | HAS.toolChange)) === 0) continue;
    const place = wordPlace(context, start.block, "M", 29);
    const message = `After M29 comes no tapping cycle: ${context.nameOf(moment.block)} has another. Way out: M29 just before G84.`;
    yield single("rigid-tap-start", "warning", place, message);
    return;
  }
}

/** A tapping cycle stands in the block. */
function taps(context: CheckContext, { block }: Moment): boolean {
  const { blocks } = context.execution;
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (blocks.kind(item) === ITEM.comment || blocks.kind(item) !== 71) continue;
    const kind = context.setup.dialect.cycles.get(Math.round(blocks.value(item) * 10));
    if (kind === "tap" || kind === "tap-left") return true;
  }
  return false;
}
