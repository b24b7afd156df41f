import { say } from "../units/wording.ts";
import { at, type Candidate, cyclePlace, keyOf, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";
import { trim } from "./wording.ts";

export const dwellLong: Check = {
  id: "dwell-long",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The drill dwells too long at the bottom",
    what: "A dwell of more than two turns in materials that harden under a rubbing edge, or of more than 10 s in any; and, as information, a dwell of less than half a turn.",
    why: "The bottom hardens and the next edge meets it. A dwell of minutes is a P in another unit: milliseconds read as seconds.",
    formula: "turns = dwell · n / 60 (s, 1/min)",
    example:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G82 X0. Y0. Z-20. R3. P60000 F108.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G82 X0. Y0. Z-20. R3. P200 F108.\nG80 M9\nM30\n%",
    limits: "Dwells outside of holes are not judged.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("dwell-long", context, candidates(context));
  },
};

const TURNS = 2;
const SECONDS = 10;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    if (!(shape.dwell > 0) || shape.kind === "tap" || loads.material?.combustible) continue;
    const ref = shape.state.from.p;
    const base = {
      key: keyOf(ref, hole),
      severity: "warning" as const,
      weight: shape.dwell,
      place: ref === 0 ? cyclePlace(context, hole) : at(context, ref, hole.firstBlock),
      hole,
    };
    if (shape.dwell > SECONDS) {
      const unit = context.setup.dialect.dwellP === "s" ? "seconds" : "milliseconds";
      yield {
        ...base,
        message: `A dwell of ${say(shape.dwell, "time", context.system)} in each hole is longer than the ${say(SECONDS, "time", context.system)} that any drilling asks for (common practice). Way out: a smaller P; this dialect reads it in ${unit} (\`dwellP\`).`,
        data: { measured: shape.dwell, limit: SECONDS, unit: "s" },
      };
      continue;
    }
    // A spindle that stands is a finding of its own.
    const half = loads.n === null || !(loads.n > 0) ? 0 : 30 / loads.n;
    if (shape.dwell < half * 0.98 && shape.kind !== "back-bore") {
      yield {
        ...base,
        severity: "info" as const,
        message: `A dwell of ${say(shape.dwell, "time", context.system)} is less than half a turn, ${say(half, "time", context.system)}: the edges do not get round (common practice). Way out: a P of one turn or two; look at its unit (\`dwellP\`).`,
        data: { measured: shape.dwell, limit: half, unit: "s" },
      };
      continue;
    }
    const group = loads.material?.group ?? null;
    if ((group !== "M" && group !== "S") || loads.n === null || !(loads.n > 0)) continue;
    const turns = (shape.dwell * loads.n) / 60;
    if (turns <= TURNS * 1.05) continue;
    yield {
      ...base,
      message: `A dwell of ${say(shape.dwell, "time", context.system)} is ${trim(turns, 1)} turns; in group ${group} the bottom hardens after about ${TURNS} (common practice). Way out: ${say((TURNS * 60) / loads.n, "time", context.system)} or less.`,
      data: { measured: turns, limit: TURNS, unit: "rev" },
    };
  }
}
