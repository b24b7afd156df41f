/**
 * Programs that are called and stand in files of their own. Their blocks go behind those of the program, with numbers
 * that stay the same whatever is edited in it: a reader of blocks need not know where a block comes from.
 */
import type { Blocks, Item, WordRef } from "../../grammar/blocks.ts";
import type { Expr, Statement } from "../../grammar/expressions.ts";
import type { Span } from "../text/place.ts";

export interface LibraryFile {
  /** Number it was called by. */
  readonly number: number;
  /** Uri or path. */
  readonly file: string;
  readonly blocks: Blocks;
}

/** Lines, blocks and items of the k-th file begin at k times this: more than any file read has of each. */
const ROOM = 2 ** 24;
const REFS = 1024;

export class JoinedBlocks implements Blocks {
  readonly #main: Blocks;
  readonly #files: readonly LibraryFile[];

  constructor(main: Blocks, files: readonly LibraryFile[]) {
    this.#main = main;
    this.#files = files;
  }

  get main(): Blocks {
    return this.#main;
  }

  get files(): readonly LibraryFile[] {
    return this.#files;
  }

  #of(number: number): readonly [blocks: Blocks, shift: number] {
    const k = Math.floor(number / ROOM);
    const file = k > 0 ? this.#files[k - 1] : undefined;
    return file === undefined ? [this.#main, 0] : [file.blocks, k * ROOM];
  }

  get count(): number {
    return this.#main.count;
  }

  /** Where each file's lines stand. */
  ranges(): (readonly [first: number, end: number])[] {
    return [
      [0, this.#main.count],
      ...this.#files.map(({ blocks }, i) => [(i + 1) * ROOM, (i + 1) * ROOM + blocks.count] as const),
    ];
  }

  /** The file a block stands in, and its line there; null for the program itself. */
  fileOf(
    block: number,
  ): { readonly file: string; readonly line: number; readonly blocks: Blocks; readonly own: number } | null {
    const k = Math.floor(block / ROOM);
    const file = k > 0 ? this.#files[k - 1] : undefined;
    if (file === undefined) return null;
    const own = block - k * ROOM;
    return { file: file.file, line: file.blocks.lineOf(own), blocks: file.blocks, own };
  }

  blockAt(line: number): number {
    const [blocks, shift] = this.#of(line);
    const block = blocks.blockAt(line - shift);
    return block === 0 ? 0 : block + shift;
  }

  lineOf(block: number): number {
    const [blocks, shift] = this.#of(block);
    const line = blocks.lineOf(block - shift);
    return line < 0 ? -1 : line + shift;
  }

  firstItem(block: number): Item {
    const [blocks, shift] = this.#of(block);
    return blocks.firstItem(block - shift) + shift;
  }

  itemCount(block: number): number {
    const [blocks, shift] = this.#of(block);
    return blocks.itemCount(block - shift);
  }

  kind(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.kind(item - shift);
  }

  value(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.value(item - shift);
  }

  form(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.form(item - shift);
  }

  start(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.start(item - shift);
  }

  end(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.end(item - shift);
  }

  expression(item: Item): Expr | undefined {
    const [blocks, shift] = this.#of(item);
    return blocks.expression(item - shift);
  }

  statement(item: Item): Statement | undefined {
    const [blocks, shift] = this.#of(item);
    return blocks.statement(item - shift);
  }

  letterAfterComma(item: Item): number {
    const [blocks, shift] = this.#of(item);
    return blocks.letterAfterComma(item - shift);
  }

  name(item: Item): string | undefined {
    const [blocks, shift] = this.#of(item);
    return blocks.name(item - shift);
  }

  hasComment(block: number): boolean {
    const [blocks, shift] = this.#of(block);
    return blocks.hasComment(block - shift);
  }

  hasSkip(block: number): boolean {
    const [blocks, shift] = this.#of(block);
    return blocks.hasSkip(block - shift);
  }

  isPlain(block: number): boolean {
    const [blocks, shift] = this.#of(block);
    return blocks.isPlain(block - shift);
  }

  refOf(block: number, item: Item): WordRef {
    const [blocks, shift] = this.#of(block);
    return blocks.refOf(block - shift, item - shift) + shift * REFS;
  }

  spanOf(ref: WordRef): Span | null {
    const [blocks, shift] = this.#of(Math.floor(ref / REFS));
    const span = blocks.spanOf(ref - shift * REFS);
    return span === null ? null : { ...span, block: span.block + shift };
  }

  /** Of the program itself: a file of its own is read, and checked, by itself. */
  problems(): ReturnType<Blocks["problems"]> {
    return this.#main.problems();
  }

  textOf(block: number): string {
    const [blocks, shift] = this.#of(block);
    return blocks.textOf(block - shift);
  }
}

/** A block's place for a person: the file where it is not the program itself, and the line from 0. */
export function placeOf(blocks: Blocks, block: number): { readonly file: string | null; readonly line: number } {
  const other = blocks instanceof JoinedBlocks ? blocks.fileOf(block) : null;
  return other === null ? { file: null, line: blocks.lineOf(block) } : { file: other.file, line: other.line };
}

/** The name alone of a uri or path. */
export const fileName = (file: string): string => file.replace(/^.*[\\/]/, "");

/** `line 12`, with the file where it is another one than the program. */
export function lineName(blocks: Blocks, block: number): string {
  const { file, line } = placeOf(blocks, block);
  return file === null ? `line ${line + 1}` : `line ${line + 1} of ${fileName(file)}`;
}

/** First line behind the file that a line stands in. */
export function fileEnd(blocks: Blocks, line: number): number {
  if (!(blocks instanceof JoinedBlocks)) return blocks.count;
  return blocks.ranges().find(([first, end]) => line >= first && line < end + 1)?.[1] ?? blocks.count;
}

export function lineRanges(blocks: Blocks): readonly (readonly [first: number, end: number])[] {
  return blocks instanceof JoinedBlocks ? blocks.ranges() : [[0, blocks.count]];
}
