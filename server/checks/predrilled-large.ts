import { type Candidate, contactPlace, holeKey, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const predrilledLarge: Check = {
  id: "predrilled-large",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The hole drilled before is too large for an insert drill",
    what: "An insert drill that opens a hole on its own axis which is wider than a quarter of its diameter.",
    why: "The centre insert has nothing to cut. The two inserts balance each other; with one of them idle the drill is pushed aside over the whole depth.",
    formula: "d > D / 4",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-40. R2. F450.\nG80\nT7 M6\nS2000 M3\nG0 X0. Y0.\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-40. R2. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-40. R2. F180.\nG80 M9\nM30\n%",
    limits: "Holes of this program on the same axis, and bores of the declared stock.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("predrilled-large", context, candidates(context));
  },
};

/** Of the diameter; beyond it the centre insert loses its cut: common practice, no source. */
const MOST = 0.25;

/** Diameter of a bore of the blank on the drill's own line, as the share of the area that it leaves tells; 0: none. */
function boreOf({ loads, shape }: MetalHole): number {
  const { engagement, tool } = loads;
  if (tool === null || engagement === null || engagement.source !== "stock" || engagement.class !== "none") return 0;
  const { rim, area } = engagement.at((engagement.firstContactZ + (shape.endZ ?? engagement.firstContactZ)) / 2);
  return rim === 1 && area < 1 ? tool.DC * Math.sqrt(1 - area) : 0;
}

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const { tool } = loads;
    if (tool === null || tool.family !== "indexable" || shape.kind === "back-bore") continue;
    // The mouth of a pilot or a spot that the drill soon leaves behind is no hole to open.
    const depth = shape.endZ === null ? 0 : shape.surfaceZ - shape.endZ;
    const blank = boreOf(hole);
    const bored =
      blank > MOST * tool.DC * (1 + 1e-6)
        ? { diameter: blank }
        : shape.bored.find(
            ({ diameter, toZ }) =>
              diameter > MOST * tool.DC * (1 + 1e-9) &&
              diameter < tool.DC - 1e-3 &&
              shape.surfaceZ - toZ > 0.25 * depth,
          );
    if (bored === undefined) continue;
    const most = MOST * tool.DC;
    yield {
      key: holeKey(hole),
      severity: "warning",
      weight: bored.diameter / tool.DC,
      place: contactPlace(context, hole),
      hole,
      message: `A hole of ${sayLength(bored.diameter, context)} is there already, more than a quarter of ${sayLength(tool.DC, context)}: ${sayLength(most, context)} (common practice). The centre insert of ${toolName(shape.tool)} loses its cut, the balance of the two is gone, and the drill is pushed aside. Way out: without the hole before it, a smaller one, or a core drill or boring tool to open it.`,
      data: { measured: bored.diameter, limit: most, unit: "mm" },
    };
  }
}
