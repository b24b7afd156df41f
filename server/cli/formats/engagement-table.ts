/** An interrupted cut over depth as text: measures by height of the tip, and the zones with their feeds. */
import type { Engagement, EngagementSample, EngagementZone, HoleLoads } from "../../loads/types.ts";
import { isInterrupted, wholeFrom } from "../../pictures/engagement-of-hole.ts";
import type { UnitSystem } from "../../units/quantities.ts";
import { say, unitIn } from "../../units/wording.ts";
import { bare } from "./load-table.ts";
import { clean, columns, table, wrap } from "./terminal.ts";

/** A table is read in passing: more heights are in the json. */
export const MOST_ROWS = 12;
const MOST_ZONES = 12;
/** A height that tells less than this share beyond its neighbours is left out. */
const TELLS = 0.01;
/** mm; on a flat front a height itself lies between air and metal. */
const BELOW = 1e-3;

/** A height is found by halving: a millionth of a millimetre is zero. */
const GRAIN = 1e-3;
const settled = (z: number): number => (Math.abs(z) < GRAIN ? 0 : z);

interface Row {
  readonly z: number;
  readonly sample: EngagementSample;
  readonly marks: readonly string[];
}

/** Nothing for a hole that is whole in metal all the way. */
export function engagementLines(loads: HoleLoads, system: UnitSystem, width: number): string[] {
  const { engagement, shape } = loads;
  if (engagement === null) return [];
  const axis = shape.axis.toUpperCase();
  const out: string[] = [];
  if (isInterrupted(engagement))
    out.push("", ...heightLines(rowsOf(engagement, shape.endZ, system), axis, system, width));
  if (engagement.zones.length > 0) out.push("", ...zoneLines(engagement, axis, system, width));
  for (const gap of engagement.gaps) {
    const [from, to] = [gap.fromZ, gap.toZ].map((z) => say(z, "length", system));
    out.push(...wrap(`no metal with the tip from ${axis} ${from} to ${to}`, width));
  }
  return out;
}

function heightLines(rows: readonly Row[], axis: string, system: UnitSystem, width: number): string[] {
  const other = system === "mm" ? "inch" : "mm";
  const cells = rows.map(({ z, sample, marks }) => [
    bare(z, "length", system),
    bare(z, "length", other),
    ...measures(sample),
    marks.join(", "),
  ]);
  const head = [
    `tip ${axis} ${unitIn("length", system)}`,
    unitIn("length", other),
    "area",
    "rim",
    "void arc",
    "core",
    "side",
    "",
  ];
  const lines = table([head, ...cells], new Set([0, 1, 2, 3, 4, 5, 6]), width);
  if (lines.every((line) => columns(line) <= width)) return lines;
  return rows.flatMap(({ z, sample, marks }) => {
    const [area, rim, gap, core, side] = measures(sample);
    const at = `${axis} ${say(z, "length", system)}${marks.length === 0 ? "" : ` (${marks.join(", ")})`}`;
    return wrap(`${at}: area ${area}, rim ${rim}, void arc ${gap}, core ${core}, side ${side}`, width);
  });
}

function measures({ area, rim, voidArc, core, side }: EngagementSample): [string, string, string, string, string] {
  return [percent(area), percent(rim), whole(360 * voidArc, 360, "°"), percent(core), side.toFixed(2)];
}

const percent = (share: number): string => whole(100 * share, 100, " %");

/** A little is not nothing, and nearly all is not all. */
function whole(value: number, all: number, unit: string): string {
  if (!Number.isFinite(value)) return "unknown";
  const rounded = Math.round(value);
  if (rounded <= 0) return `${value > NOISE ? "<1" : "0"}${unit}`;
  return rounded >= all && value < all - NOISE ? `>${all - 1}${unit}` : `${rounded}${unit}`;
}
const NOISE = 1e-4;

function zoneLines(engagement: Engagement, axis: string, system: UnitSystem, width: number): string[] {
  const { zones } = engagement;
  const rows = zones
    .slice(0, MOST_ZONES)
    .map((zone) => [
      say(zone.fromZ, "length", system),
      say(zone.toZ, "length", system),
      zone.class === "none" ? "skin" : zone.class,
      zone.where,
      feedOf(zone, engagement, system),
    ]);
  const head = [`zone from ${axis}`, `to ${axis}`, "class", "where", "feed at most"];
  const lines = table([head, ...rows], new Set(), width);
  if (zones.length > MOST_ZONES) lines.push(`and ${zones.length - MOST_ZONES} more zones`);
  if (lines.every((line) => columns(line) <= width)) return lines;
  return rows.flatMap(([from, to, name, where, feed]) =>
    wrap(`zone from ${axis} ${from} to ${to}: ${name}, ${where}, feed at most ${feed}`, width),
  );
}

/** The reason for the hardest class stands with the entry already. */
function feedOf(zone: EngagementZone, engagement: Engagement, system: UnitSystem): string {
  if (zone.allowedFeed === null) return `none: ${clean(zone.allowedWhy)}`;
  const why = zone.allowedWhy === engagement.allowedWhy ? "" : clean(zone.allowedWhy);
  return `${say(zone.allowedFeed, "feedPerRev", system)}${why === "" ? "" : ` (${why})`}`;
}

/** First contact, worst, whole and end; borders of zones as far as there is room; then the heights that tell most. */
function rowsOf(engagement: Engagement, endZ: number | null, system: UnitSystem): Row[] {
  const rows = new Map<string, { z: number; sample: EngagementSample; marks: string[] }>();
  const add = (z: number | null, mark: string, sample?: EngagementSample): void => {
    if (z === null || !Number.isFinite(z)) return;
    const key = heightKey(z, system);
    const known = rows.get(key);
    if (known !== undefined) {
      if (!known.marks.includes(mark)) known.marks.push(mark);
    } else if (rows.size < MOST_ROWS) {
      rows.set(key, {
        z: settled(z),
        sample: sample ?? engagement.at(endZ === null ? z - BELOW : Math.max(z - BELOW, endZ + BELOW)),
        marks: mark === "" ? [] : [mark],
      });
    }
  };
  add(engagement.worst.z, "worst", engagement.worst);
  add(engagement.firstContactZ, "first contact");
  add(wholeFrom(engagement, endZ), "whole");
  if (endZ !== null) add(endZ, "end");
  for (const zone of engagement.zones) {
    add(zone.fromZ, "zone begins");
    add(zone.toZ, "zone ends");
  }
  while (rows.size < MOST_ROWS) {
    const z = mostTelling([...rows.values()], engagement.samples, (key) => rows.has(heightKey(key, system)));
    if (z === null) break;
    add(z.z, "", z);
  }
  return [...rows.values()].sort((a, b) => b.z - a.z);
}

const heightKey = (z: number, system: UnitSystem): string => bare(settled(z), "length", system);

/** The sample that a straight line between the rows above and below it misses most. */
function mostTelling(
  rows: readonly Row[],
  samples: readonly EngagementSample[],
  told: (z: number) => boolean,
): EngagementSample | null {
  const sorted = [...rows].sort((a, b) => b.z - a.z);
  let best: EngagementSample | null = null;
  let most = TELLS;
  let i = 0;
  for (const sample of samples) {
    while (i < sorted.length && (sorted[i] as Row).z > sample.z) i++;
    const above = sorted[i - 1]?.sample;
    const under = sorted[i]?.sample;
    if (above === undefined || under === undefined) continue;
    const missed = missedBy(sample, above, under);
    if (missed <= most || told(sample.z)) continue;
    best = sample;
    most = missed;
  }
  return best;
}

function missedBy(sample: EngagementSample, above: EngagementSample, under: EngagementSample): number {
  const part = above.z > under.z ? (above.z - sample.z) / (above.z - under.z) : 0;
  const off = (of: (s: EngagementSample) => number): number =>
    Math.abs(of(sample) - of(above) - part * (of(under) - of(above)));
  return Math.max(
    off((s) => s.area),
    off((s) => s.rim),
    off((s) => s.voidArc),
    off((s) => s.core),
    off((s) => s.side),
  );
}
