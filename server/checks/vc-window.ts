import type { UnitSystem } from "../units/quantities.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, metalHoles, perCause, ruledBy } from "./cause.ts";
import { everyCut } from "./cuts.ts";
import { feedIsWrong } from "./feed.ts";
import { type SpeedSlip, speedFault, speedSlip } from "./speed-slip.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedAtSpeed, sayRange, speedWord, toolName } from "./wording.ts";

export const vcWindow: Check = {
  id: "vc-window",
  family: "feed",
  severity: "warning",
  docs: {
    title: "The cutting speed is outside the tool's window",
    what: "The speed of the drill's corner against the window that the tool declares for the material or its group. Above is a warning; below is information, and silent where the spindle turns no faster. HSS in skin: three quarters of the window. Where F per minute leaves the feed window for that reason alone, both are told here, as a warning if the feed is too high.",
    why: "Above the window the corner burns away within a few holes. Below it an edge builds up, and time is lost.",
    formula: "vc = π · D · n / 1000 (m/min, mm, 1/min); vc = π · D · n / 12 (ft/min, in, 1/min)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S4700 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F850.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits: "Only windows declared for the tool are judged; nothing is guessed.",
    source: "the tool's own data; that low speed is only information: common practice, no source",
  },
  *detect(context) {
    yield* perCause("vc-window", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of everyCut(context, metalHoles(context))) {
    const { loads, shape } = hole;
    const { vc, n } = loads;
    const fault = speedFault(context, hole);
    const window = loads.window?.vc ?? null;
    if (fault === null || window === null || vc === null || n === null) continue;
    const perSpeed = n / vc;
    const sRef = shape.state.from.s;
    const range = `the ${sayRange(window[0], window[2], "speed", system)} of ${toolName(shape.tool)}${forMaterial(loads.material?.key)}`;
    const slip = speedSlip(hole, fault);
    const base = {
      key: keyOf(sRef, hole),
      place: at(context, sRef, hole.firstBlock),
      hole,
      ruled: ruledBy(hole, 0, "speed"),
    };
    if (fault.over) {
      const skin =
        fault.vc < window[2] ? `${say(fault.vc, "speed", system)}, three quarters in skin (common practice) of ` : "";
      const feed = feedAtSpeed(
        feedIsWrong(hole) || slip !== null ? null : loads.f,
        fault.vc * perSpeed,
        shape.state,
        system,
      );
      yield {
        ...base,
        severity: "warning",
        weight: vc / fault.vc,
        message: `Cutting speed ${say(vc, "speed", system)} is above ${skin}${range}${feedToo(slip, system)}. Way out: ${speedWord(fault.vc * perSpeed)} or less${feed}${asWritten(slip, system)}.`,
        data: { measured: vc, limit: fault.vc, unit: "m/min" },
      };
    } else {
      yield {
        ...base,
        // A feed too high breaks edges, a low speed does not.
        severity: slip?.high === true ? "warning" : "info",
        weight: fault.vc / vc,
        message: `Cutting speed ${say(vc, "speed", system)} is below ${range}${feedToo(slip, system)}. Way out: ${toward(fault.vc * perSpeed, loads.limits.rpm)}${asWritten(slip, system)}.`,
        data: { measured: vc, limit: fault.vc, unit: "m/min" },
      };
    }
  }
}

function feedToo(slip: SpeedSlip | null, system: UnitSystem): string {
  if (slip === null) return "";
  const side = slip.high ? "above" : "below";
  return `, and so the F makes ${say(slip.f, "feedPerRev", system)}, ${side} ${say(slip.limit, "feedPerRev", system)}`;
}

function asWritten(slip: SpeedSlip | null, system: UnitSystem): string {
  return slip === null ? "" : `; the F as written is then ${say(slip.fitting, "feedPerRev", system)}`;
}

function toward(wanted: number, limit: number | null): string {
  return limit !== null && wanted > limit
    ? `${speedWord(limit)}, the most there is`
    : `${speedWord(wanted, "up")} or more`;
}

function forMaterial(key: string | undefined): string {
  return key === undefined ? "" : ` in ${key}`;
}
