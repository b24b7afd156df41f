/** Random solids of every kind, and drills, for properties that hold for all of them. */
import fc from "fast-check";
import { type DrillFront, drillFront } from "../../../server/mechanics/engagement/drill.ts";
import { intersectionOf, not, type Solid, unionOf } from "../../../server/mechanics/engagement/solids.ts";

/** Thousandths, as drawings have them: a shape 1e-300 mm off says nothing about a drill. */
export const number = (min: number, max: number) =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map((n) => n / 1000);

const halfSpace: fc.Arbitrary<Solid> = fc
  .record({ tilt: number(0, 2), turn: number(0, 6.283), nz: fc.constantFrom(0, 0.3, 1, -1), d: number(-8, 8) })
  .map((h) => ({ kind: "half-space", nx: h.tilt * Math.cos(h.turn), ny: h.tilt * Math.sin(h.turn), nz: h.nz, d: h.d }));
const along: fc.Arbitrary<Solid> = fc
  .record({ x: number(-15, 15), y: number(-15, 15), radius: number(1, 14) })
  .map((c) => ({ kind: "along", ...c }));
const across: fc.Arbitrary<Solid> = fc
  .record({ square: number(-6.3, 6.3), offset: number(-10, 10), z: number(-10, 10), radius: number(1, 40) })
  .map((c) => ({ kind: "across", ...c }));
const drilled: fc.Arbitrary<Solid> = fc
  .record({
    x: fc.oneof(number(-15, 15), fc.constant(0)),
    y: fc.oneof(number(-15, 15), fc.constant(0)),
    radius: number(1, 14),
    tip: number(-10, 10),
    point: fc.oneof(number(0, 8), fc.constant(0)),
    down: fc.boolean(),
  })
  .map(({ down, ...hole }) => (down ? { kind: "drilled", ...hole, down: true } : { kind: "drilled", ...hole }));
const oblique: fc.Arbitrary<Solid> = fc
  .record({
    through: fc.tuple(number(-10, 10), number(-10, 10), number(-10, 10)),
    turn: number(0, 6.283),
    lean: fc.oneof(number(0.001, 3.14), fc.constantFrom(0, Math.PI / 2)),
    length: number(0.1, 3),
    radius: number(0.5, 20),
  })
  .map(({ through, turn, lean, length, radius }) => ({
    kind: "oblique",
    through,
    dir: [
      length * Math.sin(lean) * Math.cos(turn),
      length * Math.sin(lean) * Math.sin(turn),
      length * Math.cos(lean),
    ] as const,
    radius,
  }));
export const simple = fc.oneof(halfSpace, along, across, drilled, oblique);

/** Primitives, their rest, and two levels of both ways to join them. */
export const solid: fc.Arbitrary<Solid> = fc.oneof(
  simple,
  simple.map(not),
  fc.tuple(simple, simple).map((parts) => intersectionOf(...parts)),
  fc.tuple(simple, simple, simple).map(([a, b, c]) => intersectionOf(a, unionOf(b, not(c)))),
  fc.tuple(simple, simple, simple).map(([a, b, c]) => not(unionOf(a, intersectionOf(b, not(c))))),
);

export const front: fc.Arbitrary<DrillFront> = fc
  .record({
    kind: fc.constantFrom("two-insert" as const, "two-lip" as const),
    DC: number(4, 24),
    SIG: fc.constantFrom(90, 118, 140, 165, 180),
    r1: number(0.2, 0.8),
  })
  .map((d) => drillFront(d.kind, d.DC, d.SIG, null, (d.r1 * d.DC) / 2));

export const height = number(-9, 9);
