import { HAS, momentsWith } from "./course.ts";
import { counted, single, wordPlace } from "./one-place.ts";
import type { Check, CheckContext, Finding } from "./types.ts";
import { listed } from "./wording.ts";

export const coolantAtStop: Check = {
  id: "coolant-at-stop",
  family: "coolant",
  severity: "info",
  docs: {
    title: "Coolant runs while the program stops",
    what: "M0 or M1 while a coolant code is in force, on a control that does not switch it off by itself (`m0StopsCoolant`).",
    why: "The operator opens the door to look or to measure, into the jet.",
    formula: "",
    example: "T3 M6\nM8\nM1",
    better: "T3 M6\nM8\nM9\nM1",
    limits: "Silent where the dialect says that M0 and M1 stop the coolant (`m0StopsCoolant: true`).",
    source: "common practice, no source",
  },
  *detect(context) {
    if (!context.setup.dialect.m0StopsCoolant) yield* counted(found(context));
  },
};

function* found(context: CheckContext): Generator<readonly [string, Finding]> {
  for (const moment of momentsWith(context, HAS.stop)) {
    if ((moment.has & HAS.coolantOff) !== 0) continue;
    const { coolant } = context.execution.stepState(moment.step);
    if (coolant.length === 0) continue;
    const codes = listed(coolant);
    const message = `${codes} still runs while the program stops, and this control does not stop it (\`m0StopsCoolant\`). Way out: M9 before the stop.`;
    yield [codes, single("coolant-at-stop", "info", wordPlace(context, moment.block, "M", 0, 1), message)];
  }
}
