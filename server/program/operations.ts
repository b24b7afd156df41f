/** Operations: a tool's run of holes between tool changes. */
import type { Tool } from "../setup/types.ts";
import type { Recorder, Run } from "./run.ts";

export interface OperationRow {
  readonly tool: number;
  readonly firstHole: number;
  readonly firstBlock: number;
  lastBlock: number;
  seconds: number;
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
    this.rows.push({ tool, firstHole, firstBlock: block, lastBlock: block, seconds: 0 });
  }

  /** Holes before any tool change belong to an operation of their own. */
  ensure(tool: number, block: number, firstHole: number): number {
    if (this.rows.length === 0) {
      this.begin(tool, block, firstHole);
      this.addSeconds(this.early);
    }
    return this.rows.length - 1;
  }

  /** Time before the first operation: it is the first's own when no tool change begins it. */
  early = 0;

  addSeconds(seconds: number): void {
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

  copyFrom(rows: readonly OperationRow[], early: number): void {
    this.rows = rows.map((row) => ({ ...row }));
    this.early = early;
  }
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
