/**
 * Finds the newest hole on an axis line: a hash of small cells, so that a hundred thousand holes cost a hundred thousand
 * look-ups and not their square. What was drilled there before stands in that hole's own `bored` list.
 */
import { IntColumn } from "./columns.ts";
import type { HoleBook } from "./holes.ts";
import { isUnknownSystem } from "./places.ts";
import type { Run } from "./run.ts";
import type { HoleFrame } from "./types.ts";

/** Two places this near are one, mm. */
const SAME = 0.01;
const CELL = 0.05;

/**
 * A work system with rotary position and drill axis. Frames that differ only in their shift share a line: shifts by G52
 * and G92, and work systems whose offsets are known, so that one place of the part is one place by any name.
 */
interface Frame {
  /** What to add to program coordinates to have them free of G92 and G52. */
  readonly shift: Triple;
  /** What to add to have coordinates that all frames of the line share. */
  readonly total: Triple;
  /** What to add to the work coordinates to have those of the stock; null: how they stand is not known. */
  readonly stock: Triple | null;
  readonly line: number;
  readonly axis: number;
}

type Triple = readonly [number, number, number];
const ZERO: Triple = [0, 0, 0];

const SQUARE = [
  [1, 2],
  [0, 2],
  [0, 1],
] as const;

export class PlaceIndex {
  readonly #book: HoleBook;
  #frames: Frame[] = [];
  #frameIds = new Map<string, number>();
  #lineIds = new Map<string, number>();
  #heads = new Int32Array(1024).fill(-1);
  /** Places of one slot in a chain; the newest hole of each place. */
  #next = new IntColumn();
  #hole = new IntColumn();
  /** The newest hole of each place that all ways make, −1 none. */
  #sure = new IntColumn();
  #cachedVersion = -1;
  #cachedAxis = -1;
  #cachedWcs = "";
  #cachedFrame = 0;
  /** Holes of the book taken in so far. */
  #read = 0;
  /** Place met by the last `find`, −1 none; good until the next `find`. */
  #met = -1;

  constructor(book: HoleBook) {
    this.#book = book;
  }

  frameOf(run: Run, w: number): number {
    const { places, rotary, row } = run;
    if (this.#cachedVersion === places.version && this.#cachedAxis === w && this.#cachedWcs === row.wcs)
      return this.#cachedFrame;
    const raw = places.g92.map((value, i) => value + (places.g52[i] ?? 0));
    const shift = raw.map((value) => (Number.isNaN(value) ? 0 : value)) as unknown as Triple;
    // Where a shift is not known, places compare only with those under the same unknown shift.
    const lost = raw.some(Number.isNaN)
      ? `${raw.map((value) => (Number.isNaN(value) ? 1 : 0)).join("")}:${places.lost}`
      : "";
    const common = places.common.map((value) => (Number.isNaN(value) ? 0 : value));
    const set = places.common.map((value) => (Number.isNaN(value) ? 0 : 1)).join("");
    const offset = places.offsets.get(row.wcs) ?? null;
    const known = offset !== null && !offset.some(Number.isNaN);
    const total = shift.map((value, i) => value + (common[i] ?? 0) + (known ? (offset[i] ?? 0) : 0));
    const unsure = isUnknownSystem(row.wcs) ? places.lost : (places.lostAt.get(row.wcs) ?? "");
    const system = known ? "" : `${row.wcs}${unsure} ${offset?.join() ?? ""}`;
    const line = `${system}|${w}|${rotary.join()}|${lost}|${set}`;
    // Nor is it known then where the stock is.
    const stock = lost === "" ? this.#book.surface.shiftOf(row.wcs, offset) : null;
    const key = `${line}|${row.wcs}|${shift.join()}|${total.join()}|${stock?.join() ?? ""}`;
    let id = this.#frameIds.get(key);
    if (id === undefined) {
      let lineId = this.#lineIds.get(line);
      if (lineId === undefined) {
        lineId = this.#lineIds.size;
        this.#lineIds.set(line, lineId);
      }
      id = this.#frames.length;
      this.#frames.push({ shift, total: total as unknown as Triple, stock, line: lineId, axis: w });
      this.#frameIds.set(key, id);
    }
    this.#cachedVersion = places.version;
    this.#cachedAxis = w;
    this.#cachedWcs = row.wcs;
    this.#cachedFrame = id;
    return id;
  }

  /** Shift along the drill axis, to the coordinates of the line. */
  shiftOf(frame: number): number {
    const row = this.#frames[frame];
    return row?.total[row.axis as 0 | 1 | 2] ?? 0;
  }

  /** All shifts of a frame, across the drill axis in order, then along it. */
  frame(number: number): HoleFrame | null {
    const row = this.#frames[number];
    if (row === undefined) return null;
    const w = row.axis as 0 | 1 | 2;
    const [a, b] = SQUARE[w];
    const { shift, total, stock, line } = row;
    return {
      line,
      total: [total[a], total[b], total[w]],
      stock: stock === null ? null : [shift[a] + stock[a], shift[b] + stock[b], shift[w] + stock[w]],
    };
  }

  /** What to add to the work coordinates to have those of the stock; null not known. */
  stockShift(frame: number): Triple | null {
    return this.#frames[frame]?.stock ?? null;
  }

  /** Shift to work coordinates across the drill axis, in order, and along it. */
  squareShift(frame: number): Triple {
    const row = this.#frames[frame];
    if (row === undefined) return ZERO;
    const [a, b] = SQUARE[row.axis as 0 | 1 | 2];
    return [row.shift[a], row.shift[b], row.shift[row.axis as 0 | 1 | 2]];
  }

  /** The frames of another index, so that their numbers mean the same here: they only ever grow. */
  shareFrames(other: PlaceIndex): void {
    this.#frames = other.#frames;
    this.#frameIds = other.#frameIds;
    this.#lineIds = other.#lineIds;
  }

  /** What was kept of the last place asked for means nothing any more. */
  forget(): void {
    this.#cachedVersion = -1;
    this.#met = -1;
  }

  /** A number for the axis line of a place and its surroundings: equal for equal places, seldom for others. */
  cells(frame: number, u: number, v: number, into: Set<number>): void {
    const row = this.#frames[frame];
    if (row === undefined || Number.isNaN(u) || Number.isNaN(v)) return;
    const [a, b] = SQUARE[row.axis as 0 | 1 | 2];
    const cx = Math.floor((u + row.total[a]) / CELL);
    const cy = Math.floor((v + row.total[b]) / CELL);
    for (let x = cx - 1; x <= cx + 1; x++) for (let y = cy - 1; y <= cy + 1; y++) into.add(hash(row.line, x, y));
  }

  cellOf(frame: number, u: number, v: number): number {
    const row = this.#frames[frame];
    if (row === undefined) return -1;
    const [a, b] = SQUARE[row.axis as 0 | 1 | 2];
    return hash(row.line, Math.floor((u + row.total[a]) / CELL), Math.floor((v + row.total[b]) / CELL));
  }

  /** The newest hole on this line, −1 none. */
  find(frame: number, u: number, v: number): number {
    if (this.#read < this.#book.count) this.#readOn();
    return this.#find(frame, u, v);
  }

  /** The newest hole that all ways make, on the line of the last `find`; −1 none. */
  sureHere(): number {
    return this.#met < 0 ? -1 : this.#sure.at(this.#met);
  }

  #find(frame: number, u: number, v: number): number {
    this.#met = -1;
    const row = this.#frames[frame];
    if (row === undefined || Number.isNaN(u) || Number.isNaN(v)) return -1;
    const [a, b] = SQUARE[row.axis as 0 | 1 | 2];
    const x = u + row.total[a];
    const y = v + row.total[b];
    const x1 = Math.floor((x + SAME) / CELL);
    const y1 = Math.floor((y + SAME) / CELL);
    for (let cx = Math.floor((x - SAME) / CELL); cx <= x1; cx++) {
      for (let cy = Math.floor((y - SAME) / CELL); cy <= y1; cy++) {
        for (let place = this.#heads[this.#slot(row.line, cx, cy)] ?? -1; place >= 0; place = this.#next.at(place)) {
          if (!this.#near(this.#hole.at(place), row.line, a, b, x, y)) continue;
          this.#met = place;
          return this.#hole.at(place);
        }
      }
    }
    return -1;
  }

  #near(hole: number, line: number, a: 0 | 1 | 2, b: 0 | 1 | 2, x: number, y: number): boolean {
    const book = this.#book;
    const frame = this.#frames[book.rowOf(hole)?.frame ?? 0];
    if (frame === undefined || frame.line !== line) return false;
    const dx = book.x.at(hole) + frame.total[a] - x;
    const dy = book.y.at(hole) + frame.total[b] - y;
    return dx * dx + dy * dy <= SAME * SAME;
  }

  /** Takes in a hole just added, right after the `find` for its place. */
  added(hole: number, frame: number, u: number, v: number): void {
    this.#read = hole + 1;
    if (Number.isNaN(u) || Number.isNaN(v)) return;
    const sure = this.#book.ways.at(hole) === 0;
    if (this.#met >= 0) {
      // The place keeps its first coordinates' cell: holes of one place lie within the tolerance of each other.
      this.#hole.data[this.#met] = hole;
      if (sure) this.#sure.data[this.#met] = hole;
      return;
    }
    this.#hole.push(hole);
    this.#sure.push(sure ? hole : -1);
    this.#next.push(-1);
    if (this.#hole.length * 2 > this.#heads.length) this.#grow(this.#heads.length * 2);
    else this.#link(this.#hole.length - 1, frame, u, v);
  }

  /** Takes in the holes that the book took over since. */
  #readOn(): void {
    const { count, x, y } = this.#book;
    if (this.#heads.length < count) this.#grow(1 << (32 - Math.clz32(count * 2)));
    for (let i = this.#read; i < count; i++) {
      const frame = this.#book.rowOf(i)?.frame ?? 0;
      this.#find(frame, x.at(i), y.at(i));
      this.added(i, frame, x.at(i), y.at(i));
    }
  }

  /** The run is over: an execution that goes on from this one reads the holes anew. */
  release(): void {
    this.#heads = new Int32Array(16).fill(-1);
    this.#hole = new IntColumn(0);
    this.#sure = new IntColumn(0);
    this.#next = new IntColumn(0);
  }

  #slot(line: number, cx: number, cy: number): number {
    return hash(line, cx, cy) & (this.#heads.length - 1);
  }

  #link(place: number, frame: number, u: number, v: number): void {
    const row = this.#frames[frame];
    if (row === undefined) return;
    const [a, b] = SQUARE[row.axis as 0 | 1 | 2];
    const slot = this.#slot(row.line, Math.floor((u + row.total[a]) / CELL), Math.floor((v + row.total[b]) / CELL));
    this.#next.data[place] = this.#heads[slot] ?? -1;
    this.#heads[slot] = place;
  }

  #grow(size: number): void {
    this.#heads = new Int32Array(size).fill(-1);
    const { x, y } = this.#book;
    for (let place = 0; place < this.#hole.length; place++) {
      const hole = this.#hole.at(place);
      this.#link(place, this.#book.rowOf(hole)?.frame ?? 0, x.at(hole), y.at(hole));
    }
  }
}

function hash(line: number, cx: number, cy: number): number {
  let h = Math.imul(line + 1, 0x9e3779b1) ^ Math.imul(cx | 0, 0x85ebca6b) ^ Math.imul(cy | 0, 0xc2b2ae35);
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  h ^= h >>> 13;
  return h >>> 0;
}
