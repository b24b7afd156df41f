import { ACROSS, courseOf, HAS, type Moment, Z_WORD } from "./course.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import { LOW, topOf } from "./top.ts";
import type { Check, CheckContext } from "./types.ts";

export const workSystemLow: Check = {
  id: "work-system-low",
  family: "place",
  severity: "warning",
  docs: {
    title: "The tool goes low to the next work system",
    what: "Another work system (G54 and on) is taken with the tool less than 5 mm above the top of the part, and the next move goes across before Z is raised.",
    why: "Between two fixtures stand clamps, stops and the edge of the vise; and the height of the next zero is another one.",
    formula: "Z < top + 5 mm",
    example: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG0 X0. Y0.",
    better: "G21 G90 G54\nS2500 M3\nM8\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nG0 Z50.\nG55\nG0 X0. Y0.",
    limits:
      "Silent where the height is not known: after a move home, a tool change or a shift. The heights of the clamps are not known; `clampHeight` of the dialect tells them to `low-rapid`.",
    source: "common practice, no source; the 5 mm as well",
  },
  *detect(context) {
    const { execution } = context;
    const { moments } = courseOf(context);
    const limit = topOf(context).z + LOW;
    for (const [i, moment] of moments.entries()) {
      if ((moment.has & HAS.workSystem) === 0 || moment.step === 0 || moment.homeBefore || !(moment.fromZ < limit))
        continue;
      const { wcs } = execution.stepState(moment.step);
      if (wcs === execution.stepState(moment.step - 1).wcs || !goesAcross(context, moment, moments[i + 1])) continue;
      const message = `${wcs} is taken with the tool at Z ${sayLength(moment.fromZ, context)}, under ${sayLength(limit, context)}, and the next move goes across without a retract. Way out: raise Z, or go home, before ${wcs}.`;
      yield single("work-system-low", "warning", { in: "program", span: context.spanOf(0, moment.block) }, message, {
        data: { measured: moment.fromZ, limit, unit: "mm" },
      });
    }
  },
};

/** The first block with an axis word, from that of the code on, goes across and not along Z. */
function goesAcross(context: CheckContext, moment: Moment, next: Moment | undefined): boolean {
  const letters = [moment.letters, moment.firstRow < 0 ? 0 : lettersOf(context, moment.firstRow), next?.letters ?? 0];
  const home = HAS.home | HAS.machineMove;
  for (const [i, own] of letters.entries()) {
    const has = i === 0 ? moment.has : i === 1 ? 0 : (next?.has ?? 0);
    if ((has & home) !== 0) return false;
    if ((own & (ACROSS | Z_WORD)) === 0) continue;
    // A cycle goes across first, whatever its Z says.
    return (own & ACROSS) !== 0 && ((own & Z_WORD) === 0 || (has & HAS.cycle) !== 0 || moment.cycleAfter !== 0);
  }
  return false;
}

function lettersOf({ execution: { blocks } }: CheckContext, block: number): number {
  let letters = 0;
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind >= 65 && kind <= 90) letters |= 1 << (kind - 65);
  }
  return letters;
}
