import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause, ruledBy } from "./cause.ts";
import { everyCut } from "./cuts.ts";
import { levelIn } from "./family.ts";
import { feedIsWrong } from "./feed.ts";
import { rpmLimit } from "./rpm-limit.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedAtSpeed, sayRange, speedWord, toolName } from "./wording.ts";

export const vcWindow: Check = {
  id: "vc-window",
  family: "feed",
  severity: "warning",
  docs: {
    title: "The cutting speed is outside the tool's window",
    what: "The speed of the drill's corner against the window that the tool declares for the material or its group. Above is a warning; below is information, and silent where the spindle turns no faster. HSS in skin: three quarters of the window.",
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

/** Share by which a speed may pass the window before it is worth a word: rounding of S and of the box label. */
const SILENT = 1.01;
/** HSS in cast or forged skin runs at three quarters of its speed. Common practice, no source. */
const SKIN_SHARE = 0.75;

function* candidates(context: CheckContext): Generator<Candidate> {
  const { system } = context;
  for (const hole of everyCut(context, metalHoles(context))) {
    const { loads, shape } = hole;
    const window = loads.window?.vc ?? null;
    if (window === null || loads.vc === null || loads.n === null || loads.tool === null || loads.vc <= 0) continue;
    const [min, , most] = window;
    // The check on the speed limit names an S that suits both.
    if (overLimit(context, hole)) continue;
    const inSkin = loads.engagement?.skin === true && loads.tool.family === "twist-hss";
    const max = inSkin ? most * SKIN_SHARE : most;
    const perSpeed = loads.n / loads.vc;
    const sRef = shape.state.from.s;
    // Worded only where there is something to say.
    const range = (): string =>
      `the ${sayRange(min, most, "speed", system)} of ${toolName(shape.tool)}${forMaterial(loads.material?.key)}`;
    const over = loads.vc > max * SILENT;
    if (!over && loads.vc * SILENT >= min) continue;
    const base = {
      key: keyOf(sRef, hole),
      place: at(context, sRef, hole.firstBlock),
      hole,
      ruled: ruledBy(hole, 0, "speed"),
    };
    if (over) {
      yield {
        ...base,
        severity: "warning",
        weight: loads.vc / max,
        message: `Cutting speed ${say(loads.vc, "speed", system)} is above ${inSkin ? `${say(max, "speed", system)}, three quarters in skin (common practice) of ` : ""}${range()}. Way out: ${speedWord(max * perSpeed)} or less${feedAtSpeed(feedIsWrong(hole) ? null : loads.f, max * perSpeed, shape.state, system)}.`,
        data: { measured: loads.vc, limit: max, unit: "m/min" },
      };
    } else if (!atTop(loads.n, loads.limits.rpm) && !loads.engagement?.skin) {
      yield {
        ...base,
        severity: "info",
        weight: min / loads.vc,
        message: `Cutting speed ${say(loads.vc, "speed", system)} is below ${range()}. Way out: ${toward(min * perSpeed, loads.limits.rpm)}.`,
        data: { measured: loads.vc, limit: min, unit: "m/min" },
      };
    }
  }
}

/** The speed is over the limit of spindle or tool, and the check for that speaks as loud as this one would. */
function overLimit({ setup }: CheckContext, { loads }: MetalHole): boolean {
  const { n, limits } = loads;
  if (n === null || limits.rpm === null || n <= limits.rpm * 1.0005) return false;
  const level = levelIn(setup.severity, rpmLimit);
  return level !== "off" && level !== "info";
}

function atTop(n: number, limit: number | null): boolean {
  return limit !== null && n >= limit * 0.995;
}

function toward(wanted: number, limit: number | null): string {
  return limit !== null && wanted > limit
    ? `${speedWord(limit)}, the most there is`
    : `${speedWord(wanted, "up")} or more`;
}

function forMaterial(key: string | undefined): string {
  return key === undefined ? "" : ` in ${key}`;
}
