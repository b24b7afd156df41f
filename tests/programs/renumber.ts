/** Gives the N words of a program other numbers, and the words that name them: GOTO n, M99 P, M97 P, M98 Q. */
import { type Blocks, ITEM, VALUE } from "../../grammar/blocks.ts";
import type { Expr } from "../../grammar/expressions.ts";
import { readBlocks } from "../../grammar/read.ts";
import { LineStore } from "../../server/text/lines.ts";

/** A number in the text of a line, from `start` to `end`. */
interface NumberAt {
  readonly start: number;
  readonly end: number;
  readonly value: number;
}

export interface Numbering {
  readonly numbers: readonly number[];
  readonly targets: readonly number[];
}

/** What a program numbers and what it jumps to, in order of the text. */
export function numbering(text: string): Numbering {
  const blocks = readBlocks(LineStore.from(text));
  const all = Array.from({ length: blocks.count }, (_, line) => blocks.blockAt(line));
  const values = (of: (blocks: Blocks, block: number) => readonly NumberAt[]) =>
    all.flatMap((block) => of(blocks, block).map((at) => at.value));
  return { numbers: values(labelsOf), targets: values(targetsOf) };
}

/** @param other the new number for an old one; the same for a word that names it unless `targetsToo` is false */
export function renumbered(text: string, other: (n: number) => number, targetsToo = true): string {
  const lines = LineStore.from(text);
  const blocks = readBlocks(lines);
  let made = "";
  for (let i = 0; i < blocks.count; i++) {
    const block = blocks.blockAt(i);
    const places = [...labelsOf(blocks, block), ...(targetsToo ? targetsOf(blocks, block) : [])];
    let line = lines.line(i);
    for (const at of places.sort((a, b) => b.start - a.start))
      line = line.slice(0, at.start) + other(at.value) + line.slice(at.end);
    made += line + lines.eol(i);
  }
  return made;
}

const letter = (of: string): number => of.charCodeAt(0);

function wordsOf(blocks: Blocks, block: number, kind: number): NumberAt[] {
  const first = blocks.firstItem(block);
  return Array.from({ length: blocks.itemCount(block) }, (_, i) => first + i)
    .filter((item) => blocks.kind(item) === kind && blocks.form(item) === VALUE.integer)
    .map((item) => ({ start: blocks.start(item) + 1, end: blocks.end(item), value: blocks.value(item) }));
}

const labelsOf = (blocks: Blocks, block: number): NumberAt[] => wordsOf(blocks, block, letter("N"));

function targetsOf(blocks: Blocks, block: number): NumberAt[] {
  const calls = wordsOf(blocks, block, letter("M")).map((m) => m.value);
  const p = wordsOf(blocks, block, letter("P"));
  if (calls.includes(97) || calls.includes(99)) return p;
  if (calls.includes(98)) return p.length > 0 ? [] : wordsOf(blocks, block, letter("Q"));
  return jumpsOf(blocks, block);
}

function jumpsOf(blocks: Blocks, block: number): NumberAt[] {
  const first = blocks.firstItem(block);
  const found: NumberAt[] = [];
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (blocks.kind(item) !== ITEM.statement) continue;
    const statement = blocks.statement(item);
    if (statement?.kind === "goto" || statement?.kind === "if-goto") found.push(plain(statement.target));
  }
  return found;
}

function plain(target: Expr): NumberAt {
  if (target.kind !== "number") throw new Error("a jump to a number that is worked out cannot be renumbered");
  return target;
}
