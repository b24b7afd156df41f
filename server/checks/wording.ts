/** Numbers as the messages of all checks say them. */
import type { Band } from "../loads/types.ts";
import type { HoleShape, ModalState } from "../program/types.ts";
import type { Quantity, UnitSystem } from "../units/quantities.ts";
import { numberIn, say, sayOne, unitIn } from "../units/wording.ts";
import type { CheckContext } from "./types.ts";

/** `116 %` */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** `17.4 kW (23.3 hp), band 13.1 to 22.0 kW (17.6 to 29.5 hp)` */
export function sayBand(band: Band, quantity: Quantity, system: UnitSystem): string {
  return `${say(band.nominal, quantity, system)}, band ${sayRange(band.low, band.high, quantity, system)}`;
}

/** `0.150 to 0.250 mm/rev (0.0059 to 0.0098 in/rev)` */
export function sayRange(low: number, high: number, quantity: Quantity, system: UnitSystem): string {
  const one = (of: UnitSystem): string => {
    const unit = ` ${unitIn(quantity, of)}`;
    const from = sayOne(low, quantity, of);
    return `${from.endsWith(unit) ? from.slice(0, -unit.length) : from} to ${sayOne(high, quantity, of)}`;
  };
  const own = one(system);
  const foreign = one(system === "mm" ? "inch" : "mm");
  return own === foreign ? own : `${own} (${foreign})`;
}

/** `Z-12.5`, `X3.` in the program's own unit. */
export function sayLevel(axis: HoleShape["axis"], value: number, system: UnitSystem): string {
  const own = numberIn(value, "length", system);
  return `${axis.toUpperCase()}${trim(own, system === "mm" ? 2 : 3)}`;
}

/** Decimals cut to what carries meaning: `-12.5`, `3`. */
export function trim(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  if (!text.includes(".")) return text;
  const short = text.replace(/0+$/, "").replace(/\.$/, "");
  return short === "-0" ? "0" : short;
}

/**
 * The F word for a feed, as this program would write it, with the other unit system beside it:
 * `F180 mm/min (7.1 in/min)`. Under G93 the number depends on the length of the move, so it is told what F must come
 * to: `F for 180 mm/min (7.1 in/min)`. Rounded down (or up), so that the number keeps its promise.
 * @param f mm/rev
 * @param n 1/min; needed where F is a feed rate
 * @returns null where the feed mode gives no such word
 */
export function feedWord(
  f: number,
  n: number | null,
  state: ModalState,
  system: UnitSystem,
  toward: "down" | "up" = "down",
): string | null {
  const perRev = state.feedMode === 95;
  if (!perRev && (n === null || n <= 0)) return null;
  const quantity: Quantity = perRev ? "feedPerRev" : "feedRate";
  const base = perRev ? f : f * (n ?? 0);
  const own = numberIn(base, quantity, system);
  const decimals = perRev ? (system === "mm" ? 3 : 4) : wantedDecimals(own, system);
  const rounded = roundTo(own, decimals, toward);
  if (!(rounded > 0)) return null;
  const inBase = (base * rounded) / own;
  const foreign: UnitSystem = system === "mm" ? "inch" : "mm";
  return `F${state.feedMode === 93 ? " for " : ""}${trim(rounded, decimals)} ${unitIn(quantity, system)} (${sayOne(inBase, quantity, foreign)})`;
}

function wantedDecimals(own: number, system: UnitSystem): number {
  if (system === "inch") return own < 1 ? 2 : 1;
  return own < 10 ? 1 : 0;
}

/** Rounds to decimals, down or up; a value that already stands on the grid stays there. */
export function roundTo(value: number, decimals: number, toward: "down" | "up"): number {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  const near = Math.round(scaled);
  if (Math.abs(scaled - near) < 1e-6) return near / scale;
  return (toward === "down" ? Math.floor(scaled) : Math.ceil(scaled)) / scale;
}

/** The S word for a speed, rounded so that the number keeps its promise: `S2200`. */
export function speedWord(n: number, toward: "down" | "up" = "down"): string {
  return `S${roundTo(n, n < 100 ? 1 : 0, toward)}`;
}

/**
 * What becomes of F when S changes and the feed per revolution is to stay: `; the same feed is then F620 mm/min (…)`.
 * Empty under feed per revolution.
 */
export function feedAtSpeed(f: number | null, n: number, state: ModalState, system: UnitSystem): string {
  if (state.feedMode !== 94 || f === null) return "";
  const word = feedWord(f, n, state, system);
  return word === null ? "" : `; the same feed per turn is then ${word}`;
}

/** `T7`, or `the tool` where none is known. */
export function toolName(tool: number | null): string {
  return tool === null ? "the tool" : `T${tool}`;
}

/** `a, b and c` */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1] ?? ""}`;
}

/** The code of feed per minute or per revolution as the program's dialect writes it. */
export function feedCode({ setup }: CheckContext, mode: 94 | 95): string {
  if (setup.dialect.machineKind !== "turn-A") return `G${mode}`;
  return mode === 95 ? "G99" : "G98";
}
