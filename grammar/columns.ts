/** The flat columns behind `Blocks`, and the writer that both readers of a line write through. */
import { ITEM, type Item, type Problem, type ProblemCode, VALUE } from "./blocks.ts";
import type { Expr, Statement } from "./expressions.ts";

export type SideValue = Expr | Statement | string;

/** Flags of a block. */
export const FLAG = { comment: 1, notPlain: 2, skip: 4 } as const;

const FORM_BITS = 3;
const FORM_MASK = (1 << FORM_BITS) - 1;

/**
 * Items of all blocks. A column in a line fits 16 bits until a longer line turns up; then both place columns widen.
 * The value column of a word with an expression, a statement or a name holds the index of its side value instead.
 */
export class Columns {
  #kind: Uint8Array;
  /** VALUE in the low bits; above them the letter of a comma word, A = 1. */
  #form: Uint8Array;
  #value: Float64Array;
  #start: Uint16Array | Uint32Array;
  #end: Uint16Array | Uint32Array;
  #side: (SideValue | undefined)[] = [];
  #freeSide: number[] = [];
  #count = 0;

  constructor(capacity: number) {
    this.#kind = new Uint8Array(capacity);
    this.#form = new Uint8Array(capacity);
    this.#value = new Float64Array(capacity);
    this.#start = new Uint16Array(capacity);
    this.#end = new Uint16Array(capacity);
  }

  get count(): number {
    return this.#count;
  }

  add(kind: number, form: number, value: number, start: number, end: number): void {
    const at = this.#count;
    if (at === this.#kind.length) this.resize(at + (at >> 2) + 64);
    if (end > 0xffff && this.#end.BYTES_PER_ELEMENT === 2) this.#widen();
    this.#kind[at] = kind;
    this.#form[at] = form;
    this.#value[at] = value;
    this.#start[at] = start;
    this.#end[at] = end;
    this.#count = at + 1;
  }

  addSide(kind: number, form: number, side: SideValue, start: number, end: number): void {
    const free = this.#freeSide.pop();
    const index = free ?? this.#side.length;
    this.#side[index] = side;
    this.add(kind, form, index, start, end);
  }

  /** Marks the last item as a word behind a comma. */
  setLetter(letter: number): void {
    const at = this.#count - 1;
    this.#form[at] = (this.#form[at] ?? 0) | ((letter - 64) << FORM_BITS);
  }

  /** Takes back the items from `count` on; they hold no side values. */
  rollback(count: number): void {
    this.#count = count;
  }

  kind(item: Item): number {
    return this.#kind[item] ?? ITEM.unread;
  }

  form(item: Item): number {
    return (this.#form[item] ?? 0) & FORM_MASK;
  }

  letter(item: Item): number {
    const letter = (this.#form[item] ?? 0) >> FORM_BITS;
    return letter === 0 ? 0 : letter + 64;
  }

  value(item: Item): number {
    return this.#hasSide(item) ? Number.NaN : (this.#value[item] ?? Number.NaN);
  }

  side(item: Item): SideValue | undefined {
    return this.#hasSide(item) ? this.#side[this.#value[item] ?? -1] : undefined;
  }

  start(item: Item): number {
    return this.#start[item] ?? 0;
  }

  end(item: Item): number {
    return this.#end[item] ?? 0;
  }

  /** Frees what items held outside the columns. The items themselves stay as garbage until `gather`. */
  release(first: Item, n: number): void {
    for (let item = first; item < first + n; item++) {
      if (!this.#hasSide(item)) continue;
      const index = this.#value[item] ?? -1;
      this.#side[index] = undefined;
      this.#freeSide.push(index);
    }
  }

  /** Copies items of `from`, side values and all. */
  take(from: Columns, first: Item, n: number): void {
    for (let item = first; item < first + n; item++) {
      const side = from.side(item);
      const form = from.#form[item] ?? 0;
      if (side !== undefined) this.addSide(from.kind(item), form, side, from.start(item), from.end(item));
      else this.add(from.kind(item), form, from.#value[item] ?? Number.NaN, from.start(item), from.end(item));
    }
  }

  resize(capacity: number): void {
    if (capacity < this.#count) return;
    this.#kind = copied(this.#kind, new Uint8Array(capacity));
    this.#form = copied(this.#form, new Uint8Array(capacity));
    this.#value = copied(this.#value, new Float64Array(capacity));
    const Place = this.#end.BYTES_PER_ELEMENT === 2 ? Uint16Array : Uint32Array;
    this.#start = copied(this.#start, new Place(capacity));
    this.#end = copied(this.#end, new Place(capacity));
  }

  #hasSide(item: Item): boolean {
    const form = (this.#form[item] ?? 0) & FORM_MASK;
    return form === VALUE.expression || form === VALUE.name || this.#kind[item] === ITEM.statement;
  }

  #widen(): void {
    this.#start = Uint32Array.from(this.#start);
    this.#end = Uint32Array.from(this.#end);
  }
}

/** What a reader of one line writes into: items in order, then `endBlock`. */
export class BlockWriter {
  columns: Columns;
  readonly problems = new Map<number, Problem[]>();
  flags = 0;
  #block = 0;
  #first = 0;

  constructor(columns: Columns) {
    this.columns = columns;
  }

  begin(block: number): void {
    this.#block = block;
    this.#first = this.columns.count;
    this.flags = 0;
  }

  get itemsInBlock(): number {
    return this.columns.count - this.#first;
  }

  /** Forgets what was written since `begin`: the plain scanner met something that it does not know. */
  rollback(): void {
    this.columns.rollback(this.#first);
    this.flags = 0;
  }

  problem(code: ProblemCode, start: number, end: number, text: string): void {
    const list = this.problems.get(this.#block);
    const problem: Problem = { code, span: { block: this.#block, start, end }, text };
    if (list === undefined) this.problems.set(this.#block, [problem]);
    else list.push(problem);
  }
}

function copied<T extends Uint8Array | Uint16Array | Uint32Array | Float64Array>(from: T, to: T): T {
  to.set(from.length > to.length ? from.subarray(0, to.length) : from);
  return to;
}
