import { courseOf, HAS, isWhole } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";

export const workSystemLate: Check = {
  id: "work-system-late",
  family: "place",
  severity: "warning",
  docs: {
    title: "The first holes come before any work system is named",
    what: "A program that names a work system (G54 and on) only after its first hole, or a whole program that names none.",
    why: "The holes before it are drilled in whatever system was left in force: that of the part before.",
    formula: "",
    example: "S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    better: "G54 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    limits:
      "Lines without a tool change and an end are a part of a program and stay silent where they name none, and so does one that sets its zero with G92, and turning machines. A shop with one fixture may turn it off.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution } = context;
    if (execution.holeCount === 0) return;
    const first = execution.hole(0);
    const named = courseOf(context).moments.find((moment) => (moment.has & HAS.workSystem) !== 0);
    if (first.shape.state.from.wcs !== 0) return;
    if (named === undefined) {
      const { machineKind, wcsCodes } = context.setup.dialect;
      if (machineKind !== "mill" || wcsCodes.size === 0 || !isWhole(context) || first.shape.wcs !== "G54") return;
      if (courseOf(context).moments.some((moment) => (moment.has & HAS.setPosition) !== 0)) return;
      yield single(
        "work-system-late",
        "warning",
        { in: "program", span: context.spanOf(0, first.block) },
        "The program names no work system before its first hole, and none after it: the holes come where the last program left the zero. Way out: G54, or the system that is meant, at the top.",
      );
      return;
    }
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
