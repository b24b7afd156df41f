/**
 * The program as the machine will run it: steps with shared states, motions, strokes, holes, operations.
 *
 * Numbers are mm, mm/min, 1/min in the program coordinates of the active work system. A coordinate that cannot be known
 * is null here with a reason in `Execution.reasons`; typed columns inside the room use NaN as their sentinel and never
 * let it out.
 */
import type { Blocks, WordRef } from "../../grammar/blocks.ts";
import type { CutNote, EntryForm } from "../../grammar/entry.ts";
import type { ResolvedSetup, Tool } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { UnitSystem } from "../units/quantities.ts";
import type { HoleWays } from "./hole-ways.ts";
import type { LibraryFile } from "./library.ts";
import type { UnsureMode } from "./unsure.ts";

export type { Span };

/** The modal state after a block. Immutable and shared: two steps with equal states hold the same object. */
export interface ModalState {
  readonly motion: 0 | 1 | 2 | 3 | null;
  /** G code × 10 of the active cycle, 0 when none. */
  readonly cycle: number;
  readonly plane: 17 | 18 | 19;
  readonly distance: 90 | 91;
  readonly feedMode: 93 | 94 | 95;
  readonly units: UnitSystem | null;
  readonly returnMode: 98 | 99 | null;
  readonly wcs: string;
  readonly comp: 40 | 41 | 42;
  readonly lengthOffset: { readonly code: 43 | 44 | 49; readonly h: number | null };
  readonly speedMode: 96 | 97;
  /** Tool in the spindle and tool staged; null unknown or none. */
  readonly tool: number | null;
  readonly staged: number | null;
  /** S as programmed (1/min in G97); null: none seen. */
  readonly s: number | null;
  /** F in mm/min (G94), mm/rev (G95) or 1/min (G93); null: none in force. */
  readonly f: number | null;
  /** Why S or F is null although one was written; null where it is known, and where there is none. */
  readonly sWhy: string | null;
  readonly fWhy: string | null;
  /** Modes that are not known, whatever stands for them here: ways that differ in them have met. And why. */
  readonly unsure: readonly UnsureMode[];
  readonly unsureWhy: string | null;
  readonly spindle: "cw" | "ccw" | "stopped";
  /** Coolant codes in force, `M8`, `M88`, in the order switched on. */
  readonly coolant: readonly string[];
  /** Words that set these values. 0: none (start state). */
  readonly from: {
    readonly s: WordRef;
    readonly f: WordRef;
    readonly spindle: WordRef;
    readonly coolant: WordRef;
    readonly tool: WordRef;
    readonly lengthOffset: WordRef;
    readonly feedMode: WordRef;
    readonly units: WordRef;
    readonly r: WordRef;
    readonly z: WordRef;
    readonly q: WordRef;
    readonly p: WordRef;
    readonly cycle: WordRef;
    readonly wcs: WordRef;
    readonly returnMode: WordRef;
    readonly repeat: WordRef;
  };
}

export type MotionKind = "rapid" | "feed" | "arc" | "dwell" | "spindle" | "coolant" | "tool" | "stop" | "end";

/** One motion of the trace, made on demand. */
export interface Motion {
  readonly kind: MotionKind;
  readonly block: number;
  readonly calls: readonly number[];
  /** End position in program coordinates and in mm; null unknown. */
  readonly x: number | null;
  readonly y: number | null;
  readonly z: number | null;
  readonly state: ModalState;
  /** s; null unknown. */
  readonly seconds: number | null;
}

/** One continuous feed move along the drill axis. */
export interface Stroke {
  readonly fromZ: number;
  readonly toZ: number;
  /** mm/rev; null unknown. */
  readonly f: number | null;
  /** 1/min; null unknown. */
  readonly n: number | null;
  /** Word that set the feed of this stroke. */
  readonly fRef: WordRef;
  /** Only where other values are in force than the hole's `state`; a change of F alone is no such difference. */
  readonly own?: StrokeState;
}

/** The values in force for one stroke, and where it stands. */
export interface StrokeState {
  readonly state: ModalState;
  /** Block that made the stroke, and its word along the drill axis (0: none in it). */
  readonly block: number;
  readonly zRef: WordRef;
}

export type HoleKind = "drill" | "peck" | "chip-break" | "tap" | "bore" | "back-bore";

/**
 * Everything about a hole but where it is: shared by all holes drilled the same way, so that loads are worked out once.
 */
export type NoteScope = "block" | "operation" | "program";

/** Coordinates that holes stand in, as shifts to add to their places: across the drill axis in order, then along it. */
export interface HoleFrame {
  /** Holes of frames with one number have comparable places once `total` is added. */
  readonly line: number;
  readonly total: readonly [number, number, number];
  /** To the coordinates of the declared stock; null: how they lie to it is not known. */
  readonly stock: readonly [number, number, number] | null;
}

export interface HoleShape {
  /**
   * Names the shape in its execution and in those that go on from it; negative: no hole of the program, but one as it
   * would be. Says nothing of order.
   */
  readonly id: number;
  /** Index of the operation. */
  readonly operation: number;
  readonly kind: HoleKind;
  /** Long-hand (G1/G0) rather than a cycle. */
  readonly longHand: boolean;
  readonly axis: "x" | "y" | "z";
  /** Where the feed begins (R plane or long-hand start). null unknown: then `strokes` is empty and `unknown` says why. */
  readonly startZ: number | null;
  /** Deepest tip position (highest for a back bore). null unknown, as above. */
  readonly endZ: number | null;
  readonly strokes: readonly Stroke[];
  /** Index of the first stroke in metal; -1: none of it cuts metal. */
  readonly firstCut: number;
  /** Surface height used: where the tip meets metal; and where it comes from. */
  readonly surfaceZ: number;
  readonly surfaceFrom: "stock" | "assumed" | "r-plane" | "previous-hole";
  /** The surface before the R plane and earlier holes were considered, and whether the setup declares it. */
  readonly topZ?: number;
  readonly topDeclared?: boolean;
  /** s */
  readonly dwell: number;
  readonly state: ModalState;
  readonly tool: number | null;
  readonly wcs: string;
  /**
   * Coordinates that the hole stands in: work system, rotary position, rotation and shift. Places of holes with one
   * number may be compared. Means nothing outside its execution.
   */
  readonly frame?: number;
  /** Holes drilled before on the same axis line, by T: the part of this hole they took. Largest first. */
  readonly bored: readonly { readonly diameter: number; readonly toZ: number; readonly tool: number | null }[];
  /** Z of each retract out of the hole between strokes is full (R or above) rather than a chip break. */
  readonly fullRetracts: boolean;
  /** mm; 0 when not pecked. */
  readonly peck: number;
  /** Words: the one that made the hole's depth, R, Q (0: none). */
  readonly refs: { readonly z: WordRef; readonly r: WordRef; readonly q: WordRef; readonly cycle: WordRef };
  /** Cut notes in force (entry of the operation or block). Null: none. */
  readonly entry: {
    readonly form: EntryForm;
    readonly from: "note" | "entry";
    readonly span: Span | null;
    readonly path: string | null;
    /** How far a note reaches: its block, the holes up to G80 or the tool change, or the program. */
    readonly scope?: NoteScope;
  } | null;
  readonly exit: {
    readonly form: EntryForm;
    readonly span: Span | null;
    readonly path: string | null;
    readonly scope?: NoteScope;
  } | null;
  /** What of the part stands around the hole, where that is more than a flat face: worked out after the run. */
  readonly around?: object;
  /** Field → reason, for values that are null. */
  readonly unknown: Readonly<Record<string, string>>;
  /**
   * One object for shapes that differ in nothing but their number: what was worked out for one holds for the other.
   */
  readonly likeness?: object;
}

/** A hole: shape + place. Made on demand from columns; do not keep thousands of them. */
export interface Hole {
  readonly index: number;
  readonly shape: HoleShape;
  /** Coordinates square to the axis, in order (G17: x, y), mm; null unknown. */
  readonly at: readonly [number | null, number | null];
  /** The same as the program writes it, where that is another number: X as a diameter. */
  readonly written?: readonly [number | null, number | null];
  /** Block that ran it. */
  readonly block: number;
  /** Blocks that called the program the block stands in, outermost first. */
  readonly calls: readonly number[];
}

export interface Operation {
  readonly index: number;
  readonly tool: number | null;
  /** Holes [first, first + count). */
  readonly firstHole: number;
  readonly holeCount: number;
  /** The distinct shapes, in order of first use, with their hole counts and first hole. */
  readonly shapes: readonly { readonly shape: HoleShape; readonly count: number; readonly firstHole: number }[];
  readonly firstBlock: number;
  readonly lastBlock: number;
  /**
   * Seconds of the operation's motions; null when the time of some is unknown (no feed, no rapid declared). Without the
   * tool change itself and without moves from a place that only the machine knows (tool change, home).
   */
  readonly seconds: number | null;
  /**
   * The first stroke into metal after each time coolant came on, with the seconds from the code to its beginning; null
   * where a move on the way has no known time.
   */
  readonly coolantLeads: readonly {
    readonly hole: number;
    readonly stroke: number;
    readonly seconds: number | null;
    /** Block of the stroke. */
    readonly block: number;
    /** Word that switched it on. */
    readonly ref: WordRef;
  }[];
}

/**
 * What the interpreter met and a check must word. `kind` is stable; each belongs to one check.
 * Every event has `data.count`: how often its cause was met from its place on (the first places of a cause are events of
 * their own). Where the dialect decides how grave it is, `data.level` says so.
 */
export interface ProgramEvent {
  readonly kind: ProgramEventKind;
  readonly span: Span;
  readonly operation: number;
  /** Calling blocks, outermost first. */
  readonly calls: readonly number[];
  /** Numbers and words for the message: documented beside the kind. */
  readonly data: Readonly<Record<string, number | string | null>>;
}

export type ProgramEventKind =
  /** dialect refuses or reads this differently; data.rule (stable), data.text says what, data.level error|warning|info */
  | "dialect"
  /** R, Z, Q or P missing on first use; data.word, data.cycle, data.plane where the depth of a mill is along X or Y */
  | "cycle-word-missing"
  /** Q or repeat that cannot be right; data.word, data.value as written, data.cycle, data.text */
  | "cycle-word-bad"
  /** R below the bottom; data.r, data.z in the units in force; data.plane as above, data.axis */
  | "r-below-z"
  /** cycle data taken over from another cycle code; data.word, data.cycle */
  | "cycle-data-inherited"
  | "plane-change-in-cycle"
  | "units-change-in-cycle"
  /** control flow or a call that is read but not run; data.text */
  | "not-executed"
  /** a called program: not found, without return, nested too deep; data.text, data.level */
  | "subprogram"
  /** a jump or loop whose partner is missing or wrong; data.text, data.level */
  | "flow"
  /** both ways of a condition are run because its value is not known; data.text */
  | "branch"
  /** the run was cut short; data.text */
  | "run-limit"
  /** a called program leaves other modes in force than it found; data.text */
  | "modal-leak"
  /** M99 at the main level: the program starts over; data.text */
  | "main-return"
  /** G43 H of another tool; data.h, data.tool */
  | "length-offset"
  /** no G43 since the tool change before the first move down; data.tool */
  | "length-offset-missing"
  | "unknown-code"
  /** M6 without T, T never loaded …; data.text */
  | "tool-change"
  /** no M2, M30 or closing % */
  | "no-end"
  /** a rapid that goes down into metal; data.z, data.surface in mm, data.level error where the stock is declared */
  | "rapid-into-metal"
  /** a drill moves across its axis in metal; data.z, data.surface in mm, data.by rapid|feed, data.tool, data.level */
  | "sideways-in-metal"
  /** printed-circuit drill tape header */
  | "not-a-machining-program"
  /** value cannot be known from here on; data.what, data.why */
  | "unknown-value";

export interface Execution {
  readonly blocks: Blocks;
  readonly setup: ResolvedSetup;
  /** Units the program declares (first G20/G21), or the dialect's default; null unknown. */
  readonly units: UnitSystem | null;
  readonly stepCount: number;
  /** Step → its block and the state after it. */
  stepBlock(step: number): number;
  stepState(step: number): ModalState;
  /** Z after a step, mm in the work system in force; null unknown. */
  stepZ(step: number): number | null;
  /** First step of a block, -1 when it was not executed. */
  stepOf(block: number): number;
  /** The trace, in order; generated. Positions are re-run, not stored. */
  motions(): Iterable<Motion>;

  readonly operations: readonly Operation[];
  readonly shapes: readonly HoleShape[];
  readonly holeCount: number;
  hole(index: number): Hole;
  /** Shape of a hole, without making the hole. */
  shapeOf(index: number): HoleShape;
  /** Coordinates of the holes of a shape; null: not known. */
  frameOf(shape: HoleShape): HoleFrame | null;
  /** Places of all holes as `Hole.at` has them, NaN unknown: for searches over tens of thousands. */
  readonly places: { readonly x: Float64Array; readonly y: Float64Array };
  /** Which holes are made for sure where another is. */
  readonly ways: HoleWays;
  /** Holes made by a block, else the one it went on with, in order. A block of a subprogram makes some in each call. */
  holesOfBlock(block: number): ArrayLike<number>;
  readonly events: readonly ProgramEvent[];
  /** Chains of calls, outermost first, that led to the program a block stands in; none in the main program. */
  callsOf(block: number): readonly (readonly number[])[];
  /** Tools by T: the setup's, else from the program's comments (marked assumed). */
  tool(t: number): Tool | null;
  /** Comment that named a tool, for provenance. */
  toolComment(t: number): Span | null;
  /** Cut notes with their places, and how each was read. */
  readonly notes: readonly { readonly note: CutNote; readonly span: Span }[];
  /** Material named by a program-wide note, if any. */
  readonly noteMaterial: { readonly name: string; readonly hardness: string | null; readonly span: Span } | null;
  /** Setup `entries:` of this program that found no hole (paths). */
  readonly lostEntries: readonly string[];
  /** Blocks with a block delete stand in the text: with its switch on the program is another one. */
  readonly skips: boolean;
  /** Numbers of programs that were called and are not in the text. */
  readonly wanted: readonly number[];
}

export interface ExecuteOptions {
  /** Path or uri of the program, to match `entries:` and `observed:`. */
  readonly program: string;
  /** `--before`: words executed before the first block. */
  readonly before?: string;
  /** `--from x,y,z`, in program units. */
  readonly from?: readonly [number, number, number];
  /** Block delete switches on: blocks with `/` are passed over. Off without it. */
  readonly deleteOn?: boolean;
  /**
   * Blocks and holes that loops, jumps, calls and repeats may make beyond once through the text; `maxLoopSteps` of the dialect
   * without it.
   */
  readonly mostBlocks?: number;
  /** Called programs that stand in files of their own. */
  readonly library?: readonly LibraryFile[];
  /** Earlier execution of an older version of the same blocks: what an edit does not touch is taken over from it. */
  readonly previous?: Execution;
}

export type Execute = (blocks: Blocks, setup: ResolvedSetup, options: ExecuteOptions) => Execution;
