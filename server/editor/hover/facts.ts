/** The sentences and rows that several hovers share. */
import { say, sayOne } from "../../units/wording.ts";
import type { Band, HoleLoads, HoleShape, Quantity, Tool } from "../model.ts";
import { bandText } from "./derivation.ts";
import { plain, soft, table } from "./markdown.ts";
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

/** `rules 24 holes; worst: N120` */
export function rulesLine(target: Target, ruled: readonly Ruled[], worst: Ruled | null): string {
  const count = countOf(ruled);
  if (count === 0 || worst === null) return "Rules no hole.";
  const hole = target.review.execution.hole(worst.firstHole);
  const where = nameOfBlock(target.review, hole.block);
  const tool = toolLine(worst.loads.tool, worst.shape.tool, target.system);
  if (count === 1) return `Rules 1 hole, ${where}: ${tool}.`;
  return ruled.length === 1
    ? `Rules ${count} holes, all alike, the first at ${where}: ${tool}.`
    : `Rules ${count} holes of ${ruled.length} kinds. Worst: ${where}, ${tool}.`;
}

/** Power, torque and thrust beside their limits. */
export function loadsTable(loads: HoleLoads, system: System): string {
  const { limits } = loads;
  const rows = [
    loadRow(
      "Power",
      loads.power,
      "power",
      limits.power.continuous,
      limits.power.shortTime,
      system,
      loads.unknown.power,
    ),
    loadRow(
      "Torque",
      loads.torque,
      "torque",
      limits.torque?.continuous ?? null,
      limits.torque?.shortTime ?? null,
      system,
      loads.unknown.torque,
    ),
    loadRow("Thrust", loads.thrust, "force", limits.thrust, null, system, loads.unknown.thrust),
  ];
  const { peakTorque, torque } = loads;
  if (peakTorque !== null && torque !== null && peakTorque.nominal > torque.nominal) {
    rows.splice(2, 0, [
      "Peak torque in the turn",
      soft(say(peakTorque.nominal, "torque", system)),
      soft(bandText(peakTorque, "torque", system)),
      "",
      "",
    ]);
  }
  return table(["load", "nominal", "band", "limit", "share"], rows);
}

function loadRow(
  name: string,
  band: Band | null,
  quantity: Quantity,
  limit: number | null,
  shortTime: number | null,
  system: System,
  why: string | undefined,
): string[] {
  const limits = [
    limit === null ? "not declared" : say(limit, quantity, system),
    ...(shortTime === null ? [] : [`short time ${say(shortTime, quantity, system)}`]),
  ].join(", ");
  if (band === null) return [name, "unknown", soft(why ?? ""), soft(limits), ""];
  const share = limit === null || limit <= 0 ? "not checked" : sayOne(band.nominal / limit, "share", system);
  return [
    name,
    `**${soft(say(band.nominal, quantity, system))}**`,
    soft(bandText(band, quantity, system)),
    soft(limits),
    share,
  ];
}

/** Reasons of what is unknown, one line each; `only` names the fields that matter here. */
export function unknowns(loads: HoleLoads, only?: readonly string[]): string {
  const fields = { ...loads.shape.unknown, ...loads.unknown };
  const rows = Object.entries(fields).filter(([field]) => only === undefined || only.includes(field));
  const byReason = new Map<string, string[]>();
  for (const [field, why] of rows) byReason.set(why, [...(byReason.get(why) ?? []), field]);
  return [...byReason].map(([why, names]) => `- ${names.map(soft).join(", ")} unknown: ${soft(why)}`).join("\n");
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
