import { SHORT_BODY } from "../loads/entry-rules.ts";
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
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const entryAdvice: Check = {
  id: "entry-advice",
  family: "entry",
  severity: "info",
  docs: {
    title: "This entry asks for more than a lower feed",
    what: "A long HSS drill in a heavily interrupted entry that it may take at half its feed, where nothing holds it: no spot on a ridge, no stub drill, no bush.",
    why: "The lower feed spares the lips; it does not keep a slender drill from running off the face before its corners are in metal.",
    formula: "class heavy by the table of common practice, usable length over 3 D",
    example:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S500 M3\nG43 H5 Z50. M8\nG4 P3000\n(CUT ENTRY RIDGE FLANK 30 DEG)\nG99 G81 X0. Y0. Z-30. R8. F45.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT2 M6\nG0 X0. Y0. S1300 M3\nG43 H2 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-1.5 R8. F130.\nG80 M9\nT5 M6\nG0 X0. Y0. S500 M3\nG43 H5 Z50. M8\nG4 P3000\n(CUT ENTRY RIDGE FLANK 30 DEG)\nG99 G81 X0. Y0. Z-30. R8. F45.\nG80 M9\nM30\n%",
    limits:
      "Silent where a spot or a pilot is drilled at the place before, where the drill is a stub (LU up to 3 D), and where the tool's own data allows the entry (`entry: { heavy: … }`, as with a bush, or `maxIncline`). Drills that must not enter at all are told by entry-not-allowed.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("entry-advice", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { engagement, tool } = hole.loads;
    if (engagement === null || tool === null || tool.family !== "twist-hss" || tool.familyAssumed) continue;
    // A share that the tool declares comes without advice.
    if (engagement.class !== "heavy" || engagement.forbidden !== "no" || engagement.advice === "") continue;
    // Further down its own hole guides it.
    if (!engagement.zones.some((zone) => zone.class === "heavy" && zone.where === "entry") || isHeld(hole)) continue;
    const { shape } = hole;
    const entry = entryOf(hole, context.system) || "this face";
    const drill = tool.LU === null ? "" : `, ${(tool.LU / tool.DC).toFixed(1)}xD long,`;
    yield {
      key: `${holeKey(hole)}${entryKey(hole) === STOCK ? "" : entry}${entryKey(hole)}`,
      severity: "info",
      weight: engagement.worst.side,
      place: contactPlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} (HSS drill)${drill} enters ${entry}, class heavy: less feed alone does not hold it there (common practice). Way out: ${engagement.advice}.`,
      data: null,
      related: entryTold(context, hole),
    };
  }
}

/** Guided as the advice asks: by a hole drilled there before, by being short, or by the tool's own word. */
function isHeld({ shape, loads: { engagement, tool } }: MetalHole): boolean {
  if (tool === null || shape.bored.length > 0) return true;
  const form = engagement?.form;
  if (form?.kind === "incline" && tool.entry.maxIncline !== null) return true;
  return tool.LU !== null && tool.LU / tool.DC <= SHORT_BODY;
}
