import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, holeKey, metalHoles, perCause } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const plateGap: Check = {
  id: "plate-gap",
  family: "entry",
  severity: "error",
  docs: {
    title: "The drill goes through air between two plates",
    what: "A hole that leaves the metal and enters it again further down: a stack of plates with a gap, or a void across the whole hole.",
    why: "An insert drill frees a disc at the bottom of the upper plate. It turns in the gap, jams under the drill and breaks inserts. Other drills push the plates apart and hook in.",
    formula: "",
    example:
      "(with two plates of 20 mm, 5 mm apart)\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-46. R2. F180.\nG80 M9\nM30",
    better:
      "(with two plates of 20 mm, 5 mm apart)\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-20.5 R2. F180.\nG80 M9\nM30",
    limits:
      "Known only from stock in the setup. Plates that touch are taken as clamped solid: whether they are is for the person at the machine to see.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("plate-gap", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    const gap = loads.engagement?.gaps[0];
    if (gap === undefined || loads.tool === null) continue;
    const insert = loads.tool.family === "indexable";
    const axis = shape.axis.toUpperCase();
    const where = `between ${axis} ${say(gap.fromZ, "length", system)} and ${axis} ${say(gap.toZ, "length", system)} of its tip`;
    const what = insert
      ? `it frees a disc of ${say(loads.tool.DC, "length", system)} there, which turns with it and breaks inserts (common practice)`
      : "the drill hooks in where it comes out and where it enters again (common practice)";
    const out = insert
      ? "clamp the plates without a gap and halve the feed across the joint, drill from both sides, or take a drill with a point"
      : "clamp the plates without a gap, and half the feed across it";
    yield {
      key: holeKey(hole),
      severity: insert ? "error" : "warning",
      weight: gap.fromZ - gap.toZ,
      place: depthPlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} goes through air ${where}: ${what}. Way out: ${out}.`,
      data: null,
      related: entryTold(context, hole),
    };
  }
}
