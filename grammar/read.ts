/** `readBlocks`: a program's lines as blocks of items, kept up to date with the edits of their text. */
import type { LineStore } from "../server/text/lines.ts";
import type { Span } from "../server/text/place.ts";
import { ITEM, type Item, type LiveBlocks, type Problem, type ReadBlocks, VALUE, type WordRef } from "./blocks.ts";
import { BlockWriter, Columns, FLAG } from "./columns.ts";
import type { Expr, Statement } from "./expressions.ts";
import { parseLine } from "./line.ts";
import { scanPlain } from "./scanner.ts";

/** Items of a block that a WordRef can tell apart; the last stands for all behind it. */
const REFS = 1024;
const ITEMS_PER_LINE = 5;

/** Reads a program. Never throws, whatever the text is. */
export const readBlocks: ReadBlocks = (lines) => new BlockStore(lines);

class BlockStore implements LiveBlocks {
  readonly #lines: LineStore;
  readonly #writer: BlockWriter;
  /** Line to block id. Ids begin at 1: id 0 is the empty block that stands outside the program. */
  #order: Int32Array;
  #count = 0;
  #nextId = 1;
  /** By block id. */
  #first: Uint32Array;
  #items: Uint32Array;
  #flags: Uint8Array;
  #line: Int32Array;
  /** Lines from here on may have moved since `#line` was last brought up to date. */
  #movedFrom = Number.POSITIVE_INFINITY;
  #garbage = 0;
  #problems: readonly Problem[] | null = null;

  constructor(lines: LineStore) {
    this.#lines = lines;
    const n = lines.count;
    this.#writer = new BlockWriter(new Columns(n * ITEMS_PER_LINE + 16));
    this.#order = new Int32Array(n);
    this.#first = new Uint32Array(n + 1);
    this.#items = new Uint32Array(n + 1);
    this.#flags = new Uint8Array(n + 1);
    this.#line = new Int32Array(n + 1).fill(-1);
    this.#count = n;
    for (let line = 0; line < n; line++) this.#read(line);
    this.#writer.columns.resize(this.#writer.columns.count);
  }

  get count(): number {
    return this.#count;
  }

  blockAt(line: number): number {
    return line >= 0 && line < this.#count ? (this.#order[line] ?? 0) : 0;
  }

  lineOf(block: number): number {
    const line = this.#line[block] ?? -1;
    if (line < this.#movedFrom) return line;
    for (let l = this.#movedFrom; l < this.#count; l++) this.#line[this.#order[l] ?? 0] = l;
    this.#movedFrom = Number.POSITIVE_INFINITY;
    return this.#line[block] ?? -1;
  }

  firstItem(block: number): Item {
    return this.#first[block] ?? 0;
  }

  itemCount(block: number): number {
    return this.#items[block] ?? 0;
  }

  kind(item: Item): number {
    return this.#writer.columns.kind(item);
  }

  value(item: Item): number {
    return this.#writer.columns.value(item);
  }

  form(item: Item): number {
    return this.#writer.columns.form(item);
  }

  start(item: Item): number {
    return this.#writer.columns.start(item);
  }

  end(item: Item): number {
    return this.#writer.columns.end(item);
  }

  letterAfterComma(item: Item): number {
    return this.#writer.columns.letter(item);
  }

  expression(item: Item): Expr | undefined {
    const { columns } = this.#writer;
    return columns.form(item) === VALUE.expression ? (columns.side(item) as Expr | undefined) : undefined;
  }

  statement(item: Item): Statement | undefined {
    const { columns } = this.#writer;
    return columns.kind(item) === ITEM.statement ? (columns.side(item) as Statement | undefined) : undefined;
  }

  name(item: Item): string | undefined {
    const { columns } = this.#writer;
    return columns.form(item) === VALUE.name ? (columns.side(item) as string | undefined) : undefined;
  }

  hasComment(block: number): boolean {
    return ((this.#flags[block] ?? 0) & FLAG.comment) !== 0;
  }

  hasSkip(block: number): boolean {
    return ((this.#flags[block] ?? 0) & FLAG.skip) !== 0;
  }

  isPlain(block: number): boolean {
    return ((this.#flags[block] ?? 0) & FLAG.notPlain) === 0;
  }

  refOf(block: number, item: Item): WordRef {
    const index = Math.max(0, Math.min(item - this.firstItem(block), REFS - 1));
    return block * REFS + index;
  }

  spanOf(ref: WordRef): Span | null {
    const block = Math.floor(ref / REFS);
    if (!(this.lineOf(block) >= 0)) return null;
    const n = this.itemCount(block);
    if (n === 0) return { block, start: 0, end: 0 };
    const item = this.firstItem(block) + Math.min(ref % REFS, n - 1);
    return { block, start: this.start(item), end: this.end(item) };
  }

  problems(): readonly Problem[] {
    if (this.#problems !== null) return this.#problems;
    const blocks = [...this.#writer.problems.keys()].sort((a, b) => this.lineOf(a) - this.lineOf(b));
    this.#problems = blocks.flatMap((block) => this.#writer.problems.get(block) ?? []);
    return this.#problems;
  }

  textOf(block: number): string {
    const line = this.lineOf(block);
    return line < 0 ? "" : this.#lines.line(line);
  }

  update(change: { readonly line: number; readonly removed: number; readonly inserted: number }): {
    readonly added: readonly number[];
    readonly gone: readonly number[];
  } {
    const at = Math.max(0, Math.min(Math.floor(change.line), this.#count));
    const removed = Math.max(0, Math.min(Math.floor(change.removed), this.#count - at));
    const inserted = Math.max(0, Math.floor(change.inserted));
    const gone = Array.from(this.#order.subarray(at, at + removed));
    for (const block of gone) this.#drop(block);
    this.#makeRoom(at, removed, inserted);
    const added: number[] = [];
    for (let line = at; line < at + inserted; line++) added.push(this.#read(line));
    this.#problems = null;
    const held = this.#writer.columns.count;
    if (this.#garbage > 4096 && this.#garbage * 3 > held) this.#compact();
    return { added, gone };
  }

  #read(line: number): number {
    const block = this.#nextId++;
    if (block >= this.#first.length) this.#growIds();
    const writer = this.#writer;
    const first = writer.columns.count;
    writer.begin(block);
    const text = this.#lines.line(line);
    if (!scanPlain(text, writer)) parseLine(text, writer);
    this.#order[line] = block;
    this.#first[block] = first;
    this.#items[block] = writer.columns.count - first;
    this.#flags[block] = writer.flags;
    this.#line[block] = line;
    return block;
  }

  #drop(block: number): void {
    const n = this.itemCount(block);
    this.#writer.columns.release(this.firstItem(block), n);
    this.#writer.problems.delete(block);
    this.#garbage += n;
    this.#items[block] = 0;
    this.#flags[block] = 0;
    this.#line[block] = -1;
  }

  #makeRoom(at: number, removed: number, inserted: number): void {
    if (removed === inserted) return;
    const count = this.#count - removed + inserted;
    if (count > this.#order.length) {
      const grown = new Int32Array(count + (count >> 3) + 16);
      grown.set(this.#order);
      this.#order = grown;
    }
    this.#order.copyWithin(at + inserted, at + removed, this.#count);
    this.#count = count;
    this.#movedFrom = Math.min(this.#movedFrom, at);
  }

  #growIds(): void {
    const size = this.#first.length + (this.#first.length >> 2) + 64;
    const grow = <A extends Uint32Array | Uint8Array | Int32Array>(from: A, to: A): A => {
      to.set(from);
      return to;
    };
    this.#first = grow(this.#first, new Uint32Array(size));
    this.#items = grow(this.#items, new Uint32Array(size));
    this.#flags = grow(this.#flags, new Uint8Array(size));
    this.#line = grow(this.#line, new Int32Array(size).fill(-1));
  }

  /** Copies the live items together, in line order. */
  #compact(): void {
    const old = this.#writer.columns;
    const live = old.count - this.#garbage;
    const next = new Columns(live + (live >> 4) + 64);
    for (let line = 0; line < this.#count; line++) {
      const block = this.blockAt(line);
      const first = next.count;
      next.take(old, this.firstItem(block), this.itemCount(block));
      this.#first[block] = first;
    }
    this.#writer.columns = next;
    this.#garbage = 0;
  }
}
