import { HAS, momentsWith } from "./course.ts";
import { counted, single, wordPlace } from "./one-place.ts";
import type { Check, CheckContext, Finding } from "./types.ts";
import { listed } from "./wording.ts";

export const coolantAtChange: Check = {
  id: "coolant-at-change",
  family: "coolant",
  severity: "info",
  docs: {
    title: "Coolant runs while the tool is changed",
    what: "M6 while a coolant code is in force, on a control that does not switch it off by itself (`m6StopsCoolant: false`).",
    why: "Coolant, above all that through the spindle, sprays the changer and the cone of the next holder.",
    formula: "",
    example: "(with m6StopsCoolant: false) M8\nT3 M6",
    better: "(with m6StopsCoolant: false) M9\nT3 M6",
    limits:
      "Silent where the dialect says that M6 stops the coolant. Stops of the program are told by `coolant-at-stop`.",
    source: "common practice, no source",
  },
  *detect(context) {
    if (!context.setup.dialect.m6StopsCoolant) yield* counted(found(context));
  },
};

function* found(context: CheckContext): Generator<readonly [string, Finding]> {
  for (const moment of momentsWith(context, HAS.toolChange)) {
    if (moment.step === 0 || (moment.has & HAS.coolantOff) !== 0) continue;
    const { coolant } = context.execution.stepState(moment.step - 1);
    if (coolant.length === 0) continue;
    const codes = listed(coolant);
    const message = `${codes} still runs while the tool is changed, and this control does not stop it (\`m6StopsCoolant\`). Way out: M9 before M6.`;
    yield [codes, single("coolant-at-change", "info", wordPlace(context, moment.block, "M", 6), message)];
  }
}
