/**
 * Quantities in one base set. Inside Swarfline a bare number is always in the base unit named here; other units exist
 * only where a person writes or reads a value.
 *
 * Factors: ISO 80000-1/-3/-4, definitions exact where the standard defines them so (1 in = 25.4 mm), otherwise rounded
 * to the seven figures given in the standard (from memory of ISO 80000).
 */

/** The two unit systems a person may read in. */
export type UnitSystem = "mm" | "inch";

export type Quantity =
  | "length" // mm
  | "speed" // cutting speed, m/min
  | "feedPerRev" // mm per revolution
  | "feedRate" // mm/min
  | "rotation" // 1/min
  | "power" // kW
  | "torque" // N·m
  | "force" // N
  | "pressure" // bar
  | "flow" // L/min
  | "time" // s
  | "minutes" // min
  | "angle" // degrees
  | "removal" // cm³/min
  | "stress" // N/mm²
  | "share"; // 0 to 1, shown in percent

interface UnitRow {
  /** Spellings accepted when reading, lower case, first one is what is shown. */
  readonly names: readonly string[];
  /** Base value = written value × factor. */
  readonly factor: number;
  readonly system: UnitSystem | "both";
}

const both = "both" as const;

export const UNITS: { readonly [Q in Quantity]: readonly UnitRow[] } = {
  length: [
    { names: ["mm"], factor: 1, system: "mm" },
    { names: ["in", "inch", '"'], factor: 25.4, system: "inch" },
    { names: ["m"], factor: 1000, system: "mm" },
    { names: ["um", "µm"], factor: 0.001, system: "mm" },
  ],
  speed: [
    { names: ["m/min"], factor: 1, system: "mm" },
    { names: ["ft/min", "sfm", "fpm"], factor: 0.3048, system: "inch" },
  ],
  feedPerRev: [
    { names: ["mm/rev", "mm/r"], factor: 1, system: "mm" },
    { names: ["in/rev", "in/r", "ipr"], factor: 25.4, system: "inch" },
  ],
  feedRate: [
    { names: ["mm/min"], factor: 1, system: "mm" },
    { names: ["in/min", "ipm"], factor: 25.4, system: "inch" },
    { names: ["m/min"], factor: 1000, system: "mm" },
  ],
  rotation: [{ names: ["1/min", "rpm", "r/min", "rev/min", "min⁻¹", "min^-1"], factor: 1, system: both }],
  power: [
    { names: ["kw"], factor: 1, system: "mm" },
    { names: ["hp"], factor: 0.7456999, system: "inch" },
    { names: ["w"], factor: 0.001, system: "mm" },
  ],
  torque: [
    { names: ["n·m", "nm", "n.m", "n*m"], factor: 1, system: "mm" },
    {
      names: ["ft·lb", "ft.lb", "ft-lb", "ftlb", "lb·ft", "lb.ft", "lbf·ft", "ft·lbf", "ft*lb"],
      factor: 1.355818,
      system: "inch",
    },
    { names: ["in·lb", "in.lb", "in-lb", "inlb", "in·lbf", "in*lb"], factor: 0.1129848, system: "inch" },
  ],
  force: [
    { names: ["n"], factor: 1, system: "mm" },
    { names: ["lbf", "lb"], factor: 4.448222, system: "inch" },
    { names: ["kn"], factor: 1000, system: "mm" },
    { names: ["kgf"], factor: 9.80665, system: "mm" },
  ],
  pressure: [
    { names: ["bar"], factor: 1, system: "mm" },
    { names: ["psi"], factor: 0.06894757, system: "inch" },
    { names: ["mpa"], factor: 10, system: "mm" },
  ],
  flow: [
    { names: ["l/min"], factor: 1, system: "mm" },
    { names: ["gal/min", "gpm"], factor: 3.785412, system: "inch" },
  ],
  time: [
    { names: ["s", "sec"], factor: 1, system: both },
    { names: ["ms"], factor: 0.001, system: both },
    { names: ["min"], factor: 60, system: both },
  ],
  minutes: [
    { names: ["min"], factor: 1, system: both },
    { names: ["s", "sec"], factor: 1 / 60, system: both },
    { names: ["h"], factor: 60, system: both },
  ],
  angle: [{ names: ["deg", "°", "degrees"], factor: 1, system: both }],
  removal: [
    { names: ["cm³/min", "cm3/min", "cm^3/min"], factor: 1, system: "mm" },
    { names: ["in³/min", "in3/min", "in^3/min"], factor: 16.387064, system: "inch" },
  ],
  stress: [
    { names: ["n/mm²", "n/mm2", "n/mm^2", "mpa"], factor: 1, system: "mm" },
    { names: ["ksi"], factor: 6.894757, system: "inch" },
    { names: ["psi"], factor: 0.006894757, system: "inch" },
  ],
  share: [{ names: ["%", "pct"], factor: 0.01, system: both }],
};

/** The unit of a bare number of this quantity in a file written in `system`. */
export function defaultUnit(quantity: Quantity, system: UnitSystem): UnitRow {
  const rows = UNITS[quantity];
  const row = rows.find((r) => r.system === system || r.system === both) ?? rows[0];
  if (row === undefined) throw new RangeError(`quantity ${quantity} has no unit`);
  return row;
}

export interface ParsedQuantity {
  /** In the base unit. */
  readonly value: number;
  /** The unit as it is shown, or null where the number was bare. */
  readonly unit: string | null;
}

const WRITTEN = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(\S.*?)?\s*$/i;

/**
 * Reads `30 hp`, `8kN`, `0.25` as a quantity.
 * @param bare system whose default unit a bare number has
 * @returns the value in the base unit, or a sentence that says what was expected
 */
export function parseQuantity(written: string | number, quantity: Quantity, bare: UnitSystem): ParsedQuantity | string {
  if (typeof written === "number") {
    if (!Number.isFinite(written)) return `expected ${describeQuantity(quantity)}, got ${written}`;
    return { value: written * bareFactor(quantity, bare), unit: null };
  }
  const m = WRITTEN.exec(written);
  if (m === null) return `expected ${describeQuantity(quantity)}, got "${written}"`;
  const number = Number(m[1]);
  if (!Number.isFinite(number)) return `expected ${describeQuantity(quantity)}, got "${written}"`;
  const unit = m[2];
  if (unit === undefined) return { value: number * bareFactor(quantity, bare), unit: null };
  const wanted = spelling(unit);
  const row = UNITS[quantity].find((r) => r.names.includes(wanted));
  if (row === undefined) return `"${unit}" is no unit of ${describeQuantity(quantity)}`;
  return { value: number * row.factor, unit: shown(row) };
}

/**
 * The unit in the letters of the table: one dot, one micro sign, no blanks that change nothing (`ft lb`, `mm / rev`).
 */
function spelling(unit: string): string {
  return unit
    .toLowerCase()
    .replaceAll("\u03bc", "\u00b5")
    .replaceAll(/[\u22c5\u2219\u2022]/g, "\u00b7")
    .replaceAll(/\s*([/·*.-])\s*/g, "$1")
    .replaceAll(/\s+/g, "·");
}

function bareFactor(quantity: Quantity, bare: UnitSystem): number {
  // A bare share is already 0 to 1; only a written percent sign divides by a hundred.
  return quantity === "share" ? 1 : defaultUnit(quantity, bare).factor;
}

/** `a power in kW or hp`, for messages. */
export function describeQuantity(quantity: Quantity): string {
  const units = UNITS[quantity].slice(0, 2).map(shown).join(" or ");
  return `${NAMES[quantity]} in ${units}`;
}

const NAMES: { readonly [Q in Quantity]: string } = {
  length: "a length",
  speed: "a cutting speed",
  feedPerRev: "a feed per revolution",
  feedRate: "a feed rate",
  rotation: "a rotational speed",
  power: "a power",
  torque: "a torque",
  force: "a force",
  pressure: "a pressure",
  flow: "a flow",
  time: "a time",
  minutes: "a time",
  angle: "an angle",
  removal: "a removal rate",
  stress: "a strength",
  share: "a share",
};

const SHOWN: { readonly [name: string]: string } = {
  kw: "kW",
  w: "W",
  n·m: "N·m",
  ft·lb: "ft·lb",
  n: "N",
  kn: "kN",
  mpa: "MPa",
  "l/min": "L/min",
  "n/mm²": "N/mm²",
};

function shown(row: UnitRow): string {
  const name = row.names[0] ?? "";
  return SHOWN[name] ?? name;
}
