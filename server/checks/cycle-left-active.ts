import { HAS, momentsWith } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const cycleLeftActive: Check = {
  id: "cycle-left-active",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "A cycle is still active where the tool goes home",
    what: "G28, G30 or G53 in a block that does not end the drilling cycle in force.",
    why: "Every X or Y that follows drills one more hole, with the levels of the last run, until G80 or a motion code comes.",
    formula: "",
    example: "G81 X0. Y0. Z-5. R2. F100.\nG91 G28 Z0.\nG90",
    better: "G81 X0. Y0. Z-5. R2. F100.\nG80\nG91 G28 Z0.\nG90",
    limits:
      "T words in a cycle run stay silent, since many stage the next tool there; M6 in a run is told by `tool-change`, the end of the program by `end-state`. Turning codes of system A are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    for (const moment of momentsWith(context, HAS.home | HAS.machineMove)) {
      if (moment.cycleBefore === 0 || moment.cycleAfter === 0) continue;
      const { cycle } = context.execution.stepState(moment.step);
      if (cycle === 0) continue;
      const place = wordPlace(context, moment.block, "G", 28, 30, 53);
      yield single(
        "cycle-left-active",
        "warning",
        place,
        `The cycle G${cycle / 10} is still active on the way home: the next X or Y drills another hole. Way out: G80 before it.`,
      );
    }
  },
};
