/** An interrupted cut: curve of engagement → class, zones in heights of the work system, and the feed of each. */
import { classify, harder, reducedStretch } from "../mechanics/engagement/classify.ts";
import { type EngagementCurve, engage } from "../mechanics/engagement/engage.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { coreDiameter, engagedDiameter } from "./cut.ts";
import { SHORT_BODY } from "./entry-rules.ts";
import { exitZones } from "./exit.ts";
import { known, unknown } from "./known.ts";
import { planOf } from "./plan.ts";
import type { EngagementClass, EngagementSample, EngagementZone, Known } from "./types.ts";
import {
  bodyRatio,
  type EntryWork,
  isCasting,
  jointZone,
  judgeClasses,
  judgeExit,
  sampleAt,
  skinZone,
  type WorkedEngagement,
  WorkedSamples,
} from "./worked.ts";

/** Deeper than any drill goes: the number is a slip of the keyboard. */
const MOST_DIAMETERS = 1000;
const SAME_HEIGHT = 1e-3;

/** @param byPart class by the declared part, where a note or the setup tells the entry */
export function interrupted(work: EntryWork, byPart: EngagementClass | null): Known<WorkedEngagement> {
  const { shape, endZ, tool, front, source, form } = work;
  const { surfaceZ } = shape;
  if (Math.abs(endZ - surfaceZ) > MOST_DIAMETERS * tool.DC)
    return unknown("the depth of the hole is out of all proportion");
  const curve = curveOf(work);
  if (curve.firstContact === null) return unknown("the drill does not reach the metal of this entry");
  const found = classify(front.kind, curve, classCase(work));
  const judged = judgeClasses(work);
  const zones = zonesOf(work, curve, found.zones, judged);
  // How hard the entry is; what comes out has a feed of its own.
  const hardest = zones.reduce<EngagementClass>(
    (most, { where, class: of }) => (where === "exit" ? most : harder(most, of)),
    "none",
  );
  const verdict = judged(hardest);
  const gaps = gapsOf(curve, surfaceZ);
  const full = curve.full === null ? endZ : curve.full + surfaceZ;
  // Where it comes out the drill is guided by its hole: that is the worst only where nothing else is interrupted.
  const entered = curve.zones[zones.findIndex((zone) => zone.where !== "exit" && zone.class === hardest)];
  const worst = (entered ?? found.worst)?.worst ?? curve.at(full - surfaceZ);
  const engagement = new WorkedSamples({
    form,
    source,
    class: hardest,
    skin: work.skin,
    allowedFeed: verdict.allowed.feed,
    allowedWhy: verdict.allowed.why,
    advice: verdict.ruling?.advice ?? "",
    forbidden: verdict.ruling?.forbidden ?? "no",
    share: verdict.ruling?.share ?? null,
    firstContactZ: curve.firstContact + surfaceZ,
    fullZ: full,
    zones: [
      ...zones,
      ...(work.joints ?? []).map((z) => jointZone(work, z + surfaceZ, z + surfaceZ, "touching")),
      // An insert drill must not go through a gap at all: no feed makes that right.
      ...(tool.family === "indexable" ? [] : gaps.map(({ fromZ, toZ }) => jointZone(work, fromZ, toZ, "gap"))),
      ...(work.skin ? [skinZone(work, curve.firstContact + surfaceZ, full)] : []),
      ...exitZones(work),
    ],
    gaps,
    most: { z: curve.mostAreaZ + surfaceZ, area: curve.mostArea },
    byPart,
    front,
    plan: (z, rings) => planOf(work.metal(), front, z - surfaceZ, rings),
    at: (z) => sampleAt(curve.at(z - surfaceZ), surfaceZ),
    worstOf: () => sampleAt(worst, surfaceZ),
    samplesOf: () => samplesOf(curve, surfaceZ, endZ, work.bottom),
  });
  return known({
    engagement,
    ...mostOf(curve, shape, tool),
    side: entered?.side ?? 0,
    allowed: verdict.allowed,
    ruling: verdict.ruling,
  });
}

/** The class alone, for a comparison. */
export function classOf(work: EntryWork): EngagementClass {
  const curve = curveOf(work);
  if (curve.firstContact === null) return "none";
  const { zones } = classify(work.front.kind, curve, classCase(work));
  return zones.reduce<EngagementClass>(
    (most, zone, i) => (curve.zones[i]?.leaves ? most : harder(most, zone.class)),
    "none",
  );
}

function classCase(work: EntryWork): { readonly DC: number; readonly depthRatio: number } {
  const body = bodyRatio(work);
  return { DC: work.tool.DC, depthRatio: body <= SHORT_BODY ? Math.min(body, 3) : body };
}

type Judged = ReturnType<typeof judgeClasses>;
type FoundZones = ReturnType<typeof classify>["zones"];

function zonesOf(work: EntryWork, curve: EngagementCurve, found: FoundZones, judged: Judged): EngagementZone[] {
  const { shape, endZ, setting, bottom, front } = work;
  const { surfaceZ } = shape;
  const first = curve.firstContact ?? 0;
  return found.map((zone, i) => {
    // A zone that begins while the point goes in belongs to the entry, whose reduced feed starts before the tip touches.
    const entered = zone.from >= first - front.slope * front.R - SAME_HEIGHT;
    const from = i === 0 && entered ? Math.max(first, zone.from) : zone.from;
    const stretch = reducedStretch(from + surfaceZ, zone.to + surfaceZ, isCasting(setting, false));
    // A zone that runs to the bottom ends there.
    const through = zone.to <= bottom + SAME_HEIGHT;
    const left = curve.lastContact !== null && zone.to <= curve.lastContact + SAME_HEIGHT;
    const where = entered ? "entry" : left || (curve.zones[i]?.leaves ?? false) ? "exit" : "inside";
    const { allowed } = where === "exit" ? judgeExit(zone.class, work) : judged(zone.class);
    return {
      fromZ: stretch.from,
      toZ: through ? endZ : Math.max(endZ, stretch.to),
      class: zone.class,
      where,
      allowedFeed: allowed.feed,
      allowedWhy: allowed.why,
      coreAir: curve.zones[i]?.coreAir ?? 0,
    };
  });
}

/** The kernel looks just beside a change: a micrometre is more than is known. */
const rounded = (z: number): number => Math.round(z * 1e3) / 1e3 + 0;

/** Heights of the tip between metal above and metal below. */
function gapsOf(curve: EngagementCurve, surfaceZ: number): { fromZ: number; toZ: number }[] {
  const gaps: { fromZ: number; toZ: number }[] = [];
  let left: number | null = null;
  let cut = false;
  for (const { z, touching } of curve.samples) {
    if (touching && left !== null) {
      gaps.push({ fromZ: rounded(left + surfaceZ), toZ: rounded(z + surfaceZ) });
      left = null;
    }
    if (!touching && cut && left === null) left = z;
    cut ||= touching;
  }
  return gaps;
}

/** The heights of the kernel, and the end of the hole where it lies below them. */
function samplesOf(
  curve: EngagementCurve,
  surfaceZ: number,
  endZ: number,
  bottom: number,
): readonly EngagementSample[] {
  const list = curve.samples.map((m) => sampleAt(m, surfaceZ));
  if (endZ - surfaceZ < bottom - SAME_HEIGHT) list.push(sampleAt(curve.at(endZ - surfaceZ), surfaceZ));
  return list;
}

function curveOf({ setting, front, metal, metalKey, bottom }: EntryWork): EngagementCurve {
  const { kind, R, slope, centre } = front;
  const key = `${kind}|${R}|${slope}|${centre}|${bottom}|${metalKey}`;
  const earlier = setting.curves.get(key);
  if (earlier !== undefined) return earlier;
  const curve = engage(metal(), front, bottom);
  setting.curves.set(key, curve);
  return curve;
}

/** Area and edge in metal over what a full cut of the same drill, depth and core takes. */
function mostOf(curve: EngagementCurve, shape: HoleShape, tool: Tool): { mostMetal: number; mostEdge: number } {
  const outer = engagedDiameter(shape, tool);
  const core = coreDiameter(shape, tool);
  const area = (outer ** 2 - core ** 2) / tool.DC ** 2;
  const edge = (outer - core) / tool.DC;
  return {
    mostMetal: area > 0 ? Math.min(1, curve.mostArea / area) : 1,
    mostEdge: edge > 0 ? Math.min(1, curve.mostEdge / edge) : 1,
  };
}
