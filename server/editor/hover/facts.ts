/** The sentences and rows that several hovers share. */
import { say, sayOne } from "../../units/wording.ts";
import type { Band, HoleLoads, HoleShape, Quantity, Tool } from "../model.ts";
import { bandText } from "./derivation.ts";
import { plain, soft, table, tight } from "./markdown.ts";
import { countOf, nameOfBlock, type Ruled, type System, type Target } from "./target.ts";

const FAMILY: { readonly [F in Tool["family"]]: string } = {
  "twist-hss": "HSS twist drill",
  "solid-carbide": "solid-carbide drill",
  indexable: "indexable drill",
  spade: "spade drill",
  gun: "gun drill",
  spot: "spot drill",
  ream: "reamer",
  tap: "tap",
  countersink: "countersink",
  bore: "boring tool",
};

/** `T7, 26.00 mm (1.024 in) indexable drill`, and what of it is only assumed. */
export function toolLine(tool: Tool | null, t: number | null, system: System): string {
  if (tool === null) return t === null ? "tool unknown" : `T${t}, nothing known of it`;
  const assumed = tool.assumed ? ", assumed from the program's comment" : tool.familyAssumed ? ", family assumed" : "";
  const name = tool.name === null ? "" : ` "${plain(tool.name)}"`;
  return `T${tool.T}${name}, ${soft(say(tool.DC, "length", system))} ${FAMILY[tool.family]}${assumed}`;
}

/** `T7 26.00 mm (1.024 in) indexable drill` */
export function shortTool(tool: Tool | null, t: number | null, system: System): string {
  if (tool === null) return t === null ? "tool unknown" : `T${t}, nothing known of it`;
  return `T${tool.T} ${soft(say(tool.DC, "length", system))} ${FAMILY[tool.family]}${tool.assumed ? " (assumed)" : ""}`;
}

/** `24 holes of 2 kinds; worst: N120, T7 26.00 mm (1.024 in) indexable drill` */
export function rulesLine(target: Target, ruled: readonly Ruled[], worst: Ruled | null): string {
  const count = countOf(ruled);
  if (count === 0 || worst === null) return "Rules no hole.";
  const hole = target.review.execution.hole(worst.firstHole);
  const where = `${nameOfBlock(target.review, hole.block)}, ${shortTool(worst.loads.tool, worst.shape.tool, target.system)}`;
  if (count === 1) return `Rules 1 hole: ${where}.`;
  return ruled.length === 1
    ? `Rules ${count} holes, all alike; first: ${where}.`
    : `Rules ${count} holes of ${ruled.length} kinds; worst: ${where}.`;
}

/** Power, torque and thrust beside their limits. A hover is narrow: bands and short-time limits in one system only. */
export function loadsTable(loads: HoleLoads, system: System): string {
  const { limits, torque, peakTorque, unknown } = loads;
  const row = (name: string, field: "power" | "torque" | "thrust", quantity: Quantity): string[] => {
    const limit = field === "thrust" ? limits.thrust : (limits[field]?.continuous ?? null);
    const short = field === "thrust" ? null : (limits[field]?.shortTime ?? null);
    const why = unknown[field === "thrust" ? "limits.thrust" : `limits.${field}.continuous`] ?? "not declared";
    const limitCell = limit === null ? soft(why) : tight(say(limit, quantity, system));
    const shortCell = short === null ? "" : tight(sayOne(short, quantity, system));
    const band = loads[field];
    if (band === null) return [name, "unknown", "", limitCell, shortCell, ""];
    const share = limit === null || limit <= 0 ? "not checked" : sayOne(band.nominal / limit, "share", system);
    return [name, ...bandCells(band, quantity, system), limitCell, shortCell, `**${tight(share)}**`];
  };
  const rows = [row("Power", "power", "power"), row("Torque", "torque", "torque"), row("Thrust", "thrust", "force")];
  if (peakTorque !== null && torque !== null && peakTorque.nominal > torque.nominal) {
    rows.splice(2, 0, ["peak in the turn", ...bandCells(peakTorque, "torque", system), "", "", ""]);
  }
  return table(["load", "nominal", "band", "limit", "short time", "share"], rows, "lrllrr");
}

function bandCells(band: Band, quantity: Quantity, system: System): [string, string] {
  const low = tight(`${sayOne(band.low, quantity, system).split(" ")[0]} to ${sayOne(band.high, quantity, system)}`);
  return [`**${tight(say(band.nominal, quantity, system))}**`, low];
}

/** Fields by the names that the hovers use. */
const FIELDS: { readonly [field: string]: string } = {
  feedTimeMin: "feed time",
  depthRatio: "depth in diameters",
  mrr: "removal rate",
  pointLength: "point length",
  peakTorque: "peak torque",
  walk: "walk of the drill",
  startZ: "start of the feed",
  endZ: "depth",
  "coolant.pressure": "coolant pressure",
  "coolant.flow": "coolant flow",
  "coolant.leadSeconds": "time from coolant on to contact",
  "engagement.allowedFeed": "feed allowed at the entry",
  "window.vc": "window of the speed",
  "window.f": "window of the feed",
};

/** Reasons of what is unknown, one line each; `only` names the fields that matter here. Limits stand in their table. */
export function unknowns(loads: HoleLoads, only?: readonly string[]): string {
  const byReason = new Map<string, string[]>();
  for (const [field, why] of Object.entries({ ...loads.shape.unknown, ...loads.unknown })) {
    if (only === undefined ? field.startsWith("limits.") : !only.includes(field)) continue;
    byReason.set(why, [...(byReason.get(why) ?? []), FIELDS[field] ?? field]);
  }
  return [...byReason]
    .map(([why, names]) => `- unknown: ${names.map(soft).join(", ")}, because ${soft(why)}`)
    .join("\n");
}

/** What the tool is made for in this material, beside what is programmed. */
export function windowLine(loads: HoleLoads, what: "vc" | "f", system: System): string {
  const range = loads.window?.[what] ?? null;
  if (range === null) return "";
  const quantity = what === "vc" ? "speed" : "feedPerRev";
  const [min, nominal, max] = range;
  const text = `${bandText({ low: min, nominal, high: max }, quantity, system)}, nominal ${sayOne(nominal, quantity, system)}`;
  return `Window of the tool: ${soft(text)} (${soft(loads.window?.origin ?? "")}).`;
}

/** What coolant is on when the drill meets the metal. */
export function coolantLine(loads: HoleLoads, shape: HoleShape, system: System): string {
  const { kinds, pressure, flow, leadSeconds } = loads.coolant;
  const wants =
    loads.tool?.coolant == null
      ? ""
      : ` The tool asks for ${loads.tool.coolant === "dry" ? "none" : `${loads.tool.coolant} coolant`}.`;
  if (kinds.length === 0) return `Coolant at first contact: **none**.${wants}`;
  const codes = shape.state.coolant.length === 0 ? "" : ` (${shape.state.coolant.join(", ")})`;
  const details = [
    ...(pressure === null ? [] : [say(pressure, "pressure", system)]),
    ...(flow === null ? [] : [say(flow, "flow", system)]),
    ...(leadSeconds === null ? [] : [`on ${sayOne(leadSeconds, "time", system)} before contact`]),
  ];
  return `Coolant at first contact: **${soft(kinds.join(" and "))}**${soft(codes)}${soft(details.map((d) => `, ${d}`).join(""))}.${wants}`;
}
