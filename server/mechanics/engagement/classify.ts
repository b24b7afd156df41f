/** How hard an interrupted entry is on a drill. Classes and thresholds: common practice, no source. */
import type { DrillKind } from "./drill.ts";
import type { EngagementCurve, Zone } from "./engage.ts";

export type EntryClass = "none" | "light" | "medium" | "heavy" | "extreme";

export interface ClassifiedZone {
  /** Tip heights, mm, from above to below. */
  readonly from: number;
  readonly to: number;
  readonly class: EntryClass;
}

export interface Classified {
  /** The hardest class of all zones. */
  readonly class: EntryClass;
  readonly zones: readonly ClassifiedZone[];
  /** The zone that has it; null for class none. */
  readonly worst: Zone | null;
}

export interface ClassifyCase {
  /** mm */
  readonly DC: number;
  /** Hole depth over diameter. */
  readonly depthRatio: number;
}

const ORDER: readonly EntryClass[] = ["none", "light", "medium", "heavy", "extreme"];

/** The harder of two classes. */
export function harder(a: EntryClass, b: EntryClass): EntryClass {
  return ORDER.indexOf(a) >= ORDER.indexOf(b) ? a : b;
}

/** Class of every interrupted zone of a curve, and the hardest of them. */
export function classify(kind: DrillKind, curve: EngagementCurve, use: ClassifyCase): Classified {
  let worst: Zone | null = null;
  let hardest: EntryClass = "none";
  const zones: ClassifiedZone[] = [];
  for (const zone of curve.zones) {
    const found = kind === "two-insert" ? insertClass(zone, use) : lipClass(zone, use);
    zones.push({ from: zone.from, to: zone.to, class: found });
    if (worst === null || ORDER.indexOf(found) > ORDER.indexOf(hardest)) {
      worst = zone;
      hardest = found;
    }
  }
  return { class: hardest, zones, worst };
}

/** Two-insert drill, from the hardest class down. */
function insertClass(zone: Zone, use: ClassifyCase): EntryClass {
  if (zone.coreAir > 0.6 * use.DC) return "extreme";
  if (zone.rimLength < 0.05 * use.DC) return "light";
  const hard = zone.voidArc >= 0.15 && zone.imbalance >= 0.9;
  if (hard && zone.rimLength >= 0.1 * use.DC) return use.depthRatio > 3 ? "extreme" : "heavy";
  return zone.voidArc >= 0.05 ? "medium" : "light";
}

/** Two-lip drill and spade, from the hardest class down. */
function lipClass(zone: Zone, use: ClassifyCase): EntryClass {
  // Over so little travel no drill is pushed far, as the table has it for inserts: a flat face a few degrees out of square.
  if (zone.rimLength < 0.05 * use.DC && zone.rimLength > 0) return "light";
  if (zone.side > 0.6 || zone.oneSided) return "extreme";
  if (zone.side > 0.35 || zone.rimBelowHalf >= 0.1 * use.DC) return "heavy";
  if (zone.side > 0.2 || (zone.voidArc >= 0.15 && zone.rimLength >= 0.1 * use.DC)) return "medium";
  return "light";
}

/**
 * The stretch in which the feed is to be reduced: from 1 mm above first contact to 1 mm below full engagement, 2 mm for
 * castings and forgings. Common practice, no source.
 */
export function reducedStretch(
  from: number,
  to: number,
  casting: boolean,
): { readonly from: number; readonly to: number } {
  const margin = casting ? 2 : 1;
  return { from: from + margin, to: to - margin };
}
