/**
 * Gives holes that stand in more than a flat face a shape of their own: equal surroundings, equal shape, and with it one
 * engagement. What the program alone can tell is left as it is.
 */
import { engage } from "../../mechanics/engagement/engage.ts";
import type { Execution, Hole, HoleShape, Operation } from "../../program/types.ts";
import type { ResolvedSetup, Tool } from "../../setup/types.ts";
import { frontOf } from "../front.ts";
import { type Around, aroundOf, type Near, type Unplaced } from "./around.ts";
import { MOST_NEAR } from "./grid.ts";
import { type Neighbours, neighboursOf, shareNeighbours } from "./neighbours.ts";
import { fieldOf, type StockField } from "./stock.ts";

/** The surroundings of a shape, where they are more than a flat face. */
export function surroundingsOf(shape: HoleShape): Around | Unplaced | null {
  return (shape.around as Around | Unplaced | undefined) ?? null;
}

/**
 * The same execution, its holes told apart by what stands around them.
 * @returns the execution itself where nothing is to be told apart
 */
export function arranged(execution: Execution, setup: ResolvedSetup): Execution {
  const stock = setup.workpiece?.stock ?? null;
  const field = stock === null ? null : fieldOf(stock);
  const neighbours = neighboursOf(execution);
  const shapes: (HoleShape | undefined)[] = [];
  const memory = memoryOf(execution);
  let told = false;
  for (let hole = 0; hole < execution.holeCount; hole++) {
    const shape = execution.shapeOf(hole);
    const found = ofHole(execution, shape, hole, field, neighbours);
    if (found === null) continue;
    shapes[hole] = memory.shape(found.shape, found.around);
    told = true;
  }
  memory.tidy();
  if (!told) return execution;
  const made = new Arranged(execution, shapes);
  shareNeighbours(made, execution);
  return made;
}

const TOO_MANY: Unplaced = {
  why: `${MOST_NEAR} earlier holes and more reach into this one: what is left around it is not worked out`,
};

interface Found {
  readonly shape: HoleShape;
  readonly around: Around | Unplaced;
}

function ofHole(
  execution: Execution,
  shape: HoleShape,
  hole: number,
  field: StockField | null,
  neighbours: Neighbours,
): Found | null {
  const near = neighbours.near(hole);
  if (field === null && near.length === 0) return null;
  if (shape.tool === null || shape.kind === "back-bore") return null;
  const tool = execution.tool(shape.tool);
  if (tool === null || !(tool.DC > 0) || !Number.isFinite(tool.DC)) return null;
  const u = execution.places.x[hole] ?? Number.NaN;
  const v = execution.places.y[hole] ?? Number.NaN;
  if (Number.isNaN(u) || Number.isNaN(v)) return null;
  // By its axis it meets no metal; beside the axis it may.
  const beside = shape.firstCut < 0;
  if (beside && (field === null || shape.surfaceFrom !== "stock")) return null;
  if (near.length >= MOST_NEAR) return { shape, around: TOO_MANY };
  const frame = execution.frameOf(shape);
  const dz = -(frame?.total[2] ?? 0);
  const list: Near[] = [];
  for (const other of near) {
    const body = neighbours.body(other);
    if (body === null) continue;
    const dx = (neighbours.x[other] ?? 0) - (neighbours.x[hole] ?? 0);
    const dy = (neighbours.y[other] ?? 0) - (neighbours.y[hole] ?? 0);
    list.push({ body, dx, dy, dz });
  }
  const look = (of: HoleShape): ReturnType<typeof aroundOf> => aroundOf(of, tool, frame, field, u, v, list);
  const own = beside ? metRim(shape, tool, look) : shape;
  const around = own === null ? null : look(own);
  return own === null || around === null ? null : { shape: own, around };
}

/** A hole whose axis is in air, as its rim meets the metal: the surface that counts is where that begins. */
function metRim(
  shape: HoleShape,
  tool: Tool,
  look: (shape: HoleShape) => ReturnType<typeof aroundOf>,
): HoleShape | null {
  const { startZ, endZ } = shape;
  const front = frontOf(tool);
  if (startZ === null || endZ === null || !front.known) return null;
  const around = look({ ...shape, surfaceZ: startZ });
  if (around === null || "why" in around) return null;
  const { firstContact } = engage(around.solid, front.value, endZ - startZ);
  if (firstContact === null) return null;
  const surfaceZ = firstContact + startZ;
  const firstCut = shape.strokes.findIndex(({ toZ }) => toZ < surfaceZ - SAME);
  return firstCut < 0 ? null : { ...shape, surfaceZ, firstCut };
}

/** mm */
const SAME = 1e-6;

/** Shapes made before, so that an edit leaves the others as they are and with them all that was worked out for them. */
class Memory {
  /** By the likeness of the shape, then by the surroundings. */
  readonly #made = new WeakMap<object, Map<string, HoleShape>>();
  #next = FIRST_OWN;
  #count = 0;

  shape(shape: HoleShape, around: Around | Unplaced): HoleShape {
    const owner = shape.likeness ?? shape;
    let own = this.#made.get(owner);
    if (own === undefined) {
      own = new Map();
      this.#made.set(owner, own);
    }
    const key = "why" in around ? around.why : around.key;
    let made = own.get(key);
    // A likeness is shared by shapes that differ in their number alone.
    if (made === undefined) {
      made = { ...shape, id: this.#next++, around, likeness: {} };
      own.set(key, made);
      this.#count++;
    }
    return made;
  }

  /** Surroundings that are long gone are let go of when this many have come together. */
  get full(): boolean {
    return this.#count > MOST_KEPT;
  }

  tidy(): void {
    if (this.full) memories.delete(this.of);
  }

  readonly of: Execution["blocks"];

  constructor(of: Execution["blocks"]) {
    this.of = of;
  }
}

/** Numbers of shapes made here begin where no execution counts to. */
const FIRST_OWN = 2 ** 40;
const MOST_KEPT = 100_000;
const memories = new WeakMap<Execution["blocks"], Memory>();

function memoryOf({ blocks }: Execution): Memory {
  let memory = memories.get(blocks);
  if (memory === undefined) {
    memory = new Memory(blocks);
    memories.set(blocks, memory);
  }
  return memory;
}

class Arranged implements Execution {
  readonly #base: Execution;
  readonly #own: readonly (HoleShape | undefined)[];
  readonly operations: readonly Operation[];
  readonly shapes: readonly HoleShape[];

  constructor(base: Execution, own: readonly (HoleShape | undefined)[]) {
    this.#base = base;
    this.#own = own;
    const all = new Set<HoleShape>();
    this.operations = base.operations.map((operation) => {
      const uses = new Map<HoleShape, { shape: HoleShape; count: number; firstHole: number }>();
      const end = operation.firstHole + operation.holeCount;
      for (let hole = operation.firstHole; hole < end; hole++) {
        const shape = this.shapeOf(hole);
        const use = uses.get(shape);
        if (use !== undefined) use.count++;
        else {
          uses.set(shape, { shape, count: 1, firstHole: hole });
          all.add(shape);
        }
      }
      return { ...operation, shapes: [...uses.values()] };
    });
    this.shapes = [...all];
  }

  shapeOf(index: number): HoleShape {
    return this.#own[index] ?? this.#base.shapeOf(index);
  }

  hole(index: number): Hole {
    const hole = this.#base.hole(index);
    const own = this.#own[index];
    return own === undefined ? hole : { ...hole, shape: own };
  }

  get blocks(): Execution["blocks"] {
    return this.#base.blocks;
  }
  get setup(): ResolvedSetup {
    return this.#base.setup;
  }
  get units(): Execution["units"] {
    return this.#base.units;
  }
  get stepCount(): number {
    return this.#base.stepCount;
  }
  get holeCount(): number {
    return this.#base.holeCount;
  }
  get places(): Execution["places"] {
    return this.#base.places;
  }
  get ways(): Execution["ways"] {
    return this.#base.ways;
  }
  get events(): Execution["events"] {
    return this.#base.events;
  }
  get notes(): Execution["notes"] {
    return this.#base.notes;
  }
  get noteMaterial(): Execution["noteMaterial"] {
    return this.#base.noteMaterial;
  }
  get lostEntries(): Execution["lostEntries"] {
    return this.#base.lostEntries;
  }
  get skips(): boolean {
    return this.#base.skips;
  }
  get wanted(): Execution["wanted"] {
    return this.#base.wanted;
  }
  stepBlock(step: number): number {
    return this.#base.stepBlock(step);
  }
  stepState(step: number): ReturnType<Execution["stepState"]> {
    return this.#base.stepState(step);
  }

  stepZ(step: number): number | null {
    return this.#base.stepZ(step);
  }
  stepOf(block: number): number {
    return this.#base.stepOf(block);
  }
  motions(): ReturnType<Execution["motions"]> {
    return this.#base.motions();
  }
  frameOf(shape: HoleShape): ReturnType<Execution["frameOf"]> {
    return this.#base.frameOf(shape);
  }
  holesOfBlock(block: number): ArrayLike<number> {
    return this.#base.holesOfBlock(block);
  }
  callsOf(block: number): ReturnType<Execution["callsOf"]> {
    return this.#base.callsOf(block);
  }
  tool(t: number): ReturnType<Execution["tool"]> {
    return this.#base.tool(t);
  }
  toolComment(t: number): ReturnType<Execution["toolComment"]> {
    return this.#base.toolComment(t);
  }
}
