/** Published values as data, each with its source beside it, held against what the mechanics compute. */
import { describe, expect, it } from "vitest";

export interface Row {
  readonly id: string;
  /** Quantity, unit and inputs, as a person would look them up. */
  readonly what: string;
  /** What the mechanics give. */
  readonly got: () => number;
  /** The published value. Never bent to fit. */
  readonly expected: number;
  /** Allowed deviation: of the expected value in percent, or as it stands. */
  readonly within: { readonly percent: number } | { readonly absolute: number };
  readonly source: string;
}

/** Rounding of a binary number in a value that is said to be exact. */
export const EXACT = { percent: 1e-9 } as const;

export function holds(title: string, rows: readonly Row[]): void {
  describe(title, () => {
    it.each(rows.map((row) => [`${row.id} ${row.what} (${row.source})`, row] as const))("%s", (_name, row) => {
      expect(row.source.length).toBeGreaterThan(3);
      const got = row.got();
      const room = "percent" in row.within ? (Math.abs(row.expected) * row.within.percent) / 100 : row.within.absolute;
      expect(Math.abs(got - row.expected), `got ${got}, expected ${row.expected} ± ${room}`).toBeLessThanOrEqual(room);
    });
  });
}
