/** A block as it is written, taken apart so that new blocks can be written in its manner. */
import { type Blocks, ITEM, VALUE } from "../../../grammar/blocks.ts";
import { cannot } from "./types.ts";

export interface WrittenWord {
  /** Letter, upper case; empty: a comment or another item that is none. */
  readonly letter: string;
  readonly value: number;
  readonly text: string;
  readonly comment: boolean;
}

export interface WrittenBlock {
  readonly indent: string;
  readonly words: readonly WrittenWord[];
  /** What stands between two words. */
  readonly gap: string;
  readonly lower: boolean;
}

const isLetter = (kind: number): boolean => kind >= 65 && kind <= 90 && kind !== ITEM.program;

/** Refuses what cannot be moved to other blocks without a second thought. */
export function readBlock(blocks: Blocks, block: number, name: string): WrittenBlock {
  if (blocks.hasSkip(block)) cannot(`${name} has a block delete`);
  if (!blocks.isPlain(block)) cannot(`${name} holds a variable or a statement`);
  const text = blocks.textOf(block);
  const first = blocks.firstItem(block);
  const words: WrittenWord[] = [];
  let apart = false;
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    const comment = kind === ITEM.comment || kind === ITEM.lineComment;
    if (!comment && !isLetter(kind)) cannot(`${name} holds more than words`);
    if (!comment && blocks.form(item) !== VALUE.integer && blocks.form(item) !== VALUE.real)
      cannot(`${name} holds a word without a number`);
    const before = item === first ? "" : text.slice(blocks.end(item - 1), blocks.start(item));
    if (item > first && !comment && before !== "") apart = true;
    words.push({
      letter: comment ? "" : String.fromCharCode(kind),
      value: blocks.value(item),
      text: text.slice(blocks.start(item), blocks.end(item)),
      comment,
    });
  }
  const plain = words.filter((word) => !word.comment);
  return {
    indent: text.slice(0, text.length - text.trimStart().length),
    words,
    // A block of one word tells nothing: most programs are written with spaces.
    gap: apart || plain.length < 2 ? " " : "",
    lower: plain.length > 0 && plain.every((word) => word.text.startsWith(word.text.charAt(0).toLowerCase())),
  };
}

/** One line in the manner of a block: comments last, as `;` ends the line. */
export function line(
  { indent, gap, lower }: WrittenBlock,
  words: readonly string[],
  comments: readonly string[],
): string {
  const code = words.map((word) => (lower ? word.toLowerCase() : word)).join(gap);
  return indent + [code, ...comments].filter((part) => part !== "").join(" ");
}

export const comments = (block: WrittenBlock): readonly string[] =>
  block.words.filter((word) => word.comment).map((word) => word.text);

/** Words that are left when these letters are taken away. */
export const without = (block: WrittenBlock, letters: string): readonly WrittenWord[] =>
  block.words.filter((word) => !word.comment && !letters.includes(word.letter));

export const has = (block: WrittenBlock, letter: string): boolean => block.words.some((word) => word.letter === letter);
