/**
 * Feed force of drills that the handbook form is not made for. All common practice, no source: thrust is known far
 * worse than torque, so each rule is a band.
 */

/** Band of a coefficient or a load: low <= nominal <= high. */
export interface Spread {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
}

/** c of the insert drill rule. Common practice, no source. */
export const INSERT_THRUST: Spread = { low: 0.4, nominal: 0.55, high: 0.7 };

/** Share of kc that pushes a plain lip back. Common practice, no source. */
export const LIP_THRUST: Spread = { low: 0.5, nominal: 0.6, high: 0.7 };

/**
 * Thrust of a drill with a centre and a peripheral insert, N: T = c · kc(0.1) · 0.1 · R · (f / 0.1)^0.6. It has no
 * chisel edge.
 * @param c 0.4 to 0.7, see INSERT_THRUST
 * @param kcAtTenth kc at h = 0.1 mm, N/mm²
 * @param DC mm
 * @param f mm/rev, above 0
 * @param core diameter already open, mm: the cut edge shrinks to R - core / 2
 */
export function insertThrust(c: number, kcAtTenth: number, DC: number, f: number, core = 0): number {
  return (c * kcAtTenth * 0.1 * Math.max(0, DC - core) * (f / 0.1) ** 0.6) / 2;
}

/**
 * Thrust of the lips alone, N: Ff = c · (DC / 2) · f · kc · sin(κr). It leaves the chisel edge out, which on a plain
 * point carries more than half of the thrust: for solid carbide with a thinned point use it as a lower bound, with a
 * pilot hole as it stands.
 * @param c 0.5 to 0.7, see LIP_THRUST
 * @param kcValue kc at the chip thickness of the cut, N/mm²
 * @param KAPR SIG / 2, degrees
 * @param core diameter already open, mm
 */
export function lipThrust(c: number, kcValue: number, DC: number, f: number, KAPR: number, core = 0): number {
  return (c * Math.max(0, DC - core) * f * kcValue * Math.sin((KAPR * Math.PI) / 180)) / 2;
}
