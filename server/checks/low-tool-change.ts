import { HAS, momentsWith } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { single, wordPlace } from "./one-place.ts";
import { LOW, topOf } from "./top.ts";
import type { Check } from "./types.ts";

export const lowToolChange: Check = {
  id: "low-tool-change",
  family: "tool",
  severity: "warning",
  docs: {
    title: "The tool is changed while it stands low",
    what: "M6 with the tool less than 5 mm above the top of the part, on a control that does not retract by itself (`m6RetractsZ: false`).",
    why: "The changer swings, or the table moves to it, with the tool beside or in the part.",
    formula: "Z < top + 5 mm",
    example: "(with m6RetractsZ: false) G21 G80 G0 Z2.\nT3 M6",
    better: "(with m6RetractsZ: false) G21 G80 G0 Z2.\nG53 G0 Z0.\nT3 M6",
    limits: "Silent where M6 retracts by itself, and where the height is not known.",
    source: "common practice, no source; the 5 mm as well",
  },
  *detect(context) {
    if (context.setup.dialect.m6RetractsZ) return;
    const limit = topOf(context).z + LOW;
    for (const moment of momentsWith(context, HAS.toolChange)) {
      if (moment.homeBefore || (moment.has & (HAS.home | HAS.machineMove)) !== 0 || !(moment.fromZ < limit)) continue;
      yield single(
        "low-tool-change",
        "warning",
        wordPlace(context, moment.block, "M", 6),
        `The tool stands at Z ${sayLength(moment.fromZ, context)} when it is changed, under ${sayLength(limit, context)}, and this control does not raise it (\`m6RetractsZ\`). Way out: raise Z, or go home, before M6.`,
        { data: { measured: moment.fromZ, limit, unit: "mm" } },
      );
    }
  },
};
