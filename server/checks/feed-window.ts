import type { HoleShape, Stroke } from "../program/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause, ruledBy } from "./cause.ts";
import { stateAt } from "./cuts.ts";
import { cuttingStrokes, feedIsWrong, rubbingFeed } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { feedWord, sayRange, toolName } from "./wording.ts";

export const feedWindow: Check = {
  id: "feed-window",
  family: "feed",
  severity: "warning",
  docs: {
    title: "The feed is outside the tool's window",
    what: "The feed per revolution against the window that the tool declares for the material or its group. Above is a warning; below is information, a warning where the edge only rubs, and silent in an interrupted, skin or breakthrough zone and where holes overlap without a told entry.",
    why: "Above the window edges chip and chips jam. Below it the edge rubs, hardens the metal and makes long chips.",
    formula: "f = vf / n (mm/rev, mm/min, 1/min)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F800.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Only windows declared for the tool are judged. A hole with several feeds is judged low by its fastest stroke: slower ones are meant so.",
    source: "the tool's own data; rubbing limits: common practice, no source",
  },
  *detect(context) {
    yield* perCause("feed-window", context, candidates(context));
  },
};

/** Share by which a feed may pass the window before it is worth a word. */
const SILENT = 1.02;

function* candidates(context: CheckContext): Generator<Candidate> {
  const onPurpose = new Set<number>();
  for (const hole of metalHoles(context))
    if (slowOnPurpose(hole)) for (const { fRef } of cuttingStrokes(hole.shape)) onPurpose.add(fRef);
  for (const hole of metalHoles(context)) {
    const window = hole.loads.window?.f ?? null;
    if (window === null || hole.shape.kind === "tap" || feedIsWrong(hole)) continue;
    const fastest = fastestStroke(hole.shape);
    if (fastest === null || fastest.f === null) continue;
    const [min, , max] = window;
    if (fastest.f > max * SILENT) yield high(context, hole, fastest, fastest.f, window);
    // One F for a row of holes suits the one of them that is interrupted.
    else if (fastest.f * SILENT < min && !onPurpose.has(fastest.fRef))
      yield low(context, hole, fastest, fastest.f, window);
  }
}

function fastestStroke(shape: HoleShape): Stroke | null {
  let fastest: Stroke | null = null;
  for (const stroke of cuttingStrokes(shape)) {
    if (stroke.f === null) continue;
    if (fastest === null || fastest.f === null || stroke.f > fastest.f) fastest = stroke;
  }
  return fastest;
}

/** In an interrupted cut and in skin a feed below the window is right. */
function slowOnPurpose(hole: MetalHole): boolean {
  const { engagement } = hole.loads;
  return engagement !== null && (engagement.class !== "none" || engagement.skin);
}

type Range = readonly [number, number, number];

function rangeWords(context: CheckContext, hole: MetalHole, [min, , max]: Range): string {
  const material = hole.loads.material === null ? "" : ` in ${hole.loads.material.key}`;
  return `the ${sayRange(min, max, "feedPerRev", context.system)} of ${toolName(hole.shape.tool)}${material}`;
}

function high(context: CheckContext, hole: MetalHole, stroke: Stroke, f: number, window: Range): Candidate {
  const max = window[2];
  const word = feedWord(max, stroke.n, stateAt(hole.shape, stroke), context.system);
  return {
    key: keyOf(stroke.fRef, hole),
    severity: "warning",
    weight: f / max,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `Feed ${say(f, "feedPerRev", context.system)} is above ${rangeWords(context, hole, window)}.${word === null ? "" : ` Way out: ${word} or less.`}`,
    data: { measured: f, limit: max, unit: "mm/rev" },
  };
}

function low(context: CheckContext, hole: MetalHole, stroke: Stroke, f: number, window: Range): Candidate {
  const min = window[0];
  const word = feedWord(min, stroke.n, stateAt(hole.shape, stroke), context.system, "up");
  const floor = hole.loads.tool === null ? null : rubbingFeed(hole.loads.tool, hole.loads.material);
  const rubs = floor !== null && f < floor * 0.98;
  return {
    key: keyOf(stroke.fRef, hole),
    severity: rubs ? "warning" : "info",
    weight: min / f,
    place: at(context, stroke.fRef, hole.firstBlock),
    ruled: ruledBy(hole, stroke.fRef, "feed"),
    hole,
    message: `Feed ${say(f, "feedPerRev", context.system)} is below ${rangeWords(context, hole, window)}${rubs ? `; under ${say(floor, "feedPerRev", context.system)} the edge rubs (common practice)` : ""}.${word === null ? "" : ` Way out: ${word} or more.`}`,
    data: { measured: f, limit: min, unit: "mm/rev" },
  };
}
