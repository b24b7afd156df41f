import { say } from "../units/wording.ts";
import type { Codes } from "./block-codes.ts";
import type { Run } from "./run.ts";
import { letterName, S, X, Y, Z } from "./words.ts";

/** Numbers that this machine cannot follow, where the setup says what it can. */
export function machineLimits(run: Run, codes: Codes): void {
  const { words, dialect, row } = run;
  const { minRpm, travel } = dialect;
  if (minRpm === null && travel.x === null && travel.y === null && travel.z === null) return;
  const s = words.get(S);
  if (minRpm !== null && s > 0 && s < minRpm && row.speedMode === 97 && words.gItemOf(960) < 0) {
    const text = `S${s} is below the lowest speed of the machine, ${minRpm} 1/min. Way out: S${minRpm} or more, or \`minRpm\` in the setup`;
    run.remark("min-rpm", "warning", words.itemOf(S), text);
  }
  if (codes.g4 || codes.once >= 0 || row.units === 0) return;
  const system = row.units === 2 ? "inch" : "mm";
  for (const [letter, most] of [
    [X, travel.x],
    [Y, travel.y],
    [Z, travel.z],
  ] as const) {
    if (most === null || !words.has(letter)) continue;
    const way = Math.abs(run.length(letter));
    if (!(way > most)) continue;
    const text =
      `${letterName(letter)} goes ${say(way, "length", system)}, the machine has a travel of ${say(most, "length", system)}. ` +
      "Way out: check the decimal point and the units, or `travel` in the setup";
    run.remark("travel", "warning", words.itemOf(letter), text, 3);
  }
}
