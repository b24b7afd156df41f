import { courseOf } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { counted, single } from "./one-place.ts";
import type { Check } from "./types.ts";

export const lowRapid: Check = {
  id: "low-rapid",
  family: "place",
  severity: "warning",
  docs: {
    title: "A rapid goes across below the clamps",
    what: "G0 with X or Y and no cycle active, while the tool stands below the height of the clamps that the dialect declares (`clampHeight`). Rapids between the holes of a cycle are told by `dialect-rule`.",
    why: "After G99 and G80 the tool stands at R; a move to the next place, or to the next work system, goes through whatever stands between.",
    formula: "Z < clampHeight",
    example: "(with clampHeight: 40) G21 G0 Z5.\nG0 X100.",
    better: "(with clampHeight: 40) G21 G0 Z50.\nG0 X100.",
    limits: "Off without `clampHeight`. Where the clamps stand is not known: every low rapid across counts.",
    source: "the shop's own limit",
  },
  *detect(context) {
    const limit = context.setup.dialect.clampHeight;
    if (limit === null) return;
    const found = courseOf(context).across.map(({ block, toZ }) => {
      const message = `This rapid goes across at Z ${sayLength(toZ, context)}, the clamps are ${sayLength(limit, context)} high (\`clampHeight\`). Way out: raise Z above them first.`;
      const place = { in: "program", span: context.spanOf(0, block) } as const;
      const finding = single("low-rapid", "warning", place, message, {
        data: { measured: toZ, limit, unit: "mm" },
      });
      return [`${toZ}`, finding] as const;
    });
    yield* counted(found);
  },
};
