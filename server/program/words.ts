/** One block's words, gathered into typed scratch that is used again for the next block: no object per word. */

export const A = 0;
export const B = 1;
export const C = 2;
export const D = 3;
export const E = 4;
export const F = 5;
export const H = 7;
export const I = 8;
export const J = 9;
export const K = 10;
export const L = 11;
export const N = 13;
export const O = 14;
export const P = 15;
export const Q = 16;
export const R = 17;
export const S = 18;
export const T = 19;
export const U = 20;
export const W = 22;
export const X = 23;
export const Y = 24;
export const Z = 25;

export const bit = (letter: number): number => 1 << letter;
export const XYZ = bit(X) | bit(Y) | bit(Z);
export const ABC = bit(A) | bit(B) | bit(C);
export const IJK = bit(I) | bit(J) | bit(K);

export const letterName = (letter: number): string => String.fromCharCode(65 + letter);

const MAX_CODES = 24;

/** In place of a code whose value is not known. */
export const NOT_KNOWN = -2;

export class Words {
  block = 0;
  first = 0;
  count = 0;
  /** Letters present (G and M are apart). */
  mask = 0;
  /** Letters whose value cannot be known. */
  unknown = 0;
  /** Letters written more than once. */
  repeated = 0;
  /** Letters written without a decimal point. */
  pointless = 0;
  /** Letters whose value was made from an increment (U, W, H of turning centres). */
  relative = 0;
  readonly value = new Float64Array(26);
  readonly item = new Int32Array(26);

  gCount = 0;
  /** Code × 10. −1: not a code; NOT_KNOWN. */
  readonly g = new Int32Array(MAX_CODES);
  readonly gItem = new Int32Array(MAX_CODES);
  mCount = 0;
  /** −1: not a code; NOT_KNOWN. */
  readonly m = new Int32Array(MAX_CODES);
  readonly mItem = new Int32Array(MAX_CODES);

  comments = false;
  /** Item of a statement that is not a plain assignment, −1 none. */
  statement = -1;
  assignments = false;
  /** Item of a block delete, −1 none; and whether words stood before it. */
  deleteItem = -1;
  programItem = -1;
  percent = false;
  lineComment = -1;
  unread = false;
  valueless = false;
  /** Why the value of a letter cannot be known; of letters whose value is NaN. */
  readonly whys: string[] = Array.from({ length: 26 }, () => "");
  /** Counts whose value cannot be known, and of which nothing has told so. */
  openCounts = 0;
  /** Letters whose value cannot be read: told as such, and not missing. */
  broken = 0;
  /** An expression of the block has no value for a reason that is an error (division by zero). */
  fault = false;

  clear(block: number, first: number, count: number): void {
    this.block = block;
    this.first = first;
    this.count = count;
    this.mask = 0;
    this.unknown = 0;
    this.repeated = 0;
    this.pointless = 0;
    this.relative = 0;
    this.gCount = 0;
    this.mCount = 0;
    this.comments = false;
    this.statement = -1;
    this.assignments = false;
    this.deleteItem = -1;
    this.programItem = -1;
    this.percent = false;
    this.lineComment = -1;
    this.unread = false;
    this.valueless = false;
    this.broken = 0;
    this.openCounts = 0;
    this.fault = false;
  }

  /** Why the value is not known of a count that is in the block; from here on it is told. */
  takeCount(letter: number): string {
    this.openCounts &= ~(1 << letter);
    return this.whys[letter] || "its value cannot be read";
  }

  has(letter: number): boolean {
    return (this.mask & (1 << letter)) !== 0;
  }

  /** The value as written; NaN where it is absent or cannot be known. */
  get(letter: number): number {
    return (this.mask & (1 << letter)) === 0 ? Number.NaN : (this.value[letter] ?? Number.NaN);
  }

  put(letter: number, value: number, item: number, known: boolean): void {
    const b = 1 << letter;
    if ((this.mask & b) !== 0) this.repeated |= b;
    this.mask |= b;
    this.value[letter] = value;
    this.item[letter] = item;
    if (known) this.unknown &= ~b;
    else this.unknown |= b;
  }

  /** The letter stands there without a value that can be read. */
  putBroken(letter: number, item: number): void {
    this.broken |= 1 << letter;
    if (!this.has(letter)) this.item[letter] = item;
  }

  /** The letter stands in the block, whether or not its value can be read. */
  isWritten(letter: number): boolean {
    return ((this.mask | this.broken) & (1 << letter)) !== 0;
  }

  /** Takes a word out, as a control does with one whose value is null. */
  drop(letter: number): void {
    this.mask &= ~(1 << letter);
  }

  putG(code: number, item: number): void {
    if (this.gCount >= MAX_CODES) return;
    this.g[this.gCount] = code;
    this.gItem[this.gCount++] = item;
  }

  putM(code: number, item: number): void {
    if (this.mCount >= MAX_CODES) return;
    this.m[this.mCount] = code;
    this.mItem[this.mCount++] = item;
  }

  itemOf(letter: number): number {
    return this.item[letter] ?? 0;
  }

  gItemOf(code: number): number {
    for (let i = this.gCount - 1; i >= 0; i--) if (this.g[i] === code) return this.gItem[i] ?? 0;
    return -1;
  }

  mItemOf(code: number): number {
    for (let i = this.mCount - 1; i >= 0; i--) if (this.m[i] === code) return this.mItem[i] ?? 0;
    return -1;
  }
}
