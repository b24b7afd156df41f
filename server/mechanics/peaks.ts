/** What widens a load: wear, interruption, packed chips, a bending drill. All common practice, no source. */
import type { Spread } from "./thrust.ts";

/** Wear, sharp to worn, on torque. */
export const WEAR_TORQUE: Spread = { low: 1, nominal: 1.15, high: 1.3 };
/** Wear, sharp to worn, on thrust. */
export const WEAR_THRUST: Spread = { low: 1, nominal: 1.3, high: 1.8 };
/** Peak within the turn of an interrupted cut over the torque in full cut, however small the engaged share. */
export const INTERRUPTED_PEAK: Spread = { low: 1.2, nominal: 1.3, high: 1.5 };
/**
 * How far published methods lie apart on one hole (20 mm, 0.25 mm/rev, medium-carbon steel), as shares of the nominal
 * load. Derived from the comparison of six methods.
 */
export const METHOD_SPREAD = {
  torque: { low: 0.65, nominal: 1, high: 1.35 },
  thrust: { low: 0.5, nominal: 1, high: 1.6 },
} as const satisfies { torque: Spread; thrust: Spread };

/**
 * Peak torque within the turn of an interrupted cut, N·m. Its low, nominal and high go with those of the full torque.
 */
export function interruptedPeak(fullTorque: Spread): Spread {
  return {
    low: fullTorque.low * INTERRUPTED_PEAK.low,
    nominal: fullTorque.nominal * INTERRUPTED_PEAK.nominal,
    high: fullTorque.high * INTERRUPTED_PEAK.high,
  };
}

/**
 * Factor on the high end of torque for chips that pack in the flutes, 1 or more.
 * @param family twist-hss without through coolant: 15 % per D beyond 3xD; solid-carbide with through coolant: 3 % per
 *   D; indexable: 5 % per D beyond 3xD
 * @param depthRatio depth over diameter since the flutes were last cleared: a full-retract peck starts it anew
 */
export function chipPacking(
  family: "twist-hss" | "solid-carbide" | "indexable",
  depthRatio: number,
  throughCoolant: boolean,
): number {
  const beyond = Math.max(0, depthRatio - 3);
  switch (family) {
    case "twist-hss":
      return throughCoolant ? 1 : 1 + 0.15 * beyond;
    case "solid-carbide":
      // Without through coolant a carbide drill clears no better than an HSS one.
      return throughCoolant ? 1 + 0.03 * Math.max(0, depthRatio) : 1 + 0.15 * beyond;
    case "indexable":
      return 1 + 0.05 * beyond;
  }
}

/**
 * Elastic modulus of the drill body, N/mm²: steel bodies and HSS 210 000, cemented carbide 580 000. Common practice, no
 * source.
 */
export const BODY_MODULUS = { steel: 210_000, carbide: 580_000 } as const;

/** Second moment of a fluted body over that of a full cylinder. Common practice, no source. */
export const FLUTED_SHARE = 0.3;

/**
 * Sideways walk of the tip under a side force, mm: S · L³ / (3 · E · k · π · D⁴ / 64), k = 0.3. Information, not a
 * limit.
 * @param sideForce S, N
 * @param length L, free length of the drill, mm
 * @param DC mm, above 0
 * @param modulus E, N/mm², see BODY_MODULUS
 */
export function drillWalk(sideForce: number, length: number, DC: number, modulus: number): number {
  return (sideForce * length ** 3) / (3 * modulus * FLUTED_SHARE * Math.PI * (DC ** 4 / 64));
}
