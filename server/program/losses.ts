import type { Run } from "./run.ts";

/** After something that is not followed the position is unknown until the next absolute move. */
export function lose(run: Run, why: string): void {
  run.record?.longHand.commit(run);
  run.places.written = null;
  for (let axis = 0; axis < 3; axis++) {
    run.pos[axis] = Number.NaN;
    run.why[axis as 0 | 1 | 2] = why;
  }
}
