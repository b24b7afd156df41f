import { at, type Candidate, keyOf, metalHoles, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { topByKey } from "./top.ts";
import type { Check, CheckContext } from "./types.ts";

export const rPlaneHigh: Check = {
  id: "r-plane-high",
  family: "cycle",
  severity: "info",
  docs: {
    title: "The R plane is far above the part",
    what: "A cycle that begins to feed more than 25 mm (1 in) above the declared surface, or above the first contact of a told entry.",
    why: "The drill feeds through air in every hole: time, nothing else.",
    formula: "R - surface > 25 mm",
    example: "G21 S2500 M3\nM8\nG81 X0. Y0. Z-20. R40. F450.\nG80",
    better: "G21 S2500 M3\nM8\nG81 X0. Y0. Z-20. R2. F450.\nG80",
    limits:
      "Only where stock is declared, or a key of the dialect that tells the surface (`stockTop`, `clearanceMin`), and only above the height of the clamps where the dialect tells one: between clamps a high R is meant.",
    source: "common practice, no source; the 25 mm as well",
  },
  *detect(context) {
    yield* perCause("r-plane-high", context, candidates(context));
  },
};

/** mm */
const FAR = 25;

function* candidates(context: CheckContext): Generator<Candidate> {
  const clamps = context.setup.dialect.clampHeight ?? Number.NEGATIVE_INFINITY;
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    if (shape.longHand || shape.startZ === null || shape.kind === "back-bore" || shape.surfaceFrom === "previous-hole")
      continue;
    const byKey = shape.axis === "z" && shape.surfaceFrom === "assumed" && topByKey(context);
    if (!(shape.topDeclared ?? shape.surfaceFrom === "stock") && !byKey) continue;
    const surface = Math.max(shape.topZ ?? shape.surfaceZ, loads.engagement?.firstContactZ ?? Number.NEGATIVE_INFINITY);
    const way = shape.startZ - surface;
    if (way <= FAR + 1e-6 || shape.startZ <= clamps + FAR) continue;
    yield {
      key: keyOf(shape.refs.r, hole),
      severity: "info",
      weight: way,
      place: at(context, shape.refs.r, hole.firstBlock),
      hole,
      message: `R is ${sayLength(way, context)} above the first metal, more than ${sayLength(FAR, context)}: the drill feeds through air in each hole (common practice). Way out: R ${sayLength(surface + 2, context)} or so.`,
      data: { measured: way, limit: FAR, unit: "mm" },
    };
  }
}
