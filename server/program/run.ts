/** The interpreter's state while it runs through a program: what is in force, where the tool is, what was met. */
import type { Blocks, WordRef } from "../../grammar/blocks.ts";
import { type Dialect, turns } from "../setup/dialect.ts";
import type { Machine } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { BranchSeen } from "./branches.ts";
import { groupTable } from "./codes.ts";
import { type CycleMemory, newCycleMemory } from "./cycle-data.ts";
import { newPlanCache, type PlanCache } from "./cycles.ts";
import { Evaluator, Variables } from "./evaluate.ts";
import type { EventData, EventList, Level } from "./events.ts";
import { type Counters, type EachMove, type Frame, NO_CALLS, NO_COUNTERS } from "./frames.ts";
import type { HoleBook } from "./holes.ts";
import { type Labels, labelsOf } from "./labels.ts";
import { fileEnd } from "./library.ts";
import type { LongHand } from "./long-hand.ts";
import { FROM_INDEX, type FromField, type ModalRow, type ModalStore, startRow, unitFactor } from "./modal.ts";
import type { Noted } from "./notes.ts";
import type { OperationBook } from "./operations.ts";
import { newPlaces, type Places } from "./places.ts";
import type { State } from "./state.ts";
import { systemVariable } from "./system-variables.ts";
import type { MotionKind, ProgramEventKind } from "./types.ts";
import { tellDecimal } from "./undeclared.ts";
import { UNSURE, unsure } from "./unsure.ts";
import { Ways } from "./ways.ts";
import { letterName, Words, X } from "./words.ts";

/** Takes the motions where somebody wants to see them. Coordinates in mm, NaN unknown. */
export interface Sink {
  motion(kind: MotionKind, x: number, y: number, z: number, seconds: number): void;
}

export const AXIS_NAMES = ["X", "Y", "Z"] as const;

const INCREMENT = { A: [0.01, 0.001], B: [0.001, 0.0001], C: [0.0001, 0.00001] } as const;

/** Codes of the dialect and of the machine as numbers. */
export interface CodeBook {
  readonly groups: Uint8Array;
  readonly coolantOn: ReadonlyMap<number, string>;
  readonly coolantOff: ReadonlySet<number>;
  readonly spindleCoolant: ReadonlyMap<number, { readonly direction: 1 | 2; readonly coolant: string }>;
  /** M codes of the driven tools: 0 stop, 1 cw, 2 ccw. */
  readonly live: ReadonlyMap<number, 0 | 1 | 2>;
}

export function codeBook(dialect: Dialect, machine: Machine | null): CodeBook {
  const on = new Map<number, string>();
  for (const name of dialect.coolantOn.keys()) on.set(Number(name.slice(1)), name);
  if (machine !== null) for (const name of machine.coolant.keys()) on.set(Number(name.slice(1)), name);
  const off = new Set<number>();
  for (const name of dialect.coolantOff) off.add(Number(name.slice(1)));
  const both = new Map<number, { direction: 1 | 2; coolant: string }>();
  for (const [name, { direction, coolant }] of dialect.spindleCoolant)
    both.set(Number(name.slice(1)), { direction: direction === "cw" ? 1 : 2, coolant });
  const live = new Map<number, 0 | 1 | 2>();
  for (const [name, what] of dialect.liveSpindle)
    live.set(Number(name.slice(1)), what === "stop" ? 0 : what === "cw" ? 1 : 2);
  return {
    groups: groupTable(dialect),
    coolantOn: on,
    coolantOff: off,
    spindleCoolant: both,
    live,
  };
}

/** Parts of a run that only a recording run has; the trace runs without them. */
export interface Recorder {
  readonly holes: HoleBook;
  readonly longHand: LongHand;
  readonly operations: OperationBook;
  readonly events: EventList;
  readonly noted: Noted;
  /** Diameter of a tool; NaN unknown. */
  toolDiameter(t: number): number;
}

export class Run {
  readonly blocks: Blocks;
  readonly dialect: Dialect;
  readonly machine: Machine | null;
  readonly codes: CodeBook;
  readonly words = new Words();
  variables: Variables;
  evaluator: Evaluator;
  readonly store: ModalStore;
  /** Steps done; the current block's step has this number while it runs. */
  step = 0;

  row: ModalRow;
  rowId = -1;
  dirty = true;
  /** Feeds kept apart by mode, where the dialect does so; index 93, 94, 95 less 93. */
  readonly feedByMode = new Float64Array([Number.NaN, Number.NaN, Number.NaN]);

  /** Program coordinates in mm (as written while the units are unknown). NaN unknown. */
  readonly pos = new Float64Array([Number.NaN, Number.NaN, Number.NaN]);
  /** Why a coordinate is unknown. */
  readonly why: [string, string, string] = ["no move in X yet", "no move in Y yet", "no move in Z yet"];
  /** A, B, C as programmed; NaN not moved yet. */
  readonly rotary = new Float64Array([Number.NaN, Number.NaN, Number.NaN]);
  places: Places;
  cycle: CycleMemory;

  /** G80 ended a cycle and no motion code has come since. */
  afterG80 = false;
  /** M29 was given: the next tapping cycle runs the spindle itself. */
  rigid = false;
  /** A tool was changed and no length offset given since. */
  lengthOwed = false;
  polar = false;
  /** `%` lines met; a program ends at the second, or at M2 or M30. */
  percents = 0;
  /** Block delete switches are on. */
  deleteOn = false;
  /** The first line was a `%`; a later `%` closed. */
  opened = false;
  closed = false;
  executed = 0;
  ended = false;
  sawEnd = false;
  /** Inside G10 L50 … G11. */
  dataInput = false;
  /** Keys left undeclared that have been told to matter, a bit each. */
  undeclared = 0;

  /** The line to run next. */
  next = 0;
  /** Line behind the last of the file that is running. */
  textEnd: number;
  /** Blocks run so far, each repeat of a hole as one more, and how many may be. */
  ticks = 0;
  most = Number.POSITIVE_INFINITY;
  /** Strokes of cycles so far, and how many may be. */
  strokes = 0;
  mostStrokes = Number.POSITIVE_INFINITY;
  /** The block that ran last. */
  at = 0;
  /** The block that jumped or called last. */
  jumped = -1;
  /** Stopped at a limit: where is no property of the program. */
  cut = false;
  /** When it began, ms, and the tick at which to look at the clock again. */
  started = 0;
  look = Number.POSITIVE_INFINITY;
  /** The call under way; null the main program. */
  frame: Frame | null = null;
  counters: Counters = NO_COUNTERS;
  /** Macro that runs after each move (G66). */
  each: EachMove | null = null;
  /** Other ways that wait to be run or joined, and loops of unknown length under way by the block that decides. */
  readonly waiting = new Ways();
  readonly loops = new Map<number, State | null>();
  /** How the run came by the blocks that part the ways that wait now. */
  readonly branches = new Map<number, BranchSeen>();
  /** Programs that were called and not found, by number. */
  readonly wanted = new Set<number>();
  /** What was asked of the labels, and the answers: another version of the text may answer otherwise. */
  lookups = new Map<string, number>();
  #labels: Labels | null = null;
  /** The word last told to have no point: a word is read more than once. */
  pointTold = -1;
  pointBlock = -1;
  /** A T word was read; its place. */
  staged = false;
  stagedRef: WordRef = 0;
  plans: PlanCache = newPlanCache();

  sink: Sink | null = null;
  record: Recorder | null = null;

  constructor(blocks: Blocks, dialect: Dialect, machine: Machine | null, store: ModalStore) {
    this.blocks = blocks;
    this.textEnd = blocks.count;
    this.dialect = dialect;
    this.machine = machine;
    this.store = store;
    this.codes = codeBook(dialect, machine);
    this.variables = new Variables(dialect);
    this.evaluator = new Evaluator(dialect, this.variables);
    this.row = startRow(dialect);
    // A turning centre drills on the plane of its spindle; one that moves in Y says so.
    if (turns(dialect)) this.pos[1] = 0;
    this.row.motion = dialect.startMotion === "none" ? -1 : dialect.startMotion === "G0" ? 0 : 1;
    this.row.units = dialect.defaultUnits === "unknown" ? 0 : dialect.defaultUnits === "mm" ? 1 : 2;
    this.row.returnMode = dialect.returnDefault === "unknown" ? 0 : dialect.returnDefault === "G98" ? 98 : 99;
    this.places = newPlaces();
    this.cycle = newCycleMemory();
    this.linkSystem();
  }

  /** Lets expressions read what the run itself keeps. */
  linkSystem(): void {
    this.variables.system = (index) => systemVariable(this, index);
  }

  get labels(): Labels {
    this.#labels ??= labelsOf(this.blocks);
    return this.#labels;
  }

  set labels(labels: Labels) {
    this.#labels = labels;
  }

  ask(question: string): number {
    const known = this.lookups.get(question);
    if (known !== undefined) return known;
    const answer = this.labels.answer(question);
    this.lookups.set(question, answer);
    return answer;
  }

  /** The run is inside this call from here on. */
  enter(frame: Frame | null): void {
    this.frame = frame;
    this.textEnd = frame === null ? this.blocks.count : fileEnd(this.blocks, this.blocks.lineOf(frame.start));
    const { record } = this;
    if (record === null) return;
    const calls = frame?.calls ?? NO_CALLS;
    record.events.calls = calls;
    record.holes.enter(calls);
  }

  factor(): number {
    return unitFactor(this.row.units);
  }

  /** A length word in mm, with the increment reading of a missing decimal point where the dialect has it. */
  length(letter: number): number {
    const { words, dialect } = this;
    let value = words.get(letter);
    if (value !== 0 && unsure(this.row, UNSURE.units)) return Number.NaN;
    const pointless = (words.pointless & (1 << letter)) !== 0;
    if (dialect.decimalMode !== "calculator" && pointless && value !== 0 && !Number.isNaN(value)) {
      if (!dialect.decimalAddresses.includes(letterName(letter))) return value * this.factor();
      if (dialect.decimalMode === "undeclared") tellDecimal(this, letter, value);
      else {
        const written = value;
        value *= this.increment(letter);
        this.missingPoint(letter, written * this.spread(letter), value * this.spread(letter));
      }
    }
    return value * this.factor();
  }

  /** How many times the length inside the number on the paper is: a diameter is twice the radius. */
  spread(letter: number): 1 | 2 {
    return letter === X && this.dialect.diameterX ? 2 : 1;
  }

  /** Told once for each letter, with the count: it is one habit, not many mistakes. */
  missingPoint(letter: number, written: number, read: number): void {
    const name = letterName(letter);
    const unit = this.row.units === 2 ? "inch" : "mm";
    const text =
      `${name}${written} has no decimal point: this dialect reads it as ${Number(read.toPrecision(9))} ${unit}. ` +
      `Way out: ${name}${written}. if ${written} ${unit} is meant`;
    const item = this.words.itemOf(letter);
    if (this.pointTold === item && this.pointBlock === this.words.block) return;
    this.pointTold = item;
    this.pointBlock = this.words.block;
    this.say("dialect", `point-${name}`, item, { rule: "missing-point", level: "warning", text }, undefined, 1);
  }

  increment(letter: number): number {
    const [mm, inch] = INCREMENT[this.dialect.incrementSystem];
    // Rotary words count in thousandths of a degree alike in both unit systems.
    return letter <= 2 ? mm : this.row.units === 2 ? inch : mm;
  }

  refOf(letter: number): WordRef {
    return this.blocks.refOf(this.words.block, this.words.itemOf(letter));
  }

  from(field: FromField, item: number): void {
    if (this.record !== null)
      this.store.setFrom(FROM_INDEX[field], this.step, this.blocks.refOf(this.words.block, item));
  }

  fromRef(field: FromField, ref: WordRef): void {
    if (this.record !== null) this.store.setFrom(FROM_INDEX[field], this.step, ref);
  }

  spanOfItem(item: number): Span {
    if (item < this.words.first || item >= this.words.first + this.words.count) return this.spanOfBlock();
    return { block: this.words.block, start: this.blocks.start(item), end: this.blocks.end(item) };
  }

  spanOfBlock(): Span {
    const { first, count, block } = this.words;
    if (count <= 0) return { block, start: 0, end: 0 };
    return { block, start: this.blocks.start(first), end: this.blocks.end(first + count - 1) };
  }

  /** Tells an event at an item of the current block. */
  say(
    kind: ProgramEventKind,
    cause: string,
    item: number,
    data: EventData,
    at?: { readonly start: number; readonly end: number },
    most?: number,
  ): void {
    if (this.record === null) return;
    const span = at === undefined ? this.spanOfItem(item) : { block: this.words.block, start: at.start, end: at.end };
    this.record.events.add(kind, cause, span, this.record.operations.current, data, most);
  }

  /** A dialect's remark, once per place. */
  remark(rule: string, level: Level, item: number, text: string, most?: number): void {
    this.say("dialect", rule, item, { rule, level, text }, undefined, most);
  }

  unknownValue(letter: number, item: number, why: string): void {
    this.say("unknown-value", why, item, { what: letterName(letter), why }, undefined, 1);
  }

  /** Row number of the values in force, made when something changed. */
  currentRow(): number {
    if (this.dirty) {
      this.rowId = this.store.intern(this.row);
      this.dirty = false;
    }
    return this.rowId;
  }

  emit(kind: MotionKind, seconds: number): void {
    if (this.sink === null) return;
    this.sink.motion(kind, this.pos[0] ?? Number.NaN, this.pos[1] ?? Number.NaN, this.pos[2] ?? Number.NaN, seconds);
  }
}
