/** The arithmetic of a load, as it is carried with it: formula, numbers put in, result, band, source. */
import type { Derivation } from "../../loads/types.ts";
import type { Quantity, UnitSystem } from "../../units/quantities.ts";
import { say, sayOne } from "../../units/wording.ts";
import { clean, table, wrap } from "./terminal.ts";

/**
 * @param told keys of derivations already printed, so that a shared input is worked out once on the page
 * @returns lines without indentation
 */
export function derivationLines(
  derivation: Derivation,
  system: UnitSystem,
  width: number,
  told: Set<string>,
): string[] {
  const { result } = derivation;
  const key = `${derivation.formula}\n${result.symbol}\n${result.value}`;
  const title = `${clean(derivation.title)} (${derivation.formula})`;
  if (told.has(key)) return wrap(`${title}: ${sayAs(result.value, result.quantity, system)}, worked out above`, width);
  told.add(key);
  const inner = width - 2;
  const indent = (line: string) => `  ${line}`;
  const out = [...wrap(title, width), ...wrap(clean(derivation.expression), inner).map(indent)];
  const rows = derivation.inputs.map((input) => [
    clean(input.symbol),
    sayAs(input.value, input.quantity, system),
    clean(input.from),
  ]);
  out.push(...table(rows, new Set(), inner).map(indent));
  const { band } = derivation;
  const [low, high] =
    band === null ? ["", ""] : [band.low, band.high].map((end) => sayAs(end, result.quantity, system));
  const spread = low === high ? "" : `, estimated between ${low} and ${high}`;
  const value = `${clean(result.symbol)} = ${sayAs(result.value, result.quantity, system)}${spread}`;
  out.push(...wrap(value, inner).map(indent));
  for (const note of derivation.notes) out.push(...wrap(`note: ${clean(note)}`, inner).map(indent));
  if (derivation.source !== "") out.push(...wrap(`source: ${clean(derivation.source)}`, inner).map(indent));
  for (const step of derivation.steps) out.push(...derivationLines(step, system, inner, told).map(indent));
  return out;
}

/** A value in both systems, or as a bare number where it has no unit. */
export function sayAs(value: number, quantity: Quantity | null, system: UnitSystem): string {
  if (quantity === null) return String(Number(value.toPrecision(4)));
  return quantity === "share" ? sayOne(value, quantity, system) : say(value, quantity, system);
}
