import { say } from "../units/wording.ts";
import { type Candidate, depthPlace, entryKey, holeKey, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { entryTold } from "./entry-told.ts";
import type { Check, CheckContext } from "./types.ts";
import { toolName } from "./wording.ts";

export const centreInsertFree: Check = {
  id: "centre-insert-free",
  family: "entry",
  severity: "warning",
  docs: {
    title: "The centre insert leaves the metal while the outer one cuts",
    what: "An insert drill inside its hole whose middle comes into a void that is there already, a cross bore or an earlier hole, while the outer insert still cuts.",
    why: "The two inserts hold each other in balance. With the inner one in air the outer pushes the drill aside at full force, once a turn.",
    formula: "less than half of the centre zone in metal over more than 0.1 D of depth",
    example:
      "(with a cross bore of 13 mm, 25 mm down)\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-60. R2. F90.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG81 X0. Y0. Z-15. R2. F180.\nG80 M9\nM30\n%",
    limits:
      "Known only from stock in the setup and from holes of this program. At the entry itself `entry-not-allowed` speaks.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("centre-insert-free", context, candidates(context));
  },
};

/** Of the diameter: common practice, no source. */
const SHORT = 0.1;

function* candidates(context: CheckContext): Generator<Candidate> {
  for (const hole of metalHoles(context)) {
    const found = free(context, hole);
    if (found !== null) yield found;
  }
}

function free(context: CheckContext, hole: MetalHole): Candidate | null {
  const { shape, loads } = hole;
  const { tool, engagement } = loads;
  if (tool?.family !== "indexable" || engagement === null) return null;
  const zones = engagement.zones.filter(({ coreAir, where }) => where === "inside" && coreAir > SHORT * tool.DC);
  const [zone] = zones;
  if (zone === undefined) return null;
  const { system } = context;
  const axis = shape.axis.toUpperCase();
  const level = (z: number): string => `${axis} ${say(z, "length", system)}`;
  return {
    key: `${holeKey(hole)}${entryKey(hole)}`,
    severity: "warning",
    weight: zone.coreAir,
    place: depthPlace(context, hole),
    hole,
    message: `The centre insert of ${toolName(shape.tool)} is in air over ${say(zone.coreAir, "length", system)} of depth (tip between ${level(zone.fromZ)} and ${level(zone.toZ)}), more than 0.1 D, ${say(SHORT * tool.DC, "length", system)} (common practice), while the outer one cuts: the drill is pushed aside. Way out: this hole before the one it runs into, a drill with a point, or less feed through that stretch.`,
    data: { measured: zone.coreAir, limit: SHORT * tool.DC, unit: "mm" },
    related: entryTold(context, hole),
  };
}
