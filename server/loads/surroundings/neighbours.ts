/**
 * Holes that run into holes drilled before beside them. After an edit the search goes on from the first hole that is
 * another than before.
 */
import { IntColumn } from "../../program/columns.ts";
import type { Execution, HoleShape } from "../../program/types.ts";
import type { Tool } from "../../setup/types.ts";
import { pointLength } from "../tool-facts.ts";
import { type Body, NeighbourGrid, TOUCH } from "./grid.ts";
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
  earlier: Int32Array;
  /** Earlier holes of each hole, one after the other, and where those of each end. */
  near: IntColumn;
  nearEnd: Int32Array;
  web: Int32Array;
}

const kept = new WeakMap<Execution["blocks"], Kept>();

function search(execution: Execution): Neighbours {
  const count = execution.holeCount;
  let last = kept.get(execution.blocks);
  if (last === undefined || last.list.length > MOST_BODIES) last = anew();
  const { grid, list } = last;
  const before = grid.bodies;
  const numbers = bodiesOf(execution, last);
  const { places } = execution;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const holes = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const made = numbers.get(execution.shapeOf(i));
    x[i] = (places.x[i] ?? Number.NaN) + (made?.u ?? 0);
    y[i] = (places.y[i] ?? Number.NaN) + (made?.v ?? 0);
    holes[i] = made === undefined || Number.isNaN(x[i]) || Number.isNaN(y[i]) ? -1 : made.body;
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
  const nearEnd = new Int32Array(count);
  nearEnd.set(last.nearEnd.subarray(0, same));
  const near = new IntColumn();
  const web = new Int32Array(count).fill(-1);
  web.set(last.web.subarray(0, same));
  near.append(last.near, 0, same === 0 ? 0 : (nearEnd[same - 1] ?? 0));
  for (let i = same; i < count; i++) {
    const body = grid.bodies.at(i);
    if (body !== null) {
      earlier[i] = grid.earlier(body, x[i] ?? 0, y[i] ?? 0);
      for (const other of grid.near) near.push(other);
      web[i] = grid.web;
      grid.add(i, body);
    }
    nearEnd[i] = near.length;
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
  kept.set(execution.blocks, { grid, bodies: last.bodies, list, holes, earlier, near, nearEnd, web });
  const ofHole = (hole: number): Overlap | null => {
    const other = earlier[hole] ?? -1;
    const own = list[holes[hole] ?? -1];
    const before = list[holes[other] ?? -1];
    if (other < 0 || own === undefined || before === undefined) return null;
    const pitch = Math.hypot((x[hole] ?? 0) - (x[other] ?? 0), (y[hole] ?? 0) - (y[other] ?? 0));
    return { hole, earlier: other, pitch, diameter: own.radius * 2, earlierDiameter: before.radius * 2 };
  };
  return {
    x,
    y,
    web: (hole) => web[hole] ?? -1,
    body: (hole) => list[holes[hole] ?? -1] ?? null,
    near: (hole) => near.data.subarray(hole === 0 ? 0 : nearEnd[hole - 1], nearEnd[hole]),
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
    near: new IntColumn(),
    nearEnd: new Int32Array(0),
    web: new Int32Array(0),
  };
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
