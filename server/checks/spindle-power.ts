import { perCause } from "./cause.ts";
import { spindleLoads } from "./spindle-load.ts";
import type { Check } from "./types.ts";

export const spindlePower: Check = {
  id: "spindle-power",
  family: "machine",
  severity: "warning",
  docs: {
    title: "The cut takes more power than the spindle gives",
    what: "The estimated cutting power of a hole against the spindle's envelope at the programmed speed, at the cutter.",
    why: "The spindle slows down in the cut, the feed per revolution rises, the drill breaks. Over the continuous rating for long, the motor heats until it trips.",
    formula:
      "P = M · n / 9549 (kW, N·m, 1/min). Error: nominal > 1.15 x short-time limit, or low > continuous limit. Warning: nominal > continuous. Information: above 85 %.",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2600 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F600.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    limits:
      "An estimate with a band: published methods differ by a factor of two. At speeds where the spindle gives its full torque the torque check speaks instead, because both are one limit.",
    source:
      "Cutting force after Kienzle or the handbook's thrust and torque method, as the derivation names it; levels: common practice, no source",
  },
  *detect(context) {
    yield* perCause("spindle-power", context, spindleLoads(context, "power"));
  },
};
