/**
 * The motions of one cycle at one place, after the preliminary motion to R. NISTIR 6556 3.5.16 for G81 to G89; the
 * others and the variations are common practice, by the dialect's keys.
 */
import type { CycleKind, Dialect } from "../setup/dialect.ts";

export type CycleMove =
  | { readonly kind: "rapid" | "feed"; readonly to: number }
  | { readonly kind: "dwell"; readonly seconds: number }
  /** 0 stop, 1 cw, 2 ccw. */
  | { readonly kind: "spindle"; readonly direction: 0 | 1 | 2 }
  /** Sideways by the shift, or back. */
  | { readonly kind: "shift"; readonly on: boolean }
  | { readonly kind: "stop" };

export interface PlannedStroke {
  readonly from: number;
  readonly to: number;
}

export interface CyclePlan {
  readonly moves: readonly CycleMove[];
  readonly strokes: readonly PlannedStroke[];
  readonly dwell: number;
  /** Where the tool is left. */
  readonly end: number;
}

export interface CycleNumbers {
  readonly code: number;
  readonly kind: CycleKind;
  readonly r: number;
  readonly z: number;
  readonly q: number;
  readonly p: number;
  /** K of the NIST back bore: the level it bores up to. */
  readonly k: number;
  /** Return level by G98 or G99; NaN unknown. */
  readonly clear: number;
  /** Direction before the cycle. */
  readonly spindle: 0 | 1 | 2;
  /** Retract between pecks where the program sets it; NaN: that of the dialect. mm */
  readonly back: number;
  /** The tapping cycle runs the spindle itself. */
  readonly rigid: boolean;
}

/** Peck depths do not come out exact in binary: 0.2 - 5 × 0.21. */
const TOLERANCE = 1e-7;
/** More pecks than this in one hole are a mistake in Q, not a way of drilling. */
export const MOST_PECKS = 10_000;

export function planCycle(numbers: CycleNumbers, dialect: Dialect): CyclePlan {
  const plan = new Planner(numbers);
  const { r, z, clear, p, kind } = numbers;
  switch (kind) {
    case "drill":
      plan.feed(z);
      break;
    case "dwell-drill":
      plan.feed(z);
      plan.dwell(p);
      break;
    case "peck":
    case "chip-break":
      pecks(plan, numbers, dialect);
      break;
    case "tap":
    case "tap-left": {
      // The reverse of how it turns; a rigid tap starts and stops the spindle itself.
      const forward = kind === "tap" ? 1 : 2;
      if (numbers.rigid) plan.spindle(forward);
      plan.feed(z);
      plan.dwell(p);
      plan.spindle(0);
      plan.spindle(forward === 1 ? 2 : 1);
      plan.feed(dialect.peckRetract === "clear" ? clear : r);
      plan.spindle(0);
      if (!numbers.rigid) plan.spindle(forward);
      break;
    }
    case "bore":
      bore(plan, numbers, dialect);
      break;
    case "fine-bore":
      plan.feed(z);
      plan.dwell(p);
      plan.spindle(0);
      plan.shift(true);
      plan.rapid(clear);
      plan.shift(false);
      plan.spindle(numbers.spindle);
      break;
    case "back-bore":
      backBore(plan, numbers, dialect);
      break;
    case "face-peck":
    case "turning":
      // G74 is planned as a chip break; a turning cycle makes no hole.
      break;
  }
  plan.rapid(clear);
  return plan.done();
}

function pecks(plan: Planner, { r, z, q, p, kind, clear, back }: CycleNumbers, dialect: Dialect): void {
  const chipBreak = Number.isNaN(back) ? dialect.chipBreakRetract : back;
  const retract = dialect.peckRetract === "R" ? r : clear;
  const count = Math.ceil((r - z) / q - TOLERANCE);
  for (let i = 1; i < count && i < MOST_PECKS; i++) {
    const depth = r - i * q;
    plan.feed(depth);
    if (kind === "chip-break") plan.rapid(Math.min(depth + chipBreak, r));
    else {
      plan.rapid(retract);
      plan.rapid(Math.min(depth + dialect.peckClearance, r));
    }
  }
  plan.feed(z);
  plan.dwell(p);
}

function bore(plan: Planner, { code, r, z, p, clear, spindle }: CycleNumbers, dialect: Dialect): void {
  plan.feed(z);
  switch (code) {
    case 860:
      plan.dwell(p);
      plan.spindle(0);
      plan.rapid(clear);
      plan.spindle(spindle);
      return;
    case 880:
      plan.dwell(p);
      plan.spindle(0);
      plan.stop();
      plan.rapid(clear);
      plan.spindle(spindle);
      return;
    case 890:
      plan.dwell(p);
      break;
    default:
      break;
  }
  // The NIST language feeds out to the return level; elsewhere the feed ends at R.
  plan.feed(dialect.peckRetract === "clear" ? clear : r);
}

function backBore(plan: Planner, { r, z, k, p, spindle }: CycleNumbers, dialect: Dialect): void {
  const strict = dialect.unusedWords === "error";
  const bottom = strict ? z : r;
  plan.shift(true);
  plan.spindle(0);
  plan.rapid(bottom);
  plan.shift(false);
  plan.spindle(spindle);
  plan.feed(strict ? k : z);
  plan.dwell(p);
  if (strict) plan.feed(z);
  plan.spindle(0);
  plan.shift(true);
}

class Planner {
  readonly #moves: CycleMove[] = [];
  readonly #strokes: PlannedStroke[] = [];
  readonly #numbers: CycleNumbers;
  #at: number;
  #dwell = 0;
  #shifted = false;

  constructor(numbers: CycleNumbers) {
    this.#numbers = numbers;
    this.#at = numbers.r;
  }

  #sameLevel(to: number): boolean {
    return to === this.#at || Math.abs(to - this.#at) < 1e-9;
  }

  rapid(to: number): void {
    if (this.#sameLevel(to)) return;
    this.#moves.push({ kind: "rapid", to });
    this.#at = to;
  }

  feed(to: number): void {
    if (this.#sameLevel(to)) return;
    this.#moves.push({ kind: "feed", to });
    const up = this.#numbers.kind === "back-bore";
    if (up ? to > this.#at : to < this.#at) this.#strokes.push({ from: this.#at, to });
    this.#at = to;
  }

  dwell(seconds: number): void {
    if (!(seconds > 0)) return;
    this.#moves.push({ kind: "dwell", seconds });
    this.#dwell = seconds;
  }

  spindle(direction: 0 | 1 | 2): void {
    this.#moves.push({ kind: "spindle", direction });
  }

  shift(on: boolean): void {
    if (this.#shifted === on) return;
    this.#shifted = on;
    this.#moves.push({ kind: "shift", on });
  }

  stop(): void {
    this.#moves.push({ kind: "stop" });
  }

  done(): CyclePlan {
    if (this.#shifted) {
      this.shift(false);
      this.spindle(this.#numbers.spindle);
    }
    return { moves: this.#moves, strokes: this.#strokes, dwell: this.#dwell, end: this.#at };
  }
}
