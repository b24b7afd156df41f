/** Low, nominal and high of each load beside its limit, in both unit systems. */
import type { Band, HoleLoads } from "../../loads/types.ts";
import type { Quantity, UnitSystem } from "../../units/quantities.ts";
import { say, sayOne } from "../../units/wording.ts";
import { columns, table, wrap } from "./terminal.ts";

interface Row {
  readonly label: string;
  readonly band: Band;
  readonly quantity: Quantity;
  readonly limit: number | null;
  readonly short: number | null;
}

const HEAD = ["", "", "low", "nominal", "high", "limit", "short time", "share"];
const NUMBERS = new Set([2, 3, 4, 5, 6, 7]);

/** A table; where the terminal is too narrow for one, a sentence for each load. */
export function loadTable(loads: HoleLoads, system: UnitSystem, width: number): string[] {
  const rows = rowsOf(loads);
  if (rows.length === 0) return [];
  const cells = [HEAD, ...rows.flatMap((row) => cellsOf(row, system))];
  const used = HEAD.map((_, i) => i < 5 || cells.some((row, at) => at > 0 && row[i] !== ""));
  const kept = cells.map((row) => row.filter((_, i) => used[i]));
  const lines = table(kept, NUMBERS);
  if (lines.every((line) => columns(line) <= width)) return lines;
  return rows.flatMap((row) => wrap(sentence(row, system), width - 2).map((line, i) => (i === 0 ? line : `  ${line}`)));
}

function rowsOf(loads: HoleLoads): Row[] {
  const { limits } = loads;
  const rows: Row[] = [];
  const add = (label: string, band: Band | null, quantity: Quantity, limit: number | null, short: number | null) => {
    if (band !== null) rows.push({ label, band, quantity, limit, short });
  };
  add("torque", loads.torque, "torque", limits.torque?.continuous ?? null, limits.torque?.shortTime ?? null);
  // Without an interruption the peak is the mean.
  if (loads.peakTorque !== null && loads.torque !== null && loads.peakTorque.nominal > loads.torque.nominal) {
    add("peak torque", loads.peakTorque, "torque", null, null);
  }
  add("power", loads.power, "power", limits.power.continuous, limits.power.shortTime);
  add("thrust", loads.thrust, "force", limits.thrust, null);
  return rows;
}

function cellsOf({ label, band, quantity, limit, short }: Row, system: UnitSystem): string[][] {
  const cells = (one: UnitSystem, own: boolean) => {
    const number = (value: number | null) => (value === null ? "" : bare(value, quantity, one));
    return [
      own ? label : "",
      sayOne(1, quantity, one).split(" ").at(-1) ?? "",
      number(band.low),
      number(band.nominal),
      number(band.high),
      number(limit),
      number(short),
      own ? share(band, limit) : "",
    ];
  };
  return [cells(system, true), cells(system === "mm" ? "inch" : "mm", false)];
}

function sentence({ label, band, quantity, limit, short }: Row, system: UnitSystem): string {
  const s = (value: number) => say(value, quantity, system);
  const parts = [`${label} ${s(band.nominal)}, between ${s(band.low)} and ${s(band.high)}`];
  if (limit !== null) parts.push(`limit ${s(limit)}: ${share(band, limit)}`);
  if (short !== null) parts.push(`short time ${s(short)}`);
  return parts.join("; ");
}

function share(band: Band, limit: number | null): string {
  if (limit === null || limit <= 0) return "";
  return `${bare(band.low / limit, "share", "mm")} to ${sayOne(band.high / limit, "share", "mm")}`;
}

/** The number without its unit. */
export function bare(value: number, quantity: Quantity, system: UnitSystem): string {
  return sayOne(value, quantity, system).split(" ")[0] ?? "";
}
