/** Distinct modal rows as numbers in one column, found by hash: a program has thousands of them and each is small. */
import { IntColumn, NumberColumn } from "./columns.ts";
import type { ModalRow } from "./modal.ts";

const NUMBERS = [
  "motion",
  "cycle",
  "plane",
  "distance",
  "feedMode",
  "units",
  "returnMode",
  "comp",
  "tlo",
  "h",
  "speedMode",
  "tool",
  "staged",
  "s",
  "f",
  "spindle",
  "clamp",
  "unsure",
] as const satisfies readonly (keyof ModalRow)[];
const TEXTS = ["wcs", "coolant", "sWhy", "fWhy", "unsureWhy"] as const satisfies readonly (keyof ModalRow)[];
const LIVE = NUMBERS.length;
const TEXT = LIVE + 1;
const WIDTH = TEXT + TEXTS.length;

export class ModalRows {
  readonly #values = new NumberColumn(WIDTH * 16);
  /** Row before it with the same hash, -1 none. */
  readonly #next = new IntColumn(16);
  #heads = new Int32Array(64).fill(-1);
  readonly #hashes = new IntColumn(16);
  readonly #texts: string[] = [];
  readonly #textNumbers = new Map<string, number>();
  readonly #scratch = new Float64Array(WIDTH);

  get count(): number {
    return this.#next.length;
  }

  /** The number of the row with these values. NaN equals NaN. */
  intern(row: ModalRow): number {
    const own = this.#scratch;
    for (let i = 0; i < NUMBERS.length; i++) own[i] = row[NUMBERS[i] ?? "motion"];
    own[LIVE] = row.live ? 1 : 0;
    for (let i = 0; i < TEXTS.length; i++) own[TEXT + i] = this.#text(row[TEXTS[i] ?? "wcs"]);
    let hash = 17;
    for (let i = 0; i < WIDTH; i++) hash = Math.imul(hash, 31) + (((own[i] ?? 0) * 4096) | 0);
    hash ^= hash >>> 15;
    for (let id = this.#heads[hash & (this.#heads.length - 1)] ?? -1; id >= 0; id = this.#next.at(id))
      if (this.#hashes.at(id) === hash && this.#same(id)) return id;
    return this.#add(hash);
  }

  #same(id: number): boolean {
    const at = id * WIDTH;
    for (let i = 0; i < WIDTH; i++) if (!Object.is(this.#values.at(at + i), this.#scratch[i])) return false;
    return true;
  }

  #add(hash: number): number {
    const id = this.count;
    for (const value of this.#scratch) this.#values.push(value);
    this.#hashes.push(hash);
    this.#next.push(-1);
    if (this.count > this.#heads.length) {
      this.#heads = new Int32Array(this.#heads.length * 2).fill(-1);
      for (let each = 0; each <= id; each++) this.#link(each);
    } else this.#link(id);
    return id;
  }

  #link(id: number): void {
    const slot = this.#hashes.at(id) & (this.#heads.length - 1);
    this.#next.data[id] = this.#heads[slot] ?? -1;
    this.#heads[slot] = id;
  }

  #text(text: string): number {
    const known = this.#textNumbers.get(text);
    if (known !== undefined) return known;
    const number = this.#texts.length;
    this.#texts.push(text);
    this.#textNumbers.set(text, number);
    return number;
  }

  /** The row as an object of its own; undefined where there is none. */
  row(id: number): ModalRow | undefined {
    if (id < 0 || id >= this.count) return undefined;
    const at = id * WIDTH;
    const values = Object.fromEntries(NUMBERS.map((name, i) => [name, this.#values.at(at + i)]));
    const texts = Object.fromEntries(TEXTS.map((name, i) => [name, this.#texts[this.#values.at(at + TEXT + i)] ?? ""]));
    return {
      ...(values as unknown as Pick<ModalRow, (typeof NUMBERS)[number]>),
      ...(texts as unknown as Pick<ModalRow, (typeof TEXTS)[number]>),
      live: this.#values.at(at + LIVE) === 1,
    };
  }

  trim(): void {
    this.#values.trim();
    this.#next.trim();
    this.#hashes.trim();
  }
}
