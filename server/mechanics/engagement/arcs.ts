/**
 * Sets of arcs of one turn, as sorted disjoint intervals in radians. Solids and voids combine as such sets, so that
 * what is in metal at a radius and a height is known in closed form.
 */

/**
 * [from, to, from, to, ...] rising within 0 to 2π; empty is nothing, FULL_TURN everything. An arc over 0 stands as two.
 */
export type ArcSet = readonly number[];

export const TURN = 2 * Math.PI;
export const NO_ARC: ArcSet = [];
export const FULL_TURN: ArcSet = [0, TURN];

/** Arcs shorter than this, in radians, are noise of the arithmetic. */
const TINY = 1e-12;

/**
 * The arc of half width `half` around `middle`, both in radians.
 * @param half 0 or less gives nothing, π or more the whole turn
 */
export function arcAround(middle: number, half: number): ArcSet {
  if (!(half > TINY)) return NO_ARC;
  if (half >= Math.PI - TINY) return FULL_TURN;
  const from = wrap(middle - half);
  const to = from + 2 * half;
  return to <= TURN ? [from, to] : [0, to - TURN, from, TURN];
}

/** The angle within 0 to 2π. */
export function wrap(angle: number): number {
  const a = angle % TURN;
  return a < 0 ? a + TURN : a;
}

/** What is not in the set. @param end of the domain: a turn, or a length for spans along a ray */
export function complement(set: ArcSet, end = TURN): ArcSet {
  if (set.length === 0) return end === TURN ? FULL_TURN : [0, end];
  const out: number[] = [];
  let from = 0;
  for (let i = 0; i + 1 < set.length; i += 2) {
    const a = set[i] as number;
    if (a - from > TINY) out.push(from, a);
    from = set[i + 1] as number;
  }
  if (end - from > TINY) out.push(from, end);
  return out;
}

/** What is in both sets. */
export function intersect(a: ArcSet, b: ArcSet): ArcSet {
  if (a === FULL_TURN || b.length === 0) return b;
  if (b === FULL_TURN || a.length === 0) return a;
  const out: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const aTo = a[i + 1] as number;
    const bTo = b[j + 1] as number;
    const from = Math.max(a[i] as number, b[j] as number);
    const to = Math.min(aTo, bTo);
    if (to - from > TINY) out.push(from, to);
    if (aTo < bTo) i += 2;
    else j += 2;
  }
  return out;
}

/** What is in either set. @param end as for complement */
export function unite(a: ArcSet, b: ArcSet, end = TURN): ArcSet {
  if (a.length === 0 || b === FULL_TURN) return b;
  if (b.length === 0 || a === FULL_TURN) return a;
  return complement(intersect(complement(a, end), complement(b, end)), end);
}

/** Measure of the part of the set between from and to, in the unit of the set. */
export function measureWithin(set: ArcSet, from: number, to: number): number {
  let sum = 0;
  for (let i = 0; i + 1 < set.length; i += 2) {
    const a = Math.max(from, set[i] as number);
    const b = Math.min(to, set[i + 1] as number);
    if (b > a) sum += b - a;
  }
  return sum;
}

/** Share of the turn in the set, 0 to 1. */
export function shareOf(set: ArcSet): number {
  let sum = 0;
  for (let i = 0; i + 1 < set.length; i += 2) sum += (set[i + 1] as number) - (set[i] as number);
  return sum / TURN;
}

/** Number of arcs on the circle, the two halves of one over 0 counted once; 0 for nothing and for the whole turn. */
export function entriesOf(set: ArcSet): number {
  const n = set.length / 2;
  if (n === 0) return 0;
  const closed = set[0] === 0 && set[set.length - 1] === TURN;
  return closed ? n - 1 : n;
}

/** Largest single gap of the set, as a share of the turn; 1 when it is empty. */
export function largestGap(set: ArcSet): number {
  if (set.length === 0) return 1;
  let gap = (set[0] as number) + TURN - (set[set.length - 1] as number);
  for (let i = 1; i + 1 < set.length; i += 2) gap = Math.max(gap, (set[i + 1] as number) - (set[i] as number));
  return gap > TINY ? gap / TURN : 0;
}

/** True when the angle, 0 to 2π, lies in the set. */
export function includes(set: ArcSet, angle: number): boolean {
  for (let i = 0; i + 1 < set.length; i += 2)
    if (angle >= (set[i] as number) && angle <= (set[i + 1] as number)) return true;
  return false;
}

/** Calls back with each interval. */
export function arcsOf(set: ArcSet, each: (from: number, to: number) => void): void {
  for (let i = 0; i + 1 < set.length; i += 2) each(set[i] as number, set[i + 1] as number);
}
