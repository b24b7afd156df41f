/**
 * When a load is worth a word, and how strong. Levels of common practice, no source:
 * error where nominal > 1.15 x the short-time limit or low > the continuous limit; warning where nominal > continuous;
 * information above 85 %.
 */
import type { Band, HoleLoads } from "../loads/types.ts";
import type { EnvelopePoint, Spindle } from "../setup/types.ts";
import type { FindingSeverity } from "./types.ts";

export const SHORT_TIME_MARGIN = 1.15;
export const RESERVE = 0.85;

export interface LoadLevel {
  readonly severity: FindingSeverity;
  readonly why: "over-short-time" | "surely-over" | "over" | "close";
}

export function loadLevel(load: Band, continuous: number, shortTime: number | null): LoadLevel | null {
  if (shortTime !== null && load.nominal > SHORT_TIME_MARGIN * shortTime)
    return { severity: "error", why: "over-short-time" };
  if (load.low > continuous) return { severity: "error", why: "surely-over" };
  if (load.nominal > continuous) return { severity: "warning", why: "over" };
  if (load.nominal > RESERVE * continuous) return { severity: "info", why: "close" };
  return null;
}

/** N·m of an envelope point at the motor. null where it has none (power at standstill). */
function pointTorque(point: EnvelopePoint): number | null {
  if (point.torque !== null) return point.torque;
  return point.power !== null && point.rpm > 0 ? (9549.3 * point.power) / point.rpm : null;
}

/**
 * Torque and power of one spindle at one speed are one limit seen twice; this says which of the two the machine runs
 * into, so that one cause gives one finding. Torque where the envelope gives its full torque, else power.
 */
export function rulingLimit(loads: HoleLoads, spindle: Spindle | null): "torque" | "power" | null {
  const { torque, power } = loads.limits;
  if (torque === null) return power.continuous === null ? null : "power";
  if (power.continuous === null) return "torque";
  const first = spindle?.continuous[0];
  const full = first === undefined ? null : pointTorque(first);
  if (spindle === null || full === null) return "power";
  return torque.continuous >= 0.98 * full * spindle.efficiency ? "torque" : "power";
}
