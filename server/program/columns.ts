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

  /** A copy of the first `length` values, to continue from there. */
  prefix(length: number): IntColumn {
    const copy = new IntColumn(length + (length >> 3) + 64);
    copy.data.set(this.data.subarray(0, length));
    copy.length = length;
    return copy;
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

  prefix(length: number): NumberColumn {
    const copy = new NumberColumn(length + (length >> 3) + 64);
    copy.data.set(this.data.subarray(0, length));
    copy.length = length;
    return copy;
  }

  trim(): void {
    if (this.data.length > this.length) this.data = this.data.slice(0, this.length);
  }
}
