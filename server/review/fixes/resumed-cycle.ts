/** A block of a cycle run with all the words that the cycle keeps, so that it stands after another motion. */
import type { Execution, HoleShape, ModalState } from "../../program/types.ts";
import { comments, has, line, readBlock, without } from "./block-words.ts";
import { mustBeWritten } from "./numbers.ts";

const PECKS: ReadonlySet<HoleShape["kind"]> = new Set(["peck", "chip-break"]);

/** @param state in force after the block */
export function resumedCycle(
  block: number,
  name: string,
  state: ModalState,
  shape: HoleShape,
  execution: Execution,
): string {
  const written = readBlock(execution.blocks, block, name);
  const { from } = state;
  const own = without(written, "N");
  const gWords = own.filter((word) => word.letter === "G");
  const codes: string[] = [];
  const names = (from: number, to: number): boolean => gWords.some(({ value }) => value >= from && value <= to);
  if (state.returnMode !== null && !names(98, 99)) codes.push(`G${state.returnMode}`);
  if (!names(73, 89.9)) codes.push(`G${state.cycle / 10}`);
  const kept = (
    [
      ["Z", from.z],
      ["R", from.r],
      ["Q", PECKS.has(shape.kind) ? from.q : 0],
      ["P", shape.dwell > 0 ? from.p : 0],
      ["F", from.f],
    ] as const
  )
    .filter(([letter, ref]) => ref !== 0 && !has(written, letter))
    .map(([letter, ref]) => `${letter}${mustBeWritten(execution, ref, letter)}`);
  const number = written.words.filter((word) => word.letter === "N").map((word) => word.text);
  return line(written, [...number, ...codes, ...own.map((word) => word.text), ...kept], comments(written));
}
