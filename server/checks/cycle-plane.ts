import { say } from "../units/wording.ts";
import { allHoles, type Candidate, cyclePlace, keyOf, perCause } from "./cause.ts";
import { eventFindings, eventsOf, said } from "./events.ts";
import type { Check, CheckContext } from "./types.ts";

export const cyclePlane: Check = {
  id: "cycle-plane",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The cycle drills along X or Y",
    what: "A drilling cycle of a mill while G18 or G19 is in force; an error where R then lies beyond the bottom.",
    why: "An arc in another plane leaves its plane behind; the cycle then drives the side of the drill through the part.",
    formula: "",
    example: "G21 G18\nS2500 M3\nM8\nG81 X0. Z0. Y-5. R2. F450.\nG80",
    better: "G21 G17\nS2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    limits: "With a right-angle head it is meant: turn it off there. Turning machines are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    if (context.setup.dialect.machineKind !== "mill") return;
    yield* perCause("cycle-plane", context, candidates(context));
    const events = eventsOf(context, "r-below-z").filter((event) => said(event, "plane", "") !== "");
    const mm = context.system === "inch" ? 25.4 : 1;
    yield* eventFindings("cycle-plane", events, (event) => {
      const { r, z } = event.data;
      const plane = said(event, "plane", "");
      const axis = said(event, "axis", "Y");
      const level = (value: unknown): string => say(Number(value) * mm, "length", context.system);
      return {
        key: plane,
        severity: "error",
        message: `${plane} is in force: the cycle drills along ${axis}, and R ${level(r)} lies beyond its bottom at ${axis} ${level(z)}. Way out: G17 before it.`,
        data: { measured: Number(r) * mm, limit: Number(z) * mm, unit: "mm" },
      };
    });
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of allHoles(context)) {
    const { shape } = hole;
    if (shape.longHand || shape.axis === "z" || shape.state.unsure.includes("plane")) continue;
    yield {
      key: keyOf(shape.refs.cycle, hole),
      severity: "warning",
      weight: 1,
      place: cyclePlace(context, hole),
      hole,
      message: `G${shape.state.plane} is in force: the cycle drills along ${shape.axis.toUpperCase()}, not along Z. Way out: G17 before it, unless a right-angle head is in use.`,
      data: null,
    };
  }
}
