import type { DrillFamily } from "../setup/types.ts";
import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, metalHoles, perCause } from "./cause.ts";
import { bottomOf, goesThrough } from "./through-hole.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const throughDepth: Check = {
  id: "through-depth",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The point comes through, the full diameter does not",
    what: "A drill whose tip passes the bottom of the declared stock, or that an exit note sends through, while its corner stays above the bottom.",
    why: "The hole narrows to the point on its far side: a pin or a tap stops there, and a ring of burr stays.",
    formula: "Z <= bottom - point length; point length = D/2 / tan(SIG/2), or PL of the tool (mm)",
    example:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S160 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G83 X0. Y0. Z-205. R2. Q40. F48.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S160 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G83 X0. Y0. Z-213. R2. Q40. F48.\nG80 M9\nM30\n%",
    limits:
      "Only where the setup declares the stock. Its lowest face counts as the bottom everywhere. A hole that a later tool opens or deepens is not told.",
    source: "geometry of the point, derived",
  },
  *detect(context) {
    yield* perCause("through-depth", context, candidates(context));
  },
};

const DRILLS: ReadonlySet<DrillFamily> = new Set(["twist-hss", "solid-carbide", "indexable", "spade", "gun"]);
/** mm; a drawing's bottom and a program's depth are rounded apart by less. */
const TOUCH = 0.01;

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  const goneOn = drilledOn(context);
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    const { tool, pointLength } = loads;
    if (tool === null || pointLength === null || !DRILLS.has(tool.family) || shape.endZ === null) continue;
    if (
      shape.kind === "back-bore" ||
      goneOn.has(levelKey(shape.wcs, shape.tool, shape.endZ)) ||
      goesThrough(context, hole) !== true
    )
      continue;
    const bottom = bottomOf(context, hole);
    if (bottom === null) continue;
    const corner = shape.endZ + pointLength;
    if (corner <= bottom + TOUCH) continue;
    const deep = bottom - pointLength;
    yield {
      key: holeKey(hole),
      severity: "warning",
      weight: corner - bottom,
      place: depthPlace(context, hole),
      hole,
      message: `The corner of ${toolName(shape.tool)} ends at ${shape.axis.toUpperCase()} ${say(corner, "length", system)} (tip less ${say(pointLength, "length", system)} of point), above the bottom at ${say(bottom, "length", system)}: the hole does not come through with its full diameter. Way out: ${shape.axis.toUpperCase()} ${say(deep, "length", system)} or deeper.`,
      data: { measured: corner, limit: bottom, unit: "mm" },
    };
  }
}

/** Tools and depths at which a later tool goes on. Some hole of those is opened; holes drilled alike mostly are, too. */
function drilledOn(context: CheckContext): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { bored, wcs } of context.execution.shapes) {
    for (const { tool, toZ } of bored) found.add(levelKey(wcs, tool, toZ));
  }
  return found;
}

const levelKey = (wcs: string, tool: number | null, z: number): string => `${wcs}|${tool}|${z.toFixed(4)}`;
