/** Heights of a curve over depth, and labels beside it that must not stand on each other. */

/** Nothing that is drilled is farther than this from its zero, mm; more is drawn at the edge. */
const FARTHEST = 1e7;

export interface DepthRange {
  /** mm, top above bottom */
  readonly top: number;
  readonly bottom: number;
}

/** The stretch that holds all finite heights, never empty, with a little air at both ends. */
export function depthRange(heights: readonly (number | null)[]): DepthRange {
  let top = Number.NEGATIVE_INFINITY;
  let bottom = Number.POSITIVE_INFINITY;
  for (const height of heights) {
    if (height === null || !Number.isFinite(height)) continue;
    const z = Math.min(FARTHEST, Math.max(-FARTHEST, height));
    top = Math.max(top, z);
    bottom = Math.min(bottom, z);
  }
  if (top < bottom) return { top: 1, bottom: -1 };
  const least = Math.max(1e-6, 1e-7 * Math.max(Math.abs(top), Math.abs(bottom)));
  const air = top - bottom < least ? Math.max(0.5, least) : (top - bottom) * 0.03;
  return { top: top + air, bottom: bottom - air };
}

export interface Tick {
  readonly value: number;
  readonly label: string;
}

/** Round values within the two, in steps of 1, 2 or 5 times a power of ten. @param about how many are wanted */
export function ticksWithin(low: number, high: number, about: number): Tick[] {
  const rough = (high - low) / about;
  if (!(rough > 0) || !Number.isFinite(rough)) return [];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((s) => s * power >= rough * 0.999) ?? 10) * power;
  const decimals = Math.min(12, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const out: Tick[] = [];
  const last = Math.floor(high / step + 1e-9);
  for (let i = Math.ceil(low / step - 1e-9); i <= last; i++) {
    // Adding 0 turns -0 into 0.
    const value = i * step + 0;
    out.push({ value, label: value.toFixed(decimals) });
  }
  return out;
}

/**
 * Moves labels apart, keeping their order and each as near to its wish as the others let it.
 * @param wished heights, rising, no more than fit
 */
export function spread(wished: readonly number[], least: number, from: number, to: number): number[] {
  const out: number[] = [];
  for (const wish of wished) out.push(Math.max(from, wish, (out.at(-1) ?? Number.NEGATIVE_INFINITY) + least));
  let room = to;
  for (let i = out.length - 1; i >= 0; i--) {
    out[i] = Math.min(out[i] as number, room);
    room = (out[i] as number) - least;
  }
  return out;
}
