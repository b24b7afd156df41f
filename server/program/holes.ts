/**
 * The holes: a few shared shapes and four columns of places. A hole is all strokes of one tool on one axis line within
 * one operation, so a later stroke at the same place joins the hole that is there.
 */
import type { Blocks } from "../../grammar/blocks.ts";
import type { Tool } from "../setup/types.ts";
import { IntColumn, NumberColumn } from "./columns.ts";
import { type CycleHole, cycleDraft } from "./cycle-hole.ts";
import { NO_CALLS } from "./frames.ts";
import { openOperation } from "./operations.ts";
import { PlaceIndex } from "./place-index.ts";
import type { Recorder, Run } from "./run.ts";
import {
  contactOf,
  type Draft,
  finishShape,
  mergeable,
  mergeDraft,
  type PriorHole,
  type ShapeRow,
  sameShape,
  shapeKey,
  shiftDraft,
  shiftSteps,
  withoutStrokes,
  withStrokes,
} from "./shapes.ts";
import { strokeKeys, strokeStates } from "./stroke-states.ts";
import type { Surface, SurfaceHit } from "./surface.ts";

/** A hole with more strokes takes in no more: only repeats at one place make so many. */
const MOST_JOINED = 200;

/** How far the columns of the book had grown. */
export interface HoleMark {
  readonly count: number;
  readonly made: number;
  readonly joins: number;
  readonly extras: number;
  readonly probes: number;
}

export class HoleBook {
  /** Row of each hole as it is now; and as it was when the hole was begun, where a stroke has joined it since. */
  shape = new IntColumn();
  readonly #begun = new Map<number, number>();
  x = new NumberColumn();
  y = new NumberColumn();
  block = new IntColumn();
  /** Number of the chain of calls that made the hole; as long as the last hole that a call made. */
  chain = new IntColumn(8);
  /** Chains of calling blocks by number; shared like the rows. */
  chains: (readonly number[])[] = [NO_CALLS];
  #chainNumbers = new Map<string, number>([["", 0]]);
  #chain = 0;
  /** See `HoleWays`; as long as the last hole that only some ways make. */
  ways = new IntColumn(8);
  /** That of a hole made now, where another way waits. */
  #way = 1;
  /** Further blocks of a hole: pecks written out, strokes that came later. */
  extraBlock = new IntColumn(8);
  extraHole = new IntColumn(8);
  /** Strokes that joined an earlier hole: the hole, its row before and after. */
  joined = new IntColumn(8);
  joinedFrom = new IntColumn(8);
  joinedTo = new IntColumn(8);
  /** Places asked for a free way down that are no holes of their own. */
  probeFrame = new IntColumn(8);
  probeX = new NumberColumn(8);
  probeY = new NumberColumn(8);
  /** Rows by number. Executions that go on from one another share them: they only ever grow, not all are used in each. */
  rows: ShapeRow[] = [];
  #strokeNumbers = new Map<string, number>();
  /** Row of each key in this execution, the rows in the order in which they came up, and the steps they came later. */
  readonly byKey = new Map<string, number>();
  made = new IntColumn();
  readonly stepShift = new Map<number, number>();
  /** Draughts of rows kept from the execution before, where steps are counted anew in them. */
  readonly drafts = new Map<number, Draft>();
  #byLine: LineIndex | null = null;
  #extraByLine: LineIndex | null = null;
  /** The book of the execution before, to keep the rows that come out the same. */
  #old: HoleBook | null = null;
  readonly places: PlaceIndex;
  readonly surface: Surface;
  readonly #tool: (t: number) => Tool | null;
  // What the last cycle hole was made of, for the run of equal holes that follows it.
  #version = -1;
  #operation = -1;
  #placesVersion = -1;
  #noteVersion = -1;
  #byPrior = new Map<number, number>();

  constructor(surface: Surface, tool: (t: number) => Tool | null) {
    this.surface = surface;
    this.#tool = tool;
    this.places = new PlaceIndex(this);
  }

  get count(): number {
    return this.shape.length;
  }

  mark(): HoleMark {
    return {
      count: this.count,
      made: this.made.length,
      joins: this.joined.length,
      extras: this.extraHole.length,
      probes: this.probeFrame.length,
    };
  }

  /** An empty book that numbers rows and frames as this one does. */
  following(tool: (t: number) => Tool | null): HoleBook {
    const next = new HoleBook(this.surface, tool);
    next.rows = this.rows;
    next.chains = this.chains;
    next.#strokeNumbers = this.#strokeNumbers;
    next.#chainNumbers = this.#chainNumbers;
    next.places.shareFrames(this.places);
    next.#old = this;
    return next;
  }

  /** Holes from here on are made inside these calls. */
  enter(calls: readonly number[]): void {
    const key = calls.join();
    let number = this.#chainNumbers.get(key);
    if (number === undefined) {
      number = this.chains.length;
      this.chains.push(calls);
      this.#chainNumbers.set(key, number);
    }
    this.#chain = number;
  }

  /** The run goes on as another way, or together with another. */
  otherWay(): void {
    this.#way = this.count + 1;
    this.#version = -1;
  }

  /** The way that a hole made now is on. */
  wayOf(run: Run): number {
    return run.waiting.size === 0 ? 0 : this.#way;
  }

  /** The newest hole on a line that is there for sure on this way; −1 none. */
  #surePrior(frame: number, u: number, v: number, way: number): number {
    const newest = this.places.find(frame, u, v);
    if (newest >= this.ways.length || this.ways.at(newest) === 0) return newest;
    return way !== 0 && newest >= way - 1 ? newest : this.places.sureHere();
  }

  /** The run goes on at another place: what was kept of the last hole means nothing any more. */
  forget(): void {
    this.#version = -1;
    this.places.forget();
  }

  rowOf(hole: number): ShapeRow | undefined {
    return hole < 0 ? undefined : this.rows[this.shape.at(hole)];
  }

  /**
   * Adds the hole of one cycle at one place. Fast where only the place differs from the hole before.
   * @returns the hole's index
   */
  addCycle(run: Run, record: Recorder, hole: CycleHole): number {
    const { words, places } = run;
    const operation = openOperation(run, record, words.block);
    const known = run.row.units !== 0;
    const u = known ? hole.u : Number.NaN;
    const v = known ? hole.v : Number.NaN;
    const frame = this.places.frameOf(run, hole.w);
    const way = this.wayOf(run);
    const prior = this.#surePrior(frame, u, v, way);
    const plain = this.surface.constant && !record.noted.byPlace;
    const steady =
      plain &&
      this.#version === hole.version &&
      this.#operation === operation &&
      this.#placesVersion === places.version &&
      this.#noteVersion === record.noted.version &&
      !record.noted.ownBlock(words.block);
    if (!steady) {
      this.#byPrior.clear();
      this.#version = hole.version;
      this.#operation = operation;
      this.#placesVersion = places.version;
      this.#noteVersion = record.noted.version;
    }
    const priorShape = prior < 0 ? -1 : this.shape.at(prior);
    const own = prior >= 0 && this.rows[priorShape]?.shape.operation === operation;
    if (steady && !own) {
      const same = this.#byPrior.get(priorShape);
      if (same !== undefined) {
        this.#push(same, u, v, words.block, frame, way);
        return this.count - 1;
      }
    }
    const before = this.count;
    const id = this.#add(run, cycleDraft(run, hole, operation), u, v, words.block, frame, prior, way);
    if (steady && !own) this.#byPrior.set(priorShape, id);
    return this.count > before ? before : prior;
  }

  /**
   * Adds a hole, or joins it to the one of this operation at the same place. Returns the hole's index.
   * @param way the one on which its first stroke was made
   */
  add(run: Run, draft: Draft, u: number, v: number, block: number, way: number): number {
    const frame = this.places.frameOf(run, draft.w);
    const prior = this.#surePrior(frame, u, v, way);
    const before = this.count;
    this.#add(run, draft, u, v, block, frame, prior, way);
    // Begun before the ways met and done after: what comes next is not sure to find it.
    if (way !== 0 && way !== this.wayOf(run)) this.otherWay();
    return this.count > before ? before : prior;
  }

  #add(run: Run, draft: Draft, u: number, v: number, block: number, frame: number, prior: number, way: number): number {
    const row = prior < 0 ? undefined : this.rowOf(prior);
    // What only some ways do is not done to a hole that all have.
    const alike = (this.ways.at(prior) === 0) === (way === 0);
    if (row !== undefined && alike && row.shape.operation === draft.operation && row.shape.tool === draft.tool) {
      const joined = this.#join(run, this.#here(row, this.shape.at(prior)), draft, block, frame, prior);
      if (joined >= 0) return joined;
    }
    const priors = row === undefined ? NONE : this.#priorHoles(row, frame, true);
    const id = this.#intern(run, draft, priors, u, v, frame, block);
    this.#push(id, u, v, block, frame, way);
    return id;
  }

  /** Step of a row's draught as counted in this execution. */
  stepOf(id: number): number {
    const draft = this.drafts.get(id) ?? this.rows[id]?.draft;
    return (draft?.step ?? 0) + (this.stepShift.get(id) ?? 0);
  }

  /** A row with its steps counted as in this execution. */
  #here(row: ShapeRow, id: number): ShapeRow {
    const shift = this.stepShift.get(id) ?? 0;
    const draft = withStrokes(this.drafts.get(id) ?? row.draft, row.shape);
    return { ...row, draft: shiftSteps(draft, shift) };
  }

  /** Joins a draught to a hole of this operation; −1 where it is different work. Shape and place stay in the hole's frame. */
  #join(run: Run, row: ShapeRow, draft: Draft, block: number, frame: number, hole: number): number {
    if (!mergeable(row, draft)) return -1;
    const here = shiftDraft(draft, this.places.shiftOf(frame) - this.places.shiftOf(row.frame));
    if (block !== this.block.at(hole)) this.also(block, hole);
    if (row.shape.strokes.length > MOST_JOINED) {
      // The same stroke for the hundredth time cuts nothing and says nothing new.
      return here.endZ < (row.shape.endZ ?? 0) - 1e-6 ? -1 : this.shape.at(hole);
    }
    const merged = mergeDraft(row, here);
    if (merged === null) return -1;
    const priors = this.#priorHoles(row, row.frame, false);
    const id = this.#intern(run, merged, priors, this.x.at(hole), this.y.at(hole), row.frame, block);
    this.rejoin(hole, id);
    return id;
  }

  /** A stroke joined the hole: it has another row from here on. */
  rejoin(hole: number, row: number): void {
    const before = this.shape.at(hole);
    this.joined.push(hole);
    this.joinedFrom.push(before);
    this.joinedTo.push(row);
    if (!this.#begun.has(hole)) this.#begun.set(hole, before);
    this.shape.data[hole] = row;
  }

  /** Row of a hole when it was begun. */
  begunAs(hole: number): number {
    return this.#begun.size === 0 ? this.shape.at(hole) : (this.#begun.get(hole) ?? this.shape.at(hole));
  }

  setChain(hole: number, chain: number): void {
    while (this.chain.length <= hole) this.chain.push(0);
    this.chain.data[hole] = chain;
  }

  setWay(hole: number, way: number): void {
    while (this.ways.length <= hole) this.ways.push(0);
    this.ways.data[hole] = way;
  }

  /** Remembers a further block of a hole. */
  also(block: number, hole: number): void {
    const last = this.extraBlock.length - 1;
    if (last >= 0 && this.extraBlock.at(last) === block && this.extraHole.at(last) === hole) return;
    this.extraBlock.push(block);
    this.extraHole.push(hole);
  }

  /** Deepest free level at a place for a tool of this diameter, in program coordinates; +Infinity where nothing is free. */
  freeTo(run: Run, w: number, u: number, v: number, diameter: number): number {
    const frame = this.places.frameOf(run, w);
    this.probeFrame.push(frame);
    this.probeX.push(u);
    this.probeY.push(v);
    const row = this.rowOf(this.places.find(frame, u, v));
    if (row === undefined) return Number.POSITIVE_INFINITY;
    const shift = this.places.shiftOf(row.frame) - this.places.shiftOf(frame);
    const wide = (d: number): boolean => Number.isNaN(d) || Number.isNaN(diameter) || d >= diameter - 0.005;
    let level = Number.POSITIVE_INFINITY;
    if (row.shape.endZ !== null && wide(row.diameter)) level = row.shape.endZ + shift;
    for (const bored of row.shape.bored) if (wide(bored.diameter)) level = Math.min(level, bored.toZ + shift);
    return level;
  }

  #push(shape: number, u: number, v: number, block: number, frame: number, way: number): void {
    this.shape.push(shape);
    this.x.push(u);
    this.y.push(v);
    this.block.push(block);
    if (this.#chain !== 0) this.setChain(this.count - 1, this.#chain);
    if (way !== 0) this.setWay(this.count - 1, way);
    this.places.added(this.count - 1, frame, u, v);
  }

  /** What was drilled on the line before, in a frame's coordinates: what the newest hole had found, and that hole. */
  #priorHoles(row: ShapeRow, frame: number, withItself: boolean): readonly PriorHole[] {
    const shift = this.places.shiftOf(row.frame) - this.places.shiftOf(frame);
    const { bored, endZ } = row.shape;
    if (!withItself && shift === 0) return bored;
    const all = bored.map((b) => ({ ...b, toZ: b.toZ + shift }));
    const itself = withItself && endZ !== null && !Number.isNaN(row.diameter);
    if (itself) all.push({ diameter: row.diameter, toZ: endZ + shift, tool: row.shape.tool });
    all.sort((a, b) => b.diameter - a.diameter || a.toZ - b.toZ);
    // One within another says nothing more.
    let deepest = Number.POSITIVE_INFINITY;
    return all.filter((each) => {
      if (each.toZ >= deepest) return false;
      deepest = each.toZ;
      return true;
    });
  }

  #intern(
    run: Run,
    draft: Draft,
    priors: readonly PriorHole[],
    u: number,
    v: number,
    frame: number,
    block: number,
  ): number {
    const { record } = run;
    const surface = this.#surfaceIn(frame, draft.w, u, v);
    const noted = record?.noted.at(draft.tool, draft.wcs, u, v, block) ?? null;
    const tool = draft.tool === null ? null : this.#tool(draft.tool);
    const diameter = tool?.DC ?? Number.NaN;
    const contact = contactOf(draft, surface, priors, diameter);
    // Entering a pilot slow, reversed or dry is normal: what is in force counts from the first stroke in metal.
    const cut = draft.strokes[contact.firstCut];
    const rowId = cut?.rowId ?? draft.rowId;
    const keys = strokeKeys(run.store, draft, rowId);
    const cutKey = run.store.cutKey(rowId);
    const key = shapeKey(draft, cutKey, keys, surface, priors, noted?.id ?? "", frame, this.#strokeNumbers);
    const known = this.byKey.get(key);
    if (known !== undefined) return known;
    const state = run.store.state(rowId, cut?.step ?? draft.step);
    const own = keys === null ? null : strokeStates(run, draft, run.store.strokeKey(rowId), keys);
    const oldId = this.#old?.byKey.get(key);
    const old = oldId === undefined ? undefined : this.rows[oldId];
    if (oldId !== undefined && old !== undefined && sameShape(old.shape, draft, noted, state, own)) {
      this.takeRow(oldId, key, 0);
      if (draft.step !== old.draft.step || draft.strokes.some((s) => s.step !== undefined))
        this.drafts.set(oldId, withoutStrokes(draft));
      return oldId;
    }
    const id = this.rows.length;
    const shape = finishShape(id, draft, surface, priors, contact, noted, state, own, frame);
    this.rows.push({ shape, draft: withoutStrokes(draft), key, frame, diameter });
    this.takeRow(id, key, 0);
    return id;
  }

  /** A row comes up for the first time in this execution. */
  takeRow(id: number, key: string, stepShift: number): void {
    this.byKey.set(key, id);
    this.made.push(id);
    if (stepShift !== 0) this.stepShift.set(id, stepShift);
  }

  /** The surface at a place of the coordinates in force. */
  surfaceAt(run: Run, w: number, u: number, v: number): SurfaceHit {
    return this.#surfaceIn(this.places.frameOf(run, w), w, u, v);
  }

  /** Stock stands in work coordinates: a G52 or G92 shift lies between them and the program's. */
  #surfaceIn(frame: number, w: number, u: number, v: number): SurfaceHit {
    const [su, sv, sw] = this.places.squareShift(frame);
    const hit = this.surface.at(this.places.stockShift(frame), w, u + su, v + sv);
    return hit.declared && sw !== 0 ? { ...hit, z: hit.z - sw } : hit;
  }

  /** The run is over: gives back what was held for growing, and the book before. */
  trim(): void {
    this.#old = null;
    for (const column of [
      this.shape,
      this.x,
      this.y,
      this.block,
      this.chain,
      this.ways,
      this.extraBlock,
      this.extraHole,
      this.made,
      this.joined,
      this.joinedFrom,
      this.joinedTo,
    ])
      column.trim();
    this.places.release();
  }

  /** Holes made by a block: those it began, else those it went on with. */
  ofBlock(blocks: Blocks, block: number): ArrayLike<number> {
    const line = blocks.lineOf(block);
    if (line < 0) return [];
    this.#byLine ??= byLine(this.block, null, blocks);
    const own = this.#byLine.of(line);
    if (own.length > 0) return own;
    this.#extraByLine ??= byLine(this.extraBlock, this.extraHole, blocks);
    return this.#extraByLine.of(line);
  }
}

/** Numbers by line, made when first asked for. */
class LineIndex {
  readonly #first: Int32Array;
  readonly #numbers: Int32Array;

  constructor(first: Int32Array, numbers: Int32Array) {
    this.#first = first;
    this.#numbers = numbers;
  }

  of(line: number): Int32Array {
    return this.#numbers.subarray(this.#first[line] ?? 0, this.#first[line + 1] ?? 0);
  }
}

function byLine(column: IntColumn, numbers: IntColumn | null, blocks: Blocks): LineIndex {
  const first = new Int32Array(blocks.count + 2);
  const lines = new Int32Array(column.length);
  for (let i = 0; i < column.length; i++) {
    const line = blocks.lineOf(column.at(i));
    lines[i] = line;
    if (line >= 0 && line < blocks.count) first[line + 2] = (first[line + 2] ?? 0) + 1;
  }
  for (let line = 2; line < first.length; line++) first[line] = (first[line] ?? 0) + (first[line - 1] ?? 0);
  const sorted = new Int32Array(column.length);
  for (let i = 0; i < column.length; i++) {
    const line = lines[i] ?? -1;
    if (line < 0 || line >= blocks.count) continue;
    const at = first[line + 1] ?? 0;
    sorted[at] = numbers === null ? i : numbers.at(i);
    first[line + 1] = at + 1;
  }
  return new LineIndex(first, sorted);
}

const NONE: readonly PriorHole[] = [];
