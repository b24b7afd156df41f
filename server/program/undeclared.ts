/**
 * Keys that the dialect leaves undeclared although their readings lie far apart: one is used, and the program is told
 * once, at the first word where the other would make a difference.
 */
import type { UnitSystem } from "../units/quantities.ts";
import { say } from "../units/wording.ts";
import { isSide } from "./readings.ts";
import type { Run } from "./run.ts";
import { letterName, R } from "./words.ts";

const DECIMAL = 1;
const DWELL = 2;
const CYCLE_R = 4;
const MACROS = 8;

/** A dwell of more than a quarter of an hour is none. */
const LONGEST_DWELL = 900;

const systemOf = (run: Run): UnitSystem => (run.row.units === 2 ? "inch" : "mm");

function tell(run: Run, bit: number, key: string, item: number, text: string): void {
  if (run.record === null) return;
  run.undeclared |= bit;
  run.remark(`undeclared-${key}`, "info", item, text, 1);
}

/** A word without a decimal point, as written. */
export function tellDecimal(run: Run, letter: number, value: number): void {
  if ((run.undeclared & DECIMAL) !== 0 || Number.isNaN(value)) return;
  const name = letterName(letter);
  const written = value * run.spread(letter);
  const turned = letter <= 2;
  const reading = (number: number): string =>
    turned ? `${number}°` : say(number * run.factor(), "length", systemOf(run));
  const steps = Number((written * run.increment(letter)).toPrecision(9));
  tell(
    run,
    DECIMAL,
    "decimalMode",
    run.words.itemOf(letter),
    `${name}${written} has no decimal point: it is read as ${reading(written)}; a control that counts increments ` +
      `reads ${reading(steps)}. Way out: \`decimalMode: calculator\` or \`least-increment\` under \`dialect\` of the machine`,
  );
}

/** P of a dwell, as written. */
export function tellDwell(run: Run, item: number, value: number): void {
  if ((run.undeclared & DWELL) !== 0 || !(value > 0) || value > LONGEST_DWELL) return;
  const time = (seconds: number): string => `${Number(seconds.toPrecision(6))} s`;
  tell(
    run,
    DWELL,
    "dwellP",
    item,
    `P${value} is read in milliseconds, as ${time(value / 1000)}; a control that reads seconds dwells ${time(value)}. ` +
      "Way out: `dwellP: ms` or `dwellP: s` under `dialect` of the machine",
  );
}

/** R of a cycle where it could be the way from the initial level as well: it does not go up from there. */
export function tellCycleR(run: Run, code: number, position: number, way: number): void {
  if ((run.undeclared & CYCLE_R) !== 0 || !(way <= 0)) return;
  const from = run.cycle.initial;
  const length = (mm: number): string => say(mm, "length", systemOf(run));
  const axis = isSide(code) ? "X" : "Z";
  const half = isSide(code) && run.dialect.diameterX ? 2 : 1;
  const other = Number.isNaN(from)
    ? `${length(-way)} below the level before the cycle`
    : `${axis} ${length((from + way) * half)}`;
  tell(
    run,
    CYCLE_R,
    "cycleR",
    run.words.itemOf(R),
    `R is read as a level, ${axis} ${length(position * half)}; a control that counts it from the level before the cycle ` +
      `reads ${other}. Way out: \`cycleR: absolute\` or \`from-initial\` under \`dialect\` of the machine`,
  );
}

/** The first o word that stands as a statement. */
export function tellWords(run: Run, name: string, item: number): void {
  if ((run.undeclared & MACROS) !== 0) return;
  tell(
    run,
    MACROS,
    "macroDialect",
    item,
    `o${name.toLowerCase()} is run as a statement of a control with o words; a control that writes loops as WHILE and calls as ` +
      "M98 or G65 takes it for a program number or stops. Way out: `macroDialect: o-word` or `hash-iso` under `dialect` of " +
      "the machine",
  );
}
