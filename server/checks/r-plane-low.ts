import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, perCause, STOCK } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import { entryOf } from "./entry-words.ts";
import type { Check, CheckContext } from "./types.ts";
import { sayLevel } from "./wording.ts";

export const rPlaneLow: Check = {
  id: "r-plane-low",
  family: "cycle",
  severity: "warning",
  docs: {
    title: "The R plane is at or below the surface",
    what: "The level to which a cycle goes at rapid, against the surface of the part; where an entry is told, the level at which any feed begins, against the high side of that entry.",
    why: "The drill is driven into the part at rapid, or touches it before the feed begins.",
    formula: "R > surface; at an entry R > first contact (incline: surface + D/2 · tan of the angle for a flat front)",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R0. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Holes in pocket floors have their R below the top on purpose: with no stock declared the surface is only assumed, and an R below it is information.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("r-plane-low", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const { shape } = hole;
    const entered = intoEntry(context, hole);
    if (entered !== null) {
      yield entered;
      continue;
    }
    if (shape.longHand || shape.startZ === null || shape.kind === "back-bore") continue;
    // R inside a hole that another tool drilled is air.
    if (shape.surfaceFrom === "previous-hole") continue;
    const surface = { z: shape.topZ ?? shape.surfaceZ, declared: shape.topDeclared ?? shape.surfaceFrom === "stock" };
    const clearance = context.setup.dialect.clearanceMin;
    if (shape.startZ > surface.z + 1e-6) {
      if (clearance !== null && shape.startZ < surface.z + clearance - 1e-6)
        yield tooNear(context, hole, shape.startZ, surface.z, clearance);
      continue;
    }
    const below = shape.startZ < surface.z - 1e-6;
    if (below && !surface.declared) {
      yield assumed(context, hole, shape.startZ, surface.z);
      continue;
    }
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

/** Below a surface that is only assumed: as it is on the floor of a pocket, and as it is with a sign lost. */
function assumed(context: CheckContext, hole: MetalHole, r: number, surface: number): Candidate {
  const { system } = context;
  return {
    key: keyOf(hole.shape.refs.r, hole),
    severity: "info",
    weight: surface - r,
    place: at(context, hole.shape.refs.r, hole.firstBlock),
    hole,
    message: `R ${say(r, "length", system)} is below ${sayLevel(hole.shape.axis, surface, system)}, where the surface is assumed: right on the floor of a pocket, rapid into metal elsewhere. No stock is declared, so it cannot be checked. Way out: \`stock\` of the workpiece in the setup; R above the surface where there is no pocket.`,
    data: { measured: r, limit: surface, unit: "mm" },
  };
}

/** R above the surface, but nearer than the setup wants it. */
function tooNear(context: CheckContext, hole: MetalHole, r: number, surface: number, clearance: number): Candidate {
  const { system } = context;
  const { shape } = hole;
  return {
    key: `near${keyOf(shape.refs.r, hole)}`,
    severity: "warning",
    weight: surface + clearance - r,
    place: at(context, shape.refs.r, hole.firstBlock),
    hole,
    message: `R ${say(r, "length", system)} is ${say(r - surface, "length", system)} above the surface, less than the ${say(clearance, "length", system)} that the setup wants (\`clearanceMin\`). Way out: R ${say(surface + clearance, "length", system)} or more.`,
    data: { measured: r - surface, limit: clearance, unit: "mm" },
  };
}

/**
 * The feed begins below the point where the drill first meets the face that a note or the setup tells: the way there, at
 * rapid, went through its high side. What the note says is relative to the surface at the drill's axis.
 */
function intoEntry(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const { entry, startZ } = shape;
  if (
    (entry === null && shape.around === undefined) ||
    startZ === null ||
    loads.engagement === null ||
    shape.kind === "back-bore"
  )
    return null;
  const surface = shape.topZ ?? shape.surfaceZ;
  const contact = loads.engagement.firstContactZ;
  if (contact <= surface + 1e-6 || startZ > contact - 1e-6) return null;
  const declared = shape.topDeclared ?? shape.surfaceFrom === "stock";
  const { system } = context;
  const start = say(startZ, "length", system);
  const what = shape.longHand ? `The feed begins at ${shape.axis.toUpperCase()} ${start},` : `R ${start} is`;
  const safe = say(contact + 2, "length", system);
  // In long hand the level is that of the rapid move; there is no R to change.
  const out = shape.longHand
    ? `end the rapid at ${shape.axis.toUpperCase()} ${safe} or so and feed from there`
    : `R ${safe} or so`;
  const assumed = declared ? "" : `, with the surface at ${sayLevel(shape.axis, surface, system)} assumed`;
  return {
    key: `${keyOf(shape.refs.r, hole)}${entry === null ? STOCK : contact}`,
    severity: declared ? "error" : "warning",
    weight: contact - startZ,
    place: at(context, shape.refs.r, hole.firstBlock),
    hole,
    message: `${what} below the first contact at ${say(contact, "length", system)} on ${entryOf(hole, system)}${assumed}: the drill comes there at rapid, through metal. Way out: ${out}.`,
    data: { measured: startZ, limit: contact, unit: "mm" },
    related: entryTold(context, hole),
  };
}
