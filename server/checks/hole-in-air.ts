import { surroundingsOf } from "../loads/surroundings/arrange.ts";
import { allHoles, type Candidate, depthPlace, holeKey, type MetalHole, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { topByKey } from "./top.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const holeInAir: Check = {
  id: "hole-in-air",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The cycle ends above the part",
    what: "A drilling cycle whose depth does not reach the top of the declared stock, or that of the dialect's keys.",
    why: "Most often the minus sign of Z is lost, or Z is written from another face than the work zero: there is no hole.",
    formula: "Z >= surface",
    example: "G21 S2500 M3\nM8\nG81 X0. Y0. Z5. R8. F450.\nG80",
    better: "G21 S2500 M3\nM8\nG81 X0. Y0. Z-5. R8. F450.\nG80",
    limits:
      "Only where stock is declared, or a key of the dialect that tells the surface (`stockTop`, `clearanceMin`): with the work zero on the table a depth above zero is right.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("hole-in-air", context, candidates(context));
  },
};

function nothingThere(context: CheckContext, hole: MetalHole): Candidate {
  return {
    key: `${holeKey(hole)}air`,
    severity: "warning",
    weight: 1,
    place: depthPlace(context, hole),
    hole,
    message: `Nothing of the declared part is where ${toolName(hole.shape.tool)} goes: nothing is drilled. Way out: look at the position and the work system, and at \`stock:\` of the workpiece.`,
    data: null,
  };
}

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of allHoles(context)) {
    const { shape } = hole;
    const { endZ, startZ } = shape;
    if (shape.longHand || endZ === null || startZ === null || shape.kind === "back-bore" || startZ - endZ < 1e-6)
      continue;
    const around = surroundingsOf(shape);
    if (around !== null && !("why" in around) && around.air) {
      yield nothingThere(context, hole);
      continue;
    }
    const byKey = shape.axis === "z" && topByKey(context);
    if (!(shape.topDeclared ?? shape.surfaceFrom === "stock") && !byKey) continue;
    const top = shape.topZ ?? shape.surfaceZ;
    if (endZ < top - 1e-6) continue;
    const axis = shape.axis.toUpperCase();
    yield {
      key: holeKey(hole),
      severity: "warning",
      weight: endZ - top,
      place: depthPlace(context, hole),
      hole,
      message: `The cycle ends at ${axis} ${sayLength(endZ, context)} and the ${byKey ? "part" : "stock"} begins at ${sayLength(top, context)}: nothing is drilled. Way out: look at the sign of ${axis}, and at the face it is written from.`,
      data: { measured: endZ, limit: top, unit: "mm" },
    };
  }
}
