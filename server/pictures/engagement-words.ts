/** Heights and shares as the engagement pictures write them. */
import type { UnitSystem } from "../units/quantities.ts";
import { say, sayOne } from "../units/wording.ts";

/** A height is found by halving and off by less than this, mm; zero must not read as a millionth. */
const GRAIN = 0.001;
/** What is nearer to the whole than this is rounding. */
const WHOLE = 1 - 1e-6;

/** A height of the tip in both unit systems. */
export function sayHeight(z: number, system: UnitSystem): string {
  if (!Number.isFinite(z)) return "unknown";
  return say(Math.abs(z) < GRAIN ? 0 : z, "length", system);
}

/** A share in percent; nearly the whole is not the whole, and a hair is not nothing. */
export function sayShare(share: number): string {
  if (!Number.isFinite(share)) return "unknown";
  if (share > 1 - WHOLE && share < 0.005) return "under 1 %";
  if (share >= 0.995 && share < WHOLE) return "over 99 %";
  return sayOne(Math.min(1, Math.max(0, share)), "share", "mm");
}
