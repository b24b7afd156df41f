/**
 * Hardness and strength into Brinell, the scale that the handbook method and the material groups use.
 *
 * Sources:
 * - HRC, HB (HBW), HV pairs 20 to 60 HRC: from memory of ASTM E140, table 1 (non-austenitic steels).
 * - Strength below 20 HRC: a hardness and tensile comparison table, read (121 HB 60 ksi ... 201 HB 98 ksi).
 * - Strength 111 to 285 ksi, 229 to 555 HB: the same table, read.
 * ISO 18265: converted values hold strictly only for the material tested, those from strength least of all. Austenitic
 * steels, cast iron and aluminium have tables of their own (ASTM E140), so a converted value there is an estimate.
 */
import type { ReadHardness } from "./schema/node.ts";

/** [HRC, HB, HV], from memory of ASTM E140 table 1. */
const ROCKWELL: readonly (readonly [hrc: number, hb: number, hv: number])[] = [
  [20, 226, 238],
  [25, 253, 266],
  [30, 286, 302],
  [35, 327, 345],
  [40, 371, 392],
  [45, 421, 446],
  [50, 481, 513],
  [55, 560, 595],
  [60, 654, 697],
];

/** [ksi, HB], read in a hardness and tensile comparison table. */
const STRENGTH: readonly (readonly [ksi: number, hb: number])[] = [
  [60, 121],
  [73, 149],
  [79, 163],
  [90, 187],
  [98, 201],
  [111, 229],
  [126, 255],
  [141, 285],
  [160, 321],
  [166, 331],
  [188, 375],
  [210, 415],
  [217, 429],
  [243, 477],
  [285, 555],
];

const KSI = 6.894757;

const EXPECTED = "expected a hardness with its scale, such as 290 HB, 32 HRC, 300 HV, 990 MPa or 140 ksi";

const SCALES: Readonly<Record<string, "HB" | "HRC" | "HV" | "MPa" | "ksi">> = {
  HB: "HB",
  HBW: "HB",
  HBS: "HB",
  BHN: "HB",
  HRC: "HRC",
  RC: "HRC",
  HV: "HV",
  MPA: "MPa",
  "N/MM2": "MPa",
  "N/MM²": "MPa",
  KSI: "ksi",
};

/** Reads `290 HB`, `HRC 32`, `990 MPa`. @returns Brinell, or a sentence that says what was expected. */
export function parseHardness(written: string | number): ReadHardness | string {
  const text = String(written).trim();
  const match = /^(?:(\d+(?:\.\d+)?)\s*([A-Za-z][A-Za-z0-9/²]*)|([A-Za-z][A-Za-z0-9/²]*)\s*(\d+(?:\.\d+)?))$/.exec(
    text,
  );
  if (match === null) {
    const bare = /^\d+(\.\d+)?$/.test(text);
    return bare ? `${EXPECTED}, got the bare number ${text}` : `${EXPECTED}, got "${text}"`;
  }
  const number = Number(match[1] ?? match[4]);
  const scaleText = match[2] ?? match[3] ?? "";
  const scale = SCALES[scaleText.toUpperCase()];
  if (scale === undefined) return `"${scaleText}" is no hardness scale: ${EXPECTED}`;
  return toBrinell(number, scale, text);
}

function toBrinell(number: number, scale: "HB" | "HRC" | "HV" | "MPa" | "ksi", text: string): ReadHardness | string {
  switch (scale) {
    case "HB":
      return number >= 15 && number <= 750 ? { hb: number, text, note: "" } : `expected 15 to 750 HB, got ${text}`;
    case "HRC":
      return convert(
        number,
        ROCKWELL.map(([hrc, hb]) => [hrc, hb] as const),
        text,
        "20 to 60 HRC",
        "from HRC, from memory of ASTM E140 table 1 (steels)",
      );
    case "HV": {
      // Below the table Vickers and Brinell run close together; the table's own first ratio is carried down.
      if (number >= 80 && number < 238)
        return {
          hb: round((number * 226) / 238),
          text,
          note: "from HV by the ratio at 238 HV, from memory of ASTM E140 table 1",
        };
      return convert(
        number,
        ROCKWELL.map(([, hb, hv]) => [hv, hb] as const),
        text,
        "80 to 697 HV",
        "from HV, from memory of ASTM E140 table 1 (steels)",
      );
    }
    case "MPa":
      return convert(number / KSI, STRENGTH, text, "414 to 1965 MPa", STRENGTH_NOTE);
    case "ksi":
      return convert(number, STRENGTH, text, "60 to 285 ksi", STRENGTH_NOTE);
  }
}

const STRENGTH_NOTE = "from strength by a comparison table for steels, the least reliable conversion (ISO 18265)";

function convert(
  x: number,
  table: readonly (readonly [number, number])[],
  text: string,
  range: string,
  note: string,
): ReadHardness | string {
  const hb = interpolate(x, table, 0, 1);
  return hb === null
    ? `expected ${range}, the range of the conversion table, got ${text}`
    : { hb: round(hb), text, note };
}

function interpolate(x: number, table: readonly (readonly number[])[], from: 0 | 1 | 2, to: 0 | 1 | 2): number | null {
  for (let i = 1; i < table.length; i++) {
    const a = table[i - 1];
    const b = table[i];
    const [x0, y0, x1, y1] = [a?.[from], a?.[to], b?.[from], b?.[to]];
    if (x0 === undefined || x1 === undefined || y0 === undefined || y1 === undefined) continue;
    // Half a unit of leeway: 414 MPa is the table's 60 ksi.
    if (x >= x0 - 0.5 && x <= x1 + 0.5) return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
  }
  return null;
}

const round = (value: number): number => Math.round(value);

/** A Brinell value in the other scales, for hovers: `290 HB, about 30 HRC, 306 HV, 987 MPa, 143 ksi`. */
export function sayHardness(hb: number): string {
  const hrc = interpolate(hb, ROCKWELL, 1, 0);
  const hv = interpolate(hb, ROCKWELL, 1, 2);
  const ksi = interpolate(hb, STRENGTH, 1, 0);
  const parts = [
    hrc === null ? null : `${round(hrc)} HRC`,
    hv === null ? null : `${round(hv)} HV`,
    ksi === null ? null : `${round(ksi * KSI)} MPa`,
    ksi === null ? null : `${round(ksi)} ksi`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? `${hb} HB` : `${hb} HB, about ${parts.join(", ")} (steels)`;
}
