/**
 * Drilling written out with G1 and G0: feed down, retract, next depth. Strokes on one axis line are held until the tool
 * goes elsewhere; a sideways cut while it is down makes them a plunge of a milling tool, and no hole.
 */
import type { WordRef } from "../../grammar/blocks.ts";
import { turns } from "../setup/dialect.ts";
import { isTurned, moveAxes, onCentre } from "./drill-axes.ts";
import { NO_UNITS, strokeSpeed } from "./feeds.ts";
import { MilledRegions, type Region } from "./milled.ts";
import { FROM_INDEX } from "./modal.ts";
import { type OwedStroke, openOperation } from "./operations.ts";
import type { Run } from "./run.ts";
import type { DraftStroke } from "./shapes.ts";
import { sideways } from "./sideways.ts";
import { constantSpeed } from "./turning.ts";
import type { HoleKind } from "./types.ts";
import { UNSURE, unsure } from "./unsure.ts";

const FINE = 1e-6;
const AXES = ["x", "y", "z"] as const;

interface Pending {
  readonly w: number;
  readonly u: number;
  readonly v: number;
  readonly start: number;
  bottom: number;
  readonly strokes: DraftStroke[];
  /** Numbers of the strokes that began after a retract. */
  readonly dives: number[];
  /** Block of each stroke. */
  readonly blocks: number[];
  /** Highest level since the last stroke; −Infinity: none. */
  raised: number;
  rapidUp: boolean;
  fullRetracts: boolean;
  dwell: number;
  readonly rowId: number;
  readonly way: number;
  readonly tool: number | null;
  readonly wcs: string;
  readonly step: number;
  /** Strokes that began while no metal had been cut since coolant came on. */
  readonly owed: OwedStroke[];
  /** Which of the times that coolant came on the last stroke ran under. */
  switched: number;
  zRef: WordRef;
  readonly rRef: WordRef;
  /** What is wrong with drilling here on a turning centre; empty: nothing. */
  readonly onCentre: string;
  readonly whyTool: string;
  whyF: string;
  whyN: string;
  readonly whyStart: string;
  whyEnd: string;
}

export interface LongHandMark {
  readonly milled: readonly Region[];
  readonly lastRapidRef: WordRef;
}

export class LongHand {
  #pending: Pending | null = null;
  readonly #milled = new MilledRegions();
  #lastRapidRef: WordRef = 0;

  /** No strokes under way: the only moment at which a checkpoint may be taken. */
  get idle(): boolean {
    return this.#pending === null;
  }

  mark(): LongHandMark {
    return { milled: this.#milled.mark(), lastRapidRef: this.#lastRapidRef };
  }

  standsAs(mark: LongHandMark): boolean {
    return this.#pending === null && this.#lastRapidRef === mark.lastRapidRef && this.#milled.standsAs(mark.milled);
  }

  restore(mark: LongHandMark): void {
    this.#pending = null;
    this.#milled.restore(mark.milled);
    this.#lastRapidRef = mark.lastRapidRef;
  }

  /** A feed move has just ended at the run's position. */
  feed(run: Run, x0: number, y0: number, z0: number): void {
    const before = [x0, y0, z0];
    const [w, u, v] = moveAxes(run, before);
    const now = run.pos[w] ?? Number.NaN;
    const from = before[w] ?? Number.NaN;
    const uNow = run.pos[u] ?? Number.NaN;
    const vNow = run.pos[v] ?? Number.NaN;
    if (isTurned(run, uNow)) {
      this.commit(run);
      return;
    }
    if (moved(before[u], uNow) || moved(before[v], vNow)) {
      this.lateral(run, x0, y0, z0);
      return;
    }
    if (now > from) {
      // Fed out: a retract like any other.
      if (this.#pending !== null) this.#pending.raised = Math.max(this.#pending.raised, now);
      return;
    }
    this.#stroke(run, w, uNow, vNow, from, now);
  }

  #stroke(run: Run, w: number, u: number, v: number, from: number, to: number): void {
    const { blocks, words, store, step } = run;
    const speed = strokeSpeed(run, from - to);
    const fRef = store.from(FROM_INDEX.f, step);
    let p = this.#pending;
    if (p !== null && p.w !== w) {
      this.commit(run);
      p = null;
    }
    const letter = 23 + w;
    const zRef = words.has(letter) ? blocks.refOf(words.block, words.itemOf(letter)) : 0;
    if (p === null) {
      const rowId = run.currentRow();
      p = {
        w,
        u,
        v,
        start: from,
        bottom: to,
        strokes: [],
        dives: [],
        blocks: [],
        raised: Number.NEGATIVE_INFINITY,
        rapidUp: false,
        fullRetracts: true,
        dwell: 0,
        rowId,
        way: run.record?.holes.wayOf(run) ?? 0,
        tool: run.row.tool < 0 ? null : run.row.tool,
        wcs: run.row.wcs,
        step,
        owed: [],
        switched: 0,
        zRef,
        rRef: this.#lastRapidRef,
        onCentre: w === 2 ? constantSpeed(run) : "",
        whyTool: unsure(run.row, UNSURE.tool) ? run.row.unsureWhy : "",
        whyF: "",
        whyN: "",
        whyStart: Number.isNaN(from)
          ? `the height before the stroke is not known: ${run.why[w as 0 | 1 | 2] || "no move yet"}`
          : "",
        whyEnd: "",
      };
      this.#pending = p;
    }
    const last = p.strokes[p.strokes.length - 1];
    const raised = p.raised > p.bottom + FINE || (last !== undefined && p.raised > Number.NEGATIVE_INFINITY);
    const row = run.currentRow();
    const operations = run.record?.operations ?? null;
    const switched = operations?.switched ?? 0;
    const alike =
      last?.rowId === row || (last?.rowId !== undefined && store.strokeKey(last.rowId) === store.strokeKey(row));
    if (
      last !== undefined &&
      !raised &&
      alike &&
      switched === p.switched &&
      Object.is(last.f, speed.f) &&
      Object.is(last.n, speed.n)
    ) {
      // One continuous feed move, written in two blocks.
      p.strokes[p.strokes.length - 1] = { ...last, to };
      p.blocks.push(words.block);
    } else {
      if (last !== undefined && raised) {
        p.dives.push(p.strokes.length);
        // A retract before anything was cut is neither.
        const top = Math.min(p.start, this.#top(run, p));
        if (p.raised < top - FINE && p.bottom < top) p.fullRetracts = false;
      }
      const owed = operations?.owedAt(run, p.strokes.length) ?? null;
      if (owed !== null) p.owed.push(owed);
      p.switched = switched;
      p.strokes.push({ from, to, f: speed.f, n: speed.n, fRef, rowId: row, step });
      p.blocks.push(words.block);
    }
    if (speed.whyF !== "") p.whyF = speed.whyF;
    if (speed.whyN !== "") p.whyN = speed.whyN;
    if (Number.isNaN(to)) p.whyEnd = run.why[w as 0 | 1 | 2];
    if (!(to >= p.bottom)) {
      p.bottom = to;
      if (zRef !== 0) p.zRef = zRef;
    }
    p.raised = Number.NEGATIVE_INFINITY;
    p.rapidUp = false;
  }

  #top(run: Run, p: Pending): number {
    return run.record?.holes.surfaceAt(run, p.w, p.u, p.v).z ?? 0;
  }

  /** A rapid has just ended at the run's position. */
  rapid(run: Run, x0: number, y0: number, z0: number): void {
    const before = [x0, y0, z0];
    const [w, u, v] = moveAxes(run, before);
    const now = run.pos[w] ?? Number.NaN;
    const from = before[w] ?? Number.NaN;
    const away = moved(before[u], run.pos[u]) || moved(before[v], run.pos[v]);
    const p = this.#pending;
    if (p !== null) {
      if (away) this.commit(run);
      else if (now > from) {
        p.raised = Math.max(p.raised, now);
        p.rapidUp = true;
      }
    }
    if (away) sideways(run, w, u, v, before, "rapid", this.#milled);
    const { words, blocks } = run;
    if (words.has(23 + w)) this.#lastRapidRef = blocks.refOf(words.block, words.itemOf(23 + w));
    if (!(now >= from) && !isTurned(run, run.pos[u] ?? Number.NaN)) this.#intoMetal(run, w, u, v, now);
  }

  #intoMetal(run: Run, w: number, u: number, v: number, to: number): void {
    const { record } = run;
    if (record === null || Number.isNaN(to) || run.row.units === 0) return;
    const atU = run.pos[u] ?? Number.NaN;
    const atV = run.pos[v] ?? Number.NaN;
    const surface = record.holes.surfaceAt(run, w, atU, atV);
    if (to >= surface.z - 0.01) return;
    // Around turning work nobody knows where metal is, unless stock tells it.
    if (!surface.declared && turns(run.dialect) && !(w === 2 && onCentre(atU))) return;
    const p = this.#pending;
    if (p !== null && to >= p.bottom - 0.01) return;
    const tool = record.toolDiameter(run.row.tool);
    if (to >= record.holes.freeTo(run, w, atU, atV, tool) - 0.01) return;
    if (this.#milled.covers(record.holes.places.frameOf(run, w), atU, atV, to)) return;
    const letter = 23 + w;
    const item = run.words.has(letter) ? run.words.itemOf(letter) : run.words.first;
    const level = surface.declared ? "error" : "warning";
    run.say("rapid-into-metal", "", item, { z: to, surface: surface.z, level });
  }

  /** An arc, or a cut across the axis, has just ended at the run's position. */
  lateral(run: Run, x0: number, y0: number, z0: number): void {
    const before = [x0, y0, z0];
    const [w, u, v] = moveAxes(run, before);
    const low = Math.min(before[w] ?? Number.NaN, run.pos[w] ?? Number.NaN);
    const p = this.#pending;
    const drills = (run.record?.operations.drillOf(run.row.tool) ?? null) !== null;
    if (p !== null) {
      const top = Math.min(p.start, this.#top(run, p));
      if (!drills && low < (Number.isNaN(top) ? Number.POSITIVE_INFINITY : top) - FINE) this.#pending = null;
      else this.commit(run);
    }
    if (drills) sideways(run, w, u, v, before, "feed", this.#milled);
    this.#mill(
      run,
      w,
      [before[u] ?? Number.NaN, before[v] ?? Number.NaN],
      [run.pos[u] ?? Number.NaN, run.pos[v] ?? Number.NaN],
      low,
    );
  }

  /** Widens the milled regions by a cut below the surface. */
  #mill(run: Run, w: number, from: readonly [number, number], to: readonly [number, number], low: number): void {
    const { record } = run;
    if (record === null || Number.isNaN(to[0] + to[1])) return;
    const start = Number.isNaN(from[0] + from[1]) ? to : from;
    const below = ([u, v]: readonly [number, number]): boolean => low < record.holes.surfaceAt(run, w, u, v).z;
    if (below(start) || below(to)) this.#milled.add(record.holes.places.frameOf(run, w), start, to, low);
  }

  dwell(seconds: number): void {
    const p = this.#pending;
    if (p !== null && p.raised === Number.NEGATIVE_INFINITY) p.dwell = Math.max(p.dwell, seconds);
  }

  /** The tool leaves the place: what it did there becomes a hole. */
  commit(run: Run): void {
    const p = this.#pending;
    this.#pending = null;
    const { record } = run;
    if (p === null || record === null) return;
    const surface = record.holes.surfaceAt(run, p.w, p.u, p.v);
    // Fed down in air and gone sideways: an approach, not a hole. Straight up again by rapid: a stroke all the same.
    if (p.bottom >= surface.z - FINE && (surface.declared || !p.rapidUp)) return;
    const known = run.row.units !== 0;
    const levels = known && !Number.isNaN(p.start) && !Number.isNaN(p.bottom);
    const unknown: Record<string, string> = {};
    if (!known) unknown.startZ = NO_UNITS;
    else {
      if (p.whyStart !== "") unknown.startZ = p.whyStart;
      if (p.whyEnd !== "") unknown.endZ = p.whyEnd;
    }
    if (p.whyTool !== "") unknown.tool = p.whyTool;
    if (p.whyF !== "") unknown.f = p.whyF;
    if (p.whyN !== "") unknown.n = p.whyN;
    const [deepening, peck] = pecksOf(p);
    const kind: HoleKind = deepening === 0 ? "drill" : p.fullRetracts ? "peck" : "chip-break";
    const firstBlock = p.blocks[0] ?? run.words.block;
    const operation = openOperation(run, record, firstBlock);
    const hole = record.holes.add(
      run,
      {
        operation,
        kind,
        longHand: true,
        w: p.w,
        axis: AXES[p.w] ?? "z",
        startZ: known ? p.start : Number.NaN,
        endZ: known ? p.bottom : Number.NaN,
        strokes: levels ? p.strokes : [],
        dives: p.dives,
        dwell: p.dwell,
        fullRetracts: p.fullRetracts,
        peck,
        tool: p.tool,
        wcs: p.wcs,
        rowId: p.rowId,
        step: p.step,
        refs: { z: p.zRef, r: p.rRef, q: 0, cycle: 0 },
        unknown,
        rapidUp: p.rapidUp,
      },
      known ? p.u : Number.NaN,
      known ? p.v : Number.NaN,
      firstBlock,
      p.way,
    );
    const shape = p.owed.length === 0 ? undefined : record.holes.rowOf(hole)?.shape;
    if (shape !== undefined) {
      const first = Math.max(0, shape.strokes.length - p.strokes.length);
      record.operations.contact(
        hole,
        shape,
        p.owed.map((owed) => ({ ...owed, stroke: owed.stroke + first })),
      );
    }
    if (p.onCentre !== "") {
      const span = run.blocks.spanOf(p.zRef) ?? { block: firstBlock, start: 0, end: 0 };
      const data = { rule: "g96-on-centre", level: "error", text: p.onCentre };
      record.events.add("dialect", "g96-on-centre", span, operation, data, 3);
    }
    for (const block of p.blocks) if (block !== firstBlock) record.holes.also(block, hole);
  }
}

function moved(before: number | undefined, now: number | undefined): boolean {
  const a = before ?? Number.NaN;
  const b = now ?? Number.NaN;
  if (Number.isNaN(a) && Number.isNaN(b)) return false;
  return !(Math.abs(a - b) <= FINE);
}

/** How many dives went deeper than the one before, and the largest step. The first step counts from where its stroke began. */
function pecksOf(p: Pending): [count: number, peck: number] {
  let count = 0;
  let step = 0;
  let deepest = Number.NaN;
  const bounds = [0, ...p.dives, p.strokes.length];
  for (let i = 0; i + 1 < bounds.length; i++) {
    const last = p.strokes[(bounds[i + 1] ?? 0) - 1];
    if (last === undefined) continue;
    if (Number.isNaN(deepest)) {
      step = last.from - last.to;
      deepest = last.to;
    } else if (last.to < deepest - FINE) {
      count++;
      step = Math.max(step, deepest - last.to);
      deepest = last.to;
    }
  }
  return [count, count === 0 || Number.isNaN(step) ? 0 : step];
}
