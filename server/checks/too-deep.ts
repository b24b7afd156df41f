import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, metalHoles, perCause } from "./cause.ts";
import { bottomOf } from "./through-hole.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const tooDeep: Check = {
  id: "too-deep",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The tool goes far below the part",
    what: "A hole whose tip ends more than its point and 5 mm (0.2 in) below the bottom of the declared stock, or of `stockBottom` of the dialect. Taps may go one diameter deeper.",
    why: "What lies there is the vise, the parallel or the table.",
    formula: "Z < bottom - point length - 5 mm",
    example:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S160 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G83 X0. Y0. Z-250. R2. Q40. F48.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S160 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G83 X0. Y0. Z-213. R2. Q40. F48.\nG80 M9\nM30\n%",
    limits:
      "Only where the stock or `stockBottom` is declared, and the tool. What the part lies on is not known: over a free space a deep tip is no harm.",
    source: "common practice, no source; the 5 mm as well",
  },
  *detect(context) {
    yield* perCause("too-deep", context, candidates(context));
  },
};

/** mm below the bottom that a tip goes to come through with its full diameter. */
const THROUGH = 5;

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const { tool } = loads;
    if (tool === null || shape.endZ === null || shape.kind === "back-bore") continue;
    const bottom = bottomOf(context, hole);
    if (bottom === null) continue;
    const point = loads.pointLength ?? 0;
    const limit = bottom - point - THROUGH - (tool.family === "tap" ? tool.DC : 0);
    if (shape.endZ >= limit - 1e-6) continue;
    const axis = shape.axis.toUpperCase();
    const length = (mm: number): string => say(mm, "length", system);
    const pointed = point > 0 ? `, its point is ${length(point)}` : "";
    yield {
      key: holeKey(hole),
      severity: "warning",
      weight: limit - shape.endZ,
      place: depthPlace(context, hole),
      hole,
      message: `The tip of ${toolName(shape.tool)} ends at ${axis} ${length(shape.endZ)}, ${length(bottom - shape.endZ)} below the bottom of the part at ${axis} ${length(bottom)}${pointed}: it goes into what the part lies on. Way out: ${axis} ${length(limit)} or less deep, or the height of the part in the setup.`,
      data: { measured: shape.endZ, limit, unit: "mm" },
    };
  }
}
