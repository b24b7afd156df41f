import type { Tool } from "../setup/types.ts";
import { anyHoles } from "./cause.ts";
import { courseOf, HAS, type Moment, momentsWith } from "./course.ts";
import { everyCut } from "./cuts.ts";
import { holeAround } from "./hole-around.ts";
import { sayLength } from "./length-words.ts";
import { counted, single, wordPlace } from "./one-place.ts";
import { topOf } from "./top.ts";
import type { Check, CheckContext, Finding } from "./types.ts";

export const stoppedInHole: Check = {
  id: "stopped-in-hole",
  family: "state",
  severity: "warning",
  docs: {
    title: "Spindle or coolant goes off while the tool is in the hole",
    what: "M5 or M9 while the tool stands below the top of the part. Where the dialect acts on M codes before the move of their block, also in the block that raises the tool.",
    why: "A drill that stands still in its hole seizes, and is pulled out over its own edges; without coolant chips weld.",
    formula: "Z < top of the part",
    example: "G21 T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG0 X0. Y0. Z2.\nG1 Z-10. F450.\nM5\nG0 Z50.",
    better: "G21 T3 M6\nS2500 M3\nG43 H3 Z50. M8\nG0 X0. Y0. Z2.\nG1 Z-10. F450.\nG0 Z50.\nM5",
    limits:
      "Cycles that stop the spindle at the bottom by design are silent, and so are boring bars, gun drills, and a tool that stands free in a wider hole, as in a pilot. Where the tool then goes on into metal, the checks of spindle and coolant tell it at that stroke. Silent where the height is not known: after a move home, a tool change, a length offset or a shift.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* counted(found(context));
  },
};

function* found(context: CheckContext): Generator<readonly [string, Finding]> {
  const { execution, setup } = context;
  const { mTiming } = setup.dialect;
  const top = topOf(context).z;
  for (const moment of momentsWith(context, HAS.spindleOff | HAS.coolantOff)) {
    if (moment.step === 0 || moment.homeBefore || moment.cycleBefore !== 0) continue;
    const z = mTiming === "iso" ? moment.toZ : moment.fromZ;
    if (!(z < top - 1e-6) || (moment.has & HAS.toolChange) !== 0) continue;
    const state = execution.stepState(moment.step - 1);
    const tool = state.tool === null ? null : execution.tool(state.tool);
    // A boring bar is stopped and turned free of its wall, a gun drill is pulled out standing still.
    if (tool?.family === "bore" || tool?.family === "gun") continue;
    if (tool !== null && inWiderHole(context, moment.step, tool, z)) continue;
    const turned = state.spindle !== "stopped" && !state.unsure.includes("spindle");
    yield* offAt(context, moment, z, top, turned, state.coolant.length > 0);
  }
}

/** The tool stands free in a hole that another one has drilled: a pilot. */
function inWiderHole(context: CheckContext, step: number, { T, DC }: Tool, z: number): boolean {
  const bored = holeAround(context, step, T)?.bored ?? [];
  return bored.some(({ diameter, toZ }) => diameter >= DC - 0.005 && z >= toZ - 1e-6);
}

function* offAt(
  context: CheckContext,
  moment: Moment,
  z: number,
  top: number,
  turned: boolean,
  wet: boolean,
): Generator<readonly [string, Finding]> {
  const levels = `at Z ${sayLength(z, context)}, below the top at ${sayLength(top, context)}`;
  const data = { measured: z, limit: top, unit: "mm" };
  const told = toldAtStroke(context);
  if ((moment.has & HAS.spindleOff) !== 0 && turned && !told.spindle.has(moment.block)) {
    const then =
      (moment.has & HAS.spindleOn) !== 0 || turnsAgainAt(context, moment, z)
        ? "it starts again with its edges in the cut"
        : "it is pulled out standing still";
    const message = `The spindle stops with the tool in the hole, ${levels}: ${then}. Way out: M5 after the tool is out.`;
    yield ["M5", single("stopped-in-hole", "warning", wordPlace(context, moment.block, "M", 5), message, { data })];
  }
  if ((moment.has & HAS.coolantOff) !== 0 && wet && !told.coolant.has(moment.block)) {
    const message = `Coolant goes off with the tool in the hole, ${levels}. Way out: M9 after the tool is out.`;
    yield ["M9", single("stopped-in-hole", "info", wordPlace(context, moment.block, "M", 9), message, { data })];
  }
}

/** The next code for the spindle starts it before the tool has moved. */
function turnsAgainAt(context: CheckContext, moment: Moment, z: number): boolean {
  const { moments } = courseOf(context);
  for (let i = after(moments, moment.step); i < moments.length; i++) {
    const next = moments[i];
    if (next === undefined || next.fromZ !== z) return false;
    if ((next.has & HAS.spindleOn) !== 0) return true;
  }
  return false;
}

/** Index of the first moment after a step; they are in order. */
function after(moments: readonly Moment[], step: number): number {
  let low = 0;
  let high = moments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((moments[middle]?.step ?? 0) <= step) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Blocks of the codes after which a tool goes on into metal: that is told at its stroke, and is the graver fault. */
function toldAtStroke(context: CheckContext): {
  readonly spindle: ReadonlySet<number>;
  readonly coolant: ReadonlySet<number>;
} {
  let told = toldOf.get(context);
  if (told === undefined) {
    told = { spindle: new Set(), coolant: new Set() };
    const { blocks } = context.execution;
    for (const { whole, shape } of everyCut(context, anyHoles(context))) {
      if (whole === undefined) continue;
      const { spindle, coolant, from } = shape.state;
      if (spindle === "stopped") told.spindle.add(blocks.spanOf(from.spindle)?.block ?? -1);
      if (coolant.length === 0) told.coolant.add(blocks.spanOf(from.coolant)?.block ?? -1);
    }
    toldOf.set(context, told);
  }
  return told;
}

const toldOf = new WeakMap<CheckContext, { readonly spindle: Set<number>; readonly coolant: Set<number> }>();
