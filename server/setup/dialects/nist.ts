/**
 * The language of the NIST RS274/NGC interpreter, version 3.
 * Source: NISTIR 6556 (Kramer, Proctor, Messina, 2000; public domain). Values marked "reference" are the behaviour of the
 * reference interpreter that goes with the report, where the report is silent.
 */
import type { Dialect } from "../dialect.ts";

export const nist: Dialect = {
  name: "nist",
  // An integer is just that value in the units in force (3.3.2.1).
  decimalMode: "calculator",
  incrementSystem: "B",
  decimalAddresses: "XYZUVWABCIJKRQE",
  qUnit: "length",
  // G4, G82, G86, G88, G89: P in seconds (3.5.4).
  dwellP: "s",
  dwellLetters: "P",
  unitsCodes: "G20/G21",
  // One of G20/G21 is advised near the start (3.5.7); the report names no start value.
  defaultUnits: "unknown",
  feedOnModeChange: "keep-number",
  g93: "inverse-minutes",
  semicolonComments: false,
  blockDelete: "first-only",
  repeatWord: "error",
  maxMPerBlock: 4,
  lineLength: 256,
  nDigits: 5,
  // The report's alphabet is A-D, F-N, P-T, X-Z (appendix E).
  forbiddenLetters: "EOUVW",
  programNumbers: false,
  nestedComments: "error",
  openComment: "error",
  // Table 8: spindle and coolant before the motion, M5 and M9 too.
  mTiming: "all-before",
  tM6SameBlock: "loads-this",
  assign: "parallel",
  cycleGroupSeparate: false,
  afterG80: "none",
  // Reference: no motion mode at the start.
  startMotion: "none",
  bareMotionCode: "error",
  unusedWords: "error",
  cycles: new Map([
    [810, "drill"],
    [820, "dwell-drill"],
    [830, "peck"],
    [840, "tap"],
    [850, "bore"],
    [860, "bore"],
    [870, "back-bore"],
    [880, "bore"],
    [890, "bore"],
  ]),
  cycleDataScope: "same-code",
  stickyKind: "number",
  pRequired: true,
  initialLevel: "before-block",
  g91RReference: "current-z",
  repeatLetters: "L",
  repeatZero: "error",
  cycleWithoutXy: "drill",
  planeInCycle: "reuse",
  peckRetract: "clear",
  // Reference: 0.010 inch.
  peckClearance: 0.254,
  chipBreakRetract: 0.254,
  // Reference: not set at the start.
  returnDefault: "unknown",
  g28Axes: "all",
  g28Bare: "all-axes",
  g53InG91: "error",
  rapidPath: "linear",
  tloWord: "H",
  hEqualsT: "advisory",
  m6StopsSpindle: true,
  m6StopsCoolant: false,
  m6CancelsTlo: false,
  m6RetractsZ: false,
  coolantOn: new Map([
    ["M7", "mist"],
    ["M8", "flood"],
  ]),
  coolantOff: new Set(["M9"]),
  spindleCoolant: new Map(),
  tapNeedsSpindle: true,
  unknownCode: "error",
  fix: "floor",
  logic: "logical",
  andPrecedence: "add",
  programEnd: "required",
  stockTop: 0,
};
