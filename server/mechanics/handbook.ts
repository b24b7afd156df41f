/**
 * The handbook method for torque and thrust of HSS twist drills, in closed form.
 *
 * Equations and tables 7, 8, 9: read in Machinery's Handbook, 31st ed., p. 1152-1153. Closed forms behind its tables:
 * derived, checked against every entry that was readable. Kd, W: from memory of Machinery's Handbook (27th to 31st
 * ed.). Validity: HSS twist drills with conical or split point, flood coolant implied, ordinary feeds, DC from about
 * 1.6 mm; thrust and torque independent of speed. Not made for insert drills.
 */

/** Chisel length over diameter, c/d: standard point 0.18, split point 0.03. Read in Machinery's Handbook, 31st ed. */
export const CHISEL_RATIO = { standard: 0.18, split: 0.03 } as const;

/** Tool wear factor W. From memory of Machinery's Handbook, Table 3. */
export const WEAR_FACTOR = { sharp: 1, normal: 1.3, dull: 1.5 } as const;

/** Feed factor Ff = f^0.8. @param f mm/rev (inch set: in/rev) */
export function feedFactor(f: number): number {
  return f ** 0.8;
}

/** Diameter factor for thrust FT = D^0.8. @param D mm (inch set: in) */
export function thrustDiameterFactor(D: number): number {
  return D ** 0.8;
}

/** Diameter factor for torque FM = D^1.8. @param D mm (inch set: in) */
export function torqueDiameterFactor(D: number): number {
  return D ** 1.8;
}

/** Chisel factor for torque A(x), x = c/d, 0 to 0.4: fits the printed table within 0.9 %, its entry at 0.15 apart. */
export function chiselTorqueFactor(x: number): number {
  return (1 - x * x) / (1 + x) ** 0.2 + 3.2 * x ** 1.8;
}

/** Chisel factor for thrust B(x), x = c/d, 0 to 0.4. */
export function chiselThrustFactor(x: number): number {
  return lipThrustFactor(x) + 2.2 * x ** 0.8;
}

/** The part of B that the lips carry: all that is left of it when a pilot hole takes the chisel. */
export function lipThrustFactor(x: number): number {
  return (1 - x) / (1 + x) ** 0.2;
}

/** Chisel indentation factor J(x) = x². */
export function chiselIndentFactor(x: number): number {
  return x * x;
}

/** Families of work material in the table of Kd. */
export type HandbookKind =
  | "steel"
  | "resulfurised-steel"
  | "cast-iron"
  | "aluminium"
  | "magnesium"
  | "brass"
  | "leaded-brass"
  | "austenitic-stainless"
  | "titanium"
  | "nickel-alloy"
  | "rene-41";

export interface WorkFactor {
  /** Kd for torque and for thrust; the same number in inch and SI. */
  readonly torque: number;
  readonly thrust: number;
  /** False: hardness unknown or outside the listed range, the nearest listed value stands. */
  readonly inRange: boolean;
  /** Named source with its mark. */
  readonly source: string;
}

const KD_SOURCE = "from memory of Machinery's Handbook, Table 6 (27th to 31st ed.)";

interface WorkRow {
  readonly torque: number;
  readonly thrust: number;
  /** Brinell numbers between which the single value is taken as it stands; null: hardness has no part in the table. */
  readonly hb: readonly [number, number] | null;
  readonly note: string;
}

const KD: { readonly [K in Exclude<HandbookKind, "steel">]: WorkRow } = {
  "resulfurised-steel": { torque: 12_000, thrust: 12_000, hb: null, note: "AISI 1117, resulfurised" },
  "cast-iron": { torque: 14_000, thrust: 14_000, hb: [130, 170], note: "150 HB" },
  aluminium: { torque: 7_000, thrust: 7_000, hb: null, note: "most alloys" },
  magnesium: { torque: 4_000, thrust: 4_000, hb: null, note: "most alloys" },
  brass: { torque: 14_000, thrust: 14_000, hb: null, note: "most brasses" },
  "leaded-brass": { torque: 7_000, thrust: 7_000, hb: null, note: "leaded" },
  "austenitic-stainless": { torque: 24_000, thrust: 35_000, hb: null, note: "type 316, limited data" },
  titanium: { torque: 18_000, thrust: 29_000, hb: null, note: "6Al-4V, 40 HRC, limited data" },
  "nickel-alloy": { torque: 30_000, thrust: 37_000, hb: null, note: "nickel-molybdenum alloy, limited data" },
  "rene-41": { torque: 40_000, thrust: 40_000, hb: null, note: "40 HRC, rises with rapid wear" },
};

/** Steel by Brinell hardness; between the listed values linear (common practice, no source). */
const STEEL: readonly (readonly [number, number])[] = [
  [200, 24_000],
  [300, 31_000],
  [400, 34_000],
];

/** True when the name is a family of the table of Kd. */
export function isHandbookKind(name: string): name is HandbookKind {
  return name === "steel" || Object.hasOwn(KD, name);
}

/**
 * Work-material factor Kd of a sharp drill.
 * @param hb Brinell; null unknown. Only steel depends on it; below 200 and above 400 HB the end value holds and
 *   `inRange` is false
 */
export function workFactor(kind: HandbookKind, hb: number | null): WorkFactor {
  if (kind === "steel") {
    const kd = interpolate(STEEL, hb ?? 200);
    return {
      torque: kd,
      thrust: kd,
      inRange: hb !== null && hb >= 200 && hb <= 400,
      source: `${KD_SOURCE}, steel by hardness`,
    };
  }
  const row = KD[kind];
  const inRange = row.hb === null || (hb !== null && hb >= row.hb[0] && hb <= row.hb[1]);
  return { torque: row.torque, thrust: row.thrust, inRange, source: `${KD_SOURCE}, ${row.note}` };
}

function interpolate(table: readonly (readonly [number, number])[], x: number): number {
  let before = table[0];
  if (before === undefined) return 0;
  if (x <= before[0]) return before[1];
  for (const point of table) {
    if (x <= point[0]) {
      const t = point[0] === before[0] ? 0 : (x - before[0]) / (point[0] - before[0]);
      return before[1] + t * (point[1] - before[1]);
    }
    before = point;
  }
  return before[1];
}

export interface HandbookCut {
  /** mm (inch set: in) */
  readonly DC: number;
  /** mm/rev (inch set: in/rev) */
  readonly f: number;
  /** c/d, see CHISEL_RATIO. */
  readonly chiselRatio: number;
  /** Wear factor W. */
  readonly wear: number;
}

/** The factors that the printed tables list. */
export interface HandbookFactors {
  readonly Ff: number;
  readonly FT: number;
  readonly FM: number;
  readonly A: number;
  readonly B: number;
  readonly J: number;
}

/** All factors in closed form. The printed J is rounded hard (0.030 for 0.0324), which moves thrust by some 2 %. */
export function handbookFactors(cut: HandbookCut): HandbookFactors {
  const x = cut.chiselRatio;
  return {
    Ff: feedFactor(cut.f),
    FT: thrustDiameterFactor(cut.DC),
    FM: torqueDiameterFactor(cut.DC),
    A: chiselTorqueFactor(x),
    B: chiselThrustFactor(x),
    J: chiselIndentFactor(x),
  };
}

/**
 * Thrust, N: T = 0.05 · Kd · Ff · FT · B · W + 0.007 · Kd · D² · J · W.
 * @param kd Kd for thrust
 * @param by left out: closed forms; else the values of the printed tables
 */
export function handbookThrust(kd: number, cut: HandbookCut, by = handbookFactors(cut)): number {
  return kd * (0.05 * by.Ff * by.FT * by.B + 0.007 * cut.DC * cut.DC * by.J) * cut.wear;
}

/**
 * Torque, N·m: M = 0.000025 · Kd · Ff · FM · A · W.
 * @param kd Kd for torque
 * @param by as for thrust
 */
export function handbookTorque(kd: number, cut: HandbookCut, by = handbookFactors(cut)): number {
  return (kd * by.Ff * by.FM * by.A * cut.wear) / 40_000;
}

/** Thrust in the inch set, lbf: T = 2 · Kd · Ff · FT · B · W + Kd · D² · J · W, with D in in and f in in/rev. */
export function handbookThrustInch(kd: number, cut: HandbookCut, by = handbookFactors(cut)): number {
  return kd * (2 * by.Ff * by.FT * by.B + cut.DC * cut.DC * by.J) * cut.wear;
}

/** Torque in the inch set, in·lbf: M = Kd · Ff · FM · A · W, with D in in and f in in/rev. */
export function handbookTorqueInch(kd: number, cut: HandbookCut, by = handbookFactors(cut)): number {
  return kd * by.Ff * by.FM * by.A * cut.wear;
}

/**
 * Thrust when a pilot hole of diameter core has taken the chisel, N: the lip part of the form over the ring that is
 * left, T = 0.05 · Kd · Ff · FT · lips · W · (D - core) / D. Derived; no printed rule. Use it where core is larger than
 * the chisel edge, c/d · D.
 */
export function handbookThrustFromCore(kd: number, cut: HandbookCut, core: number): number {
  const lips = 0.05 * kd * feedFactor(cut.f) * thrustDiameterFactor(cut.DC) * lipThrustFactor(cut.chiselRatio);
  return (lips * cut.wear * Math.max(0, cut.DC - core)) / cut.DC;
}

/**
 * Torque when opening a core, N·m: the torque from solid times 1 - (core / D)². Derived: the same force per mm of lip.
 */
export function handbookTorqueFromCore(kd: number, cut: HandbookCut, core: number): number {
  return handbookTorque(kd, cut) * (1 - (core / cut.DC) ** 2);
}
