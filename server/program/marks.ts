/**
 * Where the program stands in its text. Text before the first `%` is leader, text behind the `%` that closes is trailer
 * (ISO 6983-1, from memory; NISTIR 6556 3.1): headings, page marks and padding of whatever sent the file, read by no control.
 */
import { type Blocks, ITEM, type Problem } from "../../grammar/blocks.ts";

export interface Marks {
  /** Line to begin at: that of the `%` behind a leader, else 0. */
  readonly first: number;
  /** Line of the `%` that closes; Infinity where none does. */
  readonly close: number;
  /** Line behind the trailer: programs that stand behind the `%` are read where they are called. */
  readonly trailerEnd: number;
}

/** Item of the `%` of a block; −1 none. Padding may stand before it. */
export function percentItem(blocks: Blocks, block: number): number {
  const first = blocks.firstItem(block);
  // Most lines begin with a word: no more is asked of them.
  const kind = blocks.kind(first);
  if (kind !== ITEM.percent && kind !== ITEM.unread) return -1;
  for (let item = first; item < first + Math.min(2, blocks.itemCount(block)); item++)
    if (blocks.kind(item) === ITEM.percent) return item;
  return -1;
}

export function marksOf(blocks: Blocks): Marks {
  const percents: number[] = [];
  for (let line = 0; line < blocks.count && percents.length < 2; line++)
    if (percentItem(blocks, blocks.blockAt(line)) >= 0) percents.push(line);
  const [one, two] = percents;
  if (one === undefined) return { first: 0, close: Number.POSITIVE_INFINITY, trailerEnd: blocks.count };
  const problems = new Set(blocks.problems().map(({ span }) => span.block));
  const opens = !hasCodes(blocks, problems, 0, one) && hasCodes(blocks, problems, one + 1, blocks.count);
  const close = opens ? (two ?? Number.POSITIVE_INFINITY) : one;
  let trailerEnd = Math.min(blocks.count, close + 1);
  while (trailerEnd < blocks.count && !beginsProgram(blocks, problems, blocks.blockAt(trailerEnd))) trailerEnd++;
  return { first: opens ? one : 0, close, trailerEnd };
}

/** Whether a line of a program stands there: codes, and nothing that cannot be read. */
function hasCodes(blocks: Blocks, problems: ReadonlySet<number>, from: number, end: number): boolean {
  for (let line = from; line < end; line++) {
    const block = blocks.blockAt(line);
    if (problems.has(block)) continue;
    const first = blocks.firstItem(block);
    for (let item = first; item < first + blocks.itemCount(block); item++)
      if (blocks.kind(item) === LETTER_G || blocks.kind(item) === LETTER_M) return true;
  }
  return false;
}

const LETTER_G = 71;
const LETTER_M = 77;

function beginsProgram(blocks: Blocks, problems: ReadonlySet<number>, block: number): boolean {
  return blocks.itemCount(block) > 0 && blocks.kind(blocks.firstItem(block)) === ITEM.program && !problems.has(block);
}

/** Whether a line is neither leader nor trailer. */
export function inProgram({ first, close, trailerEnd }: Marks, line: number): boolean {
  return line >= first && (line <= close || line >= trailerEnd);
}

/** What cannot be read, but for leader and trailer, which may stand on the line of their `%` too. */
export function problemsInside(blocks: Blocks): readonly Problem[] {
  const all = blocks.problems();
  if (all.length === 0) return all;
  const marks = marksOf(blocks);
  return all.filter(({ span }) => {
    const line = blocks.lineOf(span.block);
    if (!inProgram(marks, line)) return false;
    const percent = line === marks.first || line === marks.close ? percentItem(blocks, span.block) : -1;
    if (percent < 0) return true;
    return line === marks.close ? false : span.end > blocks.start(percent);
  });
}
