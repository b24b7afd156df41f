import { type Blocks, VALUE } from "../../grammar/blocks.ts";
import { courseOf, HAS, type Moment } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const shiftLeftActive: Check = {
  id: "shift-left-active",
  family: "state",
  severity: "warning",
  docs: {
    title: "A shift of the origin is left in force at the end",
    what: "G92 that is not cancelled by G92.1 or G92.2, or G52 that is not set back to zero, before M2 or M30.",
    why: "The next start of the program, or the next program, is shifted by it, and once more at each run.",
    formula: "",
    example: "G92 X10. Y0.\nG0 X0. Y0.\nM30",
    better: "G92 X10. Y0.\nG0 X0. Y0.\nG92.1\nM30",
    limits:
      "Some controls cancel G52 at M30, so for G52 it is information only. A G92 that sets the origin once, at the part, is told as well: turn it off where that is the habit. Turning codes of system A are not looked at.",
    source: "common practice, no source; NISTIR 6556 section 3.5.18 for G92",
  },
  *detect(context) {
    const { execution, setup } = context;
    if (setup.dialect.machineKind !== "mill") return;
    let position: Moment | null = null;
    let local: Moment | null = null;
    for (const moment of courseOf(context).moments) {
      if ((moment.has & HAS.setPosition) !== 0) position = moment;
      if ((moment.has & HAS.shiftOff) !== 0) position = null;
      if ((moment.has & HAS.localShift) !== 0) local = allZero(execution.blocks, moment.block) ? null : moment;
      if ((moment.has & HAS.end) === 0) continue;
      if (position !== null)
        yield single(
          "shift-left-active",
          "warning",
          wordPlace(context, position.block, "G", 92),
          `The shift of G92 is still in force at ${context.nameOf(moment.block)}, the end of the program: the next run begins shifted. Way out: G92.1 before the end, or a work offset in place of G92.`,
        );
      if (local !== null)
        yield single(
          "shift-left-active",
          "info",
          wordPlace(context, local.block, "G", 52),
          `The shift of G52 is still in force at ${context.nameOf(moment.block)}, the end of the program, unless the control cancels it there. Way out: G52 X0 Y0 Z0 before the end.`,
        );
      return;
    }
  },
};

function allZero(blocks: Blocks, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind < 88 || kind > 90) continue;
    if (blocks.form(item) === VALUE.expression || blocks.value(item) !== 0) return false;
  }
  return true;
}
