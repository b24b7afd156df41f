/**
 * What a control does differently from others: data, not code. Three ready dialects, `nist` (NISTIR 6556, public
 * domain), `generic-mill` and `generic-turn` (common practice of milling and turning controls). A setup inherits one and
 * changes keys.
 *
 * `undeclared` is a value of keys whose readings lie far apart: a documented reading is used, and the program is told
 * once where the other would make a difference.
 */
import type { CoolantKind } from "./types.ts";

export type CycleKind =
  | "drill"
  | "dwell-drill"
  | "peck"
  | "chip-break"
  | "tap"
  | "tap-left"
  | "bore"
  | "fine-bore"
  | "back-bore"
  /** G74 of turning controls: pecks along Z from where the tool stands. */
  | "face-peck"
  /** A turning cycle: read, its cuts not worked out. */
  | "turning";

/** Families of work coordinate systems: the code or range that names each. */
export type WcsCode = "G54" | "G54.1" | "G59.1" | "G110" | "G154";
export type G10Form = "L2" | "L20" | "L10" | "L11" | "L12" | "L13" | "L50";
export type EndCode = "M2" | "M30" | "M99";

export interface Dialect {
  readonly name: string;
  /** `turn-A`: G98 and G99 are feed modes, G90, G92 and G94 turning cycles. `turn-B`: these codes as on a mill. */
  readonly machineKind: "mill" | "turn-A" | "turn-B";
  /** Undeclared: read as calculator. */
  readonly decimalMode: "calculator" | "least-increment" | "undeclared";
  readonly incrementSystem: "A" | "B" | "C";
  readonly decimalAddresses: string;
  /** F without a decimal point: the plain number, or so many steps of `feedIncrements`. */
  readonly feedWithoutPoint: "plain" | "scaled";
  /** mm/min, in/min, mm/rev and in/rev of one step. */
  readonly feedIncrements: {
    readonly mmPerMin: number;
    readonly inPerMin: number;
    readonly mmPerRev: number;
    readonly inPerRev: number;
  };
  /** Unit of a bare Q in a peck cycle. */
  readonly qUnit: "length" | "micrometre";
  /** Undeclared: read as milliseconds. */
  readonly dwellP: "s" | "ms" | "undeclared";
  readonly dwellLetters: string;
  readonly unitsCodes: "G20/G21" | "G70/G71" | "both";
  readonly defaultUnits: "mm" | "inch" | "unknown";
  readonly unitsChangeFeed: "keep-number" | "convert";
  readonly startFeedMode: "per-minute" | "per-rev";
  readonly startPlane: "G17" | "G18" | "G19";
  readonly feedOnModeChange: "keep-number" | "require-new" | "per-mode";
  readonly g93: "inverse-minutes" | "seconds";
  readonly semicolonComments: boolean;
  readonly parenComments: boolean;
  readonly blockDelete: "first-only" | "any-position" | "numbered";
  readonly repeatWord: "error" | "last-wins";
  readonly maxMPerBlock: number;
  readonly lineLength: number;
  readonly nDigits: number;
  readonly oDigits: number;
  /** Letters that mean nothing to this control. */
  readonly forbiddenLetters: string;
  readonly programNumbers: boolean;
  readonly nestedComments: "error" | "first-close";
  readonly openComment: "error" | "warning";
  readonly mTiming: "iso" | "all-before";
  readonly tM6SameBlock: "loads-this" | "loads-previous";
  readonly assign: "parallel" | "sequential";
  /** G80–G89 in a group of their own, so that `G0 … G80` is legal. */
  readonly cycleGroupSeparate: boolean;
  readonly afterG80: "none" | "previous-group1" | "G0";
  readonly startMotion: "none" | "G0" | "G1";
  /** Bare G0/G1 without axis words is accepted as a mode set. */
  readonly bareMotionCode: "error" | "mode";
  readonly unusedWords: "error" | "ignore";
  /** G code × 10 → kind. */
  readonly cycles: ReadonlyMap<number, CycleKind>;
  readonly cycleDataScope: "same-code" | "until-g80";
  readonly stickyKind: "number" | "position";
  readonly pRequired: boolean;
  /** A peck cycle without any Q: a mistake, or one stroke. */
  readonly peckWithoutQ: "error" | "drill";
  /** R of a cycle in G90: a position, or the way from the initial level. Undeclared: read as a position. */
  readonly cycleR: "absolute" | "from-initial" | "undeclared";
  readonly initialLevel: "before-block" | "before-run";
  readonly g91RReference: "current-z" | "initial-level";
  readonly repeatLetters: string;
  readonly repeatZero: "error" | "store-only";
  readonly cycleWithoutXy: "drill" | "store";
  readonly planeInCycle: "reuse" | "error";
  readonly peckRetract: "R" | "clear";
  /** mm */
  readonly peckClearance: number;
  /** mm */
  readonly chipBreakRetract: number;
  /** What shifts the tool before G76 and G87 leave the bore. `Q`: its way is a parameter, I and J tell it. */
  readonly g76Shift: "Q" | "Q+X" | "Q-X" | "Q+Y" | "Q-Y" | "IJ";
  readonly returnDefault: "G98" | "G99" | "unknown";
  readonly g28Axes: "named-only" | "all";
  readonly g28Bare: "all-axes" | "nothing" | "error";
  readonly g53InG91: "error" | "absolute";
  /** Whether a G53 move in Z places the spindle (the length is ignored) or the tool. */
  readonly g53AndTlo: "ignores-tlo" | "uses-tlo";
  readonly rapidPath: "linear" | "dogleg";
  readonly tloWord: "H" | "D" | "auto";
  /** G43 without Z: the reading changes and the next Z moves, or the axis moves at once. */
  readonly tloApply: "with-z" | "immediate";
  readonly hEqualsT: "required" | "advisory" | "off";
  readonly m6StopsSpindle: boolean;
  readonly m6StopsCoolant: boolean;
  /** M0 and M1 stop the coolant until the start. */
  readonly m0StopsCoolant: boolean;
  /** M2 and M30 stop the spindle and the coolant. */
  readonly endStopsSpindle: boolean;
  readonly m6CancelsTlo: boolean;
  readonly m6RetractsZ: boolean;
  /** `M8` → kind, and the codes that switch all off. */
  readonly coolantOn: ReadonlyMap<string, CoolantKind>;
  readonly coolantOff: ReadonlySet<string>;
  /** `M13` → cw + M8, `M14` → ccw + M8. */
  readonly spindleCoolant: ReadonlyMap<string, { readonly direction: "cw" | "ccw"; readonly coolant: string }>;
  readonly tapNeedsSpindle: boolean;
  /** What makes a tapping cycle run the spindle itself. `codes`: G84.2 and G84.3. */
  readonly rigidTap: "none" | "m29-before" | "m29-in-block" | "always" | "codes";
  readonly wcsCodes: ReadonlySet<WcsCode>;
  readonly g10Forms: ReadonlySet<G10Form>;
  /** `M98 P1002 L5`, `M98 P51002`, or both. */
  readonly subCallForm: "P-L" | "PkkkNnnn" | "both";
  /** Levels of calls: G65 and G66, M98. */
  readonly maxNesting: { readonly macro: number; readonly sub: number };
  /** Undeclared: read as hash-iso, and o words are run as well. */
  readonly macroDialect: "none" | "hash-iso" | "o-word" | "undeclared";
  /** Blocks and holes that loops, jumps, calls and repeats may make beyond once through the text. */
  readonly maxLoopSteps: number;
  /** G code × 10 or M code → `ignore`, or what the machine's builder gave it to do. */
  readonly customG: ReadonlyMap<number, string>;
  readonly customM: ReadonlyMap<number, string>;
  readonly unknownCode: "error" | "warn" | "ignore";
  readonly fix: "magnitude" | "floor";
  readonly logic: "bitwise" | "logical";
  readonly andPrecedence: "mul" | "add";
  readonly programEnd: "required" | "optional";
  /** Codes that end the main program. */
  readonly endCodes: ReadonlySet<EndCode>;
  /** X words are diameters. Depths and lengths of holes are true lengths all the same. */
  readonly diameterX: boolean;
  /** U, W and H are increments of X, Z and C. */
  readonly incrementalWords: boolean;
  /** `tool-offset`: the last two digits of T are the offset, T0202. */
  readonly toolWord: "tool" | "tool-offset";
  readonly toolLoadedBy: "M6" | "T";
  /** M code → what it does to the spindle of driven tools. */
  readonly liveSpindle: ReadonlyMap<string, "cw" | "ccw" | "stop">;
  /** mm: height of the surface in program coordinates where no stock is declared. */
  readonly stockTop: number;
  /** mm: underside of the part in program coordinates where no stock is declared; null: not declared. */
  readonly stockBottom: number | null;
  /** mm: least distance of R above the surface; null: not checked. */
  readonly clearanceMin: number | null;
  /** mm: height of the clamps in program coordinates; null: not checked. */
  readonly clampHeight: number | null;
  /** mm; null: not checked. */
  readonly travel: { readonly x: number | null; readonly y: number | null; readonly z: number | null };
  /** Places for tools; null: not checked. */
  readonly toolCount: number | null;
  /** 1/min; null: not checked. */
  readonly minRpm: number | null;
}

/** Whether the work turns rather than the tool. */
export const turns = (dialect: Dialect): boolean => dialect.machineKind !== "mill";

/** The code of a feed mode as this dialect writes it. */
export function feedModeCode(dialect: Dialect, mode: 93 | 94 | 95): string {
  if (dialect.machineKind !== "turn-A" || mode === 93) return `G${mode}`;
  return mode === 95 ? "G99" : "G98";
}
