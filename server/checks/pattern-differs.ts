import { surelyBefore, together } from "../program/hole-ways.ts";
import type { Execution, Operation } from "../program/types.ts";
import { at } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import type { Check, CheckContext, Finding } from "./types.ts";
import { toolName } from "./wording.ts";

export const patternDiffers: Check = {
  id: "pattern-differs",
  family: "place",
  severity: "warning",
  docs: {
    title: "Two tools share almost all of their places",
    what: "The places of a tool against those of the tool before it with about as many: told where at least 95 % are the same and some are not.",
    why: "One hole of the list is missing in one of the two, or has another number: a hole without its spot, or a spot without its hole.",
    formula: "places in common / places of the longer list >= 95 %, and not 100 %; same within 0.05 mm",
    example: `G21 S2500 M3\nM8\nT1 M6\nG81 X0. Y0. Z-2. R2. F200.\n${row(1, 24)}\nG80\nT3 M6\nG81 X0. Y0. Z-20. R2. F200.\n${row(1, 23)}\nG80`,
    better: `G21 S2500 M3\nM8\nT1 M6\nG81 X0. Y0. Z-2. R2. F200.\n${row(1, 24)}\nG80\nT3 M6\nG81 X0. Y0. Z-20. R2. F200.\n${row(1, 24)}\nG80`,
    limits:
      "Lists of fewer than 20 places cannot differ by so little and are silent, as are lists that differ by more: they are meant. Two of the first and last two places must be common, and both lists stand in one work system.",
    source: "common practice, no source; the 95 % as well",
  },
  *detect(context) {
    const { operations } = context.execution;
    const lists = new Lists(context.execution);
    for (let i = 1; i < operations.length; i++) {
      const later = operations[i];
      if (later === undefined || later.holeCount < FEWEST) continue;
      for (let k = i - 1; k >= Math.max(0, i - BACK); k--) {
        const earlier = operations[k];
        if (earlier === undefined || !alike(lists, earlier, later)) continue;
        const found = compare(context, lists, earlier, later);
        if (found !== null) yield found;
        break;
      }
    }
  },
};

function row(from: number, to: number): string {
  return Array.from({ length: to - from + 1 }, (_, i) => `X${(from + i) * 20}.`).join("\n");
}

const FEWEST = 20;
const SHARE = 0.95;
/** How many operations back a list of the same holes is looked for. */
const BACK = 6;
/** mm */
const SAME = 0.05;

/** About as many places, in one system, that share two of their first and last places: only then all are compared. */
function alike(lists: Lists, a: Operation, b: Operation): boolean {
  if (a.tool === b.tool) return false;
  if (Math.min(a.holeCount, b.holeCount) < SHARE * Math.max(a.holeCount, b.holeCount)) return false;
  const [first] = a.shapes;
  const [other] = b.shapes;
  if (first === undefined || other === undefined) return false;
  if (first.shape.frame !== other.shape.frame || first.shape.axis !== other.shape.axis) return false;
  let common = 0;
  for (const [x, y] of lists.ends(a))
    for (const [u, v] of lists.ends(b))
      if (x !== null && y !== null && u !== null && v !== null && Math.hypot(x - u, y - v) < SAME) common++;
  return common >= 2;
}

const cell = (value: number): number => Math.round(value / SAME);
/** One number for a cell of the grid; coordinates of machines stay far below the factor. */
const keyOf = (x: number, y: number): number => x * 67_108_859 + y;

/** Places of one operation. */
class Places {
  readonly x: Float64Array;
  readonly y: Float64Array;
  unknown = false;
  #cells: Set<number> | null = null;

  constructor(execution: Execution, { firstHole, holeCount }: Operation) {
    const { x, y } = execution.places;
    // Lists of which some ways leave out a part are not as long as they look.
    if (!together(execution.ways, firstHole, firstHole + holeCount)) this.unknown = true;
    this.x = x.subarray(firstHole, firstHole + holeCount);
    this.y = y.subarray(firstHole, firstHole + holeCount);
    for (let i = 0; i < holeCount; i++)
      if (Number.isNaN(this.x[i] ?? Number.NaN) || Number.isNaN(this.y[i] ?? Number.NaN)) this.unknown = true;
  }

  get count(): number {
    return this.x.length;
  }

  /** The same places in the same order: the usual case, for which no grid is needed. */
  equals(other: Places): boolean {
    if (other.count !== this.count) return false;
    for (let i = 0; i < this.count; i++)
      if (
        Math.abs((this.x[i] ?? 0) - (other.x[i] ?? 0)) > SAME ||
        Math.abs((this.y[i] ?? 0) - (other.y[i] ?? 0)) > SAME
      )
        return false;
    return true;
  }

  has(x: number, y: number): boolean {
    if (this.#cells === null) {
      this.#cells = new Set();
      for (let i = 0; i < this.count; i++) this.#cells.add(keyOf(cell(this.x[i] ?? 0), cell(this.y[i] ?? 0)));
    }
    const u = cell(x);
    const v = cell(y);
    if (this.#cells.has(keyOf(u, v))) return true;
    for (let i = -1; i <= 1; i++) for (let k = -1; k <= 1; k++) if (this.#cells.has(keyOf(u + i, v + k))) return true;
    return false;
  }

  /** Places of another list that are not here, by number; the search ends where there are too many. */
  without(other: Places, most: number): number[] {
    const found: number[] = [];
    for (let i = 0; i < other.count && found.length <= most; i++)
      if (!this.has(other.x[i] ?? 0, other.y[i] ?? 0)) found.push(i);
    return found;
  }
}

type At = readonly [number | null, number | null];

/** Each list is read once. */
class Lists {
  readonly #execution: Execution;
  readonly #made = new Map<Operation, Places>();
  readonly #ends = new Map<Operation, readonly At[]>();

  constructor(execution: Execution) {
    this.#execution = execution;
  }

  /** The first and last two places. */
  ends(operation: Operation): readonly At[] {
    let ends = this.#ends.get(operation);
    if (ends === undefined) {
      const { firstHole: first, holeCount } = operation;
      const last = first + holeCount - 1;
      ends = [first, first + 1, last - 1, last].map((i) => this.#execution.hole(i).at);
      this.#ends.set(operation, ends);
    }
    return ends;
  }

  of(operation: Operation): Places {
    let places = this.#made.get(operation);
    if (places === undefined) {
      places = new Places(this.#execution, operation);
      this.#made.set(operation, places);
    }
    return places;
  }
}

function compare(context: CheckContext, lists: Lists, earlier: Operation, later: Operation): Finding | null {
  const { execution } = context;
  const before = lists.of(earlier);
  const after = lists.of(later);
  if (before.unknown || after.unknown || before.equals(after)) return null;
  if (!surelyBefore(execution.ways, earlier.firstHole, later.firstHole)) return null;
  const longer = Math.max(before.count, after.count);
  const most = Math.floor(longer * (1 - SHARE) + 1e-9);
  const extra = before.without(after, most).map((i) => i + later.firstHole);
  if (extra.length > most) return null;
  const without = after.without(before, most).map((i) => i + earlier.firstHole);
  const common = after.count - extra.length;
  if ((extra.length === 0 && without.length === 0) || without.length > most || common < SHARE * longer - 1e-9)
    return null;
  // Where a place is missing in the later list there is only the earlier one to stand at.
  const odd = extra[0] ?? without[0] ?? 0;
  const hole = execution.hole(odd);
  const own = extra.length > 0 ? later : earlier;
  const other = extra.length > 0 ? earlier : later;
  const where = hole.at.map((value) => (value === null ? "?" : sayLength(value, context))).join(", ");
  return single(
    "pattern-differs",
    "warning",
    at(context, 0, hole.block),
    `${toolName(earlier.tool)} has ${earlier.holeCount} places and ${toolName(later.tool)} ${later.holeCount}, ${common} in common: this one, at ${where}, is only in the list of ${toolName(own.tool)}. Way out: add it to the list of ${toolName(other.tool)}, or look at its numbers.`,
    {
      count: Math.max(extra.length, without.length),
      operation: own.index,
      data: { measured: common, limit: Math.max(earlier.holeCount, later.holeCount), unit: "" },
      related: [{ place: at(context, 0, other.firstBlock), message: `The section of ${toolName(other.tool)}` }],
    },
  );
}
