/**
 * A block in a loop or a called program runs many times, and what is wrong with it is one mistake: findings of one check
 * at one place that say the same become one with a count. Where only their numbers differ (another tool, another depth in
 * each turn) the first few stand and the rest are counted.
 */
import type { Finding } from "./types.ts";

/** Findings at one place that differ in their numbers only. */
const MOST_ALIKE = 3;

interface Kept {
  readonly at: number;
  times: number;
  count: number;
}

interface Alike {
  readonly byMessage: Map<string, Kept>;
  /** Findings beyond those that stand: how many, and behind which they are told. */
  last: number;
  more: number;
}

export function oncePerPlace(findings: readonly Finding[]): Finding[] {
  const places = new Map<string, Alike>();
  const all: Finding[] = [];
  for (const finding of findings) {
    const key = keyOf(finding);
    let alike = places.get(key);
    if (alike === undefined) {
      alike = { byMessage: new Map(), last: -1, more: 0 };
      places.set(key, alike);
    }
    const same = alike.byMessage.get(finding.message);
    if (same !== undefined) {
      same.times++;
      same.count += finding.count;
    } else if (alike.byMessage.size < MOST_ALIKE) {
      alike.byMessage.set(finding.message, { at: all.length, times: 1, count: finding.count });
      alike.last = all.length;
      all.push(finding);
    } else alike.more += 1;
  }
  for (const { byMessage, last, more } of places.values()) {
    for (const { at, times, count } of byMessage.values()) {
      const finding = all[at];
      if (times > 1 && finding !== undefined)
        all[at] = { ...finding, count, message: `${finding.message} So ${times} times at this place.` };
    }
    const finding = all[last];
    if (more > 0 && finding !== undefined)
      all[last] = {
        ...finding,
        count: finding.count + more,
        message: `${finding.message} So ${more} more times at this place, with other numbers.`,
      };
  }
  return all;
}

function keyOf({ check, severity, place, message }: Finding): string {
  const where =
    place.in === "file"
      ? `${place.file} ${place.line} ${place.column}`
      : `${place.span.block} ${place.span.start} ${place.span.end}`;
  return `${check} ${severity} ${where} ${message.replace(/\d+(\.\d+)?/g, "0")}`;
}
