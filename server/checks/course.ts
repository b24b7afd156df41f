/**
 * The course of a program as a person follows it with a finger: which codes come when, whether a cycle is active, and how
 * high the tool stands. One pass over the steps, made once for all checks that ask about the order of things.
 *
 * It reads words, not states: the full state of a step costs a look-up for each of its values, and ten thousand of them
 * more than all checks together. A check that fires confirms with the state of that one step. Heights are those of the
 * execution, which knows what R and Z mean to the control. They count as unknown from a move home, a tool change, a length
 * offset or a shift up to the next Z in G90, and what is unknown keeps a check silent. Turning codes of system A mean
 * other things; there the course is empty.
 */
import { type Blocks, ITEM, POLAR_WORDS, VALUE } from "../../grammar/blocks.ts";
import { cycleKind } from "../program/codes.ts";
import type { CheckContext } from "./types.ts";

/** What stands in a block, as bits. */
export const HAS = {
  rapid: 1 << 0,
  feed: 1 << 1,
  cycle: 1 << 2,
  cancel: 1 << 3,
  home: 1 << 4,
  machineMove: 1 << 5,
  lengthOn: 1 << 6,
  lengthOff: 1 << 7,
  absolute: 1 << 8,
  incremental: 1 << 9,
  setPosition: 1 << 10,
  localShift: 1 << 11,
  shiftOff: 1 << 12,
  writeOffsets: 1 << 13,
  workSystem: 1 << 14,
  stop: 1 << 15,
  spindleOn: 1 << 16,
  spindleOff: 1 << 17,
  toolChange: 1 << 18,
  coolantOn: 1 << 19,
  coolantOff: 1 << 20,
  rigidTap: 1 << 21,
  end: 1 << 22,
  call: 1 << 23,
  returnLevel: 1 << 24,
  units: 1 << 25,
  skipped: 1 << 26,
  tool: 1 << 27,
  otherG: 1 << 28,
} as const;

const LETTER = (name: string): number => 1 << (name.charCodeAt(0) - 65);
export const AXES = LETTER("X") | LETTER("Y") | LETTER("Z");
export const ACROSS = LETTER("X") | LETTER("Y");
export const Z_WORD = LETTER("Z");
const N_WORD = LETTER("N");
/** Numbers of things, and the dwell. */
const COUNTS = LETTER("T") | LETTER("H") | LETTER("D") | LETTER("L") | LETTER("P");

/** A block in which something other than a plain move stands. Lengths in mm; NaN unknown, inside these checks only. */
export interface Moment {
  readonly step: number;
  readonly block: number;
  /** Bits of HAS. */
  readonly has: number;
  /** Bit 0 is A. */
  readonly letters: number;
  /** Height of the tool before and after; NaN unknown. */
  readonly fromZ: number;
  readonly toZ: number;
  /** The spindle head is at a machine position, away from the part. */
  readonly homeBefore: boolean;
  readonly homeAfter: boolean;
  /** G code × 10 of the active cycle, 0 none. */
  readonly cycleBefore: number;
  readonly cycleAfter: number;
  readonly distanceBefore: number;
  readonly distanceAfter: number;
  /** X or Y was written since the last tool change or move home. */
  readonly placed: boolean;
  /** Blocks after it, up to the next moment, that only say where: X and Y. */
  rows: number;
  /** First block after it, up to the next moment, that has an axis word; -1 none. */
  firstRow: number;
}

export interface Course {
  readonly moments: readonly Moment[];
  /** Rapids that go down and across in one block, and rapids across (both with the height at their end). */
  readonly diagonal: readonly Rapid[];
  readonly across: readonly Rapid[];
  /** Words of T, H, D, L and P that are written with a decimal point. */
  readonly points: readonly PointWord[];
}

export interface PointWord {
  readonly block: number;
  readonly letter: string;
  readonly value: number;
  readonly start: number;
  readonly end: number;
}

export interface Rapid {
  readonly step: number;
  readonly block: number;
  readonly fromZ: number;
  readonly toZ: number;
}

const NOTHING: Course = { moments: [], diagonal: [], across: [], points: [] };
const made = new WeakMap<CheckContext, Course>();

export function courseOf(context: CheckContext): Course {
  let course = made.get(context);
  if (course === undefined) {
    course = context.setup.dialect.machineKind === "turn-A" ? NOTHING : new Walker(context).walk();
    made.set(context, course);
  }
  return course;
}

class Walker {
  readonly #context: CheckContext;
  readonly #blocks: Blocks;
  readonly #moments: Moment[] = [];
  readonly #diagonal: Rapid[] = [];
  readonly #across: Rapid[] = [];
  readonly #pointWords: PointWord[] = [];
  /** Rapids across are only of interest where the setup says how high the clamps are. */
  readonly #clamps: number | null;
  readonly #mRetracts: boolean;
  readonly #rIsLevel: boolean;
  readonly #cycles: ReadonlySet<number>;
  readonly #coolantOn: ReadonlySet<number>;
  readonly #coolantOff: ReadonlySet<number>;
  #motion = 0;
  #distance = 90;
  #return: number;
  #cycle = 0;
  #z = Number.NaN;
  /** The height was last written before something that gives it another meaning. */
  #doubt = false;
  /** So it was where the run of cycles began. */
  #initialDoubt = false;
  #home = false;
  #placed = true;
  #wcs = -1;
  // Of the block in hand.
  #has = 0;
  #letters = 0;
  #code = 0;
  #shifted = false;

  constructor(context: CheckContext) {
    const { execution, setup } = context;
    const { dialect } = setup;
    this.#context = context;
    this.#blocks = execution.blocks;
    this.#clamps = dialect.clampHeight;
    this.#mRetracts = dialect.m6RetractsZ;
    this.#rIsLevel = dialect.cycleR !== "from-initial";
    this.#return = dialect.returnDefault === "G99" ? 99 : 98;
    this.#cycles = new Set(
      [...dialect.cycles.keys(), 842, 843].filter((code) => {
        const kind = cycleKind(dialect, code);
        return kind !== undefined && kind !== "turning";
      }),
    );
    const number = (name: string): number => Number(name.slice(1));
    this.#coolantOn = new Set([
      ...[...dialect.coolantOn.keys()].map(number),
      ...[...(setup.machine?.coolant.keys() ?? [])].map(number),
      ...[...dialect.spindleCoolant.keys()].map(number),
    ]);
    this.#coolantOff = new Set([...dialect.coolantOff].map(number));
  }

  walk(): Course {
    const { execution } = this.#context;
    const { stepCount } = execution;
    for (let step = 0; step < stepCount; step++) this.#step(step, execution.stepBlock(step));
    return { moments: this.#moments, diagonal: this.#diagonal, across: this.#across, points: this.#pointWords };
  }

  #read(block: number): void {
    const blocks = this.#blocks;
    const first = blocks.firstItem(block);
    const end = first + blocks.itemCount(block);
    this.#has = 0;
    this.#letters = 0;
    this.#code = 0;
    this.#shifted = false;
    for (let item = first; item < end; item++) {
      const kind = blocks.kind(item);
      if (kind === ITEM.blockDelete) this.#has |= HAS.skipped;
      if (kind === ITEM.unread && this.#isPolar(block, item)) this.#letters |= ACROSS;
      if (kind < 65 || kind > 90) continue;
      if (kind === 71) this.#g(Math.round(blocks.value(item) * 10));
      else if (kind === 77) this.#m(Math.round(blocks.value(item)));
      else {
        const bit = 1 << (kind - 65);
        this.#letters |= bit;
        if ((bit & COUNTS) !== 0 && blocks.form(item) === VALUE.real) this.#point(block, item);
        if (kind === 84) this.#has |= HAS.tool;
      }
    }
  }

  /** Polar words say where, if not in numbers that are followed. */
  #isPolar(block: number, item: number): boolean {
    const blocks = this.#blocks;
    return POLAR_WORDS.test(blocks.textOf(block).slice(blocks.start(item), blocks.end(item)));
  }

  #point(block: number, item: number): void {
    const blocks = this.#blocks;
    const letter = String.fromCharCode(blocks.kind(item));
    this.#pointWords.push({
      block,
      letter,
      value: blocks.value(item),
      start: blocks.start(item),
      end: blocks.end(item),
    });
  }

  #g(code: number): void {
    if (this.#cycles.has(code)) {
      this.#has |= HAS.cycle;
      this.#code = code;
      return;
    }
    switch (code) {
      case 0:
        this.#has |= HAS.rapid;
        return;
      case 10:
      case 20:
      case 30:
        this.#has |= HAS.feed;
        return;
      case 800:
        this.#has |= HAS.cancel;
        return;
      case 280:
      case 300:
        this.#has |= HAS.home;
        return;
      case 530:
        this.#has |= HAS.machineMove;
        return;
      case 430:
      case 440:
        this.#has |= HAS.lengthOn;
        return;
      case 490:
        this.#has |= HAS.lengthOff;
        return;
      case 900:
        this.#has |= HAS.absolute;
        return;
      case 910:
        this.#has |= HAS.incremental;
        return;
      case 920:
        this.#has |= HAS.setPosition;
        return;
      case 921:
      case 922:
        this.#has |= HAS.shiftOff;
        return;
      case 520:
        this.#has |= HAS.localShift;
        return;
      case 100:
        this.#has |= HAS.writeOffsets;
        return;
      case 650:
      case 660:
        this.#has |= HAS.call;
        return;
      case 200:
      case 210:
      case 700:
      case 710:
        this.#has |= HAS.units;
        return;
      case 980:
      case 990:
        this.#has |= HAS.returnLevel;
        this.#return = code / 10;
        return;
      default:
        this.#has |= HAS.otherG;
        if ((code >= 540 && code <= 599) || code === 1540 || (code >= 1100 && code <= 1290)) {
          this.#has |= HAS.workSystem;
          this.#shifted = code !== this.#wcs;
          this.#wcs = code;
        }
    }
  }

  #m(code: number): void {
    if (this.#coolantOn.has(code)) this.#has |= HAS.coolantOn;
    else if (this.#coolantOff.has(code)) this.#has |= HAS.coolantOff;
    switch (code) {
      case 0:
      case 1:
        this.#has |= HAS.stop;
        return;
      case 2:
      case 30:
        this.#has |= HAS.end;
        return;
      case 3:
      case 4:
      case 13:
      case 14:
        this.#has |= HAS.spindleOn;
        return;
      case 5:
        this.#has |= HAS.spindleOff;
        return;
      case 6:
        this.#has |= HAS.toolChange;
        return;
      case 29:
        this.#has |= HAS.rigidTap;
        return;
      case 97:
      case 98:
        this.#has |= HAS.call;
        return;
      default:
    }
  }

  #step(step: number, block: number): void {
    const fromZ = this.#z;
    this.#read(block);
    const has = this.#has;
    let letters = this.#letters;
    // Words that are no positions here.
    if ((has & (HAS.call | HAS.writeOffsets)) !== 0) letters = 0;
    const homeBefore = this.#home;
    const cycleBefore = this.#cycle;
    const distanceBefore = this.#distance;
    const placed = this.#modes(has, letters);
    const moves = (has & (HAS.home | HAS.machineMove | HAS.setPosition | HAS.localShift)) === 0;
    if (moves && (letters & AXES) !== 0) this.#move(letters);
    if ((has & (HAS.home | HAS.machineMove)) !== 0 && ((letters & Z_WORD) !== 0 || (letters & AXES) === 0))
      this.#goHome();
    if ((has & HAS.toolChange) !== 0) {
      this.#doubt = true;
      this.#home = this.#mRetracts || this.#home;
    }
    this.#z = this.#doubt ? Number.NaN : (this.#context.execution.stepZ(step) ?? Number.NaN);
    const across = (letters & ACROSS) !== 0;
    if (this.#cycle === 0 && this.#motion === 0 && moves && across)
      this.#rapid(step, block, letters, fromZ, homeBefore);
    const plain = (has & ~(HAS.rapid | HAS.feed)) === 0;
    if (plain && (cycleBefore === 0 || has === 0)) {
      const last = this.#moments[this.#moments.length - 1];
      if (last === undefined || (letters & AXES) === 0) return;
      if (last.firstRow < 0) last.firstRow = block;
      if ((letters & ~N_WORD & ~ACROSS) === 0 && (has & HAS.feed) === 0) last.rows++;
      return;
    }
    this.#moments.push({
      step,
      block,
      has,
      letters,
      fromZ,
      toZ: this.#z,
      homeBefore,
      homeAfter: this.#home,
      cycleBefore,
      cycleAfter: this.#cycle,
      distanceBefore,
      distanceAfter: this.#distance,
      placed,
      rows: 0,
      firstRow: -1,
    });
  }

  /** Takes over the modes of a block. */
  #modes(has: number, letters: number): boolean {
    if (has === 0) {
      if ((letters & ACROSS) !== 0) this.#placed = true;
      return this.#placed;
    }
    if ((has & HAS.absolute) !== 0) this.#distance = 90;
    if ((has & HAS.incremental) !== 0) this.#distance = 91;
    if ((has & (HAS.rapid | HAS.feed | HAS.cancel)) !== 0 && (has & HAS.cycle) === 0) this.#cycle = 0;
    if ((has & HAS.rapid) !== 0) this.#motion = 0;
    else if ((has & HAS.feed) !== 0) this.#motion = 1;
    if ((has & HAS.cycle) !== 0) {
      if (this.#cycle === 0) this.#initialDoubt = this.#doubt;
      this.#cycle = this.#code;
    }
    // A height reads anew in another system, after a shift or with another length.
    if (
      this.#shifted ||
      (has & (HAS.lengthOn | HAS.lengthOff | HAS.setPosition | HAS.localShift | HAS.writeOffsets)) !== 0
    )
      this.#doubt = true;
    const across = (letters & ACROSS) !== 0 && (has & (HAS.home | HAS.machineMove)) === 0;
    // A move home within the block comes after what was placed before it.
    if (across) this.#placed = true;
    const placed = this.#placed;
    if ((has & HAS.toolChange) !== 0 && !across) this.#placed = false;
    if ((has & (HAS.home | HAS.machineMove)) !== 0 && ((letters & ACROSS) !== 0 || (letters & AXES) === 0))
      this.#placed = false;
    return placed;
  }

  #move(letters: number): void {
    if (this.#cycle !== 0) {
      // The tool is back at R, or where it was before the run.
      const toLevel = this.#return === 99 && this.#distance === 90 && this.#rIsLevel;
      this.#doubt = this.#initialDoubt && !toLevel;
      this.#home = false;
      return;
    }
    if ((letters & Z_WORD) === 0) return;
    if (this.#distance === 90) this.#doubt = false;
    this.#home = false;
  }

  #goHome(): void {
    this.#doubt = true;
    this.#home = true;
  }

  #rapid(step: number, block: number, letters: number, fromZ: number, home: boolean): void {
    const toZ = this.#z;
    if ((letters & Z_WORD) !== 0) {
      // From a machine position every height in the part is down.
      if (home || fromZ > toZ) this.#diagonal.push({ step, block, fromZ, toZ });
    } else if (this.#clamps !== null && !home && fromZ < this.#clamps - 1e-6) {
      // The height does not change on the way, whatever the next system calls it.
      this.#across.push({ step, block, fromZ, toZ: fromZ });
    }
  }
}

/** A tool is changed and an end stands there: a program, not lines of one. */
export function isWhole(context: CheckContext): boolean {
  let has = 0;
  for (const moment of courseOf(context).moments) has |= moment.has;
  return (has & HAS.toolChange) !== 0 && (has & HAS.end) !== 0;
}

/** Moments in which one of these stands. */
export function* momentsWith(context: CheckContext, bits: number): Generator<Moment> {
  for (const moment of courseOf(context).moments) if ((moment.has & bits) !== 0) yield moment;
}
