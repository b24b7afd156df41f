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

export function strokeSpeed(run: Run): StrokeSpeed {
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
  if (row.feedMode === 93) return { f: Number.NaN, n, whyF: "G93 gives the time of a move, not a feed", whyN };
  const feed = row.f * run.factor();
  if (row.feedMode === 95) return { f: feed, n, whyF: "", whyN };
  if (row.spindle === 0 && !doubtful)
    return { f: Number.NaN, n, whyF: "the spindle is stopped: F per minute gives no feed per turn", whyN };
  if (Number.isNaN(n)) return { f: Number.NaN, n, whyF: `F is per minute, and ${whyN}`, whyN };
  if (n === 0) return { f: Number.NaN, n, whyF: "S0: F per minute gives no feed per turn", whyN };
  return { f: feed / n, n, whyF: "", whyN };
}
