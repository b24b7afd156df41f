import { HAS, momentsWith } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const stopInRun: Check = {
  id: "stop-in-run",
  family: "flow",
  severity: "off",
  docs: {
    title: "A stop stands inside a cycle run or before the length offset",
    what: "M0 or M1 while a drilling cycle is active, or between M6 and the length offset of the tool.",
    why: "Who jogs the machine at the stop and presses start drills at the next X or Y, or comes down without a length.",
    formula: "",
    example: "G81 X0. Y0. Z-5. R2. F100.\nM1\nX10.\nG80",
    better: "G81 X0. Y0. Z-5. R2. F100.\nX10.\nG80\nM1",
    limits:
      "Off unless the setup gives it a severity: stops to measure a first hole or to look at a new tool are normal.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution, setup } = context;
    let owed = false;
    for (const moment of momentsWith(context, HAS.stop | HAS.toolChange | HAS.lengthOn)) {
      if ((moment.has & HAS.lengthOn) !== 0) owed = false;
      else if ((moment.has & HAS.toolChange) !== 0) owed = setup.dialect.tloWord !== "auto";
      if ((moment.has & HAS.stop) === 0) continue;
      const cycle = moment.cycleBefore === 0 ? 0 : execution.stepState(moment.step).cycle;
      if (cycle === 0 && !owed) continue;
      const where =
        cycle !== 0 ? `while G${cycle / 10} is active` : "after M6 and before the length offset of the tool";
      const out = cycle !== 0 ? "G80 before it and the cycle anew after it" : "the stop before M6 or after G43";
      yield single(
        "stop-in-run",
        "info",
        wordPlace(context, moment.block, "M", 0, 1),
        `The program stops ${where}: a start after jogging goes on from another place. Way out: ${out}.`,
      );
    }
  },
};
