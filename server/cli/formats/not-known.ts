/** What stayed unknown, in words, one row for each reason: what the holes share is said once. */
import type { HoleLoads } from "../../loads/types.ts";
import { clean, wrap } from "./terminal.ts";

/** Reason → what it leaves unknown. */
export type NotKnown = ReadonlyMap<string, readonly string[]>;

export function notKnownOf(loads: HoleLoads): NotKnown {
  const rows = new Map<string, string[]>();
  for (const [field, why] of Object.entries(loads.unknown)) {
    if (why === "" || isIdle(field, loads)) continue;
    const label = LABELS[field] ?? field;
    const labels = rows.get(why);
    if (labels === undefined) rows.set(why, [label]);
    else if (!labels.includes(label)) labels.push(label);
  }
  return rows;
}

/** The row above says that coolant is off: that it has no pressure then is no news. */
function isIdle(field: string, loads: HoleLoads): boolean {
  if (field.startsWith("coolant.")) return loads.coolant.kinds.length === 0;
  return field === "peakTorque" && loads.unknown.torque === loads.unknown.peakTorque;
}

/** The rows that every one of several groups has. */
export function shared(all: readonly NotKnown[]): NotKnown {
  const [first, ...others] = all;
  if (first === undefined || others.length === 0) return new Map();
  return new Map([...first].filter(([why, labels]) => others.every((rows) => rows.get(why)?.join() === labels.join())));
}

/** The rows that are not among those said for all. */
export function without(rows: NotKnown | undefined, said: NotKnown): NotKnown {
  return new Map([...(rows ?? [])].filter(([why]) => !said.has(why)));
}

/** @returns lines under a heading, `what (why)`; none where everything is known */
export function notKnownLines(head: string, rows: NotKnown, width: number): string[] {
  if (rows.size === 0) return [];
  const lines = [...rows].flatMap(([why, labels]) =>
    wrap(`${labels.join(", ")} (${clean(why)})`, width - 4).map((line, i) => (i === 0 ? `  ${line}` : `    ${line}`)),
  );
  return [head, ...lines];
}

const LABELS: Readonly<Record<string, string>> = {
  material: "work material",
  tool: "tool",
  window: "speed and feed window",
  "window.vc": "cutting speed window",
  "window.f": "feed window",
  n: "speed n",
  vc: "cutting speed vc",
  f: "feed f",
  fz: "feed per edge fz",
  vf: "feed rate vf",
  mrr: "removal",
  feedTimeMin: "feed time",
  depthRatio: "depth over diameter",
  peakTorque: "peak torque",
  startZ: "where the feed begins",
  endZ: "depth",
  limits: "limits",
  "limits.torque": "spindle limit",
  "limits.torque.continuous": "spindle limit",
  "limits.power.continuous": "spindle limit",
  "limits.torque.shortTime": "short-time spindle limit",
  "limits.power.shortTime": "short-time spindle limit",
  "limits.thrust": "axis thrust limit",
  "limits.rpm": "speed limit",
  "coolant.pressure": "coolant pressure",
  "coolant.flow": "coolant flow",
  "coolant.leadSeconds": "time from coolant on to metal",
  engagement: "entry",
  "engagement.allowedFeed": "feed at the entry",
  pointLength: "point length",
  walk: "how far the drill is pushed aside",
};
