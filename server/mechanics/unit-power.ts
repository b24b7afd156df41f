/**
 * Unit power method: Pc = Kp · C · Q · W. Read in Machinery's Handbook, 31st ed., p. 1147 (Kp); feed factor C from
 * memory of its Table 2. Kept for cross-checks: it is made from turning and ignores chisel edge and chip transport, so
 * drill loads never rest on it.
 */

/** 1 hp·min/in³ in W·s/mm³ (kW per cm³/s), 2.73. */
export const UNIT_POWER_SI = (0.7456999 * 60) / 16.387064;

/**
 * Power at the cutter: hp with Kp in hp·min/in³ and Q in in³/min, kW with Kp in kW·s/cm³ and Q in cm³/s.
 * @param C feed factor
 * @param W wear factor
 */
export function unitPower(Kp: number, C: number, Q: number, W: number): number {
  return Kp * C * Q * W;
}

/**
 * Feed factor C = (0.305 / f)^0.19: fits the remembered table within 2.5 % from 0.025 to 1.5 mm/rev. Derived.
 * @param f mm/rev, above 0
 */
export function unitPowerFeedFactor(f: number): number {
  return (0.3048 / f) ** 0.19;
}
