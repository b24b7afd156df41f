import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";

export const rPlaneLow: Check = {
  id: "r-plane-low",
  severity: "warning",
  docs: {
    title: "The R plane is at or below the surface",
    what: "The level to which a cycle goes at rapid, against the surface of the part.",
    why: "The drill is driven into the part at rapid, or touches it before the feed begins.",
    formula: "R > surface",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R0. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Holes in pocket floors have their R below the top on purpose; with no stock declared the surface is only assumed, and it stays a warning.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("r-plane-low", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape } = hole;
    if (shape.longHand || shape.startZ === null || shape.kind === "back-bore") continue;
    // R inside a hole that another tool drilled is air.
    if (shape.surfaceFrom === "previous-hole") continue;
    const surface = { z: shape.topZ ?? shape.surfaceZ, declared: shape.topDeclared ?? shape.surfaceFrom === "stock" };
    if (shape.startZ > surface.z + 1e-6) continue;
    const below = shape.startZ < surface.z - 1e-6;
    yield {
      key: keyOf(shape.refs.r, hole),
      severity: surface.declared && below ? "error" : "warning",
      weight: surface.z - shape.startZ,
      place: at(context, shape.refs.r, hole.firstBlock),
      hole,
      message: `R ${say(shape.startZ, "length", context.system)} is ${below ? `below the surface at ${say(surface.z, "length", context.system)}` : "at the surface"}${surface.declared ? "" : " (assumed, no stock is declared)"}: the drill comes there at rapid. Way out: R above the surface, ${say(surface.z + 2, "length", context.system)} or so.`,
      data: { measured: shape.startZ, limit: surface.z, unit: "mm" },
    };
  }
}
