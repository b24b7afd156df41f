import { HAS, momentsWith } from "./course.ts";
import { counted, single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const offsetOverwritten: Check = {
  id: "offset-overwritten",
  family: "place",
  severity: "info",
  docs: {
    title: "The program writes offsets of the machine",
    what: "G10 in a program that drills: it replaces, or in G91 adds to, what the operator has set. G91 is a warning.",
    why: "A correction that the operator keyed in is gone at the next start; an increment is added again at every run.",
    formula: "",
    example: "G90 G10 L2 P1 X0. Y0. Z0.\nG54 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    better: "G54 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    limits: "Programs without a hole, which only set offsets, stay silent. What the values were before is not known.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution } = context;
    if (execution.holeCount === 0) return;
    const found = [...momentsWith(context, HAS.writeOffsets)].map((moment) => {
      const { distance, unsure } = execution.stepState(moment.step);
      const adds = distance === 91 && !unsure.includes("distance") && context.setup.dialect.machineKind === "mill";
      const place = wordPlace(context, moment.block, "G", 10);
      return adds
        ? ([
            "G91",
            single(
              "offset-overwritten",
              "warning",
              place,
              "G10 in G91 adds to the offset, and again at every run of the program. Way out: G90 before it.",
            ),
          ] as const)
        : ([
            "G90",
            single(
              "offset-overwritten",
              "info",
              place,
              "G10 replaces an offset that the operator may have corrected. Way out: leave the offset to the machine; where the program owns it, `severity: { offset-overwritten: off }` in the setup.",
            ),
          ] as const);
    });
    yield* counted(found);
  },
};
