import type { Execution, Operation } from "../program/types.ts";
import { at } from "./cause.ts";
import { single } from "./course.ts";
import { sayLength } from "./length-words.ts";
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
      "Lists of fewer than 20 places cannot differ by so little and are silent, as are lists that differ by more: they are meant. Lists must begin or end near one common place, and stand in one work system.",
    source: "common practice, no source; the 95 % as well",
  },
  *detect(context) {
    const { operations } = context.execution;
    for (let i = 1; i < operations.length; i++) {
      const later = operations[i];
      if (later === undefined || later.holeCount < FEWEST) continue;
      for (let k = i - 1; k >= Math.max(0, i - BACK); k--) {
        const earlier = operations[k];
        if (earlier === undefined || !alike(context.execution, earlier, later)) continue;
        const found = compare(context, earlier, later);
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

/** About as many places, in one system, that begin or end near each other: only then all places are compared. */
function alike(execution: Execution, a: Operation, b: Operation): boolean {
  if (a.tool === b.tool) return false;
  if (Math.min(a.holeCount, b.holeCount) < SHARE * Math.max(a.holeCount, b.holeCount)) return false;
  const [first] = a.shapes;
  const [other] = b.shapes;
  if (first === undefined || other === undefined) return false;
  if (first.shape.frame !== other.shape.frame || first.shape.axis !== other.shape.axis) return false;
  for (const i of ends(a)) {
    const [x, y] = execution.hole(i).at;
    for (const k of ends(b)) {
      const [u, v] = execution.hole(k).at;
      if (x !== null && y !== null && u !== null && v !== null && Math.hypot(x - u, y - v) < SAME) return true;
    }
  }
  return false;
}

const ends = ({ firstHole, holeCount }: Operation): number[] => [
  firstHole,
  firstHole + 1,
  firstHole + holeCount - 2,
  firstHole + holeCount - 1,
];

const cell = (value: number): number => Math.round(value / SAME);
/** One number for a cell of the grid; coordinates of machines stay far below the factor. */
const keyOf = (x: number, y: number): number => x * 67_108_859 + y;

class Places {
  readonly #cells = new Set<number>();
  unknown = false;

  constructor(execution: Execution, { firstHole, holeCount }: Operation) {
    for (let i = firstHole; i < firstHole + holeCount; i++) {
      const [x, y] = execution.hole(i).at;
      if (x === null || y === null) this.unknown = true;
      else this.#cells.add(keyOf(cell(x), cell(y)));
    }
  }

  has(x: number, y: number): boolean {
    const u = cell(x);
    const v = cell(y);
    if (this.#cells.has(keyOf(u, v))) return true;
    for (let i = -1; i <= 1; i++) for (let k = -1; k <= 1; k++) if (this.#cells.has(keyOf(u + i, v + k))) return true;
    return false;
  }
}

function compare(context: CheckContext, earlier: Operation, later: Operation): Finding | null {
  const { execution } = context;
  const before = new Places(execution, earlier);
  const after = new Places(execution, later);
  if (before.unknown || after.unknown) return null;
  const extra = missing(execution, later, before);
  const without = missing(execution, earlier, after);
  const common = later.holeCount - extra.length;
  const share = common / Math.max(earlier.holeCount, later.holeCount);
  if ((extra.length === 0 && without.length === 0) || share < SHARE) return null;
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

/** Holes of an operation that have no place in the other's list. */
function missing(execution: Execution, { firstHole, holeCount }: Operation, places: Places): number[] {
  const found: number[] = [];
  for (let i = firstHole; i < firstHole + holeCount; i++) {
    const [x, y] = execution.hole(i).at;
    if (x !== null && y !== null && !places.has(x, y)) found.push(i);
  }
  return found;
}
