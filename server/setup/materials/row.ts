/** How the rows of the material table are written, and where their numbers come from. */
import type { IsoGroup, KienzleValues, WorkMaterial } from "../types.ts";

/**
 * The two published lines of kc1.1 and mc, which must not be mixed.
 * - victor: Kienzle and Victor's turning tests, reprinted in Tschätsch, Dubbel and Tabellenbuch Metall.
 * - koenig: König and Essel 1973, reprinted by Klocke (carbide, vc = 100 m/min, rake 5 to 6°, κr 70°).
 */
const VICTOR = "Kienzle/Victor line";
const KOENIG = "König/Essel line";

/** Read in a German encyclopaedia article on specific cutting force. */
export const vRead = (kc11: number, mc: number): KienzleValues => ({
  kc11,
  mc,
  line: "victor",
  source: `${VICTOR}, read in the German Wikipedia article "Spezifische Schnittkraft"`,
  evidence: "read",
});

/** Read in a trade examination file that quotes Tabellenbuch Metall (edition not stated). */
export const vQuoted = (kc11: number, mc: number): KienzleValues => ({
  kc11,
  mc,
  line: "victor",
  source: `${VICTOR}, read in an examination file that quotes Tabellenbuch Metall`,
  evidence: "read-secondary",
});

export const vMemory = (kc11: number, mc: number, note = ""): KienzleValues => ({
  kc11,
  mc,
  line: "victor",
  source: `${VICTOR}, from memory of Tschätsch and Tabellenbuch Metall${note === "" ? "" : `; ${note}`}`,
  evidence: "memory",
});

export const kMemory = (kc11: number, mc: number, note = ""): KienzleValues => ({
  kc11,
  mc,
  line: "koenig",
  source: `${KOENIG}, from memory of Klocke after König and Essel${note === "" ? "" : `; ${note}`}`,
  evidence: "memory",
});

/** An average over a whole VDI 3323 group: the standard defines the group, not the force. */
export const average = (vdi: string, kc11: number, mc: number, note = ""): KienzleValues => ({
  kc11,
  mc,
  line: "group-average",
  source: `estimate, common practice: average for VDI 3323 group ${vdi}${note === "" ? "" : `; ${note}`}`,
  evidence: "practice",
});

export type HandbookKind =
  | "resulfurised-steel"
  | "steel"
  | "cast-iron"
  | "aluminium"
  | "magnesium"
  | "brass"
  | "leaded-brass"
  | "austenitic-stainless"
  | "titanium"
  | "nickel-alloy";

/**
 * @param names key first (EN or ISO name), then W.-Nr., AISI/UNS, JIS and older names: nearest equivalents, from memory
 * @param hb Brinell of the condition named, approximate; null unknown
 */
export function row(
  group: IsoGroup,
  names: readonly [string, ...string[]],
  condition: string,
  hb: number | null,
  handbookKind: HandbookKind | null,
  kienzle: readonly KienzleValues[],
  combustible: WorkMaterial["combustible"] = null,
): WorkMaterial {
  const [key, ...designations] = names;
  return {
    key,
    group,
    designations,
    condition,
    kienzle,
    hardnessHB: hb,
    handbookKind,
    combustible,
    path: `built-in.${key}`,
  };
}
