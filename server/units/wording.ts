import { type Quantity, UNITS, type UnitSystem } from "./quantities.ts";

/** Unit, factor and decimals by which a quantity is shown to a person of one unit system. */
interface Shown {
  readonly unit: string;
  readonly factor: number;
  readonly decimals: number;
}

const METRIC: { readonly [Q in Quantity]: Shown } = {
  length: { unit: "mm", factor: 1, decimals: 2 },
  speed: { unit: "m/min", factor: 1, decimals: 0 },
  feedPerRev: { unit: "mm/rev", factor: 1, decimals: 3 },
  feedRate: { unit: "mm/min", factor: 1, decimals: 0 },
  rotation: { unit: "1/min", factor: 1, decimals: 0 },
  power: { unit: "kW", factor: 1, decimals: 1 },
  torque: { unit: "N·m", factor: 1, decimals: 1 },
  force: { unit: "N", factor: 1, decimals: 0 },
  pressure: { unit: "bar", factor: 1, decimals: 1 },
  flow: { unit: "L/min", factor: 1, decimals: 1 },
  time: { unit: "s", factor: 1, decimals: 1 },
  minutes: { unit: "min", factor: 1, decimals: 2 },
  angle: { unit: "°", factor: 1, decimals: 1 },
  removal: { unit: "cm³/min", factor: 1, decimals: 1 },
  stress: { unit: "N/mm²", factor: 1, decimals: 0 },
  share: { unit: "%", factor: 0.01, decimals: 0 },
};

const INCH: { readonly [Q in Quantity]: Shown } = {
  ...METRIC,
  length: { unit: "in", factor: 25.4, decimals: 3 },
  speed: { unit: "ft/min", factor: 0.3048, decimals: 0 },
  feedPerRev: { unit: "in/rev", factor: 25.4, decimals: 4 },
  feedRate: { unit: "in/min", factor: 25.4, decimals: 1 },
  power: { unit: "hp", factor: 0.7456999, decimals: 1 },
  torque: { unit: "ft·lb", factor: 1.355818, decimals: 1 },
  force: { unit: "lbf", factor: 4.448222, decimals: 0 },
  pressure: { unit: "psi", factor: 0.06894757, decimals: 0 },
  flow: { unit: "gal/min", factor: 3.785412, decimals: 1 },
  removal: { unit: "in³/min", factor: 16.387064, decimals: 2 },
  stress: { unit: "ksi", factor: 6.894757, decimals: 0 },
};

const other = (system: UnitSystem): UnitSystem => (system === "mm" ? "inch" : "mm");
const table = (system: UnitSystem) => (system === "mm" ? METRIC : INCH);

/** The value in one unit system: `183 m/min`. */
export function sayOne(value: number, quantity: Quantity, system: UnitSystem): string {
  const row = table(system)[quantity];
  const number = digits(value / row.factor, row.decimals);
  // Angles are written whole on a drawing: 30°, not 30.0°.
  return row.unit === "°" ? `${number.replace(/\.0+$/, "")}°` : `${number} ${row.unit}`;
}

/** The value in both unit systems, the program's own first: `183 m/min (600 ft/min)`. */
export function say(value: number, quantity: Quantity, system: UnitSystem): string {
  const own = sayOne(value, quantity, system);
  const foreign = sayOne(value, quantity, other(system));
  return own === foreign ? own : `${own} (${foreign})`;
}

/** The number alone in the unit system's unit, for tables whose head names the unit. */
export function numberIn(value: number, quantity: Quantity, system: UnitSystem): number {
  return value / table(system)[quantity].factor;
}

/** The unit a quantity is shown in. */
export function unitIn(quantity: Quantity, system: UnitSystem): string {
  return table(system)[quantity].unit;
}

/** Fixed decimals, but never so few that a small value reads as nothing. */
function digits(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return "unknown";
  const size = Math.abs(value);
  let places = decimals;
  while (size > 0 && size < 10 ** -places * 5 && places < 6) places++;
  const text = value.toFixed(places);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

/** Base-unit symbol, for derivations and json. */
export function baseUnit(quantity: Quantity): string {
  const row = UNITS[quantity].find((r) => r.factor === 1);
  return quantity === "share" ? "" : row === undefined ? "" : METRIC[quantity].unit;
}
