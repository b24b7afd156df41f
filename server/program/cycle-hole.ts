/** One hole of a cycle, drawn up from the words and the state in force. */
import type { WordRef } from "../../grammar/blocks.ts";
import type { CycleKind } from "../setup/dialect.ts";
import type { CyclePlan } from "./cycle-plan.ts";
import { runsItself } from "./cycles.ts";
import { NO_UNITS, strokeSpeed } from "./feeds.ts";
import { FROM_INDEX } from "./modal.ts";
import type { Run } from "./run.ts";
import type { Draft, DraftStroke } from "./shapes.ts";
import { heightKept } from "./transform.ts";
import { drivenUnknown } from "./turning.ts";
import type { HoleKind } from "./types.ts";
import { UNSURE, unsure } from "./unsure.ts";

export interface CycleHole {
  readonly plan: CyclePlan;
  readonly kind: CycleKind;
  readonly code: number;
  readonly r: number;
  readonly z: number;
  readonly w: number;
  readonly u: number;
  readonly v: number;
  /** Rises whenever anything that shapes the hole changes. */
  readonly version: number;
}

const KINDS: { readonly [K in CycleKind]: HoleKind } = {
  drill: "drill",
  "dwell-drill": "drill",
  peck: "peck",
  "chip-break": "chip-break",
  tap: "tap",
  "tap-left": "tap",
  bore: "bore",
  "fine-bore": "bore",
  "back-bore": "back-bore",
  "face-peck": "chip-break",
  // Makes no hole.
  turning: "drill",
};

const AXES = ["x", "y", "z"] as const;

/** The strokes of a plan; those drawn up last where the speeds are the same. */
function strokesOf({ plans }: Run, plan: CyclePlan, f: number, n: number, fRef: WordRef): readonly DraftStroke[] {
  const { drawn } = plans;
  const first = drawn?.strokes[0];
  if (drawn?.plan === plan && first?.fRef === fRef && Object.is(first.f, f) && Object.is(first.n, n))
    return drawn.strokes;
  const strokes = plan.strokes.map(({ from, to }) => ({ from, to, f, n, fRef }));
  plans.drawn = { plan, strokes };
  return strokes;
}

export function cycleDraft(run: Run, hole: CycleHole, operation: number): Draft {
  const { row, store, step, cycle } = run;
  const speed = strokeSpeed(run);
  const known = run.row.units !== 0;
  const from = (field: keyof typeof FROM_INDEX): number => store.from(FROM_INDEX[field], step);
  const unknown: Record<string, string> = {};
  if (!known) unknown.startZ = NO_UNITS;
  else if (!heightKept(run.places.transform, hole.w)) {
    // One cause for both levels.
    unknown.startZ = run.why[hole.w as 0 | 1 | 2];
    unknown.endZ = unknown.startZ;
  } else {
    const why = unsure(row, UNSURE.plane | UNSURE.distance | UNSURE.units) ? row.unsureWhy : "";
    if (Number.isNaN(hole.r)) {
      const open = "R may be a level, or the way from the level before the cycle (`cycleR`)";
      const unknownR = Number.isNaN(cycle.r) ? `R is not known: ${run.why[hole.w as 0 | 1 | 2]}` : open;
      unknown.startZ = why === "" ? unknownR : why;
    }
    if (Number.isNaN(hole.z))
      unknown.endZ =
        why === ""
          ? `${AXES[hole.w]?.toUpperCase()} of the cycle is not known${cycle.zWhy === "" ? "" : `: ${cycle.zWhy}`}`
          : why;
  }
  const pecked = hole.kind === "peck" || hole.kind === "chip-break";
  const levels = known && !Number.isNaN(hole.r) && !Number.isNaN(hole.z) && !(pecked && Number.isNaN(cycle.q));
  if (levels && speed.whyF !== "") unknown.f = speed.whyF;
  else if (!known) unknown.f = speed.whyF;
  if (speed.whyN !== "") unknown.n = speed.whyN;
  if (unsure(row, UNSURE.tool)) unknown.tool = row.unsureWhy;
  if (pecked && Number.isNaN(cycle.q)) unknown.peck = "Q is not known";
  const up = hole.kind === "back-bore";
  const last = hole.plan.strokes[hole.plan.strokes.length - 1];
  // A rigid tap runs the spindle itself; a driven tool whose codes nobody declared is taken to turn.
  const rigid = runsItself(run, hole.code, hole.kind) || drivenUnknown(run, hole.w === 2 ? hole.u : Number.NaN);
  const spindle = row.spindle;
  if (rigid) row.spindle = hole.kind === "tap-left" ? 2 : 1;
  const rowId = rigid ? store.intern(row) : run.currentRow();
  const turning = rigid ? strokeSpeed(run) : speed;
  if (rigid) {
    row.spindle = spindle;
    if (turning.whyF === "") delete unknown.f;
  }
  const fRef = from("f");
  return {
    operation,
    kind: KINDS[hole.kind],
    longHand: false,
    w: hole.w,
    axis: AXES[hole.w] ?? "z",
    startZ: known ? hole.r : Number.NaN,
    endZ: known ? (up ? (last?.to ?? hole.z) : hole.z) : Number.NaN,
    strokes: levels ? strokesOf(run, hole.plan, turning.f, turning.n, fRef) : [],
    dives: [],
    dwell: hole.plan.dwell,
    fullRetracts: hole.kind !== "chip-break",
    peck: pecked && !Number.isNaN(cycle.q) ? cycle.q : 0,
    tool: row.tool < 0 ? null : row.tool,
    wcs: row.wcs,
    rowId,
    step,
    refs: { z: from("z"), r: from("r"), q: from("q"), cycle: from("cycle") },
    unknown,
    rapidUp: true,
  };
}
