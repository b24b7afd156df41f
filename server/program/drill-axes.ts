/** Which axis is drilled along, and the two square to it in order. */
import { turns } from "../setup/dialect.ts";
import { isSide } from "./readings.ts";
import type { Run } from "./run.ts";

export type DrillAxes = readonly [along: 0 | 1 | 2, u: 0 | 1 | 2, v: 0 | 1 | 2];

/** By plane. */
export const DRILL_AXIS: { readonly [P in 17 | 18 | 19]: DrillAxes } = { 17: [2, 0, 1], 18: [1, 0, 2], 19: [0, 1, 2] };

/** On a turning centre cycles drill along Z, some along X, whatever the plane. */
export function cycleAxes(run: Run, code: number): DrillAxes {
  if (!turns(run.dialect)) return DRILL_AXIS[run.row.plane];
  return DRILL_AXIS[isSide(code) ? 19 : 17];
}

/** The axis that a move from this place may drill along. */
export function moveAxes(run: Run, from: readonly (number | undefined)[]): DrillAxes {
  if (!turns(run.dialect)) return DRILL_AXIS[run.row.plane];
  const side = run.row.live && from[0] !== run.pos[0] && Object.is(from[2], run.pos[2]);
  return DRILL_AXIS[side ? 19 : 17];
}

/** mm: a drill this near to the spindle's axis is on it. */
const CENTRE = 0.05;

/** Whether the tool stands on the axis of the work: the only place where the turning work can be drilled. */
export const onCentre = (x: number): boolean => Math.abs(x) <= CENTRE;

/** Whether what a move along an axis cuts here is turned rather than drilled. */
export function isTurned(run: Run, u: number): boolean {
  return turns(run.dialect) && !run.row.live && !onCentre(u);
}
