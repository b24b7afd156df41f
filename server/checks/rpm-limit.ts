import type { HoleShape } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { allHoles, at, type Candidate, keyOf, type MetalHole, perCause, ruledBy } from "./cause.ts";
import { everyCut } from "./cuts.ts";
import { feedIsWrong } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedAtSpeed, speedWord, toolName } from "./wording.ts";

export const rpmLimit: Check = {
  id: "rpm-limit",
  family: "machine",
  severity: "error",
  docs: {
    title: "The speed is over the limit",
    what: "The programmed speed against the spindle's largest and the tool's own largest. Unlike other limits it is told also where the drill only moves in a hole that is there: the spindle turns as fast in air.",
    why: "The control clamps the speed without a word, and a feed per minute then becomes a larger feed per revolution; or the tool is run where it may fly apart.",
    formula: "n <= min(maxRpm of the spindle, RPMX of the tool)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S12000 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F1800.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Limits come from the setup. Only speeds at which a hole is drilled or entered are looked at; one that another S replaces before is not. Holder and balance are not checked.",
    source: "the shop's own limits",
  },
  *detect(context) {
    yield* perCause("rpm-limit", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of everyCut(context, allHoles(context))) {
    const { loads, shape } = hole;
    const limit = loads.limits.rpm;
    const n = shape.firstCut >= 0 ? loads.n : speedInAir(shape);
    if (n === null || limit === null || n <= limit * 1.0005) continue;
    const toolLimit = loads.tool?.RPMX ?? null;
    const whose = toolLimit !== null && toolLimit <= limit * 1.0005 ? toolName(shape.tool) : "the spindle";
    const sRef = shape.state.from.s;
    yield {
      key: keyOf(sRef, hole),
      severity: "error",
      weight: n / limit,
      place: at(context, sRef, hole.firstBlock),
      hole,
      message: `Speed ${say(n, "rotation", context.system)} is over the ${say(limit, "rotation", context.system)} of ${whose}. Way out: ${wayOut(context, hole, limit)}.`,
      data: { measured: n, limit, unit: "1/min" },
      ruled: ruledBy(hole, 0, "speed"),
    };
  }
}

/** An S that the spindle gives and, where the tool's window ends below that, one that suits the tool. */
function wayOut(context: CheckContext, hole: MetalHole, limit: number): string {
  const { system } = context;
  const { loads, shape } = hole;
  const cuts = shape.firstCut >= 0;
  const most = loads.window?.vc?.[2] ?? null;
  const { n, vc } = loads;
  const ofWindow = cuts && most !== null && n !== null && vc !== null && vc > 0 ? (most * n) / vc : limit;
  const narrow = ofWindow < limit;
  const to = narrow ? ofWindow : limit;
  const why =
    narrow && most !== null
      ? `, the ${say(most, "speed", system)} at which the window of ${toolName(shape.tool)} ends`
      : "";
  // A feed that cannot be right is nothing to keep.
  const f = cuts && !feedIsWrong(hole) ? loads.f : null;
  return `${speedWord(to)} or less${why}${feedAtSpeed(f, to, shape.state, system)}`;
}

/** The highest speed of a tool that moves in a hole that is there. */
function speedInAir(shape: HoleShape): number | null {
  const speeds = shape.strokes.map((stroke) => stroke.n).filter((n) => n !== null);
  return speeds.length === 0 ? null : Math.max(...speeds);
}
