/**
 * Holes that run into holes drilled before beside them. After an edit the search goes on from the first hole that is
 * another than before.
 */
import type { Execution, HoleShape } from "../../program/types.ts";
import type { Tool } from "../../setup/types.ts";
import { pointLength } from "../tool-facts.ts";
import { type Body, NeighbourGrid, TOUCH } from "./grid.ts";
import { MetHoles } from "./met-holes.ts";
import { fieldOf } from "./stock.ts";

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
  /** The earlier hole to which this one leaves the thinnest web, where it is thin; −1 none. */
  web(hole: number): number;
  /** Earlier holes that share any metal with this one, in the order of the search; `MOST_NEAR` at most. */
  near(hole: number): Int32Array;
  /** What a hole takes, and its axis in the coordinates that bodies of one line share. */
  body(hole: number): Body | null;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly met: MetHoles;
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

/** The search as the last execution of these blocks left it. */
interface Kept {
  readonly grid: NeighbourGrid;
  /** Bodies by their key, and by number. */
  readonly bodies: Map<string, number>;
  readonly list: Body[];
  /** Number of each hole's body; -1: it takes no metal, or its place or tool is not known. */
  holes: Int32Array;
  met: MetHoles;
}

const kept = new WeakMap<Execution["blocks"], Kept>();

function search(execution: Execution): Neighbours {
  const count = execution.holeCount;
  let last = kept.get(execution.blocks);
  if (last === undefined || last.list.length > MOST_BODIES) last = anew();
  const { grid, list } = last;
  const before = grid.bodies;
  const numbers = bodiesOf(execution, last);
  const { x, y, holes } = placesOf(execution, numbers);
  const { ways } = execution;
  let same = 0;
  const most = Math.min(count, last.holes.length);
  while (
    same < most &&
    last.holes[same] === holes[same] &&
    Object.is(before.x[same], x[same]) &&
    Object.is(before.y[same], y[same]) &&
    (before.ways[same] ?? 0) === (ways[same] ?? 0)
  )
    same++;
  grid.forget(same);
  grid.bodies = { at: (hole) => list[holes[hole] ?? -1] ?? null, x, y, ways };
  const met = last.met.before(same);
  for (let i = same; i < count; i++) {
    const body = grid.bodies.at(i);
    if (body === null) continue;
    const earlier = grid.earlier(body, x[i] ?? 0, y[i] ?? 0, i);
    met.add(i, earlier, grid.web, grid.near);
    grid.add(i, body);
  }
  grid.trim();
  met.trim();
  kept.set(execution.blocks, { grid, bodies: last.bodies, list, holes, met });
  const ofHole = (hole: number): Overlap | null => {
    const other = met.earlier(hole);
    const own = list[holes[hole] ?? -1];
    const before = list[holes[other] ?? -1];
    if (other < 0 || own === undefined || before === undefined) return null;
    const pitch = Math.hypot((x[hole] ?? 0) - (x[other] ?? 0), (y[hole] ?? 0) - (y[other] ?? 0));
    return { hole, earlier: other, pitch, diameter: own.radius * 2, earlierDiameter: before.radius * 2 };
  };
  return {
    x,
    y,
    web: (hole) => met.web(hole),
    body: (hole) => list[holes[hole] ?? -1] ?? null,
    near: (hole) => met.near(hole),
    ofHole,
    ofShape: shapesOf(execution, met, ofHole),
    met,
  };
}

/** Tells the same of an execution that has the same holes under other shapes. */
export function shareNeighbours(of: Execution, base: Execution): void {
  const neighbours = neighboursOf(base);
  found.set(of, { ...neighbours, ofShape: shapesOf(of, neighbours.met, neighbours.ofHole) });
}

function shapesOf(
  execution: Execution,
  met: MetHoles,
  ofHole: Neighbours["ofHole"],
): (shape: HoleShape) => Overlaps | null {
  let shapes: ReturnType<typeof byShape> | null = null;
  return (shape) => {
    shapes ??= byShape(execution, met);
    const of = shapes.get(shape.id < 0 ? (shape.likeness ?? shape) : shape.id);
    const first = of === undefined ? null : ofHole(of.first);
    return of === undefined || first === null ? null : { count: of.count, first };
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
    met: new MetHoles(),
  };
}

interface Places {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly holes: Int32Array;
}

/** Places in the coordinates that bodies of one line share: the execution's own where no frame is shifted. */
function placesOf(execution: Execution, numbers: ReadonlyMap<HoleShape, Made>): Places {
  const { places, holeCount: count } = execution;
  const shifted = [...numbers.values()].some(({ u, v }) => u !== 0 || v !== 0);
  const x = shifted ? new Float64Array(count) : places.x;
  const y = shifted ? new Float64Array(count) : places.y;
  const holes = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const made = numbers.get(execution.shapeOf(i));
    if (shifted) {
      x[i] = (places.x[i] ?? Number.NaN) + (made?.u ?? 0);
      y[i] = (places.y[i] ?? Number.NaN) + (made?.v ?? 0);
    }
    holes[i] = made === undefined || Number.isNaN(x[i]) || Number.isNaN(y[i]) ? -1 : made.body;
  }
  return { x, y, holes };
}

/** Holes that cut into an earlier one, by the number and the likeness of their shape. */
function byShape(
  execution: Execution,
  met: MetHoles,
): ReadonlyMap<object | number, { readonly count: number; readonly first: number }> {
  const shapes = new Map<object | number, { count: number; first: number }>();
  for (const hole of met.holes()) {
    if (met.earlier(hole) < 0) continue;
    const shape = execution.shapeOf(hole);
    const known = shapes.get(shape.id);
    if (known !== undefined) known.count++;
    else {
      const of = { count: 1, first: hole };
      shapes.set(shape.id, of);
      if (shape.likeness !== undefined) shapes.set(shape.likeness, of);
    }
  }
  return shapes;
}

const AXIS = { x: 0, y: 1, z: 2 } as const;

interface Made {
  readonly body: number;
  /** To the coordinates that bodies of one line share. */
  readonly u: number;
  readonly v: number;
}

/** Equal bodies are one, by number. */
function bodiesOf(execution: Execution, { bodies: known, list }: Kept): Map<HoleShape, Made> {
  const bodies = new Map<HoleShape, Made>();
  const declared = execution.setup.workpiece?.stock ?? null;
  const stock = declared === null ? null : fieldOf(declared);
  for (const shape of execution.shapes) {
    const { firstCut, kind, endZ, surfaceFrom } = shape;
    // Its axis may be in air and its rim in metal, where the part is declared.
    const beside = firstCut < 0 && stock !== null && surfaceFrom === "stock";
    // A back bore is no hole of its own, and a move in a hole that is there takes nothing.
    if ((firstCut < 0 && !beside) || endZ === null || kind === "back-bore" || shape.tool === null) continue;
    const tool = execution.tool(shape.tool);
    if (tool === null || !(tool.DC > 0) || !Number.isFinite(tool.DC)) continue;
    const frame = execution.frameOf(shape);
    if (frame === null) continue;
    const { line, total } = frame;
    const point = pointOf(tool);
    const top = shape.surfaceZ + total[2];
    const end = endZ + total[2];
    const high =
      stock === null || frame.stock === null
        ? top
        : Math.max(top, stock.top(AXIS[shape.axis]) - frame.stock[2] + total[2]);
    if (!((beside ? high : top) - end > TOUCH)) continue;
    const key = `${line}|${tool.DC}|${point}|${top}|${end}|${high}`;
    let body = known.get(key);
    if (body === undefined) {
      const octave = Math.ceil(Math.log2(tool.DC));
      body = list.length;
      list.push({ line, lineHash: hashOf(`${line}`), radius: tool.DC / 2, point, top, high, end, octave });
      known.set(key, body);
    }
    bodies.set(shape, { body, u: total[0], v: total[1] });
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
