/**
 * Takes over holes from the execution before, a stretch at a time, where drilling them anew would give the same. What
 * may come between: another hole at their place, a stroke that joined a hole elsewhere, a row that another hole began.
 */
import type { HoleBook, HoleMark } from "./holes.ts";

export class HoleCopy {
  readonly #old: HoleBook;
  readonly #new: HoleBook;
  /** Cells of places where later holes find another hole than before. */
  readonly #differ = new Set<number>();
  /** Cells of places where the hole differs only in ways that strokes of the same operation see; and that operation. */
  readonly #open = new Set<number>();
  #operation = -1;
  /** Old holes from here on, and new ones, have not been compared. */
  #oldDone: HoleMark;
  #newDone: HoleMark;
  /** Stretches taken over: [old first hole, old end, what to add]. */
  readonly #moved: [first: number, end: number, by: number][] = [];

  constructor(old: HoleBook, next: HoleBook) {
    this.#old = old;
    this.#new = next;
    this.#oldDone = START;
    this.#newDone = next.mark();
  }

  /**
   * Takes over the holes between two marks of the old book.
   * @param steps how many steps later they come now
   * @param operation the operation that is running
   * @returns false where they may come out otherwise; then nothing was changed
   */
  take(from: HoleMark, to: HoleMark, steps: number, operation: number): boolean {
    const old = this.#old;
    const next = this.#new;
    if (operation !== this.#operation) this.#open.clear();
    this.#operation = operation;
    this.#compare(from);
    if (!this.#fits(from, to, steps)) return false;
    const shift = next.count - from.count;
    for (let i = from.made; i < to.made; i++) {
      const row = old.made.at(i);
      const key = old.rows[row]?.key ?? "";
      if (next.byKey.has(key)) continue;
      next.takeRow(row, key, (old.stepShift.get(row) ?? 0) + steps);
      const draft = old.drafts.get(row);
      if (draft !== undefined) next.drafts.set(row, draft);
    }
    next.x.append(old.x, from.count, to.count);
    next.y.append(old.y, from.count, to.count);
    next.block.append(old.block, from.count, to.count);
    for (let hole = from.count; hole < Math.min(to.count, old.chain.length); hole++)
      if (old.chain.at(hole) !== 0) next.setChain(hole + shift, old.chain.at(hole));
    // No way waits where a stretch begins: its holes know none of before.
    for (let hole = from.count; hole < Math.min(to.count, old.ways.length); hole++)
      if (old.ways.at(hole) !== 0) next.setWay(hole + shift, old.ways.at(hole) + shift);
    let last = -1;
    let here = -1;
    for (let hole = from.count; hole < to.count; hole++) {
      const row = old.begunAs(hole);
      if (row !== last) here = this.#row(row);
      last = row;
      next.shape.push(here);
    }
    for (let i = from.joins; i < to.joins; i++) {
      const hole = this.#hole(old.joined.at(i), from, shift);
      const row = this.#row(old.joinedTo.at(i));
      next.rejoin(hole, row);
    }
    for (let i = from.extras; i < to.extras; i++) {
      next.extraBlock.push(old.extraBlock.at(i));
      next.extraHole.push(this.#hole(old.extraHole.at(i), from, shift));
    }
    next.probeFrame.append(old.probeFrame, from.probes, to.probes);
    next.probeX.append(old.probeX, from.probes, to.probes);
    next.probeY.append(old.probeY, from.probes, to.probes);
    if (to.count > from.count) this.#moved.push([from.count, to.count, shift]);
    this.#oldDone = to;
    this.#newDone = next.mark();
    return true;
  }

  /** The row that stands for an old row's key in the new book: equal keys are one shape, that of their first hole. */
  #row(old: number): number {
    return this.#new.byKey.get(this.#old.rows[old]?.key ?? "") ?? -1;
  }

  /** Number of an old hole in the new book; −1 where it was not taken over. */
  #hole(old: number, from: HoleMark, shift: number): number {
    if (old >= from.count) return old + shift;
    for (const [first, end, by] of this.#moved) if (old >= first && old < end) return old + by;
    return -1;
  }

  #fits(from: HoleMark, to: HoleMark, steps: number): boolean {
    const old = this.#old;
    const next = this.#new;
    const changed = this.#differ.size + this.#open.size > 0;
    const own = new Set<number>();
    for (let i = from.made; i < to.made; i++) own.add(old.made.at(i));
    // A row begun earlier must stand in the new book too: its words are those of its first hole.
    const stands = (row: number): boolean => own.has(row) || this.#row(row) >= 0;
    let last = -1;
    for (let hole = from.count; hole < to.count; hole++) {
      const row = old.begunAs(hole);
      if (row !== last && !stands(row)) return false;
      last = row;
      if (changed && this.#differs(old.rowOf(hole)?.frame ?? 0, old.x.at(hole), old.y.at(hole))) return false;
    }
    // A hole that two strokes of the stretch join needs to be as it was before the first.
    const joined = new Set<number>();
    for (let i = from.joins; i < to.joins; i++) {
      if (!stands(old.joinedTo.at(i))) return false;
      // What a stroke joins hands its words on: another row of the same key has other words.
      const before = old.joinedFrom.at(i);
      const standing = this.#row(before);
      if (standing >= 0 && standing !== before) return false;
      const hole = old.joined.at(i);
      // A merged draught holds steps of both: they must have moved alike.
      if (!own.has(before) && next.stepOf(before) - old.stepOf(before) !== steps) return false;
      if (hole >= from.count || joined.has(hole)) continue;
      joined.add(hole);
      const here = this.#hole(hole, from, 0);
      if (here < 0 || next.shape.at(here) !== before) return false;
      if (changed && this.#differs(old.rowOf(hole)?.frame ?? 0, old.x.at(hole), old.y.at(hole))) return false;
    }
    for (let i = from.extras; i < to.extras; i++)
      if (this.#hole(old.extraHole.at(i), from, 0) < 0 && old.extraHole.at(i) < from.count) return false;
    if (changed)
      for (let i = from.probes; i < to.probes; i++)
        if (this.#differs(old.probeFrame.at(i), old.probeX.at(i), old.probeY.at(i))) return false;
    return true;
  }

  #differs(frame: number, u: number, v: number): boolean {
    const cell = this.#new.places.cellOf(frame, u, v);
    return this.#differ.has(cell) || this.#open.has(cell);
  }

  /** Notes the places at which holes came, went or changed since the stretch taken over last. */
  #compare(upTo: HoleMark): void {
    const old = this.#old;
    const next = this.#new;
    let a = this.#oldDone.count;
    let aEnd = upTo.count;
    let b = this.#newDone.count;
    let bEnd = next.count;
    while (a < aEnd && b < bEnd && this.#alike(a, b)) {
      a++;
      b++;
    }
    while (a < aEnd && b < bEnd && this.#alike(aEnd - 1, bEnd - 1)) {
      aEnd--;
      bEnd--;
    }
    for (; a < aEnd; a++) this.#note(old, a);
    for (; b < bEnd; b++) this.#note(next, b);
    // Strokes that joined holes outside of what was compared.
    for (let i = this.#oldDone.joins; i < upTo.joins; i++) this.#note(old, old.joined.at(i));
    for (let i = this.#newDone.joins; i < next.joined.length; i++) this.#note(next, next.joined.at(i));
    this.#oldDone = upTo;
    this.#newDone = next.mark();
  }

  /** Whether later holes at the place find the same. */
  #alike(o: number, n: number): boolean {
    const old = this.#old;
    const next = this.#new;
    if (!Object.is(old.x.at(o), next.x.at(n)) || !Object.is(old.y.at(o), next.y.at(n))) return false;
    if ((old.ways.at(o) === 0) !== (next.ways.at(n) === 0)) return false;
    if (old.shape.at(o) === next.shape.at(n)) return true;
    const a = old.rowOf(o);
    const b = next.rowOf(n);
    if (a === undefined || b === undefined || a.frame !== b.frame || !Object.is(a.diameter, b.diameter)) return false;
    const [p, q] = [a.shape, b.shape];
    if (p.endZ !== q.endZ || p.tool !== q.tool || p.operation !== q.operation || p.bored.length !== q.bored.length)
      return false;
    for (let i = 0; i < p.bored.length; i++)
      if (
        p.bored[i]?.diameter !== q.bored[i]?.diameter ||
        p.bored[i]?.toZ !== q.bored[i]?.toZ ||
        p.bored[i]?.tool !== q.bored[i]?.tool
      )
        return false;
    if (q.operation === this.#operation) this.#note(next, n, this.#open);
    return true;
  }

  #note(book: HoleBook, hole: number, into = this.#differ): void {
    book.places.cells(book.rowOf(hole)?.frame ?? 0, book.x.at(hole), book.y.at(hole), into);
  }
}

const START: HoleMark = { count: 0, made: 0, joins: 0, extras: 0, probes: 0 };
