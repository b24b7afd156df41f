/**
 * Other published forms for torque and thrust, to hold the two main methods against. No default load rests on them:
 * they differ by a factor of two on the same hole.
 */

export interface PowerLaw {
  readonly constant: number;
  readonly diameterExponent: number;
  readonly feedExponent: number;
  readonly source: string;
}

/** Torque constants, kgf·m with mm and mm/rev. */
export const TORQUE_LAWS = {
  "steel-750": {
    constant: 0.0345,
    diameterExponent: 2,
    feedExponent: 0.8,
    source: "read in a machining examination answer; Kosilova and Meshcheryakov, vol. 2, from memory",
  },
  "heat-resistant": {
    constant: 0.041,
    diameterExponent: 2,
    feedExponent: 0.7,
    source: "read in a calculation sheet for drilling torque and axial force",
  },
  "grey-iron-190": {
    constant: 0.021,
    diameterExponent: 2,
    feedExponent: 0.8,
    source: "from memory of Kosilova and Meshcheryakov, vol. 2",
  },
} as const satisfies Readonly<Record<string, PowerLaw>>;

/** Thrust constants, kgf with mm and mm/rev. */
export const THRUST_LAWS = {
  "steel-750": {
    constant: 68,
    diameterExponent: 1,
    feedExponent: 0.7,
    source: "from memory of Kosilova and Meshcheryakov, vol. 2",
  },
  "heat-resistant": {
    constant: 143,
    diameterExponent: 1,
    feedExponent: 0.7,
    source: "read in a calculation sheet for drilling torque and axial force",
  },
  "grey-iron-190": {
    constant: 42.7,
    diameterExponent: 1,
    feedExponent: 0.8,
    source: "from memory of Kosilova and Meshcheryakov, vol. 2",
  },
} as const satisfies Readonly<Record<string, PowerLaw>>;

/** constant · D^q · f^y in the law's own unit (kgf·m or kgf); times 9.80665 it is N·m or N. */
export function powerLaw(law: PowerLaw, DC: number, f: number): number {
  return law.constant * DC ** law.diameterExponent * f ** law.feedExponent;
}

/**
 * kD of T = kD · f^0.75 · D^1.8, N·m. Constants read in Carvill, "Mechanical Engineer's Data Handbook", p. 192;
 * exponents from memory.
 */
export const CARVILL_KD = {
  aluminium: 0.11,
  brass: 0.084,
  "cast-iron": 0.07,
  "mild-steel": 0.36,
  "tool-steel": 0.4,
} as const;

/** Torque, N·m: kD · f^0.75 · D^1.8. */
export function carvillTorque(kD: number, DC: number, f: number): number {
  return kD * f ** 0.75 * DC ** 1.8;
}
