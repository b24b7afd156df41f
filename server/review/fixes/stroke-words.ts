/** The feed moves of a stroke as words: one for each stretch, without anything between them. */
import type { WordRef } from "../../../grammar/blocks.ts";
import type { Execution, ModalState } from "../../program/types.ts";
import { feed, gridOf, height, mustBeWritten } from "./numbers.ts";
import { type SlowZone, stepsOf } from "./steps.ts";
import type { Trace } from "./trace.ts";

export interface StrokeToWrite {
  readonly fromZ: number;
  readonly toZ: number;
  /** mm/rev; null unknown: then it is not split. */
  readonly f: number | null;
  /** 1/min */
  readonly n: number | null;
  /** The word that gave the depth. */
  readonly zRef: WordRef;
  readonly zones: readonly SlowZone[];
  readonly state: ModalState;
}

/** `["Z-5.6", "F101."]` for each stretch. */
export function strokeWords(stroke: StrokeToWrite, execution: Execution): string[][] {
  const { fromZ, toZ, f, n, state, zRef, zones } = stroke;
  const programmed = mustBeWritten(execution, state.from.f, "F");
  const steps = f === null ? [{ toZ, f: null }] : stepsOf(fromZ, toZ, f, zones, gridOf(state));
  return steps.map((step) => [
    `Z${height(step.toZ, execution, zRef, state)}`,
    `F${step.f === null ? programmed : feed(step.f, n, execution, state)}`,
  ]);
}

/**
 * The F that must stand again after a stroke that ends slow, where a later cut relies on it.
 * @param rewritten blocks that get an F of their own
 */
export function feedAgain(
  words: readonly string[][],
  lastMotion: number,
  state: ModalState,
  execution: Execution,
  trace: Trace,
  rewritten: ReadonlySet<number>,
): string {
  const programmed = `F${mustBeWritten(execution, state.from.f, "F")}`;
  if (words.at(-1)?.includes(programmed) === true) return "";
  const next = trace.nextCut(lastMotion);
  const relies = next !== null && next.state.from.f === state.from.f && !rewritten.has(next.block);
  return relies ? programmed : "";
}
