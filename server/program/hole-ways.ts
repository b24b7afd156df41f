/**
 * Which holes are made for sure where another is: of a condition on an unknown value both ways are run, and holes of ways
 * that exclude each other are never in one part.
 */

/**
 * By hole: 0, made on every way that comes by; else one more than the first hole of the stretch of one way in which it was
 * made. Holes beyond its end have 0.
 */
export type HoleWays = ArrayLike<number>;

/** Whether an earlier hole is there for sure when a later one is made. */
export function surelyBefore(ways: HoleWays, earlier: number, hole: number): boolean {
  if ((ways[earlier] ?? 0) === 0) return true;
  const own = ways[hole] ?? 0;
  return own !== 0 && earlier >= own - 1;
}

/** Whether holes [first, end) are all made where one of them is. */
export function together(ways: HoleWays, first: number, end: number): boolean {
  if (first >= ways.length) return true;
  const own = ways[first] ?? 0;
  for (let hole = first + 1; hole < end; hole++) if ((ways[hole] ?? 0) !== own) return false;
  return true;
}
