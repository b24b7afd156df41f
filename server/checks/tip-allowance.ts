import type { DrillFamily } from "../setup/types.ts";
import { numberIn } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { goesThrough } from "./through-hole.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const tipAllowance: Check = {
  id: "tip-allowance",
  family: "cycle",
  severity: "info",
  docs: {
    title: "A hole called THRU has a round depth, as if the point had no length",
    what: "A drill whose section says THRU or THROUGH in a comment, with a depth of whole millimetres or sixteenths of an inch, where the underside of the part is not known.",
    why: "A depth taken from the drawing leaves the point of the drill in the part: the hole narrows on its far side.",
    formula: "full diameter to Z + point length; point length = D/2 / tan(SIG/2), 0.300 D at 118°, 0.207 D at 135°",
    example:
      "G21 G90 G94\n(CUT MATERIAL C45E HB 190)\nT5 M6 (12 DRILL THRU)\nS500 M3\nM8\nG55 G81 X0. Y0. Z-25. R2. F90.\nG80",
    better:
      "G21 G90 G94\n(CUT MATERIAL C45E HB 190)\nT5 M6 (12 DRILL THRU)\nS500 M3\nM8\nG55 G81 X0. Y0. Z-29.1 R2. F90.\nG80",
    limits:
      "Whether the depth is to the tip or to the full diameter is not known, so it is information with the computed number. Where stock is declared `through-depth` says more.",
    source: "geometry of the point, derived",
  },
  *detect(context) {
    yield* perCause("tip-allowance", context, candidates(context));
  },
};

const DRILLS: ReadonlySet<DrillFamily> = new Set(["twist-hss", "solid-carbide", "spade"]);
const THROUGH = /\b(THRU|THROUGH)\b(?!\s*-?\s*(TOOL|SPINDLE|COOL))/i;

function* candidates(context: CheckContext): Generator<Candidate> {
  const spoken = new Map<number, boolean>();
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const { pointLength, tool } = loads;
    if (
      tool === null ||
      !DRILLS.has(tool.family) ||
      pointLength === null ||
      !(pointLength > 0.1) ||
      shape.endZ === null
    )
      continue;
    if (shape.surfaceFrom === "previous-hole" || shape.bored.some(({ diameter }) => diameter >= tool.DC)) continue;
    if (!round(shape.endZ, context) || goesThrough(context, hole) !== null) continue;
    const { index } = hole.operation;
    let through = spoken.get(index);
    if (through === undefined) {
      through = saysThrough(context, hole);
      spoken.set(index, through);
    }
    if (!through) continue;
    const axis = shape.axis.toUpperCase();
    const full = shape.endZ + pointLength;
    yield {
      key: holeKey(hole),
      severity: "info",
      weight: pointLength,
      place: depthPlace(context, hole),
      hole,
      message: `A comment calls this hole through, and ${axis} ${sayLength(shape.endZ, context)} is a round number: the point of ${toolName(shape.tool)} is ${sayLength(pointLength, context)} long, so the full diameter ends at ${sayLength(full, context)}. Way out: ${axis} ${sayLength(shape.endZ - pointLength, context)} or deeper, if ${sayLength(shape.endZ, context)} is the underside.`,
      data: { measured: full, limit: shape.endZ, unit: "mm" },
    };
  }
}

function round(z: number, { system }: CheckContext): boolean {
  const own = numberIn(z, "length", system) * (system === "mm" ? 1 : 16);
  return Math.abs(own - Math.round(own)) < 1e-6;
}

/** A comment of the operation, or just before it. */
function saysThrough({ execution: { blocks } }: CheckContext, { operation }: MetalHole): boolean {
  const from = Math.max(0, blocks.lineOf(operation.firstBlock) - 2);
  const to = blocks.lineOf(operation.lastBlock);
  for (let line = from; line <= to; line++) {
    const block = blocks.blockAt(line);
    if (blocks.hasComment(block) && THROUGH.test(blocks.textOf(block))) return true;
  }
  return false;
}
