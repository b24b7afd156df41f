/**
 * Readings of the load meter. One is worth more than every table: it sets the nominal load and narrows the band to
 * ± 15 % (common practice, no source). It stands for the program as it ran when it was read.
 */
import { METER_BAND, powerFromMeter } from "../mechanics/envelope.ts";
import { torqueFromPower } from "../mechanics/kienzle.ts";
import { WEAR_TORQUE } from "../mechanics/peaks.ts";
import type { Observed, ResolvedSetup, Tool } from "../setup/types.ts";
import { known, unknown } from "./known.ts";
import { curveAt } from "./limits.ts";
import type { Band, Known } from "./types.ts";

export interface Reading {
  readonly observed: Observed;
  /** Rated power of the motor at the programmed speed, kW. */
  readonly rating: number;
  readonly efficiency: number;
  /** Power at the cutter as read, kW. */
  readonly power: number;
  /** From the wear of the edge at the reading to nominal wear. */
  readonly wearFactor: number;
  /** N·m */
  readonly torque: Band;
}

export interface ReadingChoice {
  readonly reading: Reading | null;
  /** Why readings that name this program and operation were not used. */
  readonly refused: readonly string[];
}

/** A meter that reads more than this is not in percent of a rating. */
const HIGHEST_LOAD = 250;
/** Beyond this share of the table's nominal the reading belongs to another cut or another rating. */
const FARTHEST = 3;

/** Whether `written` in the setup names this program: the same path, or its last parts. */
export function namesProgram(written: string, program: string): boolean {
  const parts = (path: string) =>
    path
      .replace(/\\/g, "/")
      .split("/")
      .filter((p) => p !== "" && p !== ".");
  const want = parts(written);
  const have = parts(safeDecode(program));
  if (want.length === 0 || want.length > have.length) return false;
  return want.every((part, i) => part === have[have.length - want.length + i]);
}

function safeDecode(program: string): string {
  if (!/^[a-z][a-z0-9+.-]+:\/\//i.test(program)) return program;
  try {
    return decodeURIComponent(program);
  } catch {
    return program;
  }
}

/**
 * @param operation index from 0; readings count operations from 1
 * @param tables torque from tables in the same cut, to tell a slip of the keyboard from a reading
 */
export function readingFor(
  tool: Tool,
  setup: ResolvedSetup,
  program: string | null,
  operation: number,
  n: Known<number>,
  tables: Known<Band>,
): ReadingChoice {
  const refused: string[] = [];
  let reading: Reading | null = null;
  for (const observed of tool.observed) {
    if (observed.operation !== operation + 1) continue;
    if (program === null || !namesProgram(observed.program, program)) continue;
    const read = readOne(observed, setup, n, tables);
    // The last usable one counts: readings are added as they are taken.
    if (read.known) reading = read.value;
    else refused.push(`load-meter reading ${observed.path} not used: ${read.why}`);
  }
  return { reading, refused };
}

function readOne(observed: Observed, setup: ResolvedSetup, n: Known<number>, tables: Known<Band>): Known<Reading> {
  const { load, idle, meter, wear } = observed;
  if (!(idle >= 0) || !(load > idle)) return unknown(`load ${load} % is not above idle ${idle} %`);
  if (load > HIGHEST_LOAD) return unknown(`load ${load} % is more than any meter shows`);
  if (!n.known) return n;
  if (!(n.value > 0)) return unknown("the spindle speed is zero");
  const spindle = setup.machine?.spindle ?? null;
  if (spindle === null) return unknown("the machine declares no spindle curve");
  const points = meter === "continuous" ? spindle.continuous : (spindle.shortTime?.points ?? []);
  if (points.length === 0) return unknown(`the ${meter} rating that the meter refers to is not declared`);
  const rated = curveAt(points, 1, n);
  if (!rated.known) return rated;
  const power = powerFromMeter(load / 100, idle / 100, rated.value.power, spindle.efficiency);
  const wearFactor = WEAR_TORQUE.nominal / (wear === "new" ? WEAR_TORQUE.low : WEAR_TORQUE.high);
  const nominal = torqueFromPower(power, n.value) * wearFactor;
  if (!(nominal > 0) || !Number.isFinite(nominal)) return unknown("no torque can be worked out from it");
  if (tables.known) {
    const ratio = nominal / tables.value.nominal;
    if (ratio > FARTHEST || ratio < 1 / FARTHEST) {
      return unknown(
        `it gives ${nominal.toPrecision(3)} N·m where the tables give ${tables.value.nominal.toPrecision(3)} N·m: ` +
          "check load, idle, the meter's rating and the operation",
      );
    }
  }
  const torque = {
    low: nominal * METER_BAND.low,
    nominal: nominal * METER_BAND.nominal,
    high: nominal * METER_BAND.high,
  };
  return known({ observed, rating: rated.value.power, efficiency: spindle.efficiency, power, wearFactor, torque });
}
