import { thinBelow } from "../loads/surroundings/grid.ts";
import { neighboursOf } from "../loads/surroundings/neighbours.ts";
import { at, type Candidate, type MetalHole, metalHoles, perCause } from "./cause.ts";
import { sayLength } from "./length-words.ts";
import type { Check, CheckContext } from "./types.ts";

export const thinWeb: Check = {
  id: "thin-web",
  family: "entry",
  severity: "warning",
  docs: {
    title: "A thin web is left between two holes",
    what: "The metal between a hole and one drilled before it, where it is too thin to stand; and two holes that just graze each other, so that a fin with a knife edge is left.",
    why: "A thin web bends away from the drill and springs back, tears out, or leaves a fin that breaks inserts and hands.",
    formula: "web = pitch - (D1 + D2) / 2 below max(0.1 D, 1 mm), or holes of one size at a pitch of 0.95 to 1.0 D",
    example:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-40. R2. F180.\nX27.2\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT7 M6\nG0 X0. Y0. S2000 M3\nG43 H7 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-40. R2. F180.\nX32.\nG80 M9\nM30\n%",
    limits: "Pitch and sizes only: how stiff the part is there, and how deep both holes are together, is not weighed.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("thin-web", context, candidates(context));
  },
};

/** Of the diameter: two equal holes at a pitch from here on overlap so little that only a fin is left. */
const GRAZE = 0.95;

function* candidates(context: CheckContext): Generator<Candidate> {
  const { execution } = context;
  const neighbours = neighboursOf(execution);
  const holes = new Map(metalHoles(context).map((hole) => [hole.shape, hole]));
  for (let index = 0; index < execution.holeCount; index++) {
    const web = neighbours.web(index);
    const graze = neighbours.near(index).find((other) => grazes(neighbours, index, other)) ?? -1;
    if (web < 0 && graze < 0) continue;
    const hole = holes.get(execution.shapeOf(index));
    if (hole !== undefined) yield thin(context, hole, index, web < 0 ? graze : web, web < 0);
  }
}

type Neighbours = ReturnType<typeof neighboursOf>;

const pitchOf = ({ x, y }: Neighbours, a: number, b: number): number =>
  Math.hypot((x[a] ?? 0) - (x[b] ?? 0), (y[a] ?? 0) - (y[b] ?? 0));

function grazes(neighbours: Neighbours, index: number, other: number): boolean {
  const own = neighbours.body(index);
  const theirs = neighbours.body(other);
  if (own === null || theirs === null || Math.abs(own.radius - theirs.radius) > 1e-3) return false;
  return pitchOf(neighbours, index, other) >= GRAZE * 2 * own.radius;
}

function thin(context: CheckContext, hole: MetalHole, index: number, other: number, fin: boolean): Candidate {
  const { execution } = context;
  const neighbours = neighboursOf(execution);
  const pitch = pitchOf(neighbours, index, other);
  const radius = neighbours.body(index)?.radius ?? 0;
  const both = radius + (neighbours.body(other)?.radius ?? 0);
  const web = pitch - both;
  const limit = thinBelow(2 * radius);
  const block = execution.hole(index).block;
  const before = context.nameOf(execution.hole(other).block);
  const out =
    "Way out: another order with the thin side supported, a smaller pitch that plunges it away, or more metal";
  return {
    key: `o${hole.operation.index}`,
    severity: "warning",
    weight: fin ? 0 : limit - web,
    place: at(context, 0, block),
    hole: { ...hole, count: 1, firstBlock: block, firstHole: index },
    message: fin
      ? `This hole only grazes that of ${before}: pitch ${sayLength(pitch, context)} at a diameter of ${sayLength(2 * radius, context)} leaves a fin with a knife edge (common practice: under 0.95 or over 1.0 x D). ${out}.`
      : `A web of ${sayLength(web, context)} is left to the hole of ${before}, less than ${sayLength(limit, context)} (common practice): it bends away or tears out. ${out}.`,
    data: fin ? { measured: pitch, limit: GRAZE * 2 * radius, unit: "mm" } : { measured: web, limit, unit: "mm" },
    related: [{ place: at(context, 0, execution.hole(other).block), message: "The hole beside it" }],
  };
}
