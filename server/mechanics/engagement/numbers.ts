/** A list of numbers that keeps its room when it is emptied: an array would give it back and ask for it again. */
export class Numbers {
  count = 0;
  at: Float64Array;

  constructor(room = 64) {
    this.at = new Float64Array(room);
  }

  push(value: number): void {
    if (this.count === this.at.length) {
      const wider = new Float64Array(2 * this.count + 4);
      wider.set(this.at);
      this.at = wider;
    }
    this.at[this.count++] = value;
  }

  /** Leaves the finite ones that lie above `low` and below `high`, rising. By insertion: there are few. */
  sortWithin(low: number, high: number): void {
    const { at } = this;
    let n = 0;
    for (let i = 0; i < this.count; i++) {
      const value = at[i] as number;
      if (!(value > low && value < high)) continue;
      let j = n++;
      for (; j > 0 && (at[j - 1] as number) > value; j--) at[j] = at[j - 1] as number;
      at[j] = value;
    }
    this.count = n;
  }
}
