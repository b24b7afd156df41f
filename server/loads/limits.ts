/** What machine and tool can give at the programmed speed, at the cutter. */
import { type Available, available } from "../mechanics/envelope.ts";
import type { ResolvedSetup, Spindle } from "../setup/types.ts";
import { finite, known, unknown } from "./known.ts";
import type { KnownTool } from "./speeds.ts";
import type { Known } from "./types.ts";

export interface Limits {
  readonly continuous: Known<Available>;
  readonly shortTime: Known<Available>;
  /** N */
  readonly thrust: Known<number>;
  /** 1/min */
  readonly rpm: Known<number>;
}

/** What the spindle gives at one speed. */
export type SpindleAt = Pick<Limits, "continuous" | "shortTime">;

export const NOT_DECLARED = "not declared";

/** @param seen what was worked out for other holes, by speed */
export function limitsOf(
  setup: ResolvedSetup,
  tool: KnownTool,
  n: Known<number>,
  seen: Map<number, SpindleAt>,
): Limits {
  const spindle = setup.machine?.spindle ?? null;
  let at = n.known ? seen.get(n.value) : undefined;
  if (at === undefined) {
    at = { continuous: continuousAt(setup, spindle, n), shortTime: shortTimeAt(setup, spindle, n) };
    if (n.known) seen.set(n.value, at);
  }
  return {
    ...at,
    thrust: declared(setup, setup.machine?.axis.thrust ?? null, "axis.thrust", "the axis thrust"),
    rpm: rpmLimit(setup, spindle, tool),
  };
}

/** `not declared`, or why a declared value could not be used. */
function absent(setup: ResolvedSetup, field: string, what: string): { readonly known: false; readonly why: string } {
  if (setup.machine === null) return unknown(`${NOT_DECLARED}: no machine`);
  const broken = setup.unknown.get(`${setup.machine.path}.${field}`);
  return unknown(broken ?? `${NOT_DECLARED}: ${what} of machine ${setup.machine.name}`);
}

function declared(setup: ResolvedSetup, value: number | null, field: string, what: string): Known<number> {
  return value === null ? absent(setup, field, what) : finite(value, what);
}

function continuousAt(setup: ResolvedSetup, spindle: Spindle | null, n: Known<number>): Known<Available> {
  if (spindle === null || spindle.continuous.length === 0) {
    return absent(setup, "spindle.continuous", "the continuous spindle curve");
  }
  return curveAt(spindle.continuous, spindle.efficiency, n);
}

function shortTimeAt(setup: ResolvedSetup, spindle: Spindle | null, n: Known<number>): Known<Available> {
  if (spindle === null || spindle.shortTime === null || spindle.shortTime.points.length === 0) {
    return absent(setup, "spindle.shortTime", "the short-time spindle curve");
  }
  return curveAt(spindle.shortTime.points, spindle.efficiency, n);
}

/** @param efficiency motor to cutter; 1 gives what the motor itself has */
export function curveAt(points: Spindle["continuous"], efficiency: number, n: Known<number>): Known<Available> {
  if (!n.known) return n;
  const at = available(points, efficiency, n.value);
  if (at === null) return unknown("the spindle curve has no point with a torque or a power");
  const torque = finite(at.torque, "the torque the spindle can give");
  if (!torque.known) return torque;
  const power = finite(at.power, "the power the spindle can give");
  return power.known ? known(at) : power;
}

/** The lesser of spindle and tool. */
function rpmLimit(setup: ResolvedSetup, spindle: Spindle | null, tool: KnownTool): Known<number> {
  const values = [spindle?.maxRpm ?? null, tool.known ? tool.value.RPMX : null].filter((v) => v !== null);
  if (values.length === 0) return absent(setup, "spindle.maxRpm", "the highest spindle speed");
  return finite(Math.min(...values), "the highest spindle speed");
}
