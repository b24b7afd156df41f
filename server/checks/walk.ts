import { say } from "../units/wording.ts";
import { type Candidate, contactPlace, entryKey, holeKey, metalHoles, perCause } from "./cause.ts";
import { entryOf } from "./entry-words.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const walk: Check = {
  id: "walk",
  family: "entry",
  severity: "info",
  docs: {
    title: "The drill is pushed aside at the entry",
    what: "An estimate of how far the side force of an interrupted cut bends the drill before its rim is guided.",
    why: "The hole starts off its place and goes on in that direction.",
    formula: "S · L³ / (3 · E · k · π · D⁴ / 64), k about 0.3 (N, mm, N/mm²)",
    example:
      "%\nG21 G90 G94 G54\nT10 M6\nG0 X0. Y0. S1400 M3\nG43 H10 Z50. M8\nG4 P3000\n(CUT ENTRY INCLINE 20 DEG)\nG99 G81 X0. Y0. Z-15. R4. F140.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT10 M6\nG0 X0. Y0. S1400 M3\nG43 H10 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-12. R3. F140.\nG80 M9\nM30\n%",
    limits:
      "The drill alone, held stiffly at its shank. Silent below 0.05 mm; above a tenth of the diameter it only says so.",
    source: "beam formula, derived; k and the limit: common practice, no source",
  },
  *detect(context) {
    yield* perCause("walk", context, candidates(context));
  },
};

/** mm */
const SILENT = 0.05;
/** Share of the diameter beyond which a bent drill is no beam that springs back: the estimate ends there. */
const MOST = 0.1;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    if (loads.walk === null || Math.abs(loads.walk) < SILENT) continue;
    const most = MOST * (loads.tool?.DC ?? Number.POSITIVE_INFINITY);
    const far =
      Math.abs(loads.walk) > most
        ? `more than ${say(most, "length", context.system)}, a tenth of its diameter, where the estimate ends,`
        : `about ${say(Math.abs(loads.walk), "length", context.system)}`;
    const words = entryOf(hole, context.system);
    const entry = words === "" ? "" : ` (${words})`;
    yield {
      key: `${holeKey(hole)}${entry}${entryKey(hole)}`,
      severity: "info",
      weight: Math.abs(loads.walk),
      place: contactPlace(context, hole),
      hole,
      message: `${toolName(shape.tool)} may be pushed aside by ${far} at this entry${entry}. Way out: a shorter or stiffer drill, a spot face, or less feed at the entry.`,
      data: { measured: Math.abs(loads.walk), limit: SILENT, unit: "mm" },
    };
  }
}
