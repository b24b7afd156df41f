/**
 * Variables that are offsets: #5201 and on the shift under all work systems, #5221 and on those of G54 to G59, twenty
 * numbers apart, X, Y and Z first (common practice, no source; of the NIST language NISTIR 6556 table 2).
 */
import { unitFactor } from "./modal.ts";
import { machineOffset, SYSTEMS, setCommon, setOffset } from "./places.ts";
import type { Run } from "./run.ts";

const FIRST = 5201;
const FIRST_SYSTEM = 5221;
const APART = 20;
const ALL_AXES = [0, 1, 2] as const;

/** System (−1: the shift under all) and axis of a variable; null: it is none of these. */
function offsetOf({ dialect }: Run, index: number): { readonly system: number; readonly axis: number } | null {
  const strict = dialect.assign === "parallel";
  const systems = strict ? SYSTEMS.length : 6;
  if (index < (strict ? FIRST_SYSTEM : FIRST) || index >= FIRST_SYSTEM + APART * systems) return null;
  const axis = (index - FIRST) % APART;
  return axis > 2 ? null : { system: Math.floor((index - FIRST_SYSTEM) / APART), axis };
}

/** Which variable is which axis of a lathe, and whether X is a diameter, is not told here: all of its system are in doubt. */
export function writeOffsetVariable(run: Run, index: number, value: number | null): boolean {
  const found = offsetOf(run, index);
  if (found === null) return false;
  run.record?.longHand.commit(run);
  const mill = run.dialect.machineKind === "mill";
  const to = mill ? (value ?? Number.NaN) * unitFactor(run.row.units) : Number.NaN;
  for (const axis of mill ? [found.axis] : ALL_AXES)
    if (found.system < 0) setCommon(run, axis, to);
    else setOffset(run, SYSTEMS[found.system] ?? "", axis, to, true);
  return true;
}

/** What such a variable holds, where the program itself set it; undefined: it is none of these. */
export function readOffsetVariable(run: Run, index: number): number | undefined {
  const found = offsetOf(run, index);
  if (found === null) return undefined;
  if (run.dialect.machineKind !== "mill") return Number.NaN;
  const { system, axis } = found;
  const mm =
    system < 0 ? (run.places.common[axis] ?? Number.NaN) : machineOffset(run.places, SYSTEMS[system] ?? "", axis);
  return mm / unitFactor(run.row.units);
}
