import { say } from "../units/wording.ts";
import { type Candidate, cyclePlace, type MetalHole, metalHoles, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";

export const combustibleChips: Check = {
  id: "combustible-chips",
  family: "coolant",
  severity: "info",
  docs: {
    title: "Chips of this material burn",
    what: "Drilling magnesium or titanium, said once per program; a dwell at the bottom of the hole is named apart, as a warning in magnesium.",
    why: "A drill that dwells or rubs heats thin chips until they catch fire. Water makes a magnesium fire worse.",
    formula: "magnesium: below about 213 m/min (700 ft/min)",
    example:
      "%\nG21 G90 G94 G54\n(CUT MATERIAL MGAL9ZN1 HB 65)\nT5 M6\nG0 X0. Y0. S900 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G82 X0. Y0. Z-20. R2. P1000 F180.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT5 M6\nG0 X0. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 X0. Y0. Z-20. R3. F108.\nG80 M9\nM30\n%",
    limits: "A caution, not a fire plan. ISO 16090-1 covers machining centres for non-combustible material only.",
    source: "Magnesium: T.O. 1-1A-9 / TM 43-0106; titanium: common practice, no source; scope of ISO 16090-1",
  },
  *detect(context) {
    yield* perCause("combustible-chips", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const metal = hole.loads.material?.combustible ?? null;
    if (metal === null) continue;
    const { dwell } = hole.shape;
    const place = cyclePlace(context, hole);
    if (dwell > 0) {
      yield {
        key: `dwell ${metal} o${hole.operation.index}`,
        severity: metal === "magnesium" ? "warning" : "info",
        weight: dwell,
        place,
        hole,
        message: `A dwell of ${say(dwell, "time", context.system)} in ${metal}: the drill rubs and heats thin chips that can catch fire. Way out: no dwell${hole.shape.longHand ? "" : ", a cycle without P"}.`,
        data: { measured: dwell, limit: 0, unit: "s" },
      };
    } else {
      yield { key: metal, severity: "info", weight: 1, place, hole, message: caution(metal, hole), data: null };
    }
  }
}

function caution(metal: "magnesium" | "titanium", hole: MetalHole): string {
  if (metal === "titanium") {
    return "Caution: titanium chips burn. Sharp tool, a feed that cuts, flood coolant, no dwell; a class D agent at hand.";
  }
  const wet = hole.loads.coolant.kinds.some((kind) => kind === "flood" || kind === "through");
  const coolant = wet ? " If the coolant here is water-based, think again: wet magnesium chips give hydrogen." : "";
  return `Caution: magnesium chips burn. Sharp tool, no fine feed, no rubbing, below about 213 m/min (700 ft/min); dry sand or powder for metal fires at hand, never water.${coolant}`;
}
