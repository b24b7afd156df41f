/**
 * Holes that run into a hole drilled before beside them: what they meet at the entry is no flat face, and the program does
 * not say what it is. After an edit the search goes on from the first hole that is another than before.
 */
import { placeOf } from "../program/library.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { say } from "../units/wording.ts";
import { type Body, NeighbourGrid, TOUCH } from "./neighbour-grid.ts";
import { pointLength } from "./tool-facts.ts";

/** A hole and one drilled before it whose circle it cuts. */
export interface Overlap {
  readonly hole: number;
  readonly earlier: number;
  /** Distance of the two axes, mm. */
  readonly pitch: number;
  /** DC of the two tools, mm. */
  readonly diameter: number;
  readonly earlierDiameter: number;
}

/** Overlaps of the holes of one shape. */
export interface Overlaps {
  readonly count: number;
  readonly first: Overlap;
}

export interface Neighbours {
  /** The nearest of the earlier holes that this one cuts into; null: none, or its place or tool is not known. */
  ofHole(hole: number): Overlap | null;
  /** Of a shape of this execution, or of one as it would be with another feed. null: no hole of it overlaps. */
  ofShape(shape: HoleShape): Overlaps | null;
}

const found = new WeakMap<Execution, Neighbours>();

export function neighboursOf(execution: Execution): Neighbours {
  let neighbours = found.get(execution);
  if (neighbours === undefined) {
    neighbours = search(execution);
    found.set(execution, neighbours);
  }
  return neighbours;
}

/** The first overlap of a shape whose entry nobody told, with the lines of both holes, which move as the text does. */
export interface UntoldEntry {
  readonly overlap: Overlap;
  readonly line: number;
  readonly earlierLine: number;
}

/** null: nothing overlaps, or the entry is told. */
export function untoldEntry(execution: Execution, shape: HoleShape): UntoldEntry | null {
  if (shape.entry !== null) return null;
  const overlaps = neighboursOf(execution).ofShape(shape);
  if (overlaps === null) return null;
  const overlap = overlaps.first;
  const line = (hole: number): number => placeOf(execution.blocks, execution.hole(hole).block).line + 1;
  return { overlap, line: line(overlap.hole), earlierLine: line(overlap.earlier) };
}

/** Whether both would be told in the same words. */
export function sameUntold(a: UntoldEntry | null, b: UntoldEntry | null): boolean {
  if (a === null || b === null) return a === b;
  return (
    a.line === b.line &&
    a.earlierLine === b.earlierLine &&
    a.overlap.pitch === b.overlap.pitch &&
    a.overlap.diameter === b.overlap.diameter &&
    a.overlap.earlierDiameter === b.overlap.earlierDiameter
  );
}

/** Why the entry is not known. Names both lines: it is told of all holes of a shape, and not each of them need overlap. */
export function untoldWords({ overlap, line, earlierLine }: UntoldEntry, system: UnitSystem): string {
  const one = say(overlap.diameter, "length", system);
  const other = say(overlap.earlierDiameter, "length", system);
  const sizes = one === other ? `both ${one}` : `${one} into ${other}`;
  return `the hole of line ${line} overlaps a hole drilled on line ${earlierLine} (pitch ${say(overlap.pitch, "length", system)}, ${sizes}), and no entry is told`;
}

/** The search as the last execution of these blocks left it. */
interface Kept {
  readonly grid: NeighbourGrid;
  /** Bodies by their key, and by number. */
  readonly bodies: Map<string, number>;
  readonly list: Body[];
  /** Number of each hole's body; -1: it takes no metal, or its place or tool is not known. */
  holes: Int32Array;
  earlier: Int32Array;
}

const kept = new WeakMap<Execution["blocks"], Kept>();

function search(execution: Execution): Neighbours {
  const count = execution.holeCount;
  let last = kept.get(execution.blocks);
  if (last === undefined || last.list.length > MOST_BODIES) last = anew();
  const { grid, list } = last;
  const before = grid.bodies;
  const numbers = bodiesOf(execution, last);
  const { x, y } = execution.places;
  const holes = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const known = !Number.isNaN(x[i] ?? Number.NaN) && !Number.isNaN(y[i] ?? Number.NaN);
    holes[i] = known ? (numbers.get(execution.shapeOf(i)) ?? -1) : -1;
  }
  let same = 0;
  const most = Math.min(count, last.holes.length);
  while (
    same < most &&
    last.holes[same] === holes[same] &&
    Object.is(before.x[same], x[same]) &&
    Object.is(before.y[same], y[same])
  )
    same++;
  grid.forget(same);
  grid.bodies = { at: (hole) => list[holes[hole] ?? -1] ?? null, x, y };
  const earlier = new Int32Array(count).fill(-1);
  earlier.set(last.earlier.subarray(0, same));
  for (let i = same; i < count; i++) {
    const body = grid.bodies.at(i);
    if (body === null) continue;
    earlier[i] = grid.earlier(body, x[i] ?? 0, y[i] ?? 0);
    grid.add(i, body);
  }
  grid.trim();
  const shapes = new Map<object | number, { count: number; first: number }>();
  for (let i = 0; i < count; i++) {
    if (earlier[i] === -1) continue;
    const shape = execution.shapeOf(i);
    const known = shapes.get(shape.id);
    if (known !== undefined) known.count++;
    else {
      const of = { count: 1, first: i };
      shapes.set(shape.id, of);
      if (shape.likeness !== undefined) shapes.set(shape.likeness, of);
    }
  }
  kept.set(execution.blocks, { grid, bodies: last.bodies, list, holes, earlier });
  const ofHole = (hole: number): Overlap | null => {
    const other = earlier[hole] ?? -1;
    const own = list[holes[hole] ?? -1];
    const before = list[holes[other] ?? -1];
    if (other < 0 || own === undefined || before === undefined) return null;
    const pitch = Math.hypot((x[hole] ?? 0) - (x[other] ?? 0), (y[hole] ?? 0) - (y[other] ?? 0));
    return { hole, earlier: other, pitch, diameter: own.radius * 2, earlierDiameter: before.radius * 2 };
  };
  return {
    ofHole,
    ofShape(shape) {
      const of = shapes.get(shape.id < 0 ? (shape.likeness ?? shape) : shape.id);
      const first = of === undefined ? null : ofHole(of.first);
      return of === undefined || first === null ? null : { count: of.count, first };
    },
  };
}

/** Bodies of shapes that are long gone are let go of when this many have come together. */
const MOST_BODIES = 20_000;

function anew(): Kept {
  return {
    grid: new NeighbourGrid(),
    bodies: new Map(),
    list: [],
    holes: new Int32Array(0),
    earlier: new Int32Array(0),
  };
}

/** Equal bodies are one, by number. */
function bodiesOf(execution: Execution, { bodies: known, list }: Kept): Map<HoleShape, number> {
  const bodies = new Map<HoleShape, number>();
  for (const shape of execution.shapes) {
    const { firstCut, kind, endZ, surfaceZ, wcs, axis } = shape;
    // A back bore is no hole of its own, and a move in a hole that is there takes nothing.
    if (firstCut < 0 || endZ === null || kind === "back-bore" || shape.tool === null) continue;
    const tool = execution.tool(shape.tool);
    if (tool === null || !(tool.DC > 0) || !Number.isFinite(tool.DC) || !(surfaceZ - endZ > TOUCH)) continue;
    const frame = `${shape.frame ?? ""}|${wcs}|${axis}`;
    const point = pointOf(tool);
    const key = `${frame}|${tool.DC}|${point}|${surfaceZ}|${endZ}`;
    let body = known.get(key);
    if (body === undefined) {
      const octave = Math.ceil(Math.log2(tool.DC));
      body = list.length;
      list.push({ frame, frameHash: hashOf(frame), radius: tool.DC / 2, point, top: surfaceZ, end: endZ, octave });
      known.set(key, body);
    }
    bodies.set(shape, body);
  }
  return bodies;
}

function hashOf(text: string): number {
  let hash = 0;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash, 31) + text.charCodeAt(i);
  return Math.imul(hash, 83492791);
}

/** Without a declared angle a spot drill or countersink has 90°, as most have; others count as flat. */
function pointOf(tool: Tool): number {
  const length = pointLength(tool);
  if (length.known) return length.value.value;
  return tool.family === "spot" || tool.family === "countersink" ? tool.DC / 2 : 0;
}
