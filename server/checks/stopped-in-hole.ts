import { HAS, type Moment, momentsWith } from "./course.ts";
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
      "Cycles that stop the spindle at the bottom by design are silent, and so are boring bars. Silent where the height is not known: after a move home, a tool change, a length offset or a shift.",
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
    // A boring bar is stopped and turned free of its wall.
    if (tool?.family === "bore") continue;
    yield* offAt(
      context,
      moment,
      z,
      top,
      state.spindle !== "stopped" && !state.unsure.includes("spindle"),
      state.coolant.length > 0,
    );
  }
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
  if ((moment.has & HAS.spindleOff) !== 0 && turned) {
    const message = `The spindle stops with the tool in the hole, ${levels}: it is pulled out standing still. Way out: M5 after the tool is out.`;
    yield ["M5", single("stopped-in-hole", "warning", wordPlace(context, moment.block, "M", 5), message, { data })];
  }
  if ((moment.has & HAS.coolantOff) !== 0 && wet) {
    const message = `Coolant goes off with the tool in the hole, ${levels}. Way out: M9 after the tool is out.`;
    yield ["M9", single("stopped-in-hole", "info", wordPlace(context, moment.block, "M", 9), message, { data })];
  }
}
