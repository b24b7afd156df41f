/**
 * G and M codes by modal group. Codes are held × 10, so that G59.1 is 591.
 * Groups: NISTIR 6556 table 4, widened by the codes of general milling and turning controls (common practice, no
 * source).
 */
import type { CycleKind, Dialect, WcsCode } from "../setup/dialect.ts";

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
  /** Of the machine's builder, named by the setup. */
  custom: 21,
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
  [GROUP.path, [620, 630]],
  [GROUP.speedMode, [960, 970]],
  [GROUP.arcDistance, [901, 911]],
  [GROUP.scaling, [500, 510]],
  [GROUP.rotation, [680, 690]],
  [GROUP.mirror, [501, 511]],
  [GROUP.polar, [150, 160]],
  [GROUP.macro, [660, 661, 670]],
];

/** What both systems of turning codes share. */
const TURN_GROUPS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  [GROUP.once, [40, 90, 100, 110, 270, 280, 300, 310, 500, 520, 530, 650]],
  [GROUP.motion, [0, 10, 20, 30]],
  [GROUP.cycle, [800]],
  [GROUP.plane, [170, 180, 190]],
  [GROUP.units, [200, 210]],
  [GROUP.comp, [400, 410, 420]],
  [GROUP.path, [610, 640]],
  [GROUP.speedMode, [960, 970]],
  [GROUP.macro, [660, 661, 670]],
];

/** G98 and G99 are feed modes; there is no G90 and G91, increments are U, W and H. */
const TURN_A_GROUPS: typeof TURN_GROUPS = [...TURN_GROUPS, [GROUP.feedMode, [980, 990]]];

const TURN_B_GROUPS: typeof TURN_GROUPS = [
  ...TURN_GROUPS,
  [GROUP.once, [920, 921, 922, 923]],
  [GROUP.distance, [900, 910]],
  [GROUP.feedMode, [940, 950]],
  [GROUP.returnMode, [980, 990]],
];

/** Turning cycles of `turn-A` and threading moves of both: read, their cuts not worked out. */
const TURNING_CYCLES: readonly number[] = [320, 330, 340];
const TURN_A_CYCLES: readonly number[] = [...TURNING_CYCLES, 900, 920, 940];

const LIMIT = 10_000;

function table(groups: typeof NIST_GROUPS): Uint8Array {
  const column = new Uint8Array(LIMIT);
  for (const [group, codes] of groups) for (const code of codes) column[code] = group;
  return column;
}

const TABLES = {
  nist: table(NIST_GROUPS),
  mill: table(MILL_GROUPS),
  "turn-A": table(TURN_A_GROUPS),
  "turn-B": table(TURN_B_GROUPS),
} as const;

const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: (to - from) / step + 1 }, (_, i) => from + i * step);

/** Codes of each family of work coordinate systems. */
const WCS_FAMILIES: { readonly [C in WcsCode]: readonly number[] } = {
  G54: range(540, 590, 10),
  "G54.1": [541],
  "G59.1": [591, 592, 593],
  G110: range(1100, 1290, 10),
  G154: [1540],
};

/** What a cycle code does in a dialect; undefined: it is no cycle code there. */
export function cycleKind(dialect: Dialect, code: number): CycleKind | undefined {
  const kind = dialect.cycles.get(code);
  if (kind !== undefined) return kind;
  if (dialect.rigidTap === "codes" && (code === 842 || code === 843)) return code === 842 ? "tap" : "tap-left";
  return turningCycles(dialect).includes(code) ? "turning" : undefined;
}

function turningCycles(dialect: Dialect): readonly number[] {
  if (dialect.machineKind === "mill") return [];
  return dialect.machineKind === "turn-A" ? TURN_A_CYCLES : TURNING_CYCLES;
}

/** Group of each G code × 10 in one dialect. Cycle codes are the dialect's own. */
export function groupTable(dialect: Dialect): Uint8Array {
  const strict = dialect.name === "nist" || !dialect.cycleGroupSeparate;
  const mill = strict ? "nist" : "mill";
  const column = TABLES[dialect.machineKind === "mill" ? mill : dialect.machineKind].slice();
  for (let code = 0; code < LIMIT; code++)
    if (column[code] === GROUP.wcs || (column[code] === GROUP.cycle && code !== 800)) column[code] = GROUP.unknown;
  for (const family of dialect.wcsCodes) for (const code of WCS_FAMILIES[family]) column[code] = GROUP.wcs;
  if (dialect.unitsCodes !== "G20/G21") {
    column[700] = GROUP.units;
    column[710] = GROUP.units;
  }
  if (dialect.unitsCodes === "G70/G71") {
    column[200] = GROUP.unknown;
    column[210] = GROUP.unknown;
  }
  for (const code of [...dialect.cycles.keys(), 842, 843, ...turningCycles(dialect)]) {
    const units = dialect.unitsCodes !== "G20/G21" && (code === 700 || code === 710);
    if (code >= 0 && code < LIMIT && !units && cycleKind(dialect, code) !== undefined) column[code] = GROUP.cycle;
  }
  for (const code of dialect.customG.keys()) if (code >= 0 && code < LIMIT) column[code] = GROUP.custom;
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
