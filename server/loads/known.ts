/** Values that may be unknown, and the record of reasons that goes out with them. */
import type { Band, Known } from "./types.ts";

export const known = <T>(value: T): Known<T> => ({ known: true, value });

export const unknown = (why: string): { readonly known: false; readonly why: string } => ({ known: false, why });

/** No load, speed or length of a real machine comes near this; beyond it a number is a slip of the keyboard. */
const LARGEST = 1e12;

/** The number, or unknown when arithmetic on absurd input left no number that means anything. */
export function finite(value: number, what: string): Known<number> {
  if (Number.isFinite(value) && Math.abs(value) < LARGEST) return known(value);
  return unknown(`${what} comes out of the range of numbers: check the values it is made from`);
}

/** The band, ordered and finite, or unknown. */
export function finiteBand(band: Band, what: string): Known<Band> {
  for (const value of [band.low, band.nominal, band.high]) {
    const checked = finite(value, what);
    if (!checked.known) return checked;
  }
  return known(band);
}

/** The value when it is known, else null with its reason noted under `field`. */
export type Take = <T>(value: Known<T>, field: string) => T | null;

export function reasonsInto(record: Record<string, string>): Take {
  return (value, field) => {
    if (value.known) return value.value;
    record[field] = value.why;
    return null;
  };
}

/** Combines values: the first unknown one gives the reason. */
export function both<A, B>(a: Known<A>, b: Known<B>): Known<readonly [A, B]> {
  if (!a.known) return a;
  if (!b.known) return b;
  return known([a.value, b.value] as const);
}
