/** Plan view and curve over depth of an interrupted entry, for a hover. */
import { engagementPairSvg } from "../../pictures/engagement.ts";
import { curveOfHole, isInterrupted, planOfHole } from "../../pictures/engagement-of-hole.ts";
import { sayHeight, sayShare } from "../../pictures/engagement-words.ts";
import { dataUri } from "../../pictures/svg.ts";
import type { HoleLoads, UnitSystem } from "../model.ts";
import { picture } from "./markdown.ts";

/** A hover is fetched at every rest of the mouse: as many as its small picture needs, and no more. */
const RINGS = 28;

/** Empty where the drill enters whole: a full circle says nothing. */
export function engagementPictures(loads: HoleLoads, system: UnitSystem): string {
  const { engagement, shape } = loads;
  if (!isInterrupted(engagement)) return "";
  const { worst, firstContactZ, zones } = engagement;
  // Brackets would end the picture's description.
  const level = (z: number): string =>
    `${shape.axis.toUpperCase()} ${sayHeight(z, system).replace(" (", " / ").replace(")", "")}`;
  const classes = zones.map((zone) => `${zone.class} from ${level(zone.fromZ)} to ${level(zone.toZ)}`);
  const told = classes.slice(0, ZONES_TOLD).join("; ");
  const more = classes.length > ZONES_TOLD ? `; ${classes.length - ZONES_TOLD} more zones` : "";
  const seen = `Drill seen along its axis, worst at ${level(worst.z)}: ${sayShare(worst.area)} of its area and ${sayShare(worst.rim)} of its rim in metal`;
  const curve = `engagement over depth, first contact at ${level(firstContactZ)}: ${told}${more}`;
  const plan = planOfHole(loads, engagement, RINGS, system);
  return picture(
    `${seen}. Beside it the ${curve}`,
    dataUri(engagementPairSvg(plan, curveOfHole(loads, engagement, system), ROOM)),
  );
}

/** px: what a hover shows without breaking the line. */
const ROOM = 700;
const ZONES_TOLD = 3;
