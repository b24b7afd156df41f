/** Growing typed columns: what there are a hundred thousand of is kept in these, not in objects. */

export class IntColumn {
  data: Int32Array;
  length = 0;

  constructor(capacity = 64) {
    this.data = new Int32Array(capacity);
  }

  push(value: number): void {
    if (this.length === this.data.length) {
      const next = new Int32Array(this.length + (this.length >> 1) + 16);
      next.set(this.data);
      this.data = next;
    }
    this.data[this.length++] = value;
  }

  at(index: number): number {
    return this.data[index] ?? 0;
  }

  /** Takes over values [from, to) of another column, each raised by `shift`. */
  append(other: IntColumn, from: number, to: number, shift = 0): void {
    const count = to - from;
    if (count <= 0) return;
    if (this.length + count > this.data.length) {
      const next = new Int32Array(this.length + count + (this.length >> 2) + 16);
      next.set(this.data.subarray(0, this.length));
      this.data = next;
    }
    if (shift === 0) this.data.set(other.data.subarray(from, to), this.length);
    else for (let i = 0; i < count; i++) this.data[this.length + i] = (other.data[from + i] ?? 0) + shift;
    this.length += count;
  }

  /** First index whose value is not below `value`, in a column that never falls. */
  lowerBound(value: number): number {
    let low = 0;
    let high = this.length;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (this.at(mid) < value) low = mid + 1;
      else high = mid;
    }
    return low;
  }

  /** Gives back the room that growing kept ahead. */
  trim(): void {
    if (this.data.length > this.length) this.data = this.data.slice(0, this.length);
  }
}

export class NumberColumn {
  data: Float64Array;
  length = 0;

  constructor(capacity = 64) {
    this.data = new Float64Array(capacity);
  }

  push(value: number): void {
    if (this.length === this.data.length) {
      const next = new Float64Array(this.length + (this.length >> 1) + 16);
      next.set(this.data);
      this.data = next;
    }
    this.data[this.length++] = value;
  }

  at(index: number): number {
    return this.data[index] ?? Number.NaN;
  }

  /** Takes over values [from, to) of another column. */
  append(other: NumberColumn, from: number, to: number): void {
    const count = to - from;
    if (count <= 0) return;
    if (this.length + count > this.data.length) {
      const next = new Float64Array(this.length + count + (this.length >> 2) + 16);
      next.set(this.data.subarray(0, this.length));
      this.data = next;
    }
    this.data.set(other.data.subarray(from, to), this.length);
    this.length += count;
  }

  trim(): void {
    if (this.data.length > this.length) this.data = this.data.slice(0, this.length);
  }
}

/** A value for each index where most are that of the index before: only changes are kept. */
export class SparseColumn {
  readonly #at = new IntColumn(16);
  readonly #values = new NumberColumn(16);
  length = 0;

  push(value: number): void {
    const last = this.#at.length - 1;
    if (last < 0 || !Object.is(this.#values.at(last), value)) {
      this.#at.push(this.length);
      this.#values.push(value);
    }
    this.length++;
  }

  /** NaN beyond the last. */
  at(index: number): number {
    if (index < 0 || index >= this.length) return Number.NaN;
    const next = this.#at.lowerBound(index + 1);
    return next === 0 ? Number.NaN : this.#values.at(next - 1);
  }

  /** Takes over values [from, to) of another column. */
  append(other: SparseColumn, from: number, to: number): void {
    if (to <= from) return;
    const shift = this.length - from;
    this.push(other.at(from));
    const first = other.#at.lowerBound(from + 1);
    const end = other.#at.lowerBound(to);
    for (let i = first; i < end; i++) {
      this.length = other.#at.at(i) + shift;
      this.push(other.#values.at(i));
    }
    this.length = to + shift;
  }

  trim(): void {
    this.#at.trim();
    this.#values.trim();
  }
}
