/** A motion in its public form: positions in the units in force at its block. */

import type { ModalState, Motion } from "../program/types.ts";
import { placeOf } from "../review/places.ts";
import type { Review } from "../review/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { tidy } from "./public.ts";

const INCH = 25.4;

export interface PublicMotion {
  readonly file: string;
  readonly line: number;
  readonly calls: readonly { readonly file: string; readonly line: number }[];
  readonly kind: Motion["kind"];
  readonly x: number | null;
  readonly y: number | null;
  readonly z: number | null;
  readonly units: UnitSystem | null;
  readonly f: number | null;
  readonly n: number | null;
  readonly coolant: readonly string[];
  readonly seconds: number | null;
}

/** The motions in order, without those that go nowhere. */
export function* publicMotions(
  review: Review,
  program: string,
  show: (file: string) => string,
): Generator<PublicMotion> {
  const { blocks } = review.execution;
  const where = (block: number) => {
    const { file, line } = placeOf(blocks, block);
    return { file: file === null ? program : show(file), line: line + 1 };
  };
  for (const motion of review.execution.motions()) {
    const { state } = motion;
    const scale = state.units === "inch" ? INCH : 1;
    const position = (value: number | null) => (value === null ? null : tidy(value / scale));
    yield {
      ...where(motion.block),
      calls: motion.calls.map(where),
      kind: motion.kind,
      x: position(motion.x),
      y: position(motion.y),
      z: position(motion.z),
      units: state.unsure.includes("units") ? null : state.units,
      // A feed in 1/min (G93) is no length.
      f: state.f === null ? null : tidy(state.feedMode === 93 ? state.f : state.f / scale),
      n: speedOf(state),
      coolant: state.coolant,
      seconds: tidy(motion.seconds),
    };
  }
}

/** A stopped spindle turns with 0; under constant surface speed (G96) S is no speed of rotation. */
function speedOf(state: ModalState): number | null {
  if (state.unsure.includes("spindle") || state.unsure.includes("speedMode")) return null;
  if (state.spindle === "stopped") return 0;
  return state.speedMode === 97 ? tidy(state.s) : null;
}
