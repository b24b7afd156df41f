/** Operations: a tool's run of holes between tool changes. */
import type { WordRef } from "../../grammar/blocks.ts";
import type { Tool } from "../setup/types.ts";
import { FROM_INDEX } from "./modal.ts";
import type { Recorder, Run } from "./run.ts";
import { cuttingIndexes } from "./shapes.ts";
import type { HoleShape } from "./types.ts";

export interface OperationRow {
  readonly tool: number;
  readonly firstHole: number;
  readonly firstBlock: number;
  lastBlock: number;
  seconds: number;
  readonly leads: CoolantLead[];
}

/** The first stroke into metal after coolant came on. */
export interface CoolantLead {
  readonly hole: number;
  /** Index of the stroke in the hole. */
  readonly stroke: number;
  /** From the code to the beginning of the stroke; NaN unknown. */
  readonly seconds: number;
  /** Block of the stroke. */
  readonly block: number;
  /** Word that switched it on. */
  readonly ref: WordRef;
}

/** A stroke that begins while the first metal after coolant came on is still to come. */
export interface OwedStroke {
  readonly stroke: number;
  readonly seconds: number;
  readonly block: number;
  readonly ref: WordRef;
  /** Which of the times that coolant came on. */
  readonly switched: number;
}

/** What a checkpoint keeps of the book. Rows before the last are done: they are shared, not copied at every checkpoint. */
export interface OperationMark {
  readonly count: number;
  readonly last: OperationRow | null;
  readonly early: number;
  readonly coolantSeconds: number | null;
  readonly contactOwed: boolean;
}

export class OperationBook {
  rows: OperationRow[] = [];
  readonly #tool: (t: number) => Tool | null;

  constructor(tool: (t: number) => Tool | null) {
    this.#tool = tool;
  }

  /** Index of the operation that runs; −1 before the first. */
  get current(): number {
    return this.rows.length - 1;
  }

  begin(tool: number, block: number, firstHole: number): void {
    this.rows.push({ tool, firstHole, firstBlock: block, lastBlock: block, seconds: 0, leads: [] });
  }

  /** Holes before any tool change belong to an operation of their own. */
  ensure(tool: number, block: number, firstHole: number): number {
    if (this.rows.length === 0) {
      this.begin(tool, block, firstHole);
      const row = this.rows[0];
      if (row !== undefined) row.seconds += this.early;
    }
    return this.rows.length - 1;
  }

  /** Time before the first operation: it is the first's own when no tool change begins it. */
  early = 0;

  /** Seconds since coolant came on; null off, NaN unknown because a move on the way has no known time. */
  coolantSeconds: number | null = null;
  /** Coolant came on and no metal has been cut since. */
  #contactOwed = false;
  /** How often coolant has come on in this run: tells strokes of one hole apart, and means nothing beyond it. */
  switched = 0;

  coolantOn(seconds = 0): void {
    if (this.coolantSeconds !== null) return;
    this.coolantSeconds = seconds;
    this.#contactOwed = true;
    this.switched++;
  }

  coolantOff(): void {
    this.coolantSeconds = null;
    this.#contactOwed = false;
  }

  /** A stroke begins now; null: no coolant is on, or metal was cut since it came on. */
  owedAt(run: Run, stroke: number): OwedStroke | null {
    if (!this.#contactOwed || this.coolantSeconds === null) return null;
    return this.owedAfter(run, stroke, this.coolantSeconds);
  }

  /** The same for a stroke that began so many seconds after coolant came on. */
  owedAfter(run: Run, stroke: number, seconds: number | null): OwedStroke | null {
    if (!this.#contactOwed || seconds === null) return null;
    const ref = run.store.from(FROM_INDEX.coolant, run.step);
    return { stroke, seconds, block: run.words.block, ref, switched: this.switched };
  }

  /** A hole has been made: its strokes (numbered within the hole) that began while metal was owed. */
  contact(hole: number, shape: HoleShape, strokes: readonly OwedStroke[]): void {
    const cuts = cuttingIndexes(shape);
    const met = new Set<number>();
    for (const { switched, ...lead } of strokes) {
      if (met.has(switched) || (cuts !== null && !cuts.has(lead.stroke))) continue;
      met.add(switched);
      this.rows[this.rows.length - 1]?.leads.push({ hole, ...lead });
      if (switched === this.switched) this.#contactOwed = false;
    }
  }

  /** A motion of unknown length or time: no part of the operation's time, but the coolant's clock is lost. */
  addUnknown(): void {
    if (this.coolantSeconds !== null) this.coolantSeconds = Number.NaN;
  }

  addSeconds(seconds: number): void {
    if (this.coolantSeconds !== null) this.coolantSeconds += seconds;
    const row = this.rows[this.rows.length - 1];
    if (row !== undefined) row.seconds += seconds;
    else this.early += seconds;
  }

  reach(block: number): void {
    const row = this.rows[this.rows.length - 1];
    if (row !== undefined) row.lastBlock = block;
  }

  /** H numbers that the tool's data allows; empty: its own number. */
  lengthOffsetsOf(tool: number): readonly number[] {
    return this.#tool(tool)?.H ?? [];
  }

  /** The tool where it cuts along its axis alone; null for one that may cut sideways, or is not known. */
  drillOf(tool: number): { readonly assumed: boolean } | null {
    const known = tool < 0 ? null : this.#tool(tool);
    return known === null || SIDE_CUTTERS.has(known.family) ? null : { assumed: known.familyAssumed };
  }

  mark(): OperationMark {
    const last = this.rows[this.rows.length - 1];
    return {
      count: this.rows.length,
      last: last === undefined ? null : copyRow(last),
      early: this.early,
      coolantSeconds: this.coolantSeconds,
      contactOwed: this.#contactOwed,
    };
  }

  /** Whether what another book went through from a mark on would come out the same from here. */
  standsAs(mark: OperationMark): boolean {
    const last = this.rows[this.rows.length - 1];
    if (this.rows.length !== mark.count || last?.tool !== mark.last?.tool) return false;
    if (mark.last === null) {
      if (!Object.is(this.early, mark.early)) return false;
    } else if (Number.isNaN(last?.seconds) !== Number.isNaN(mark.last.seconds)) return false;
    if (this.#contactOwed !== mark.contactOwed) return false;
    // The clock is only read by the hole that is owed; later it matters that coolant is on.
    if (this.#contactOwed) return Object.is(this.coolantSeconds, mark.coolantSeconds);
    return (this.coolantSeconds === null) === (mark.coolantSeconds === null);
  }

  /** Takes over what another book went through between two marks, its holes renumbered by `shift`. */
  append(other: OperationBook, from: OperationMark, to: OperationMark, shift: number): void {
    const moved = (leads: readonly CoolantLead[]): CoolantLead[] =>
      leads.map((lead) => ({ ...lead, hole: lead.hole + shift }));
    const open = this.rows[from.count - 1];
    const grown = to.count === from.count ? to.last : other.rows[from.count - 1];
    if (open !== undefined && grown != null && from.last !== null) {
      open.seconds += grown.seconds - from.last.seconds;
      if (to.count === from.count || grown.lastBlock !== from.last.lastBlock) open.lastBlock = grown.lastBlock;
      open.leads.push(...moved(grown.leads.slice(from.last.leads.length)));
    }
    this.early += to.early - from.early;
    for (let i = from.count; i < to.count; i++) {
      const row = i === to.count - 1 ? to.last : other.rows[i];
      if (row === undefined || row === null) continue;
      this.rows.push({ ...row, firstHole: row.firstHole + shift, leads: moved(row.leads) });
    }
    this.coolantSeconds = to.coolantSeconds;
    this.#contactOwed = to.contactOwed;
  }
}

/** Spot drills and countersinks chamfer along edges, a boring bar turns free of its wall. */
const SIDE_CUTTERS: ReadonlySet<string> = new Set(["spot", "countersink", "bore"]);

function copyRow(row: OperationRow): OperationRow {
  return { ...row, leads: [...row.leads] };
}

/** The operation that a hole belongs to. Holes before any tool change are one of their own, and a T alone is told. */
export function openOperation(run: Run, record: Recorder, block: number): number {
  const { operations } = record;
  if (operations.current >= 0) return operations.current;
  const index = operations.ensure(run.row.tool, block, record.holes.count);
  const span = run.staged && run.row.tool < 0 ? run.blocks.spanOf(run.stagedRef) : null;
  if (span !== null) {
    const T = run.row.staged < 0 ? "the tool" : `T${run.row.staged}`;
    const text = `${T} is selected, but no M6 loads it before metal is cut: which tool drills is not known. Way out: M6 with the T`;
    record.events.add("tool-change", "not-loaded", span, index, { text, level: "warning" }, 1);
  }
  return index;
}
