/** What a spindle can give at a speed, and what it feels over an operation. */
import { powerFromTorque, torqueFromPower } from "./kienzle.ts";

/** A point as the brochure prints it for the motor: exactly one of torque (N·m) and power (kW) is a number. */
export interface EnvelopePoint {
  readonly rpm: number;
  readonly torque: number | null;
  readonly power: number | null;
}

export interface Available {
  /** At the cutter, N·m. */
  readonly torque: number;
  /** At the cutter, kW. */
  readonly power: number;
}

/**
 * Torque and power at the cutter at speed n. A torque point is power = torque × rpm; between points power runs straight
 * over rpm (so a run between two points of equal torque is constant torque), beyond the last it holds; torque is power
 * over speed, never above the first torque point. Below the first point its torque holds. The cutter gets efficiency
 * times what the motor gives.
 * @param points in rising rpm, each with a torque or a power
 * @param efficiency motor to cutter, above 0 to 1
 * @param n 1/min, 0 or more
 * @returns null when no point says what the spindle gives at that speed
 */
export function available(points: readonly EnvelopePoint[], efficiency: number, n: number): Available | null {
  const nodes = points
    .map((p) => ({ rpm: p.rpm, power: motorPower(p), torque: p.torque }))
    .filter((p): p is { rpm: number; power: number; torque: number | null } => p.power !== null)
    .sort((a, b) => a.rpm - b.rpm);
  const first = nodes[0];
  const last = nodes.at(-1);
  if (first === undefined || last === undefined) return null;
  const cap = capTorque(nodes);
  if (n <= first.rpm) {
    const torque = first.torque ?? (first.rpm > 0 ? torqueFromPower(first.power, first.rpm) : cap);
    if (torque === null) return null;
    return atCutter(torque, n, efficiency);
  }
  // A torque at standstill alone says nothing about a turning spindle.
  if (last.rpm === 0) return null;
  let power = last.power;
  for (let i = 1; i < nodes.length; i++) {
    const a = nodes[i - 1];
    const b = nodes[i];
    if (a === undefined || b === undefined || n > b.rpm) continue;
    power = b.rpm === a.rpm ? b.power : a.power + ((n - a.rpm) / (b.rpm - a.rpm)) * (b.power - a.power);
    break;
  }
  const torque = torqueFromPower(power, n);
  return atCutter(cap === null ? torque : Math.min(torque, cap), n, efficiency);
}

function motorPower(point: EnvelopePoint): number | null {
  if (point.power !== null) return point.power;
  return point.torque === null ? null : powerFromTorque(point.torque, point.rpm);
}

/** The first torque point; without one, the torque of the first power point that turns. */
function capTorque(nodes: readonly { rpm: number; power: number; torque: number | null }[]): number | null {
  for (const node of nodes) if (node.torque !== null) return node.torque;
  for (const node of nodes) if (node.rpm > 0) return torqueFromPower(node.power, node.rpm);
  return null;
}

function atCutter(motorTorque: number, n: number, efficiency: number): Available {
  const torque = motorTorque * efficiency;
  return { torque, power: powerFromTorque(torque, n) };
}

/** Efficiency from motor to cutter by drive: direct 0.92, belt 0.87, geared 0.77. Common practice, no source. */
export const DRIVE_EFFICIENCY = { direct: 0.92, belt: 0.87, geared: 0.77 } as const;

/** Torque over a span of time. */
export interface DutySpan {
  /** N·m, 0 while it does not cut. */
  readonly torque: number;
  /** min, 0 or more */
  readonly minutes: number;
}

/**
 * Root mean square torque of an operation, N·m, to hold against the continuous curve; a single hole is held against the
 * short-time curve. Common practice, no source. 0 for no time.
 */
export function dutyTorque(spans: readonly DutySpan[]): number {
  let minutes = 0;
  let sum = 0;
  for (const span of spans) {
    minutes += span.minutes;
    sum += span.torque * span.torque * span.minutes;
  }
  return minutes > 0 ? Math.sqrt(sum / minutes) : 0;
}

/**
 * Power at the cutter from a load meter, kW: (load - idle) × rating, in shares of 1. The reading is worth more than any
 * table; it narrows the band to ± 15 % (common practice, no source).
 * @param rating of the motor that the meter refers to, kW
 * @param efficiency motor to cutter
 */
export function powerFromMeter(load: number, idle: number, rating: number, efficiency: number): number {
  return Math.max(0, load - idle) * rating * efficiency;
}

/** Band around a load-meter reading, as shares. Common practice, no source. */
export const METER_BAND = { low: 0.85, nominal: 1, high: 1.15 } as const;
