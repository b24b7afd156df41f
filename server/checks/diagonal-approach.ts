import { courseOf } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { counted, single } from "./one-place.ts";
import { LOW, topOf } from "./top.ts";
import type { Check } from "./types.ts";

export const diagonalApproach: Check = {
  id: "diagonal-approach",
  family: "place",
  severity: "info",
  docs: {
    title: "One rapid goes down and across at once",
    what: "G0 with Z and with X or Y in one block that ends less than 5 mm above the top of the part, coming from above.",
    why: "On controls that do not keep to a line at rapid the axes arrive one after the other: the tool may be low long before it is over its place.",
    formula: "Z < top + 5 mm",
    example: "G21 G0 Z50.\nG0 X10. Y10. Z2.",
    better: "G21 G0 Z50.\nG0 X10. Y10.\nZ2.",
    limits:
      "Silent where the dialect declares straight rapids (`rapidPath: linear`), and on turning machines. What stands in the way is not known, so it is information only.",
    source: "common practice, no source; the 5 mm as well",
  },
  *detect(context) {
    const { rapidPath, machineKind } = context.setup.dialect;
    if (rapidPath === "linear" || machineKind !== "mill") return;
    const limit = topOf(context).z + LOW;
    const found = courseOf(context)
      .diagonal.filter(({ toZ }) => toZ < limit)
      .map(({ block, toZ }) => {
        const message = `This rapid goes across and down to Z ${sayLength(toZ, context)} at once, below ${sayLength(limit, context)}: the axes need not arrive together (\`rapidPath\`). Way out: X and Y first, then Z.`;
        const place = { in: "program", span: context.spanOf(0, block) } as const;
        const data = { measured: toZ, limit, unit: "mm" };
        return ["", single("diagonal-approach", "info", place, message, { data })] as const;
      });
    yield* counted(found);
  },
};
