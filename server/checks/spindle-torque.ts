import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, metalHoles, perCause, ruledBy } from "./cause.ts";
import { cuttingStrokes, feedIsWrong } from "./feed.ts";
import { loadLevel } from "./levels.ts";
import { spindleLoads } from "./spindle-load.ts";
import type { Check, CheckContext } from "./types.ts";
import { percent, sayBand } from "./wording.ts";

export const spindleTorque: Check = {
  id: "spindle-torque",
  family: "machine",
  severity: "warning",
  docs: {
    title: "The cut takes more torque than the spindle gives",
    what: "The estimated torque of a hole against the spindle's envelope at the programmed speed, at the cutter. In an interrupted cut also the peak within one turn against the short-time limit.",
    why: "Below its base speed the spindle has no more to give: it stalls in the hole, and the axis goes on feeding.",
    formula: "M = D² · f · kc / 8000 (N·m, mm, mm/rev, N/mm²) for a flat entry. Levels as for power.",
    example:
      "%\nG21 G90 G94 G54\nT8 M6\nG0 X0. Y0. S300 M3\nG43 H8 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-60. R3. F150.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-20. R3. F108.\nG80 M9\nM30\n%",
    limits:
      "An estimate with a band. Where power is the tighter reading of the same limit, the power check speaks instead. The gear or belt itself is not checked.",
    source:
      "Cutting force after Kienzle or the handbook's thrust and torque method, as the derivation names it; levels and peak factor: common practice, no source",
  },
  *detect(context) {
    // One F is one cause, whether it is too much over the turn or within it.
    yield* perCause("spindle-torque", context, [...spindleLoads(context, "torque"), ...peaks(context)]);
  },
};

/** Peaks within the turn that trip the drive although the mean over the turn passes. Never more than a warning. */
function* peaks(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { loads, shape } = hole;
    const { peakTorque, torque } = loads;
    const limits = loads.limits.torque;
    if (peakTorque === null || torque === null || limits === null || feedIsWrong(hole)) continue;
    if (peakTorque.nominal <= torque.nominal * 1.001) continue;
    const mean = loadLevel(torque, limits.continuous, limits.shortTime);
    if (mean !== null && mean.severity !== "info") continue;
    const limit = limits.shortTime ?? limits.continuous;
    if (peakTorque.nominal <= limit) continue;
    const fRef = cuttingStrokes(shape)[0]?.fRef ?? shape.state.from.f;
    const kind = limits.shortTime === null ? "continuously" : "for a short time";
    const over = `over the ${say(limit, "torque", context.system)} the spindle gives ${kind} (${percent(peakTorque.nominal / limit)})`;
    yield {
      key: keyOf(fRef, hole),
      severity: "warning",
      weight: peakTorque.nominal / limit,
      place: at(context, fRef, hole.firstBlock),
      ruled: ruledBy(hole, fRef, "load"),
      hole,
      message: `In the interrupted cut the torque peaks at ${sayBand(peakTorque, "torque", context.system)} within each turn, ${over}; the mean of ${say(torque.nominal, "torque", context.system)} passes. Way out: less feed until the rim is in metal.`,
      data: { measured: peakTorque.nominal, limit, unit: "N·m" },
      also: {
        thing: "peak",
        text: `in the interrupted cut it peaks at ${say(peakTorque.nominal, "torque", context.system)} within each turn, ${over}`,
      },
    };
  }
}
