/** Real roots of polynomials of degree 3 and 4. Vieta's trigonometric form and safe bracketing; textbook algebra. */

/** Real roots of t³ + a·t² + b·t + c, rising. */
export function cubicRoots(a: number, b: number, c: number): readonly number[] {
  const p = b - (a * a) / 3;
  const q = (2 * a * a * a) / 27 - (a * b) / 3 + c;
  const shift = -a / 3;
  const disc = (q * q) / 4 + (p * p * p) / 27;
  if (disc > 0) {
    const w = Math.sqrt(disc);
    const u = Math.cbrt(q > 0 ? -q / 2 - w : w - q / 2);
    return [shift + (u === 0 ? 0 : u - p / (3 * u))];
  }
  const m = Math.sqrt(Math.max(0, -p / 3));
  if (m === 0) return [shift];
  const angle = Math.acos(Math.min(1, Math.max(-1, -q / (2 * m * m * m)))) / 3;
  const third = (2 * Math.PI) / 3;
  return [2 * m * Math.cos(angle + third), 2 * m * Math.cos(angle - third), 2 * m * Math.cos(angle)]
    .map((t) => t + shift)
    .sort((x, y) => x - y);
}

/** Real roots of t⁴ + a·t³ + b·t² + c·t + d at which its sign changes, rising. */
export function quarticCrossings(a: number, b: number, c: number, d: number): readonly number[] {
  const value = (t: number): number => (((t + a) * t + b) * t + c) * t + d;
  // Cauchy's bound: all roots lie within.
  const bound = 1 + Math.max(Math.abs(a), Math.abs(b), Math.abs(c), Math.abs(d));
  const out: number[] = [];
  let from = -bound;
  let before = value(from);
  for (const t of [...cubicRoots((3 * a) / 4, b / 2, c / 4), bound]) {
    const here = value(t);
    if (here > 0 !== before > 0) out.push(crossing(value, from, before, t, here, a, b, c));
    from = t;
    before = here;
  }
  return out;
}

/** The one root between two places at which the signs differ: Newton, halving where it would leave. */
function crossing(
  value: (t: number) => number,
  from: number,
  before: number,
  to: number,
  here: number,
  a: number,
  b: number,
  c: number,
): number {
  let low = before > 0 ? to : from;
  let high = before > 0 ? from : to;
  let t = from + ((to - from) * before) / (before - here);
  for (let i = 0; i < 80; i++) {
    const v = value(t);
    if (v > 0) high = t;
    else low = t;
    const slope = ((4 * t + 3 * a) * t + 2 * b) * t + c;
    let next = t - v / slope;
    if (!((next - low) * (next - high) < 0)) next = (low + high) / 2;
    if (Math.abs(next - t) <= 1e-14 * (1 + Math.abs(t))) return next;
    t = next;
  }
  return t;
}
