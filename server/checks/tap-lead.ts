import { at, type Candidate, keyOf, metalHoles, perCause, ruledBy } from "./cause.ts";
import { cuttingStrokes } from "./feed.ts";
import { sayLength } from "./length-words.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName, trim } from "./wording.ts";

export const tapLead: Check = {
  id: "tap-lead",
  family: "tap",
  severity: "warning",
  docs: {
    title: "The feed of the tap is no usual lead",
    what: "The feed per turn of a tap whose lead is not declared, against the leads of metric and inch threads, within 0.5 %.",
    why: "F or S has a wrong digit, or one of them was changed without the other: the thread is torn or the tap breaks.",
    formula: "lead = F / S (mm/rev)",
    example: "G21 G90 G94\nT30 M6 (TAP)\nS300 M3\nM8\nG84 X0. Y0. Z-20. R5. F430.\nG80",
    better: "G21 G90 G94\nT30 M6 (TAP)\nS300 M3\nM8\nG84 X0. Y0. Z-20. R5. F450.\nG80",
    limits:
      "Special threads have leads of their own: declare `lead` at the tool. Whether the lead is that of this tap is only known where it is declared, and then `feed-mode` compares it.",
    source: "leads from memory of ISO 261 and ASME B1.1; tolerance: common practice, no source",
  },
  *detect(context) {
    yield* perCause("tap-lead", context, candidates(context));
  },
};

/** mm, from memory of ISO 261. */
const METRIC = [
  0.2, 0.225, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5,
  6,
] as const;
/** Threads per inch, from memory of ASME B1.1 and of pipe threads. */
const PER_INCH = [
  80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 27, 24, 20, 19, 18, 16, 14, 13, 12, 11.5, 11, 10, 9, 8, 7, 6, 5, 4.5, 4,
] as const;
const TOLERANCE = 0.005;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape, loads } = hole;
    if (shape.kind !== "tap" || (loads.tool?.lead ?? null) !== null || loads.tool?.family === "ream") continue;
    const stroke = cuttingStrokes(shape)[0];
    const f = stroke?.f ?? null;
    if (stroke === undefined || f === null || !(f > 0)) continue;
    const { lead, name } = nearest(f);
    if (Math.abs(f / lead - 1) <= TOLERANCE) continue;
    yield {
      key: keyOf(stroke.fRef, hole),
      severity: "warning",
      weight: Math.abs(f / lead - 1),
      place: at(context, stroke.fRef, hole.firstBlock),
      ruled: ruledBy(hole, stroke.fRef, "feed"),
      hole,
      message: `${toolName(shape.tool)} is fed ${sayLength(f, context)} per turn, which is the lead of no usual thread; the nearest is ${name}, ${sayLength(lead, context)}. Way out: F and S that give the lead, or \`lead\` at the tool in the setup for a special thread.`,
      data: { measured: f, limit: lead, unit: "mm/rev" },
    };
  }
}

function nearest(f: number): { readonly lead: number; readonly name: string } {
  let best = { lead: 1, name: "1 mm" };
  let least = Number.POSITIVE_INFINITY;
  const look = (lead: number, name: string): void => {
    const off = Math.abs(f / lead - 1);
    if (off >= least) return;
    least = off;
    best = { lead, name };
  };
  for (const lead of METRIC) look(lead, `${trim(lead, 3)} mm`);
  for (const threads of PER_INCH) look(25.4 / threads, `${threads} threads per inch`);
  return best;
}
