import { gName } from "../program/codes.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, cyclePlace, holeKey, keyOf, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { pecksInMetal } from "./feed.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { toolName, trim } from "./wording.ts";

export const peckStyle: Check = {
  id: "peck-style",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "Pecks where the drill must not, or none where it should",
    what: "Full retracts with an insert, gun or solid carbide drill; no pecks with an HSS drill beyond 3 x D without coolant through it; a peck deeper than the hole or than 3 x D, or so small that the drill travels more than it cuts (below 0.1 x D, or more than 100 in one hole).",
    why: "Every full retract lets chips fall under an insert, which then chips; in steels that harden a carbide drill meets a hardened bottom. An HSS drill without pecks packs its flutes.",
    formula: "depth / diameter; pecks = strokes in metal with a retract out of the hole",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G83 X0. Y0. Z-30. R2. Q10. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-30. R2. F180.\nG80 M9\nM30\n%",
    limits: "Long chips may ask for a peck that this check calls needless.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("peck-style", context, candidates(context));
  },
};

/** Depth over diameter from which an HSS drill without coolant through it wants pecks. */
const STRAIGHT_TO = 3;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    // One cause, one finding: a Q beyond the hole is why an HSS drill has no pecks, and pecks to be left out need no Q.
    const found =
      needlessPecks(context, hole) ??
      tinyPecks(context, hole) ??
      peckBeyondHole(context, hole) ??
      deepPeck(context, hole) ??
      missingPecks(context, hole);
    if (found !== null) yield found;
  }
}

function needlessPecks(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const pecks = pecksInMetal(shape);
  if (loads.tool === null || !shape.fullRetracts || pecks < 2) return null;
  let severity: FindingSeverity;
  let why: string;
  const group = loads.material?.group ?? null;
  switch (loads.tool.family) {
    case "indexable":
      severity = "warning";
      why = "chips fall under the inserts and break them";
      break;
    case "gun":
      severity = "warning";
      why = "a gun drill loses its guide at every retract";
      break;
    case "solid-carbide":
      severity = group === "M" || group === "S" ? "warning" : "info";
      why =
        severity === "warning"
          ? `the bottom hardens at every retract (group ${group})`
          : "it needs none within its length and loses time";
      break;
    default:
      return null;
  }
  return {
    key: `full${shape.longHand ? holeKey(hole) : keyOf(shape.refs.cycle, hole)}`,
    severity: loads.tool.familyAssumed ? "info" : severity,
    weight: pecks,
    place: cyclePlace(context, hole),
    hole,
    message: `${pecks} pecks with full retract: ${toolName(shape.tool)} should not be pecked, ${why} (common practice). Way out: ${shape.longHand ? "one stroke" : plainCycle(context)}, or a chip break without leaving the hole.`,
    data: { measured: pecks, limit: 1, unit: "" },
  };
}

/** The cycle that drills in one stroke; a turning control may have none. */
function plainCycle({ setup }: CheckContext): string {
  for (const [code, kind] of setup.dialect.cycles) if (kind === "drill") return gName(code);
  return "one stroke with G1";
}

/** Share of the diameter below which a peck is no depth that somebody chose: common practice, no source. */
const SMALL_PECK = 0.1;
const MANY_PECKS = 100;

/** A Q that makes the drill travel more than it cuts; most often a decimal point that slipped. */
function tinyPecks(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  if (shape.refs.q === 0 || !(shape.peck > 0) || loads.tool === null) return null;
  if (shape.kind !== "peck" && shape.kind !== "chip-break") return null;
  const pecks = pecksInMetal(shape);
  const share = shape.peck / loads.tool.DC;
  const many = pecks > MANY_PECKS;
  const waste =
    shape.kind === "peck"
      ? "the drill is on its way for longer than it cuts"
      : "the drill stops more often than it helps";
  if (pecks < 2 || (!many && share >= SMALL_PECK - 1e-6)) return null;
  // A peck that suits most drills: common practice, no source.
  const q = loads.tool.DC;
  return {
    key: `tiny${keyOf(shape.refs.q, hole)}`,
    severity: many ? "warning" : "info",
    weight: pecks,
    place: at(context, shape.refs.q, hole.firstBlock),
    hole,
    message: `Q ${say(shape.peck, "length", context.system)} makes ${pecks} pecks of ${trim(share, 2)} x D in one hole: ${waste}, and each start of so thin a peck rubs (common practice). Way out: look at the decimal point of Q; ${say(q, "length", context.system)} or so is usual for ${toolName(shape.tool)}.`,
    data: many
      ? { measured: pecks, limit: MANY_PECKS, unit: "" }
      : { measured: shape.peck, limit: SMALL_PECK * loads.tool.DC, unit: "mm" },
  };
}

function missingPecks(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const { tool, depthRatio } = loads;
  if (tool === null || tool.family !== "twist-hss" || depthRatio === null || depthRatio <= STRAIGHT_TO * 1.02)
    return null;
  if (shape.kind !== "drill" && shape.kind !== "peck" && shape.kind !== "chip-break") return null;
  if (pecksInMetal(shape) > 1 || loads.coolant.kinds.includes("through")) return null;
  // A Q out of all proportion is told with the cycle's numbers.
  if (shape.startZ !== null && shape.endZ !== null && shape.peck > BEYOND_DOUBT * Math.abs(shape.startZ - shape.endZ))
    return null;
  const q = tool.DC * 2;
  return {
    key: `none${holeKey(hole)}`,
    severity: tool.familyAssumed ? "info" : "warning",
    weight: depthRatio,
    place: cyclePlace(context, hole),
    hole,
    message: `${toolName(shape.tool)}${tool.familyAssumed ? " (taken for an HSS drill)" : ""} drills ${trim(depthRatio, 1)} x D in one stroke; without coolant through the drill about ${STRAIGHT_TO} x D is the end (common practice). Way out: G83 with a first peck of ${say(q, "length", context.system)} or so.`,
    data: { measured: depthRatio, limit: STRAIGHT_TO, unit: "" },
  };
}

/** Each peck of an HSS drill as deep as it would go without any. */
function deepPeck(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const { tool } = loads;
  if (tool === null || tool.family !== "twist-hss" || shape.refs.q === 0 || pecksInMetal(shape) < 2) return null;
  if ((shape.kind !== "peck" && shape.kind !== "chip-break") || loads.coolant.kinds.includes("through")) return null;
  const limit = STRAIGHT_TO * tool.DC;
  if (!(shape.peck > limit * 1.02)) return null;
  return {
    key: `deep${keyOf(shape.refs.q, hole)}`,
    severity: "info",
    weight: shape.peck / tool.DC,
    place: at(context, shape.refs.q, hole.firstBlock),
    hole,
    message: `Q ${say(shape.peck, "length", context.system)} is ${trim(shape.peck / tool.DC, 1)} x D of ${toolName(shape.tool)} in one peck; ${STRAIGHT_TO} x D, ${say(limit, "length", context.system)}, is about what its flutes hold (common practice). Way out: Q ${say(tool.DC * 2, "length", context.system)} or so.`,
    data: { measured: shape.peck, limit, unit: "mm" },
  };
}

/** Q of this many times the feed is told with the cycle's own numbers. */
const BEYOND_DOUBT = 100;

/** Q so large that there is no peck. Beyond a hundred times the depth the cycle's own numbers are in doubt, told there. */
function peckBeyondHole(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  if (shape.startZ === null || shape.endZ === null || shape.refs.q === 0) return null;
  if (shape.kind !== "peck" && shape.kind !== "chip-break") return null;
  const depth = Math.abs(shape.startZ - shape.endZ);
  if (depth <= 0 || !(shape.peck > depth * 1.0001) || shape.peck > BEYOND_DOUBT * depth) return null;
  const missing = missingPecks(context, hole);
  const then =
    missing === null ? "" : `, and ${toolName(shape.tool)} drills ${trim(loads.depthRatio ?? 0, 1)} x D in one stroke`;
  const out =
    missing === null || loads.tool === null
      ? "a smaller Q, or G81"
      : `Q of ${say(loads.tool.DC * 2, "length", context.system)} or so for the first peck`;
  return {
    key: `q${keyOf(shape.refs.q, hole)}`,
    severity: missing?.severity ?? "info",
    weight: shape.peck / depth,
    place: at(context, shape.refs.q, hole.firstBlock),
    hole,
    message: `Q ${say(shape.peck, "length", context.system)} is more than the whole feed of ${say(depth, "length", context.system)}: there is no peck${then}. Way out: ${out}.`,
    data: { measured: shape.peck, limit: depth, unit: "mm" },
  };
}
