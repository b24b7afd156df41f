/**
 * How sure a load is. Published methods differ by a factor of two on the same hole, so a load from tables is never
 * stated more surely than their spread; wear and the state of the chip widen it, a load-meter reading narrows it.
 */
import { METHOD_SPREAD, WEAR_THRUST, WEAR_TORQUE } from "../mechanics/peaks.ts";
import type { Band } from "./types.ts";

/** Share to which the spread opens where the table value is an estimate for a whole group: common practice, no source. */
export const WEAK_SPREAD = { low: 0.5, high: 1.5 } as const;

export type LoadKind = "torque" | "thrust";

export const WEAR: { readonly [K in LoadKind]: Band } = { torque: WEAR_TORQUE, thrust: WEAR_THRUST };

export interface SpreadChoice {
  readonly kind: LoadKind;
  /** The material values are group averages or lie outside their table. */
  readonly weak: boolean;
  /** Factor on the high end: chips that pack in the flutes. */
  readonly packing: number;
}

/**
 * Band of a load from that of a sharp edge: wear 1.0/1.15/1.3 (thrust 1.0/1.3/1.8), at least as wide as the published
 * methods lie apart, high times the packing factor.
 * @param sharp low, nominal and high with a sharp edge
 */
export function withWearAndSpread(sharp: Band, choice: SpreadChoice): Band {
  const wear = WEAR[choice.kind];
  const spread = METHOD_SPREAD[choice.kind];
  const nominal = sharp.nominal * wear.nominal;
  const lowShare = choice.weak ? Math.min(spread.low, WEAK_SPREAD.low) : spread.low;
  const highShare = choice.weak ? Math.max(spread.high, WEAK_SPREAD.high) : spread.high;
  return {
    low: Math.min(sharp.low * wear.low, nominal * lowShare),
    nominal,
    high: Math.max(sharp.high * wear.high, nominal * highShare) * Math.max(1, choice.packing),
  };
}

/** Every part of the band times a factor of zero or more. */
export function scaled(band: Band, factor: number): Band {
  return { low: band.low * factor, nominal: band.nominal * factor, high: band.high * factor };
}

/** Every part times the same part of another band. */
export function times(band: Band, factor: Band): Band {
  return { low: band.low * factor.low, nominal: band.nominal * factor.nominal, high: band.high * factor.high };
}
