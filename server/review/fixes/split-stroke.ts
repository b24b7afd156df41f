/** A feed move that is written out already, with a change of feed in it. */
import type { Execution } from "../../program/types.ts";
import { comments, has, line, readBlock } from "./block-words.ts";
import { feedAgain, type StrokeToWrite, strokeWords } from "./stroke-words.ts";
import type { Trace } from "./trace.ts";
import { cannot } from "./types.ts";

export interface WrittenStroke extends StrokeToWrite {
  readonly block: number;
  readonly name: string;
  /** Number of its motion in the trace. */
  readonly motion: number;
}

export function splitStroke(
  stroke: WrittenStroke,
  execution: Execution,
  trace: Trace,
  rewritten: ReadonlySet<number>,
): string[] {
  const { block, name, motion, state } = stroke;
  const { blocks } = execution;
  const written = readBlock(blocks, block, name);
  if (trace.of(block).length !== 1) cannot(`${name} does more than one feed move`);
  if (!has(written, "Z")) cannot(`${name} has no Z`);
  const depth = written.words.findIndex((word) => word.letter === "Z");
  const zRef = blocks.refOf(block, blocks.firstItem(block) + depth);
  const feeds = strokeWords({ ...stroke, zRef }, execution);
  const again = feedAgain(feeds, motion, state, execution, trace, rewritten);
  const own = written.words
    .filter((word) => !word.comment && word.letter !== "F")
    .flatMap((word) => (word.letter === "Z" ? (feeds[0] ?? []) : [word.text]));
  const lines = [line(written, own, comments(written))];
  for (const words of feeds.slice(1)) lines.push(line(written, words, []));
  if (again !== "") lines.push(line(written, [again], []));
  return lines;
}
