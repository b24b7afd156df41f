/**
 * The exit that a note or the setup tells: where the drill comes out on one side first. No note tells a height, so the
 * drill counts as wholly through at the end of its hole.
 */
import { classify, reducedStretch } from "../mechanics/engagement/classify.ts";
import { engage } from "../mechanics/engagement/engage.ts";
import { exitSurface } from "../mechanics/engagement/surfaces.ts";
import type { EngagementZone } from "./types.ts";
import { type EntryWork, isCasting, judgeExit } from "./worked.ts";

export function exitZones(work: EntryWork): EngagementZone[] {
  const { shape, tool, front, endZ, setting } = work;
  const { exit } = shape;
  if (exit === null || exit.form.kind === "flat" || exit.form.kind === "skin") return [];
  const reach = 3 * tool.DC + front.slope * front.R;
  const curve = engage(exitSurface(exit.form, tool.DC), front, -reach, reach);
  if (curve.lastContact === null) return [];
  const shift = endZ - curve.lastContact;
  const found = classify(front.kind, curve, { DC: tool.DC, depthRatio: 0 });
  return found.zones.map((zone, i) => {
    const { allowed } = judgeExit(zone.class, work);
    return {
      fromZ: Math.min(reducedStretch(zone.from + shift, endZ, isCasting(setting, false)).from, shape.surfaceZ),
      toZ: endZ,
      class: zone.class,
      where: "exit",
      allowedFeed: allowed.feed,
      allowedWhy: allowed.why,
      coreAir: curve.zones[i]?.coreAir ?? 0,
    };
  });
}
