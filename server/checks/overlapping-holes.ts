/** Holes that run into one drilled before, with no entry told: part of `cannot-check`, once for each operation. */
import { neighboursOf, type Overlap } from "../loads/neighbours.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { numberIn, say } from "../units/wording.ts";
import { contactPlace, type MetalHole, metalHoles } from "./cause.ts";
import type { CheckContext, Finding } from "./types.ts";
import { trim } from "./wording.ts";

/** The entry of some of these holes is not known: they overlap holes drilled before, and no note tells what they meet. */
export function entryUntold(context: CheckContext, hole: MetalHole): boolean {
  return hole.shape.entry === null && neighboursOf(context.execution).ofShape(hole.shape) !== null;
}

interface Found {
  readonly hole: MetalHole;
  first: Overlap;
  count: number;
}

export function overlapFindings(context: CheckContext): Finding[] {
  const neighbours = neighboursOf(context.execution);
  const operations = new Map<number, Found>();
  for (const hole of metalHoles(context)) {
    const overlaps = hole.shape.entry === null ? neighbours.ofShape(hole.shape) : null;
    if (overlaps === null) continue;
    const earlier = operations.get(hole.operation.index);
    if (earlier === undefined) operations.set(hole.operation.index, { hole, ...overlaps });
    else {
      earlier.count += overlaps.count;
      if (overlaps.first.hole < earlier.first.hole)
        operations.set(hole.operation.index, { hole, first: overlaps.first, count: earlier.count });
    }
  }
  return [...operations.values()].map((found) => finding(context, found));
}

function finding(context: CheckContext, { hole, first, count }: Found): Finding {
  const { execution } = context;
  const block = execution.hole(first.hole).block;
  const before = execution.hole(first.earlier).block;
  return {
    check: "cannot-check",
    severity: "info",
    place: contactPlace(context, { ...hole, firstBlock: block }),
    message: wordsOf(hole, first, count, context.nameOf(block), context.nameOf(before), context.system),
    count,
    related: [
      {
        place: { in: "program", span: context.spanOf(0, before) },
        message: "The hole that it overlaps is drilled here",
      },
    ],
    data: { measured: first.pitch, limit: (first.diameter + first.earlierDiameter) / 2, unit: "mm" },
    operation: hole.operation.index,
  };
}

/** Shapes that an edit leaves alone say the same again. */
const said = new WeakMap<MetalHole["shape"], { readonly of: string; readonly words: string }>();

function wordsOf(
  { shape }: MetalHole,
  { pitch, diameter, earlierDiameter }: Overlap,
  count: number,
  name: string,
  before: string,
  system: UnitSystem,
): string {
  const of = `${pitch}|${diameter}|${earlierDiameter}|${count}|${name}|${before}|${system}`;
  const earlier = said.get(shape);
  if (earlier?.of === of) return earlier.words;
  const length = (mm: number): string => say(mm, "length", system);
  const which =
    count === 1
      ? `the hole of ${name} overlaps that of ${before}`
      : `${count} holes overlap earlier ones, first ${name} that of ${before}`;
  const equal = Math.abs(diameter - earlierDiameter) < 1e-6;
  const sizes = equal
    ? `both ${length(diameter)} in diameter`
    : `diameter ${length(diameter)} into ${length(earlierDiameter)}`;
  const told = trim(numberIn(pitch, "length", system), system === "mm" ? 2 : 4);
  const note = equal
    ? `(CUT ENTRY CHAIN PITCH ${told}), or WEB in place of CHAIN for a hole between two others`
    : "(CUT ENTRY EDGE AREA … PCT) with the share of the hole that is in metal";
  const words = `Entry not checked: ${which}, drilled before it. Pitch ${length(pitch)}, ${sizes}. No note tells the entry, so the side load and the feed it allows are not known. Way out: ${note}, or \`entries:\` of the workpiece in the setup.`;
  said.set(shape, { of, words });
  return words;
}
