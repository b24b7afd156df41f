import { codes } from "./block-codes.ts";
import { turnsPerMinute } from "./motion.ts";
import type { Run } from "./run.ts";
import { tellDwell } from "./undeclared.ts";
import { F, P, U, X } from "./words.ts";

/** G4: how long, by the letters and units of the dialect. */
export function dwell(run: Run): void {
  const { words, dialect } = run;
  const item = words.gItemOf(40);
  const letters = dialect.dwellLetters;
  let seconds = Number.NaN;
  let given = false;
  if (letters.includes("P") && words.has(P)) {
    given = true;
    seconds = dwellOf(run);
  } else if (letters.includes("X") && words.has(X)) {
    given = true;
    // Where numbers without a point count increments, those of a time are milliseconds.
    const steps = dialect.decimalMode === "least-increment" && (words.pointless & (1 << X)) !== 0;
    seconds = steps ? words.get(X) / 1000 : words.get(X);
  } else if (letters.includes("U") && words.has(U)) {
    given = true;
    seconds = words.get(U);
  } else if (codes.dwell >= 0) {
    given = true;
    const value = words.value[codes.dwell] ?? Number.NaN;
    // S counts turns of the spindle.
    seconds = codes.dwell === F ? value : (60 * value) / turnsPerMinute(run);
    if (!Number.isFinite(seconds)) seconds = Number.NaN;
  }
  if (!given || seconds < 0) {
    run.remark(
      "dwell",
      "error",
      item,
      given ? "G4 has a negative time" : `G4 has no time: it needs ${[...letters].join(" or ")}`,
    );
    return;
  }
  run.record?.operations.addSeconds(seconds);
  run.record?.longHand.dwell(seconds);
  run.emit("dwell", seconds);
}

/** P of a dwell in seconds, by the unit of the dialect. */
export function dwellOf(run: Run): number {
  const { words, dialect } = run;
  const value = words.get(P);
  if (dialect.dwellP === "s") return value;
  if (dialect.dwellP === "undeclared") tellDwell(run, words.itemOf(P), value);
  return value / 1000;
}
