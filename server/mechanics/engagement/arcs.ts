/**
 * Sets of arcs of one turn in buffers that are used again and again, so that a look at a height allocates nothing. The
 * same buffers hold spans along a ray. Cosine and sine stand beside each angle: every form knows them without asking.
 */

export const TURN = 2 * Math.PI;

/** Nothing of the circle is in the solid, and nothing will be until the radius passes the next break. */
export const NONE = 0;
/** All of it, in the same sense. */
export const ALL = 1;
/** What the buffer says. */
export const SOME = 2;

/** Arcs shorter than this, in radians, are noise of the arithmetic. */
const TINY = 1e-12;

/** Sorted disjoint intervals within 0 to 2π (0 to R for spans). An arc over 0 stands as two. */
export class Arcs {
  /** Numbers in use, two for each interval. */
  count = 0;
  at = new Float64Array(24);
  cos = new Float64Array(24);
  sin = new Float64Array(24);

  /** Adds an interval behind the others. */
  push(from: number, to: number, cosFrom: number, sinFrom: number, cosTo: number, sinTo: number): void {
    const i = this.count;
    if (i + 2 > this.at.length) this.grow();
    this.at[i] = from;
    this.at[i + 1] = to;
    this.cos[i] = cosFrom;
    this.sin[i] = sinFrom;
    this.cos[i + 1] = cosTo;
    this.sin[i + 1] = sinTo;
    this.count = i + 2;
  }

  /** Adds an interval at its place; it overlaps none of the others. */
  insert(from: number, to: number, cosFrom: number, sinFrom: number, cosTo: number, sinTo: number): void {
    this.push(from, to, cosFrom, sinFrom, cosTo, sinTo);
    const { at, cos, sin } = this;
    for (let i = this.count - 2; i >= 2 && (at[i - 2] as number) > from; i -= 2) {
      for (const list of [at, cos, sin]) {
        const a = list[i] as number;
        const b = list[i + 1] as number;
        list[i] = list[i - 2] as number;
        list[i + 1] = list[i - 1] as number;
        list[i - 2] = a;
        list[i - 1] = b;
      }
    }
  }

  /** Adds an arc whose beginning lies within one turn of 0 to 2π. */
  insertTurned(from: number, to: number, cosFrom: number, sinFrom: number, cosTo: number, sinTo: number): void {
    let a = from;
    let b = to;
    if (a < 0) {
      a += TURN;
      b += TURN;
    } else if (a >= TURN) {
      a -= TURN;
      b -= TURN;
    }
    if (b <= TURN) {
      this.insert(a, b, cosFrom, sinFrom, cosTo, sinTo);
      return;
    }
    this.insert(a, TURN, cosFrom, sinFrom, 1, 0);
    this.insert(0, b - TURN, 1, 0, cosTo, sinTo);
  }

  private grow(): void {
    for (const key of ["at", "cos", "sin"] as const) {
      const wider = new Float64Array(2 * this[key].length);
      wider.set(this[key]);
      this[key] = wider;
    }
  }
}

/** What is in both sets. */
export function intersectInto(a: Arcs, b: Arcs, out: Arcs): void {
  out.count = 0;
  let i = 0;
  let j = 0;
  while (i < a.count && j < b.count) {
    const f = (a.at[i] as number) >= (b.at[j] as number);
    const t = (a.at[i + 1] as number) <= (b.at[j + 1] as number);
    const x = f ? a : b;
    const y = t ? a : b;
    const from = f ? i : j;
    const to = t ? i + 1 : j + 1;
    if ((y.at[to] as number) - (x.at[from] as number) > TINY) copy(out, x, from, y, to);
    if (t) i += 2;
    else j += 2;
  }
}

/** What is in either set. */
export function uniteInto(a: Arcs, b: Arcs, out: Arcs): void {
  out.count = 0;
  let i = 0;
  let j = 0;
  while (i < a.count || j < b.count) {
    const first = j >= b.count || (i < a.count && (a.at[i] as number) <= (b.at[j] as number));
    const x = first ? a : b;
    const k = first ? i : j;
    if (first) i += 2;
    else j += 2;
    const last = out.count - 1;
    if (last < 0 || (x.at[k] as number) - (out.at[last] as number) > TINY) copy(out, x, k, x, k + 1);
    else if ((x.at[k + 1] as number) > (out.at[last] as number)) {
      out.at[last] = x.at[k + 1] as number;
      out.cos[last] = x.cos[k + 1] as number;
      out.sin[last] = x.sin[k + 1] as number;
    }
  }
}

function copy(out: Arcs, x: Arcs, from: number, y: Arcs, to: number): void {
  out.push(
    x.at[from] as number,
    y.at[to] as number,
    x.cos[from] as number,
    x.sin[from] as number,
    y.cos[to] as number,
    y.sin[to] as number,
  );
}

/** What lies between the spans, from 0 to `end`; cosine and sine mean nothing for spans. */
export function complementInto(a: Arcs, end: number, out: Arcs): void {
  out.count = 0;
  let from = 0;
  for (let i = 0; i < a.count; i += 2) {
    const to = a.at[i] as number;
    if (to - from > TINY) out.push(from, to, 0, 0, 0, 0);
    from = a.at[i + 1] as number;
  }
  if (end - from > TINY) out.push(from, end, 0, 0, 0, 0);
}

/** Measure of the part of the set between from and to, in the unit of the set. */
export function measureWithin(set: Arcs, from: number, to: number): number {
  let sum = 0;
  for (let i = 0; i < set.count; i += 2) {
    const a = Math.max(from, set.at[i] as number);
    const b = Math.min(to, set.at[i + 1] as number);
    if (b > a) sum += b - a;
  }
  return sum;
}

/** Share of the turn in the set, 0 to 1. */
export function shareOf(set: Arcs): number {
  let sum = 0;
  for (let i = 0; i < set.count; i += 2) sum += (set.at[i + 1] as number) - (set.at[i] as number);
  return sum / TURN;
}

/** Number of arcs on the circle, the two halves of one over 0 counted once; 0 for nothing and for the whole turn. */
export function entriesOf(set: Arcs): number {
  const n = set.count / 2;
  if (n === 0) return 0;
  const closed = set.at[0] === 0 && set.at[set.count - 1] === TURN;
  return closed ? n - 1 : n;
}

/** Largest single gap of the set, as a share of the turn; 1 when it is empty. */
export function largestGap(set: Arcs): number {
  if (set.count === 0) return 1;
  let gap = (set.at[0] as number) + TURN - (set.at[set.count - 1] as number);
  for (let i = 1; i + 1 < set.count; i += 2) gap = Math.max(gap, (set.at[i + 1] as number) - (set.at[i] as number));
  return gap > TINY ? gap / TURN : 0;
}
