import { say } from "../units/wording.ts";
import { eventFindings, eventsOf, levelOf, said } from "./events.ts";
import type { Check } from "./types.ts";

export const sidewaysInMetal: Check = {
  id: "sideways-in-metal",
  family: "place",
  severity: "error",
  docs: {
    title: "A drill moves sideways in metal",
    what: "A move across the drill's axis while its tip is below the surface, outside any hole wide enough and any region milled before.",
    why: "A drill cuts along its axis alone: it bends, breaks in the hole or tears the wall.",
    formula: "",
    example: "G21 G90 T3 M6\nS1000 M3\nG0 X0 Y0 Z2.\nG1 Z-10. F100.\nG0 X20.\nZ50.",
    better: "G21 G90 T3 M6\nS1000 M3\nG0 X0 Y0 Z2.\nG1 Z-10. F100.\nG0 Z2.\nX20.\nZ50.",
    limits:
      "Only for tools that are drills, reamers or taps by the setup or by a comment: spot drills, countersinks, boring bars and unknown tools may cut sideways. The surface is the stock's where one is declared, else the dialect's `stockTop`, and then it is a warning. Moves inside a cycle are not looked at: `r-plane-low` tells of an R below the surface.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* eventFindings("sideways-in-metal", eventsOf(context, "sideways-in-metal"), (event) => {
      const z = event.data.z;
      const surface = event.data.surface;
      const tool = event.data.tool;
      const severity = levelOf(event, "error");
      const levels =
        typeof z === "number" && typeof surface === "number"
          ? `, at ${say(z, "length", context.system)} where the surface is at ${say(surface, "length", context.system)}${severity === "error" ? "" : " (assumed, or the tool is taken for a drill)"}`
          : "";
      const by = said(event, "by", "feed") === "rapid" ? "at rapid" : "at feed";
      return {
        severity,
        key: `${event.operation} ${by}`,
        message: `Sideways in metal: T${tool ?? "?"} moves across its axis ${by}${levels}. Way out: retract above the surface before X and Y move.`,
        data: typeof z === "number" && typeof surface === "number" ? { measured: z, limit: surface, unit: "mm" } : null,
      };
    });
  },
};
