import { ANGLE_SLACK, ridgeBeside } from "../loads/entry-rules.ts";
import type { Engagement } from "../loads/types.ts";
import { say, sayOne } from "../units/wording.ts";
import {
  type Candidate,
  contactPlace,
  entryKey,
  holeKey,
  type MetalHole,
  metalHoles,
  perCause,
  STOCK,
} from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import { entryOf } from "./entry-words.ts";
import type { Check, CheckContext, Finding } from "./types.ts";
import { toolName } from "./wording.ts";

export const entryNotAllowed: Check = {
  id: "entry-not-allowed",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The drill is not made for this entry",
    what: "The class of the interrupted cut against what the drill's family, or its own data, can take at all.",
    why: "Some drills cannot be saved by less feed: solid carbide breaks on a slope, an HSS drill without a bush runs off.",
    formula:
      "class of the engagement by the table of common practice; `entry: { maxIncline: … }` of the tool goes first",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\n(CUT ENTRY INCLINE 30 DEG)\nG99 G81 X0. Y0. Z-30. R6. F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "An error comes only from the tool's own data or the table's error cells. A drill bush is not known to the program.",
    source: "the tool's own data; else common practice, no source",
  },
  *detect(context) {
    yield* perCause("entry-not-allowed", context, candidates(context));
  },
};

const FAMILY: { readonly [family: string]: string } = {
  "twist-hss": "HSS twist drill",
  "solid-carbide": "solid carbide drill",
  indexable: "insert drill",
  spade: "spade drill",
  gun: "gun drill",
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { engagement, tool } = hole.loads;
    if (engagement === null || engagement.forbidden === "no" || tool === null) continue;
    const { shape } = hole;
    const entry = entryOf(hole, context.system) || "this face";
    const severity = tool.familyAssumed && inclineLimit(hole) === null ? "warning" : engagement.forbidden;
    const named = FAMILY[tool.family] ?? tool.family;
    const family = tool.familyAssumed ? `taken for ${/^[aeiouh]/i.test(named) ? "an" : "a"} ${named}` : named;
    const deep = engagement.form?.kind === "flat" && engagement.source === "stock";
    const advice = deep
      ? "this hole before the void it runs into, a plug in that, or another drill"
      : engagement.advice === ""
        ? "spot-face or mill flat first, or another drill"
        : engagement.advice;
    yield {
      key: `${holeKey(hole)}${entryKey(hole) === STOCK ? "" : entry}${entryKey(hole)}`,
      severity,
      weight: engagement.worst.side,
      place: contactPlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} (${family}) ${severity === "error" ? "is" : "may"} not ${severity === "error" ? "" : "be "}made for this entry (${entry}): ${reason(context, hole, engagement)}. Way out: ${advice.replace(/\.$/, "")}.`,
      data: dataOf(hole),
      related: entryTold(context, hole),
    };
  }
}

function reason(context: CheckContext, hole: MetalHole, engagement: Engagement): string {
  const limit = inclineLimit(hole);
  if (limit !== null) return `its own data allows ${sayOne(limit.limit, "angle", context.system)}`;
  const ridge = ridgeLimit(hole);
  if (ridge !== null)
    return `the ridge stands beside the drill axis by more than 0.1 D, ${say(ridge.limit, "length", context.system)} (common practice)`;
  const air = engagement.worst.core < 0.5 ? ", the axis in air" : "";
  return `class ${engagement.class}${air} (common practice)`;
}

function inclineLimit(hole: MetalHole): { measured: number; limit: number } | null {
  const form = hole.loads.engagement?.form;
  const limit = hole.loads.tool?.entry.maxIncline ?? null;
  return form?.kind === "incline" && limit !== null && form.angleDeg > limit + ANGLE_SLACK
    ? { measured: form.angleDeg, limit }
    : null;
}

function dataOf(hole: MetalHole): Finding["data"] {
  const limit = inclineLimit(hole);
  if (limit !== null) return { ...limit, unit: "°" };
  const ridge = ridgeLimit(hole);
  return ridge === null ? null : { ...ridge, unit: "mm" };
}

/** A ridge too far beside the axis of a drill that could else take it. */
function ridgeLimit({ loads }: MetalHole): { measured: number; limit: number } | null {
  const form = loads.engagement?.form;
  if (form?.kind !== "ridge" || loads.tool === null || loads.engagement?.share == null) return null;
  const limit = ridgeBeside(loads.tool, form);
  return limit === null ? null : { measured: Math.abs(form.offsetMm), limit };
}
