/**
 * Modal states, shared: every distinct set of values is one row, a step holds the row's number. Where a value came from
 * is kept apart, one sorted list of (step, word) for each kind of value, and joined when a state is asked for.
 */
import type { WordRef } from "../../grammar/blocks.ts";
import type { Dialect } from "../setup/dialect.ts";
import { IntColumn, NumberColumn, SparseColumn } from "./columns.ts";
import { ModalRows } from "./modal-rows.ts";
import type { ModalState } from "./types.ts";
import { UNSURE, unsure, unsureModes } from "./unsure.ts";

/** The values as numbers. −1 or NaN: none. */
export interface ModalRow {
  motion: number;
  cycle: number;
  plane: 17 | 18 | 19;
  distance: 90 | 91;
  feedMode: 93 | 94 | 95;
  /** 0 unknown, 1 mm, 2 inch. */
  units: 0 | 1 | 2;
  returnMode: 0 | 98 | 99;
  wcs: string;
  comp: 40 | 41 | 42;
  tlo: 43 | 44 | 49;
  h: number;
  speedMode: 96 | 97;
  tool: number;
  staged: number;
  s: number;
  /** As programmed, not converted: a number keeps its reading when the units change (NISTIR 6556 4.3.3.3). */
  f: number;
  /** 0 stopped, 1 cw, 2 ccw. */
  spindle: 0 | 1 | 2;
  /** Codes in force joined by a space. */
  coolant: string;
  /** The driven tools turn rather than the work. */
  live: boolean;
  /** Highest speed under G96 (G50 S, G92 S of turning controls); NaN: none given. */
  clamp: number;
  /** Why S or F has no known value although one was written; empty where it is known, and where there is none. */
  sWhy: string;
  fWhy: string;
  /** Modes that are not known (bits of UNSURE), whatever stands above, and why. */
  unsure: number;
  unsureWhy: string;
}

/** The word is there, and what is wrong with it is told at its place. */
export const WORD_NOT_READ = { s: "S cannot be read", f: "F cannot be read" } as const;
export const WORD_NOT_KNOWN = { s: "the value of S is not known", f: "the value of F is not known" } as const;

export const FROM = [
  "s",
  "f",
  "spindle",
  "coolant",
  "tool",
  "lengthOffset",
  "feedMode",
  "units",
  "r",
  "z",
  "q",
  "p",
  "cycle",
  "wcs",
  "returnMode",
  "repeat",
] as const;
export type FromField = (typeof FROM)[number];
export const FROM_INDEX = Object.fromEntries(FROM.map((name, i) => [name, i])) as { readonly [F in FromField]: number };

const PLANES = { G17: 17, G18: 18, G19: 19 } as const;

/** The state before the first block. */
export function startRow(dialect?: Dialect): ModalRow {
  return {
    motion: -1,
    cycle: 0,
    plane: PLANES[dialect?.startPlane ?? "G17"],
    distance: 90,
    feedMode: dialect?.startFeedMode === "per-rev" ? 95 : 94,
    units: 0,
    returnMode: 0,
    wcs: "G54",
    comp: 40,
    tlo: 49,
    h: Number.NaN,
    speedMode: 97,
    tool: -1,
    staged: -1,
    s: Number.NaN,
    f: Number.NaN,
    spindle: 0,
    coolant: "",
    live: false,
    clamp: Number.NaN,
    sWhy: "",
    fWhy: "",
    unsure: 0,
    unsureWhy: "",
  };
}

// Object.is on numbers: NaN equals NaN.
export function sameRow(a: ModalRow, b: ModalRow): boolean {
  return (
    a.motion === b.motion &&
    a.cycle === b.cycle &&
    Object.is(a.f, b.f) &&
    Object.is(a.s, b.s) &&
    a.tool === b.tool &&
    a.staged === b.staged &&
    a.spindle === b.spindle &&
    a.coolant === b.coolant &&
    a.wcs === b.wcs &&
    a.plane === b.plane &&
    a.distance === b.distance &&
    a.feedMode === b.feedMode &&
    a.units === b.units &&
    a.returnMode === b.returnMode &&
    a.comp === b.comp &&
    a.tlo === b.tlo &&
    Object.is(a.h, b.h) &&
    a.speedMode === b.speedMode &&
    a.live === b.live &&
    Object.is(a.clamp, b.clamp) &&
    a.sWhy === b.sWhy &&
    a.fWhy === b.fWhy &&
    a.unsure === b.unsure &&
    a.unsureWhy === b.unsureWhy
  );
}

export const unitFactor = (units: number): number => (units === 2 ? 25.4 : 1);

/** F in base units: mm/min, mm/rev, or 1/min in G93. Raw while the units are unknown. */
export function feedOf(row: ModalRow): number {
  return row.feedMode === 93 ? row.f : row.f * unitFactor(row.units);
}

const NO_COOLANT: readonly string[] = [];

export class ModalStore {
  #rows = new ModalRows();
  #cutKeys: number[] = [];
  #cuts = new Map<string, number>();
  #strokeKeys: number[] = [];
  /** Step → row, for steps in order. */
  steps = new IntColumn(1024);
  /** Step → block id. */
  stepBlocks = new IntColumn(1024);
  /** Step → height of the tool after it, mm; NaN unknown. */
  stepZ = new SparseColumn();
  #fromSteps: IntColumn[] = FROM.map(() => new IntColumn(16));
  #fromRefs: NumberColumn[] = FROM.map(() => new NumberColumn(16));
  /** The last public state made of a row, so that equal neighbours are one object. */
  #made = new Map<number, ModalState>();

  /** The number of the row with these values. */
  intern(row: ModalRow): number {
    return this.#rows.intern(row);
  }

  /** Equal for rows that drill alike: distance mode, motion code, return level and staged tool make no difference. */
  cutKey(id: number): number {
    const known = this.#cutKeys[id];
    if (known !== undefined) return known;
    const r = this.row(id);
    const text = `${r.live}|${r.clamp}|${r.feedMode}|${r.units}|${r.wcs}|${r.comp}|${r.tlo}|${r.h}|${r.speedMode}|${r.tool}|${r.s}|${r.f}|${r.spindle}|${r.coolant}|${r.sWhy}|${r.fWhy}|${r.unsure}|${r.unsureWhy}`;
    const key = this.#cuts.get(text) ?? this.#cuts.size;
    this.#cuts.set(text, key);
    this.#cutKeys[id] = key;
    return key;
  }

  /**
   * Equal for rows under which two strokes of one hole cut alike: what belongs to the whole hole makes no difference, nor
   * does F, which each stroke has for itself.
   */
  strokeKey(id: number): number {
    const known = this.#strokeKeys[id];
    if (known !== undefined) return known;
    const r = this.row(id);
    const text = `s${r.live}|${r.clamp}|${r.feedMode}|${r.speedMode}|${r.s}|${r.spindle}|${r.coolant}|${r.sWhy}|${r.fWhy}`;
    const key = this.#cuts.get(text) ?? this.#cuts.size;
    this.#cuts.set(text, key);
    this.#strokeKeys[id] = key;
    return key;
  }

  row(id: number): ModalRow {
    return this.#rows.row(id) ?? startRow();
  }

  get rowCount(): number {
    return this.#rows.count;
  }

  setFrom(field: number, step: number, ref: WordRef): void {
    const steps = this.#fromSteps[field];
    const refs = this.#fromRefs[field];
    if (steps === undefined || refs === undefined) return;
    const last = steps.length - 1;
    // Within one step the later word rules.
    if (last >= 0 && steps.at(last) === step) refs.data[last] = ref;
    else {
      steps.push(step);
      refs.push(ref);
    }
  }

  /** Word that ruled a value after a step; 0 none. */
  from(field: number, step: number): WordRef {
    const steps = this.#fromSteps[field];
    if (steps === undefined) return 0;
    let low = 0;
    let high = steps.length;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (steps.at(mid) <= step) low = mid + 1;
      else high = mid;
    }
    return low === 0 ? 0 : (this.#fromRefs[field]?.at(low - 1) ?? 0);
  }

  state(rowId: number, step: number): ModalState {
    const f = (field: FromField): WordRef => this.from(FROM_INDEX[field], step);
    const from: ModalState["from"] = {
      s: f("s"),
      f: f("f"),
      spindle: f("spindle"),
      coolant: f("coolant"),
      tool: f("tool"),
      lengthOffset: f("lengthOffset"),
      feedMode: f("feedMode"),
      units: f("units"),
      r: f("r"),
      z: f("z"),
      q: f("q"),
      p: f("p"),
      cycle: f("cycle"),
      wcs: f("wcs"),
      returnMode: f("returnMode"),
      repeat: f("repeat"),
    };
    const made = this.#made.get(rowId);
    if (made !== undefined && FROM.every((name) => made.from[name] === from[name])) return made;
    const state = publicState(this.row(rowId), from);
    this.#made.set(rowId, state);
    return state;
  }

  /** An empty store that numbers rows as this one does: rows are shared, they only ever grow. */
  following(): ModalStore {
    const next = new ModalStore();
    next.#rows = this.#rows;
    next.#cuts = this.#cuts;
    next.#cutKeys = this.#cutKeys;
    next.#strokeKeys = this.#strokeKeys;
    next.#made = this.#made;
    next.steps = new IntColumn(this.steps.length + 256);
    next.stepBlocks = new IntColumn(this.steps.length + 256);
    return next;
  }

  /** Takes over steps [from, to) of a store that numbers rows alike, as the next steps here. */
  append(other: ModalStore, from: number, to: number): void {
    const shift = this.steps.length - from;
    this.steps.append(other.steps, from, to);
    this.stepBlocks.append(other.stepBlocks, from, to);
    this.stepZ.append(other.stepZ, from, to);
    this.#fromSteps.forEach((column, field) => {
      const theirs = other.#fromSteps[field];
      const refs = other.#fromRefs[field];
      if (theirs === undefined || refs === undefined) return;
      const first = theirs.lowerBound(from);
      const last = theirs.lowerBound(to);
      column.append(theirs, first, last, shift);
      this.#fromRefs[field]?.append(refs, first, last);
    });
  }

  /** The word that rules each value now, by field. */
  ruling(): Float64Array {
    return Float64Array.from(this.#fromRefs, (refs) => refs.at(refs.length - 1));
  }

  trim(): void {
    this.#rows.trim();
    for (const column of [this.steps, this.stepBlocks, this.stepZ, ...this.#fromSteps, ...this.#fromRefs])
      column.trim();
  }
}

const none = (value: number): number | null => (Number.isNaN(value) || value === -1 ? null : value);
const SPINDLE = ["stopped", "cw", "ccw"] as const;

function publicState(row: ModalRow, from: ModalState["from"]): ModalState {
  const feedUnsure = unsure(row, UNSURE.feedMode | UNSURE.units);
  return {
    motion: none(row.motion) as ModalState["motion"],
    cycle: row.cycle,
    plane: row.plane,
    distance: row.distance,
    feedMode: row.feedMode,
    units: row.units === 0 ? null : row.units === 1 ? "mm" : "inch",
    returnMode: row.returnMode === 0 ? null : row.returnMode,
    wcs: row.wcs,
    comp: row.comp,
    lengthOffset: { code: row.tlo, h: none(row.h) },
    speedMode: row.speedMode,
    tool: none(row.tool),
    staged: none(row.staged),
    s: Number.isNaN(row.s) ? null : row.s,
    f: Number.isNaN(row.f) || feedUnsure ? null : feedOf(row),
    sWhy: row.sWhy === "" ? null : row.sWhy,
    fWhy: feedUnsure ? row.unsureWhy : row.fWhy === "" ? null : row.fWhy,
    unsure: unsureModes(row.unsure),
    unsureWhy: row.unsureWhy === "" ? null : row.unsureWhy,
    spindle: SPINDLE[row.spindle],
    coolant: row.coolant === "" ? NO_COOLANT : row.coolant.split(" "),
    from,
  };
}
