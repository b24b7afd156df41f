/** What an execution gives to the rest of the house. */
import type { Blocks } from "../../grammar/blocks.ts";
import type { ResolvedSetup, Tool } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { UnitSystem } from "../units/quantities.ts";
import type { Checkpoint } from "./checkpoints.ts";
import type { Scan } from "./execute.ts";
import { NO_CALLS } from "./frames.ts";
import type { HoleWays } from "./hole-ways.ts";
import type { Recorder, Run } from "./run.ts";
import { traceMotions } from "./trace.ts";
import type {
  ExecuteOptions,
  Execution,
  Hole,
  HoleFrame,
  HoleShape,
  ModalState,
  Motion,
  Operation,
  ProgramEvent,
} from "./types.ts";

export interface ResultParts {
  readonly blocks: Blocks;
  readonly setup: ResolvedSetup;
  readonly options: ExecuteOptions;
  readonly run: Run;
  readonly record: Recorder;
  readonly scan: Scan;
  readonly tool: (t: number) => Tool | null;
  readonly points: readonly Checkpoint[];
  /** Block of each line, to find the first change. */
  readonly lines: Int32Array;
}

const NO_AT: readonly [null, null] = [null, null];

export class Result implements Execution {
  readonly blocks: Blocks;
  readonly setup: ResolvedSetup;
  readonly units: UnitSystem | null;
  readonly stepCount: number;
  readonly operations: readonly Operation[];
  readonly shapes: readonly HoleShape[];
  readonly holeCount: number;
  readonly events: readonly ProgramEvent[];
  readonly notes: Execution["notes"];
  readonly noteMaterial: Execution["noteMaterial"];
  readonly lostEntries: readonly string[];
  readonly wanted: readonly number[];
  readonly skips: boolean;
  /** For the next execution of the same blocks, edited. */
  readonly parts: ResultParts;
  #stepOfLine: Int32Array | null = null;
  #chains: ReadonlyMap<number, readonly (readonly number[])[]> | null = null;

  constructor(parts: ResultParts) {
    const { run, record, scan } = parts;
    this.parts = parts;
    this.blocks = parts.blocks;
    this.setup = parts.setup;
    this.units = scan.units;
    run.store.trim();
    record.holes.trim();
    this.stepCount = run.store.steps.length;
    this.holeCount = record.holes.count;
    this.shapes = usedShapes(record);
    this.operations = operationsOf(record, run.row.units !== 0 || scan.units !== null);
    this.events = record.events.list();
    this.notes = scan.notes.map(({ note, span }) => ({ note, span }));
    const material = scan.notes.find(({ note }) => note.kind === "material");
    this.noteMaterial =
      material?.note.kind === "material"
        ? { name: material.note.name, hardness: material.note.hardness, span: material.span }
        : null;
    this.lostEntries = record.noted.lost();
    this.wanted = [...run.wanted];
    this.skips = scan.skips.length > 0;
  }

  stepBlock(step: number): number {
    return step >= 0 && step < this.stepCount ? this.parts.run.store.stepBlocks.at(step) : -1;
  }

  stepState(step: number): ModalState {
    const { store } = this.parts.run;
    return store.state(store.steps.at(step), step);
  }

  stepZ(step: number): number | null {
    const z = step >= 0 && step < this.stepCount ? this.parts.run.store.stepZ.at(step) : Number.NaN;
    return Number.isNaN(z) ? null : z;
  }

  stepOf(block: number): number {
    const line = this.blocks.lineOf(block);
    if (line < 0) return -1;
    let index = this.#stepOfLine;
    if (index === null) {
      index = new Int32Array(this.blocks.count).fill(-1);
      const { stepBlocks } = this.parts.run.store;
      for (let step = stepBlocks.length - 1; step >= 0; step--) {
        const at = this.blocks.lineOf(stepBlocks.at(step));
        if (at >= 0) index[at] = step;
      }
      this.#stepOfLine = index;
    }
    return index[line] ?? -1;
  }

  motions(): Iterable<Motion> {
    const parts = this.parts;
    return { [Symbol.iterator]: () => traceMotions(parts) };
  }

  get places(): Execution["places"] {
    const { x, y } = this.parts.record.holes;
    return { x: x.data, y: y.data };
  }

  get ways(): HoleWays {
    const { ways } = this.parts.record.holes;
    return ways.data.subarray(0, ways.length);
  }

  shapeOf(index: number): HoleShape {
    const shape = this.parts.record.holes.rowOf(index)?.shape;
    if (shape === undefined) throw new RangeError(`no hole ${index}`);
    return shape;
  }

  frameOf(shape: HoleShape): HoleFrame | null {
    return shape.frame === undefined ? null : this.parts.record.holes.places.frame(shape.frame);
  }

  hole(index: number): Hole {
    const { holes } = this.parts.record;
    const shape = index >= this.holeCount ? undefined : holes.rowOf(index)?.shape;
    if (shape === undefined) throw new RangeError(`no hole ${index}`);
    const x = holes.x.at(index);
    const y = holes.y.at(index);
    const diameter = this.setup.dialect.diameterX && shape.axis !== "x";
    return {
      index,
      shape,
      ...(diameter ? { written: [known(2 * x), known(y)] as const } : null),
      at: Number.isNaN(x) && Number.isNaN(y) ? NO_AT : [known(x), known(y)],
      block: holes.block.at(index),
      calls: holes.chains[holes.chain.at(index)] ?? NO_CALLS,
    };
  }

  holesOfBlock(block: number): ArrayLike<number> {
    return this.parts.record.holes.ofBlock(this.blocks, block);
  }

  callsOf(block: number): readonly (readonly number[])[] {
    const { record, run } = this.parts;
    if (record.holes.chains.length === 1) return NO_CHAINS;
    this.#chains ??= chainsOf(this.parts, this.events);
    const line = this.blocks.lineOf(block);
    return line < 0 ? NO_CHAINS : (this.#chains.get(run.labels.extent(line)[0]) ?? NO_CHAINS);
  }

  tool(t: number): Tool | null {
    return this.parts.tool(t);
  }

  toolComment(t: number): Span | null {
    return this.parts.scan.tools.get(t)?.span ?? null;
  }
}

const NO_CHAINS: readonly (readonly number[])[] = [];

/** By the first line of a program in the file: the calls under which something was made or met in it. */
function chainsOf(
  { record, run, blocks }: ResultParts,
  events: readonly ProgramEvent[],
): ReadonlyMap<number, readonly (readonly number[])[]> {
  const { holes } = record;
  const made = new Map<number, Map<string, readonly number[]>>();
  const note = (block: number, calls: readonly number[]): void => {
    const line = blocks.lineOf(block);
    if (line < 0 || calls.length === 0) return;
    const [program] = run.labels.extent(line);
    const known = made.get(program) ?? new Map<string, readonly number[]>();
    made.set(program, known);
    known.set(calls.join(), calls);
  };
  let block = -1;
  let chain = 0;
  for (let i = 0; i < holes.count; i++) {
    if (holes.block.at(i) === block && holes.chain.at(i) === chain) continue;
    block = holes.block.at(i);
    chain = holes.chain.at(i);
    note(block, holes.chains[chain] ?? NO_CALLS);
  }
  for (const event of events) note(event.span.block, event.calls);
  return new Map([...made].map(([program, calls]) => [program, [...calls.values()]]));
}

function known(value: number): number | null {
  return Number.isNaN(value) ? null : Math.round(value * 1e9) / 1e9 + 0;
}

/** Shapes that a hole has, in the order of their first hole. Other rows are left by joined strokes and by edits. */
function usedShapes(record: Recorder): readonly HoleShape[] {
  const { rows, shape, count } = record.holes;
  const seen = new Uint8Array(rows.length);
  const shapes: HoleShape[] = [];
  for (let i = 0; i < count; i++) {
    const own = shape.at(i);
    if (seen[own] !== 0) continue;
    seen[own] = 1;
    const row = rows[own];
    if (row !== undefined) shapes.push(row.shape);
  }
  return shapes;
}

/** A microsecond is far below what is known: sums made in another order come out the same. */
function secondsOf(seconds: number): number | null {
  return Number.isFinite(seconds) ? Math.round(seconds * 1e6) / 1e6 + 0 : null;
}

function operationsOf(record: Recorder, unitsKnown: boolean): Operation[] {
  const { holes, operations } = record;
  return operations.rows.map((row, index) => {
    const end = operations.rows[index + 1]?.firstHole ?? holes.count;
    const shapes = new Map<number, { shape: HoleShape; count: number; firstHole: number }>();
    let last = { count: 0 };
    for (let hole = row.firstHole, own = -1; hole < end; hole++) {
      if (holes.shape.at(hole) !== own) {
        own = holes.shape.at(hole);
        const shape = holes.rowOf(hole)?.shape;
        if (shape === undefined) continue;
        const use = shapes.get(own) ?? { shape, count: 0, firstHole: hole };
        shapes.set(own, use);
        last = use;
      }
      last.count++;
    }
    return {
      index,
      tool: row.tool < 0 ? null : row.tool,
      firstHole: row.firstHole,
      holeCount: end - row.firstHole,
      shapes: [...shapes.values()],
      firstBlock: row.firstBlock,
      lastBlock: row.lastBlock,
      seconds: unitsKnown ? secondsOf(row.seconds) : null,
      coolantLeads: row.leads.map(({ seconds, ...lead }) => ({
        ...lead,
        seconds: unitsKnown ? secondsOf(seconds) : null,
      })),
    };
  });
}
