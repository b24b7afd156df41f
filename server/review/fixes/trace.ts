/** The motions of an execution, to be asked by block. */
import type { Execution, Motion } from "../../program/types.ts";

export class Trace {
  readonly motions: readonly Motion[];
  readonly #byBlock = new Map<number, number[]>();

  constructor(execution: Execution) {
    this.motions = [...execution.motions()];
    this.motions.forEach((motion, i) => {
      const own = this.#byBlock.get(motion.block);
      if (own === undefined) this.#byBlock.set(motion.block, [i]);
      else own.push(i);
    });
  }

  /** Numbers of the motions that a block makes. */
  of(block: number): readonly number[] {
    return this.#byBlock.get(block) ?? [];
  }

  /** The next move that cuts behind a motion. */
  nextCut(after: number): Motion | null {
    for (let i = after + 1; i < this.motions.length; i++) {
      const motion = this.motions[i];
      if (motion?.kind === "feed" || motion?.kind === "arc") return motion;
    }
    return null;
  }
}

const traces = new WeakMap<Execution, Trace>();

/** Running a program once more is worth keeping while its fixes are sought. */
export function traceOf(execution: Execution): Trace {
  let trace = traces.get(execution);
  if (trace === undefined) {
    trace = new Trace(execution);
    traces.set(execution, trace);
  }
  return trace;
}
