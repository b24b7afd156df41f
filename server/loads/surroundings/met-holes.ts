/** What the search found, for the few holes that it found something for: most holes of most programs stand alone. */
import { IntColumn } from "../../program/columns.ts";

const NOTHING = new Int32Array(0);

export class MetHoles {
  /** Holes, rising, and for each the nearest one it cuts into, the one it leaves a thin web to, and where its list ends. */
  readonly #hole = new IntColumn(8);
  readonly #earlier = new IntColumn(8);
  readonly #web = new IntColumn(8);
  readonly #end = new IntColumn(8);
  readonly #near = new IntColumn(8);

  /** @param hole larger than every hole before */
  add(hole: number, earlier: number, web: number, near: readonly number[]): void {
    if (earlier < 0 && web < 0 && near.length === 0) return;
    this.#hole.push(hole);
    this.#earlier.push(earlier);
    this.#web.push(web);
    for (const other of near) this.#near.push(other);
    this.#end.push(this.#near.length);
  }

  earlier(hole: number): number {
    const row = this.#row(hole);
    return row < 0 ? -1 : this.#earlier.at(row);
  }

  web(hole: number): number {
    const row = this.#row(hole);
    return row < 0 ? -1 : this.#web.at(row);
  }

  near(hole: number): Int32Array {
    const row = this.#row(hole);
    return row < 0 ? NOTHING : this.#near.data.subarray(row === 0 ? 0 : this.#end.at(row - 1), this.#end.at(row));
  }

  /** Holes with anything found, rising. */
  holes(): Int32Array {
    return this.#hole.data.subarray(0, this.#hole.length);
  }

  /** What was found for holes before this one, to go on from. */
  before(hole: number): MetHoles {
    const copy = new MetHoles();
    const rows = this.#hole.lowerBound(hole);
    copy.#hole.append(this.#hole, 0, rows);
    copy.#earlier.append(this.#earlier, 0, rows);
    copy.#web.append(this.#web, 0, rows);
    copy.#end.append(this.#end, 0, rows);
    copy.#near.append(this.#near, 0, rows === 0 ? 0 : this.#end.at(rows - 1));
    return copy;
  }

  trim(): void {
    for (const column of [this.#hole, this.#earlier, this.#web, this.#end, this.#near]) column.trim();
  }

  #row(hole: number): number {
    const row = this.#hole.lowerBound(hole);
    return row < this.#hole.length && this.#hole.at(row) === hole ? row : -1;
  }
}
