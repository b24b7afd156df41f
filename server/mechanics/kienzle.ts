/**
 * Specific cutting force after Kienzle, and the torque of a drill from it.
 *
 * kc = kc1.1 · h^-mc. Form: read in German Wikipedia, "Spezifische Schnittkraft"; application to drills: read,
 * secondary, in a file that quotes "Tabellenbuch Metall". Original tests: carbide turning, 0.1 <= h <= 1.4 mm, dry,
 * sharp (Kienzle and Victor 1957, from memory). Bands and limits of the thin chip: common practice, no source.
 *
 * Units: mm, N/mm², N, N·m, kW, degrees. Callers pass finite numbers above zero unless it says otherwise.
 */

const RAD = Math.PI / 180;

/** Chip thickness below which the power law is not trusted, mm. Common practice, no source. */
export const THIN_CHIP_MM = 0.05;
/** Edge radius for the edge term of thin chips, mm. Common practice, no source. */
export const EDGE_RADIUS_MM = 0.03;

/** What a material's kc1.1 was measured for. */
export type ForceLine = "victor" | "koenig" | "group-average" | "own";

/** One pair of a material table. */
export interface ForceValues {
  /** Force for b = h = 1 mm, N/mm². */
  readonly kc11: number;
  /** Exponent, 0 to below 1. */
  readonly mc: number;
  readonly line: ForceLine;
}

/** A specific cutting force with its spread, N/mm². low <= nominal <= high. */
export interface SpecificForce {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** The chip is thinner than the model's range: say so beside the number. */
  readonly belowRange: boolean;
}

/** Tool cutting-edge angle of a straight lip, degrees: κr = SIG / 2. */
export function edgeAngle(SIG: number): number {
  return SIG / 2;
}

/**
 * Uncut chip thickness, mm: h = (f / edges) · sin(κr).
 * @param f mm/rev
 * @param edges effective edges: 2 for two lips, 1 for a centre and peripheral insert pair
 * @param KAPR tool cutting-edge angle, degrees, above 0 to 90: SIG / 2 for a straight lip
 */
export function chipThickness(f: number, edges: number, KAPR: number): number {
  return (f / edges) * Math.sin(KAPR * RAD);
}

/** Width of cut of one edge from solid, mm: b = DC / (2 · sin(κr)). */
export function cutWidth(DC: number, KAPR: number): number {
  return DC / (2 * Math.sin(KAPR * RAD));
}

/** The bare power law, N/mm², without the rule for thin chips: for published values and for h in range. */
export function kcPlain(kc11: number, mc: number, h: number): number {
  return kc11 * h ** -mc;
}

/**
 * kc at chip thickness h with the rule for thin chips (common practice, no source). Below 0.05 mm nominal holds the
 * value of 0.05 mm and high gets the edge term 1 + 0.03 / h. Just above 0.05 mm high keeps the edge force reached there
 * until the power law has caught up, so that neither kc nor the force on the edge jumps or falls when the feed rises.
 * @param h mm, above 0
 */
export function kc(kc11: number, mc: number, h: number): SpecificForce {
  const nominal = kcPlain(kc11, mc, Math.max(h, THIN_CHIP_MM));
  const atLimit = kcPlain(kc11, mc, THIN_CHIP_MM);
  const edge = (atLimit * (Math.min(h, THIN_CHIP_MM) + EDGE_RADIUS_MM)) / h;
  return { low: nominal, nominal, high: Math.max(nominal, edge), belowRange: h < THIN_CHIP_MM };
}

/**
 * Factor for drilling on a turning value. 1.0 with the Kienzle/Victor line, 1.2 with the König line; never both (common
 * practice, no source; the 1.2 itself from memory of "Tabellenbuch Metall"). Group averages lie at the level of the
 * König line (unalloyed steel, 190 HB: 1500 beside 1659 and 2220) and get its factor; own trials already were drilling.
 */
export function processFactor(line: ForceLine): number {
  return line === "koenig" || line === "group-average" ? 1.2 : 1;
}

/**
 * kc of a material that has one or two lines, process factor applied. Nominal is the geometric mean of the lines at
 * that h, high the larger, low the smaller (common practice, no source).
 * @param lines at least one
 * @param h mm, above 0
 */
export function jointKc(lines: readonly ForceValues[], h: number): SpecificForce {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let logs = 0;
  for (const line of lines) {
    const k = kc(line.kc11, line.mc, h);
    const factor = processFactor(line.line);
    low = Math.min(low, k.low * factor);
    high = Math.max(high, k.high * factor);
    logs += Math.log(k.nominal * factor);
  }
  return { low, nominal: Math.exp(logs / lines.length), high, belowRange: h < THIN_CHIP_MM };
}

/**
 * Base rake of the published tests, degrees: steel 6, cast iron 2, aluminium 0. Read, secondary, in a quotation of
 * Dietrich and Tschätsch 2014.
 */
export function baseRake(group: "P" | "M" | "K" | "N" | "S" | "H"): number {
  return group === "K" ? 2 : group === "N" ? 0 : 6;
}

/**
 * Rake factor: Kγ = 1 - 0.015 · (γ - γ0), about 1.5 % per degree. From memory of Tschätsch and König.
 * @param rakeDeg γ, -10 to 25 degrees
 * @param baseDeg γ0, see baseRake
 */
export function rakeFactor(rakeDeg: number, baseDeg: number): number {
  return 1 - 0.015 * (rakeDeg - baseDeg);
}

/**
 * Rake factor kept within 0.85 to 1.15 for h below 0.1 mm (common practice, no source). The clamp gives way between
 * 0.12 and 0.24 mm: gently, and past the edge term of thin chips, so that the force never falls when the feed rises.
 */
export function rakeFactorAt(rakeDeg: number, baseDeg: number, h: number): number {
  const free = rakeFactor(rakeDeg, baseDeg);
  const held = Math.min(1.15, Math.max(0.85, free));
  const blend = Math.min(1, Math.max(0, (h - 0.12) / 0.12));
  return held + (free - held) * blend;
}

/** Rake by common practice of an edge: light +12, general +6, strong 0 degrees. No source. */
export function edgeRake(edge: "light" | "general" | "strong"): number {
  return edge === "light" ? 12 : edge === "general" ? 6 : 0;
}

/**
 * Speed factor: vc below 100 m/min 2.023 / vc^0.153, above 1.380 / vc^0.07. From memory of Tschätsch, "Praxis der
 * Zerspantechnik". Not part of any default load.
 * @param vc m/min, above 0
 */
export function speedFactor(vc: number): number {
  return vc < 100 ? 2.023 / vc ** 0.153 : 1.38 / vc ** 0.07;
}

/** Cutting force on one edge from solid, N: Fc = kc · DC · f / (2 · edges). */
export function edgeForce(DC: number, f: number, edges: number, kcValue: number): number {
  return (kcValue * DC * f) / (2 * edges);
}

/** Torque from solid, N·m: M = DC² · f · kc / 8000. Edges count only through h. */
export function torqueFromSolid(DC: number, f: number, kcValue: number): number {
  return (DC * DC * f * kcValue) / 8000;
}

/** Torque when opening a core, N·m: M = (DC² - d²) · f · kc / 8000. @param core d, mm, 0 to DC */
export function torqueFromCore(DC: number, core: number, f: number, kcValue: number): number {
  return ((DC * DC - core * core) * f * kcValue) / 8000;
}

/** Power at the cutter, kW: P = M · n · 2π / 60 000 (M · n / 9549). */
export function powerFromTorque(torque: number, n: number): number {
  return (torque * n * 2 * Math.PI) / 60_000;
}

/** Torque, N·m, of a power at a speed: M = 60 000 · P / (2π · n). @param n 1/min, above 0 */
export function torqueFromPower(power: number, n: number): number {
  return (power * 60_000) / (2 * Math.PI * n);
}

/** Power of a force at a cutting speed, kW: P = F · vc / 60 000. */
export function powerFromForce(force: number, vc: number): number {
  return (force * vc) / 60_000;
}

/** A centre and peripheral insert pair: one effective edge, split at r1. */
export interface InsertPair {
  /** mm */
  readonly DC: number;
  /** Boundary between the two inserts, mm from the axis; R / 2 by common practice. */
  readonly r1: number;
  /** Diameter already open, mm; 0 from solid. */
  readonly core: number;
  /** mm/rev */
  readonly f: number;
  /** kc of the centre zone with its own rake, N/mm². */
  readonly kcCentre: number;
  /** kc of the peripheral zone with its own rake, N/mm². */
  readonly kcPeripheral: number;
}

export interface InsertPairLoad {
  /** Cutting force on each insert, N. */
  readonly centreForce: number;
  readonly peripheralForce: number;
  /** The inserts push opposite ways: what is left of the two forces, N. */
  readonly netForce: number;
  /** N·m */
  readonly centreTorque: number;
  readonly peripheralTorque: number;
  /** Sum, N·m. */
  readonly torque: number;
}

/**
 * Forces and torque of a centre and peripheral insert pair in full cut: each zone is a ring with its own kc. Derived
 * from the formula for one edge; one effective edge whatever the number of inserts (read in Cutting Tool Engineering,
 * "Indexed success").
 */
export function insertPairLoad(pair: InsertPair): InsertPairLoad {
  const R = pair.DC / 2;
  const inner = Math.min(R, Math.max(0, pair.core / 2));
  const split = Math.min(R, Math.max(inner, pair.r1));
  const centreForce = pair.kcCentre * pair.f * (split - inner);
  const peripheralForce = pair.kcPeripheral * pair.f * (R - split);
  const centreTorque = (centreForce * (split + inner)) / 2000;
  const peripheralTorque = (peripheralForce * (R + split)) / 2000;
  return {
    centreForce,
    peripheralForce,
    netForce: Math.abs(centreForce - peripheralForce),
    centreTorque,
    peripheralTorque,
    torque: centreTorque + peripheralTorque,
  };
}
