/** Feed per turn and speed at this moment, with the reason where one is unknown. */
import { feedModeCode } from "../setup/dialect.ts";
import { turnsPerMinute } from "./motion.ts";
import type { Run } from "./run.ts";
import { UNSURE, unsure } from "./unsure.ts";

export interface StrokeSpeed {
  /** mm/rev; NaN unknown. */
  f: number;
  /** 1/min; NaN unknown. */
  n: number;
  whyF: string;
  whyN: string;
}

export const NO_UNITS =
  "the units are not known: no G20 or G21 came before, and the dialect declares no `defaultUnits`";

/** @param length mm of the straight move that is about to be judged; NaN: not known, or no single move. */
export function strokeSpeed(run: Run, length = Number.NaN): StrokeSpeed {
  const { row } = run;
  const n = turnsPerMinute(run);
  let whyN = "";
  const doubtful = unsure(row, UNSURE.spindle | UNSURE.speedMode);
  if (doubtful) whyN = row.unsureWhy;
  else if (Number.isNaN(n) && row.sWhy !== "" && row.speedMode === 97) whyN = row.sWhy;
  else if (Number.isNaN(n))
    whyN = row.speedMode === 96 ? "G96 makes the speed depend on the diameter turned" : "no S in force";
  if (row.units === 0) return { f: Number.NaN, n, whyF: NO_UNITS, whyN };
  if (unsure(row, UNSURE.units | UNSURE.feedMode)) return { f: Number.NaN, n, whyF: row.unsureWhy, whyN };
  if (Number.isNaN(row.f) && row.fWhy !== "") return { f: Number.NaN, n, whyF: row.fWhy, whyN };
  if (Number.isNaN(row.f)) {
    const why =
      row.feedMode === 94 ? "no F in force" : `no F in force since ${feedModeCode(run.dialect, row.feedMode)}`;
    return { f: Number.NaN, n, whyF: why, whyN };
  }
  if (row.feedMode === 95) return { f: row.f * run.factor(), n, whyF: "", whyN };
  const timed = row.feedMode === 93;
  if (timed && Number.isNaN(length)) return { f: Number.NaN, n, whyF: NO_LENGTH, whyN };
  const given = timed ? "F gives the time of the move" : "F is per minute";
  const none = timed ? "a time" : "F per minute";
  if (row.spindle === 0 && !doubtful)
    return { f: Number.NaN, n, whyF: `the spindle is stopped: ${none} gives no feed per turn`, whyN };
  if (Number.isNaN(n)) return { f: Number.NaN, n, whyF: `${given}, and ${whyN}`, whyN };
  if (n === 0) return { f: Number.NaN, n, whyF: `S0: ${none} gives no feed per turn`, whyN };
  const rate = timed ? timedRate(run, length) : row.f * run.factor();
  return { f: rate / n, n, whyF: "", whyN };
}

const NO_LENGTH = "G93 gives the time of a move, and how long the move is cannot be known";

/** mm/min under G93: the dialect says whether F is one over the minutes or the seconds. */
function timedRate(run: Run, length: number): number {
  const { f } = run.row;
  if (f === 0) return 0;
  return run.dialect.g93 === "seconds" ? (60 * length) / f : length * f;
}
