/**
 * What a control does differently from others: data, not code. Two ready dialects, `nist` (NISTIR 6556, public domain)
 * and `generic-mill` (common practice of milling controls). A setup inherits one and changes keys.
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
  | "back-bore";

export interface Dialect {
  readonly name: string;
  readonly decimalMode: "calculator" | "least-increment";
  readonly incrementSystem: "A" | "B" | "C";
  readonly decimalAddresses: string;
  /** Unit of a bare Q in a peck cycle. */
  readonly qUnit: "length" | "micrometre";
  readonly dwellP: "s" | "ms";
  readonly dwellLetters: string;
  readonly unitsCodes: "G20/G21" | "G70/G71" | "both";
  readonly defaultUnits: "mm" | "inch" | "unknown";
  readonly feedOnModeChange: "keep-number" | "require-new" | "per-mode";
  readonly g93: "inverse-minutes" | "seconds";
  readonly semicolonComments: boolean;
  readonly blockDelete: "first-only" | "numbered";
  readonly repeatWord: "error" | "last-wins";
  readonly maxMPerBlock: number;
  readonly lineLength: number;
  readonly nDigits: number;
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
  readonly returnDefault: "G98" | "G99" | "unknown";
  readonly g28Axes: "named-only" | "all";
  readonly g28Bare: "all-axes" | "nothing" | "error";
  readonly g53InG91: "error" | "absolute";
  readonly rapidPath: "linear" | "dogleg";
  readonly tloWord: "H" | "D" | "auto";
  readonly hEqualsT: "required" | "advisory" | "off";
  readonly m6StopsSpindle: boolean;
  readonly m6StopsCoolant: boolean;
  readonly m6CancelsTlo: boolean;
  readonly m6RetractsZ: boolean;
  /** `M8` → kind, and the codes that switch all off. */
  readonly coolantOn: ReadonlyMap<string, CoolantKind>;
  readonly coolantOff: ReadonlySet<string>;
  /** `M13` → cw + M8, `M14` → ccw + M8. */
  readonly spindleCoolant: ReadonlyMap<string, { readonly direction: "cw" | "ccw"; readonly coolant: string }>;
  readonly tapNeedsSpindle: boolean;
  readonly unknownCode: "error" | "warn" | "ignore";
  readonly fix: "magnitude" | "floor";
  readonly logic: "bitwise" | "logical";
  readonly andPrecedence: "mul" | "add";
  readonly programEnd: "required" | "optional";
  /** mm: height of the surface in program coordinates where no stock is declared. */
  readonly stockTop: number;
}
