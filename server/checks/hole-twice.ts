import { neighboursOf } from "../loads/surroundings/neighbours.ts";
import type { HoleShape } from "../program/types.ts";
import { allHoles, at, type MetalHole, metalHoles } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import type { Check, CheckContext, Finding } from "./types.ts";

export const holeTwice: Check = {
  id: "hole-twice",
  family: "place",
  severity: "warning",
  docs: {
    title: "One place is drilled twice by one tool",
    what: "A cycle that drills a hole again to the same depth in one operation, by a position that stands twice or by a repeat count in G90; and two holes of one tool less than 0.1 mm (0.004 in) apart.",
    why: "The place that was meant is missing, or the drill is fed into a hole full of chips and sharp edges.",
    formula: "distance < 0.1 mm",
    example: "G21 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nX20.\nX0.\nG80",
    better: "G21 S2500 M3\nM8\nG81 X0. Y0. Z-5. R2. F450.\nX20.\nX40.\nG80",
    limits:
      "A place that is drilled deeper the second time, and long-hand pecks, are silent. A second pass to clear chips is meant: allow it there. Of near places one for each way of drilling is told.",
    source: "common practice, no source; the 0.1 mm as well",
  },
  *detect(context) {
    for (const hole of allHoles(context)) {
      const { shape } = hole;
      if (!shape.longHand && again(shape)) yield twice(context, hole);
    }
    for (const hole of metalHoles(context)) {
      const found = near(context, hole);
      if (found !== null) yield found;
    }
  },
};

/** mm */
export const NEAR = 0.1;

/** Whether the full depth is reached more than once. */
function again(shape: HoleShape): boolean {
  const { strokes, endZ } = shape;
  if (endZ === null || strokes.length < 2 || shape.kind === "back-bore") return false;
  let times = 0;
  for (const { fromZ, toZ } of strokes) if (fromZ > toZ && toZ <= endZ + 1e-6) times++;
  return times > 1;
}

function twice(context: CheckContext, hole: MetalHole): Finding {
  const { shape, count, firstBlock } = hole;
  const { from } = shape.state;
  const repeat = context.execution.blocks.spanOf(from.repeat);
  const byCount = from.repeat !== 0 && repeat?.block === firstBlock;
  const second = byCount ? -1 : secondBlock(context, hole);
  const many = count > 1 ? ` ${count} holes, first ${context.nameOf(firstBlock)}.` : "";
  const message = byCount
    ? `The repeat count drills the same hole again: in G90 each repeat goes to the same place. Way out: G91 with the step in X and Y, or no count.${many}`
    : `${second < 0 ? "This place is drilled again to the same depth by the same tool" : `The same tool has drilled this place to this depth before, in ${context.nameOf(firstBlock)}`}. Way out: the place that was meant, or leave one of the two out.${many}`;
  return single(
    "hole-twice",
    "warning",
    byCount ? at(context, from.repeat, firstBlock) : at(context, 0, second < 0 ? firstBlock : second),
    message,
    {
      count,
      operation: hole.operation.index,
      related: second < 0 ? [] : [{ place: at(context, 0, firstBlock), message: "The first time" }],
    },
  );
}

/** The block that drills the first hole of these again; -1 where it is in another operation's reach. */
function secondBlock({ execution }: CheckContext, { shape, operation, firstBlock }: MetalHole): number {
  const use = operation.shapes.find((one) => one.shape === shape);
  if (use === undefined) return -1;
  const from = execution.stepOf(firstBlock);
  for (let step = from + 1; step > 0 && step < execution.stepCount; step++) {
    const block = execution.stepBlock(step);
    const holes = execution.holesOfBlock(block);
    for (let i = 0; i < holes.length; i++) if (holes[i] === use.firstHole && block !== firstBlock) return block;
    if (block === operation.lastBlock) break;
  }
  return -1;
}

function near(context: CheckContext, hole: MetalHole): Finding | null {
  const overlaps = neighboursOf(context.execution).ofShape(hole.shape);
  if (overlaps === null || overlaps.first.pitch >= NEAR) return null;
  const { first } = overlaps;
  const { execution } = context;
  const earlier = execution.hole(first.earlier);
  if (earlier.shape.tool !== hole.shape.tool || earlier.shape.operation !== hole.shape.operation) return null;
  const block = execution.hole(first.hole).block;
  return single(
    "hole-twice",
    "warning",
    at(context, 0, block),
    `This hole is ${sayLength(first.pitch, context)} from that of ${context.nameOf(earlier.block)}, less than ${sayLength(NEAR, context)}, by the same tool. Way out: the place that was meant, or leave one of the two out.`,
    {
      operation: hole.operation.index,
      related: [{ place: at(context, 0, earlier.block), message: "The hole beside it" }],
      data: { measured: first.pitch, limit: NEAR, unit: "mm" },
    },
  );
}
