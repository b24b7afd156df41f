import type { ModalState } from "../program/types.ts";
import { courseOf, HAS, type Moment } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";
import { listed } from "./wording.ts";

export const skipChangesState: Check = {
  id: "skip-changes-state",
  family: "flow",
  severity: "off",
  docs: {
    title: "A block that can be skipped changes a mode",
    what: "Blocks with a block delete that switch spindle, coolant, tool, speed, units, work system, cycle or length offset for the blocks after them.",
    why: "With the switch the other way the rest of the program runs in another state: no coolant, another offset, another tool.",
    formula: "",
    example: "M8\n/M9\nG81 X0. Y0. Z-5. R2. F100.\nG80",
    better: "M8\nG81 X0. Y0. Z-5. R2. F100.\nG80\n/M9\nM9",
    limits:
      "Off unless the setup gives it a severity: programs are reviewed with the switches in both positions, and what goes wrong in one of them is told by the check it concerns. A mode that the next block sets anyway is not told.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution } = context;
    const { moments } = courseOf(context);
    for (let i = 0; i < moments.length; i++) {
      const first = moments[i];
      if (first === undefined || (first.has & HAS.skipped) === 0) continue;
      let last: Moment = first;
      while (next(moments, i, last)) last = moments[++i] ?? last;
      // At the end of the program nothing follows that could meet it.
      const after = last.step + 1;
      if (after >= execution.stepCount) continue;
      const then = moments[i + 1];
      if (then !== undefined && then.step === after && (then.has & HAS.end) !== 0) continue;
      const before = first.step === 0 ? null : execution.stepState(first.step - 1);
      if (before === null) continue;
      const state = execution.stepState(last.step);
      const following = execution.stepState(after);
      const changed = NAMED.filter(
        ({ of, word }) =>
          of(before) !== of(state) && of(following) === of(state) && following.from[word] === state.from[word],
      ).map(({ name }) => name);
      if (changed.length === 0) continue;
      yield single(
        "skip-changes-state",
        "info",
        { in: "program", span: context.spanOf(0, first.block) },
        `Whether this is skipped changes ${listed(changed)} for the blocks after it. Way out: set it again in a block that is always run, and check the program with the switch in both positions.`,
      );
    }
  },
};

/** The skipped blocks that follow each other are one. */
function next(moments: readonly Moment[], i: number, last: Moment): boolean {
  const moment = moments[i + 1];
  return moment !== undefined && (moment.has & HAS.skipped) !== 0 && moment.step === last.step + 1;
}

/** A value that the next block writes anew is the same both ways. */
const NAMED: readonly {
  readonly of: (state: ModalState) => unknown;
  readonly word: keyof ModalState["from"];
  readonly name: string;
}[] = [
  { of: (state) => state.spindle, word: "spindle", name: "the spindle" },
  { of: (state) => state.coolant.join(), word: "coolant", name: "the coolant" },
  { of: (state) => state.tool, word: "tool", name: "the tool" },
  { of: (state) => state.s, word: "s", name: "the speed" },
  { of: (state) => state.units, word: "units", name: "the units" },
  { of: (state) => state.wcs, word: "wcs", name: "the work system" },
  { of: (state) => state.cycle, word: "cycle", name: "the cycle" },
  {
    of: ({ lengthOffset }) => `${lengthOffset.code} ${lengthOffset.h}`,
    word: "lengthOffset",
    name: "the length offset",
  },
];
