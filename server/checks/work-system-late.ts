import { courseOf, HAS } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";

export const workSystemLate: Check = {
  id: "work-system-late",
  family: "place",
  severity: "warning",
  docs: {
    title: "The first holes come before any work system is named",
    what: "A program that names a work system (G54 and on) only after its first hole.",
    why: "The holes before it are drilled in whatever system was left in force: that of the part before.",
    formula: "",
    example: "S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    better: "G54 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    limits: "A program that names none at all is that of a shop with one fixture and stays silent.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution } = context;
    if (execution.holeCount === 0) return;
    const first = execution.hole(0);
    const named = courseOf(context).moments.find((moment) => (moment.has & HAS.workSystem) !== 0);
    if (named === undefined || first.shape.state.from.wcs !== 0) return;
    if (named.step <= execution.stepOf(first.block)) return;
    const { wcs } = execution.stepState(named.step);
    yield single(
      "work-system-late",
      "warning",
      { in: "program", span: context.spanOf(0, first.block) },
      `The first hole is drilled before the program names a work system; ${wcs} comes only in ${context.nameOf(named.block)}. Way out: G54, or the system that is meant, at the top.`,
      {
        related: [{ place: { in: "program", span: context.spanOf(0, named.block) }, message: "The first work system" }],
      },
    );
  },
};
