import { say } from "../units/wording.ts";
import { eventFindings, eventsOf, levelOf } from "./events.ts";
import type { Check } from "./types.ts";

export const rapidIntoMetal: Check = {
  id: "rapid-into-metal",
  family: "place",
  severity: "error",
  docs: {
    title: "A rapid goes down into metal",
    what: "A G0 move along the drill axis below the surface where no hole of that diameter has been drilled.",
    why: "The drill meets the part at rapid.",
    formula: "",
    example: "G21 G90 G0 X10. Y10.\nG0 Z-5.",
    better: "G21 G90 G0 X10. Y10.\nG0 Z2.\nG1 Z-5. F120.",
    limits:
      "The surface is the stock's where one is declared, else the dialect's `stockTop`, and then it is a warning: a pocket may be open from an earlier program. Fixtures and clamps are not known.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("rapid-into-metal", eventsOf(context, "rapid-into-metal"), (event) => {
      const z = event.data.z;
      const surface = event.data.surface;
      const assumed = levelOf(event, "error") !== "error";
      const known = typeof z === "number" && typeof surface === "number";
      const levels = known
        ? `to ${say(z, "length", context.system)}, the surface is at ${say(surface, "length", context.system)}${assumed ? " (assumed, no stock is declared)" : ""}`
        : "below the surface";
      return {
        severity: levelOf(event, "error"),
        message: `Rapid into metal: ${levels} and no hole is there. Way out: rapid to above the surface, then feed.`,
        data: known ? { measured: z, limit: surface, unit: "mm" } : null,
      };
    });
  },
};
