import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, metalHoles, perCause, ruledBy } from "./cause.ts";
import { cuttingStrokes, feedIsWrong, feedThatFits, heaviest } from "./feed.ts";
import { loadLevel } from "./levels.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedWord, percent, sayBand } from "./wording.ts";

export const axisThrust: Check = {
  id: "axis-thrust",
  family: "machine",
  severity: "warning",
  docs: {
    title: "The drill pushes harder than the axis",
    what: "The estimated thrust along the drill axis against the thrust that the axis is declared to give.",
    why: "With big drills thrust, not power, is often the limit: the axis lags, alarms, or the part lifts and shifts in its clamps.",
    formula:
      "HSS: the handbook's thrust with chisel edge, drill diameter, feed and work material. Two-insert drill: T about 0.55 kc(0.1) · 0.1 · R · (f/0.1)^0.6 (N, N/mm², mm). Warning: nominal > limit. Error only: low > limit. Information: above 85 %.",
    example:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S200 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-60. R3. F70.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-20. R3. F108.\nG80 M9\nM30\n%",
    limits:
      "Thrust is known far less well than torque, so without a measurement it stays a warning unless even the low end is over. Clamps and part are not checked.",
    source: "Handbook method as the derivation names it; two-insert coefficient and levels: common practice, no source",
  },
  *detect(context) {
    yield* perCause("axis-thrust", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const whole of metalHoles(context)) {
    const hole = heaviest(context, whole);
    const { loads, shape } = hole;
    const limit = loads.limits.thrust;
    if (loads.thrust === null || limit === null || feedIsWrong(hole)) continue;
    const level = loadLevel(loads.thrust, limit, null);
    if (level === null) continue;
    const fRef = cuttingStrokes(shape)[0]?.fRef ?? shape.state.from.f;
    const share = percent(loads.thrust.nominal / limit);
    const measured = `Thrust ${sayBand(loads.thrust, "force", system)}, is`;
    const against = `the ${say(limit, "force", system)} the axis gives (${share})`;
    let message: string;
    if (level.why === "close") message = `${measured} close to ${against}. A worn edge may take it over.`;
    else {
      const sure = level.why === "surely-over" ? ", even at the low end of the band" : "";
      const fitting = feedThatFits(
        context,
        hole,
        "thrust",
        (other) => other.thrust !== null && other.thrust.nominal <= limit,
      );
      const word = fitting === null ? null : feedWord(fitting, loads.n, shape.state, system);
      const out =
        word === null
          ? "no feed fits that still cuts; a pilot hole, a split point or a smaller drill first"
          : `${word} or less keeps it under; or a pilot hole, a split point or a smaller drill first`;
      message = `${measured} over ${against}${sure}. Way out: ${out}.`;
    }
    yield {
      key: keyOf(fRef, hole),
      severity: level.severity,
      weight: loads.thrust.nominal / limit,
      place: at(context, fRef, hole.firstBlock),
      ruled: ruledBy(hole, fRef, "load"),
      hole,
      message,
      data: { measured: loads.thrust.nominal, limit, unit: "N" },
    };
  }
}
