/**
 * Finds the holes on one axis line: a hash of small cells over chains of hole numbers, so that a hundred thousand holes
 * cost a hundred thousand look-ups and not their square.
 */
import { IntColumn } from "./columns.ts";
import type { HoleBook } from "./holes.ts";
import type { Run } from "./run.ts";

/** Two places this near are one, mm. */
const SAME = 0.01;
const CELL = 0.05;
/** Holes of one cell looked at; more than that on one spot are repeats. */
const MOST = 200;

interface Frame {
  /** What to add to program coordinates to have them free of G92 and G52. */
  readonly shift: readonly [number, number, number];
  readonly line: number;
  readonly axis: number;
}

/**
 * A frame is a work system with rotary position, rotation and drill axis; holes are compared in coordinates free of
 * shifts. Frames with different shifts of one work system share a `line`.
 */
export class PlaceIndex {
  readonly #book: HoleBook;
  #frames: Frame[] = [];
  #frameIds = new Map<string, number>();
  #lineIds = new Map<string, number>();
  #heads = new Int32Array(1024).fill(-1);
  #next = new IntColumn();
  #filled = 0;
  #cachedVersion = -1;
  #cachedAxis = -1;
  #cachedWcs = "";
  #cachedFrame = 0;
  /** The last `find` met more than one hole. */
  several = false;

  constructor(book: HoleBook) {
    this.#book = book;
  }

  frameOf(run: Run, w: number): number {
    const { places, rotary, row } = run;
    if (this.#cachedVersion === places.version && this.#cachedAxis === w && this.#cachedWcs === row.wcs) return this.#cachedFrame;
    const shift = places.g92.map((value, i) => value + (places.g52[i] ?? 0)) as [number, number, number];
    const lost = shift.some(Number.isNaN);
    const line = `${row.wcs}|${w}|${places.rotation}|${rotary.join()}|${lost ? places.version : ""}`;
    const key = `${line}|${shift.join()}`;
    let id = this.#frameIds.get(key);
    if (id === undefined) {
      let lineId = this.#lineIds.get(line);
      if (lineId === undefined) {
        lineId = this.#lineIds.size;
        this.#lineIds.set(line, lineId);
      }
      id = this.#frames.length;
      this.#frames.push({ shift: lost ? [0, 0, 0] : shift, line: lineId, axis: w });
      this.#frameIds.set(key, id);
    }
    this.#cachedVersion = places.version;
    this.#cachedAxis = w;
    this.#cachedWcs = row.wcs;
    this.#cachedFrame = id;
    return id;
  }

  shiftOf(frame: number, axis: number): number {
    return this.#frames[frame]?.shift[axis] ?? 0;
  }

  /** The frames of another index, so that their numbers mean the same here. */
  shareFrames(other: PlaceIndex): void {
    this.#frames = [...other.#frames];
    this.#frameIds = new Map(other.#frameIds);
    this.#lineIds = new Map(other.#lineIds);
  }

  /** Takes in the hole just added as the last one. */
  added(frame: number, u: number, v: number): void {
    const index = this.#next.length;
    this.#next.push(-1);
    if (Number.isNaN(u) || Number.isNaN(v)) return;
    if (++this.#filled * 2 > this.#heads.length) {
      this.#grow();
      return;
    }
    this.#link(frame, u, v, index);
  }

  rebuild(): void {
    this.#next = new IntColumn(this.#book.count + 16);
    for (let i = 0; i < this.#book.count; i++) this.#next.push(-1);
    this.#filled = this.#book.count;
    let size = 1024;
    while (size < this.#filled * 2 + 2) size *= 2;
    this.#heads = new Int32Array(size).fill(-1);
    this.#linkAll();
  }

  /** The newest hole on this line, −1 none. Sets `several`. */
  find(frame: number, u: number, v: number): number {
    const found = this.all(frame, u, v);
    this.several = found.length > 1;
    return found[0] ?? -1;
  }

  /** Holes on this line, newest first. */
  all(frame: number, u: number, v: number): readonly number[] {
    if (Number.isNaN(u) || Number.isNaN(v)) return NONE;
    const row = this.#frames[frame];
    if (row === undefined) return NONE;
    const [a, b] = square(row.axis);
    const x = u + row.shift[a];
    const y = v + row.shift[b];
    let out: number[] | null = null;
    const x0 = Math.floor((x - SAME) / CELL);
    const x1 = Math.floor((x + SAME) / CELL);
    const y0 = Math.floor((y - SAME) / CELL);
    const y1 = Math.floor((y + SAME) / CELL);
    for (let cx = x0; cx <= x1; cx++) {
      for (let cy = y0; cy <= y1; cy++) {
        let steps = 0;
        for (let i = this.#heads[this.#slot(row.line, cx, cy)] ?? -1; i >= 0 && steps < MOST; i = this.#next.at(i), steps++) {
          const other = this.#book.rowOf(i)?.frame ?? 0;
          const theirs = this.#frames[other];
          if (theirs === undefined || theirs.line !== row.line) continue;
          const dx = this.#book.x.at(i) + theirs.shift[a] - x;
          const dy = this.#book.y.at(i) + theirs.shift[b] - y;
          if (dx * dx + dy * dy > SAME * SAME) continue;
          if (Math.floor((this.#book.x.at(i) + theirs.shift[a]) / CELL) !== cx) continue;
          if (Math.floor((this.#book.y.at(i) + theirs.shift[b]) / CELL) !== cy) continue;
          if (out === null) out = [i];
          else out.push(i);
        }
      }
    }
    if (out === null) return NONE;
    return out.length > 1 ? out.sort((p, q) => q - p) : out;
  }

  #slot(line: number, cx: number, cy: number): number {
    let h = Math.imul(line + 1, 0x9e3779b1) ^ Math.imul(cx | 0, 0x85ebca6b) ^ Math.imul(cy | 0, 0xc2b2ae35);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    h ^= h >>> 13;
    return (h >>> 0) & (this.#heads.length - 1);
  }

  #link(frame: number, u: number, v: number, index: number): void {
    const row = this.#frames[frame];
    if (row === undefined) return;
    const [a, b] = square(row.axis);
    const cx = Math.floor((u + row.shift[a]) / CELL);
    const cy = Math.floor((v + row.shift[b]) / CELL);
    const slot = this.#slot(row.line, cx, cy);
    this.#next.data[index] = this.#heads[slot] ?? -1;
    this.#heads[slot] = index;
  }

  #grow(): void {
    this.#heads = new Int32Array(this.#heads.length * 2).fill(-1);
    this.#linkAll();
  }

  #linkAll(): void {
    const { x, y } = this.#book;
    for (let i = 0; i < this.#next.length; i++) {
      const u = x.at(i);
      const v = y.at(i);
      if (Number.isNaN(u) || Number.isNaN(v)) continue;
      this.#link(this.#book.rowOf(i)?.frame ?? 0, u, v, i);
    }
  }
}

const NONE: readonly number[] = [];
const SQUARE = [[1, 2], [0, 2], [0, 1]] as const;
const square = (axis: number): readonly [0 | 1 | 2, 0 | 1 | 2] => SQUARE[axis as 0 | 1 | 2] ?? [0, 1];
