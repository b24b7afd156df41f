import { HAS, momentsWith } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const returnLevel: Check = {
  id: "return-level",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "G98 after G99 in one run returns only to R",
    what: "G98 in a cycle run that began with G99, on a control that takes the level before each block as the initial level.",
    why: "The tool stands at R when the block begins, so G98 returns to R: the clamp that G98 was to clear is hit.",
    formula: "",
    example: "(with initialLevel: before-block) G99 G81 X0. Y0. Z-5. R2. F100.\nG98 X10.\nX90.",
    better: "(with initialLevel: before-block) G98 G81 X0. Y0. Z-5. R2. F100.\nX10.\nX90.",
    limits: "Only where the dialect says `initialLevel: before-block`.",
    source: "NISTIR 6556 section 3.5.16: the level is that at the start of the block",
  },
  *detect(context) {
    const { execution, setup } = context;
    if (setup.dialect.initialLevel !== "before-block") return;
    for (const moment of momentsWith(context, HAS.returnLevel)) {
      if (moment.step === 0 || moment.cycleBefore === 0 || moment.cycleAfter === 0) continue;
      if (execution.stepState(moment.step - 1).returnMode !== 99) continue;
      if (execution.stepState(moment.step).returnMode !== 98) continue;
      yield single(
        "return-level",
        "warning",
        wordPlace(context, moment.block, "G", 98),
        "This control returns to the level before the block, which after G99 is R: G98 does not clear more. Way out: G98 from the start of the run, or G80 and a Z above the clamps first.",
      );
    }
  },
};
