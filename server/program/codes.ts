/**
 * G and M codes by modal group. Codes are held × 10, so that G59.1 is 591.
 * Groups: NISTIR 6556 table 4, widened by the codes of general milling controls (common practice, no source).
 */

export const GROUP = {
  unknown: 0,
  motion: 1,
  cycle: 2,
  plane: 3,
  distance: 4,
  feedMode: 5,
  units: 6,
  comp: 7,
  length: 8,
  returnMode: 9,
  wcs: 10,
  path: 11,
  speedMode: 12,
  arcDistance: 13,
  scaling: 14,
  rotation: 15,
  mirror: 16,
  polar: 17,
  macro: 18,
  /** Non-modal. */
  once: 20,
} as const;

/** For messages: what the codes of a group rule. */
export const GROUP_NAMES: readonly string[] = [
  "",
  "motion",
  "cycle",
  "plane",
  "distance mode",
  "feed mode",
  "units",
  "cutter compensation",
  "tool length offset",
  "return level",
  "work coordinate system",
  "path control",
  "spindle speed mode",
  "arc distance mode",
  "scaling",
  "rotation",
  "mirror image",
  "polar coordinates",
  "modal macro",
];

const NIST_GROUPS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  [GROUP.once, [40, 100, 280, 300, 530, 920, 921, 922, 923]],
  [GROUP.motion, [0, 10, 20, 30, 382]],
  [GROUP.cycle, [800, 810, 820, 830, 840, 850, 860, 870, 880, 890]],
  [GROUP.plane, [170, 180, 190]],
  [GROUP.distance, [900, 910]],
  [GROUP.feedMode, [930, 940]],
  [GROUP.units, [200, 210]],
  [GROUP.comp, [400, 410, 420]],
  [GROUP.length, [430, 490]],
  [GROUP.returnMode, [980, 990]],
  [GROUP.wcs, [540, 550, 560, 570, 580, 590, 591, 592, 593]],
  [GROUP.path, [610, 611, 640]],
];

const MILL_GROUPS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  ...NIST_GROUPS,
  [GROUP.once, [90, 110, 270, 290, 310, 370, 520, 600, 650]],
  [GROUP.motion, [330]],
  [GROUP.cycle, [730, 740, 760]],
  [GROUP.feedMode, [950]],
  [GROUP.length, [440]],
  [GROUP.wcs, [541]],
  [GROUP.path, [620, 630]],
  [GROUP.speedMode, [960, 970]],
  [GROUP.arcDistance, [901, 911]],
  [GROUP.scaling, [500, 510]],
  [GROUP.rotation, [680, 690]],
  [GROUP.mirror, [501, 511]],
  [GROUP.polar, [150, 160]],
  [GROUP.macro, [660, 661, 670]],
];

const LIMIT = 10_000;

function table(groups: typeof NIST_GROUPS): Uint8Array {
  const column = new Uint8Array(LIMIT);
  for (const [group, codes] of groups) for (const code of codes) column[code] = group;
  return column;
}

const NIST_TABLE = table(NIST_GROUPS);
const MILL_TABLE = table(MILL_GROUPS);

/** Group of each G code × 10 in one dialect. Cycle codes are the dialect's own. */
export function groupTable(strict: boolean, cycles: Iterable<number>, unitsCodes: string): Uint8Array {
  const column = (strict ? NIST_TABLE : MILL_TABLE).slice();
  for (let code = 730; code < 900; code++)
    if (column[code] === GROUP.cycle && code !== 800) column[code] = GROUP.unknown;
  for (const code of cycles) if (code >= 0 && code < LIMIT) column[code] = GROUP.cycle;
  if (unitsCodes !== "G20/G21") {
    column[700] = GROUP.units;
    column[710] = GROUP.units;
  }
  if (unitsCodes === "G70/G71") {
    column[200] = GROUP.unknown;
    column[210] = GROUP.unknown;
  }
  return column;
}

export function groupOf(table: Uint8Array, code: number): number {
  return code >= 0 && code < LIMIT ? (table[code] ?? GROUP.unknown) : GROUP.unknown;
}

/** `G59.1` from 591. */
export function gName(code: number): string {
  return code % 10 === 0 ? `G${code / 10}` : `G${Math.floor(code / 10)}.${code % 10}`;
}

export const M_GROUP = { other: 0, stop: 4, change: 6, spindle: 7, coolant: 8, override: 9, call: 10 } as const;

/** Group of an M code; a repeated group in a block is an error of the NIST report (3.3.5). */
export function mGroup(code: number): number {
  switch (code) {
    case 0:
    case 1:
    case 2:
    case 30:
    case 60:
      return M_GROUP.stop;
    case 6:
      return M_GROUP.change;
    case 3:
    case 4:
    case 5:
      return M_GROUP.spindle;
    case 7:
    case 8:
    case 9:
      return M_GROUP.coolant;
    case 48:
    case 49:
      return M_GROUP.override;
    case 97:
    case 98:
    case 99:
      return M_GROUP.call;
    default:
      return M_GROUP.other;
  }
}

/** M codes that need no remark on a milling machine although they change nothing that is followed here. */
export const QUIET_M: ReadonlySet<number> = new Set([10, 11, 13, 14, 17, 19, 29, 40, 41, 42, 43, 44, 45, 48, 49, 60]);
