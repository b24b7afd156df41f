import type { Run } from "./run.ts";
import { UNSURE, unsure } from "./unsure.ts";
import { A, C } from "./words.ts";

/** Takes over A, B and C: holes at another rotary position are not on the same axis line. */
export function rotaryWords(run: Run): void {
  const { words, row } = run;
  for (let letter = A; letter <= C; letter++) {
    if (!words.has(letter)) continue;
    const before = run.rotary[letter] ?? Number.NaN;
    const value =
      words.get(letter) +
      (unsure(row, UNSURE.distance) ? Number.NaN : row.distance === 91 ? (Number.isNaN(before) ? 0 : before) : 0);
    if (Object.is(before, value)) continue;
    run.record?.longHand.commit(run);
    run.rotary[letter] = value;
    run.places.version++;
    run.cycle.version++;
  }
}
