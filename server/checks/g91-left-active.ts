import { AXES, courseOf, HAS, type Moment } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const g91LeftActive: Check = {
  id: "g91-left-active",
  family: "state",
  severity: "warning",
  docs: {
    title: "G91 of a move home is still in force at the next approach",
    what: "G91 that stands in the block of a G28 or G30, and an axis word after it before G90 comes back.",
    why: "The next approach is then an increment from where the machine stands: the tool goes to a place nobody wrote.",
    formula: "",
    example: "G90 G0 X10. Y10.\nG91 G28 Z0.\nG0 X20. Y20.\nG90",
    better: "G90 G0 X10. Y10.\nG91 G28 Z0.\nG90 G0 X20. Y20.",
    limits:
      "Programs that are in G91 before the move home stay silent, and so does a G91 that stands again in the approach itself. Turning codes of system A are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { moments } = courseOf(context);
    for (let i = 0; i < moments.length; i++) {
      const home = moments[i];
      if (home === undefined || !left(home)) continue;
      const block = nextMove(moments, i);
      if (block < 0 || context.execution.stepState(home.step).distance !== 91) continue;
      yield single(
        "g91-left-active",
        "warning",
        { in: "program", span: context.spanOf(0, block) },
        "This move is an increment: G91 of the move home is still in force. Way out: G90 after the move home, or G91 in this block where it is meant.",
        {
          related: [{ place: wordPlace(context, home.block, "G", 91), message: "G91 is set here" }],
        },
      );
    }
  },
};

const left = (home: Moment): boolean =>
  (home.has & HAS.home) !== 0 &&
  (home.has & HAS.incremental) !== 0 &&
  home.distanceBefore === 90 &&
  home.distanceAfter === 91;

/** Block of the first move after a move home that G90 or G91 has not been written for; -1 none. */
function nextMove(moments: readonly Moment[], from: number): number {
  for (let i = from; i < moments.length; i++) {
    const moment = moments[i];
    if (moment === undefined) break;
    if (i > from) {
      if ((moment.has & (HAS.absolute | HAS.incremental | HAS.call | HAS.end)) !== 0) return -1;
      const aside = HAS.home | HAS.machineMove | HAS.setPosition | HAS.localShift | HAS.writeOffsets;
      if ((moment.letters & AXES) !== 0 && (moment.has & aside) === 0) return moment.block;
    }
    if (moment.firstRow >= 0) return moment.firstRow;
  }
  return -1;
}
