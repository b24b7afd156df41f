import type { Run } from "./run.ts";
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
    seconds = dialect.dwellP === "s" ? words.get(P) : words.get(P) / 1000;
  } else if (letters.includes("X") && words.has(X)) {
    given = true;
    seconds = run.length(X) / run.factor();
  } else if (letters.includes("U") && words.has(U)) {
    given = true;
    seconds = words.get(U);
  } else if (letters.includes("F") && words.has(F)) {
    given = true;
    seconds = words.get(F);
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
