import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  complement,
  entriesOf,
  includes,
  intersect,
  largestGap,
  shareOf,
  unite,
} from "../../../server/mechanics/engagement/arcs.ts";
import { type DrillFront, drillFront } from "../../../server/mechanics/engagement/drill.ts";
import { spansAlong } from "../../../server/mechanics/engagement/front-lines.ts";
import { measure } from "../../../server/mechanics/engagement/measures.ts";
import {
  arcsAt,
  contains,
  intersectionOf,
  mirrored,
  not,
  type Solid,
  unionOf,
} from "../../../server/mechanics/engagement/solids.ts";
import { bruteImbalance, bruteMeasures } from "./brute.ts";

/** Thousandths, as drawings have them: a shape 1e-300 mm off says nothing about a drill. */
const number = (min: number, max: number) => fc.integer({ min: min * 1000, max: max * 1000 }).map((n) => n / 1000);

const halfSpace: fc.Arbitrary<Solid> = fc
  .record({ tilt: number(0.05, 2), turn: number(0, 6.283), nz: fc.constantFrom(0, 0.3, 1), d: number(-8, 8) })
  .map((h) => ({ kind: "half-space", nx: h.tilt * Math.cos(h.turn), ny: h.tilt * Math.sin(h.turn), nz: h.nz, d: h.d }));
const along: fc.Arbitrary<Solid> = fc
  .record({ x: number(-15, 15), y: number(-15, 15), radius: number(1, 14) })
  .map((c) => ({ kind: "along", ...c }));
const across: fc.Arbitrary<Solid> = fc
  .record({ square: number(0, 6.3), offset: number(-10, 10), z: number(-10, 10), radius: number(1, 40) })
  .map((c) => ({ kind: "across", ...c }));
const simple = fc.oneof(halfSpace, along, across);
const solid: fc.Arbitrary<Solid> = fc.oneof(
  simple,
  simple.map(not),
  fc.tuple(simple, simple).map((parts) => intersectionOf(...parts)),
  fc.tuple(simple, simple, simple).map(([a, b, c]) => intersectionOf(a, unionOf(b, not(c)))),
);
const front: fc.Arbitrary<DrillFront> = fc
  .record({
    kind: fc.constantFrom("two-insert" as const, "two-lip" as const),
    DC: number(4, 24),
    SIG: fc.constantFrom(90, 118, 140, 165, 180),
    r1: number(0.2, 0.8),
  })
  .map((d) => drillFront(d.kind, d.DC, d.SIG, null, (d.r1 * d.DC) / 2));
const height = number(-9, 9);

describe("arc sets", () => {
  const angleOf = number(0, 6.283);

  it("agree with asking each point", () => {
    fc.assert(
      fc.property(solid, number(0.1, 15), height, angleOf, (s, r, h, a) => {
        const arcs = arcsAt(s, r, h);
        // A point on a boundary belongs to either side.
        const edge = [-1e-7, 1e-7].map((d) => contains(s, r * Math.cos(a + d), r * Math.sin(a + d), h));
        return edge[0] !== edge[1] || includes(arcs, a) === edge[0];
      }),
      { numRuns: 3000 },
    );
  });

  it("are sorted, disjoint and within the turn", () => {
    fc.assert(
      fc.property(solid, number(0.1, 15), height, (s, r, h) => {
        const arcs = arcsAt(s, r, h);
        return (
          arcs.length % 2 === 0 &&
          arcs.every((a, i) => a >= 0 && a <= 2 * Math.PI && (i === 0 || a >= (arcs[i - 1] as number)))
        );
      }),
    );
  });

  it("obey the laws of sets", () => {
    fc.assert(
      fc.property(solid, solid, number(0.1, 15), height, (s, t, r, h) => {
        const a = arcsAt(s, r, h);
        const b = arcsAt(t, r, h);
        const close = (x: number, y: number): boolean => Math.abs(x - y) < 1e-9;
        return (
          close(shareOf(a) + shareOf(complement(a)), 1) &&
          close(shareOf(unite(a, b)) + shareOf(intersect(a, b)), shareOf(a) + shareOf(b)) &&
          close(shareOf(complement(complement(a))), shareOf(a))
        );
      }),
    );
  });

  it("count an arc over zero once", () => {
    expect(entriesOf([0, 1, 6, 2 * Math.PI])).toBe(1);
    expect(entriesOf([1, 2, 3, 4])).toBe(2);
    expect(entriesOf([])).toBe(0);
    expect(entriesOf([0, 2 * Math.PI])).toBe(0);
    expect(largestGap([0, 1, 6, 2 * Math.PI])).toBeCloseTo(5 / (2 * Math.PI), 12);
    expect(largestGap([])).toBe(1);
    expect(largestGap([0, 2 * Math.PI])).toBe(0);
  });
});

describe("spans along a straight edge", () => {
  it("agree with asking each point", () => {
    fc.assert(
      fc.property(solid, front, height, number(0, 6.28), number(0.001, 0.999), (s, f, z, phi, at) => {
        const inside = (r: number): boolean => contains(s, r * Math.cos(phi), r * Math.sin(phi), z + f.slope * r);
        const r = at * f.R;
        if (inside(r - 1e-7) !== inside(r + 1e-7)) return true;
        const spans = spansAlong(s, phi, z, f);
        let found = false;
        for (let i = 0; i + 1 < spans.length; i += 2)
          if (r >= (spans[i] as number) && r <= (spans[i + 1] as number)) found = true;
        return found === inside(r);
      }),
      { numRuns: 3000 },
    );
  });
});

// The grid has an error of its own, so the geometries are random but the same on every run.
describe("measures against brute force", () => {
  it("area, core, rim and side force within 1e-3, void arc and entries too", () => {
    fc.assert(
      fc.property(solid, front, height, (s, f, z) => {
        const ours = measure(s, f, z);
        const brute = bruteMeasures(s, f, z);
        for (const at of ["area", "core", "rim", "side"] as const) {
          expect(Math.abs(ours[at] - brute[at]), `${at}: ${ours[at]} and ${brute[at]}`).toBeLessThan(1e-3);
        }
        // An arc narrower than the grid may be missed by it, so only arcs that it can see are held.
        if (ours.entries === brute.entries) expect(Math.abs(ours.voidArc - brute.voidArc)).toBeLessThan(1e-3);
        else expect(narrowArcs(s, f, z)).toBe(true);
      }),
      { numRuns: 60, seed: 1899 },
    );
  }, 120_000);

  it("imbalance within the grid of the brute force", () => {
    fc.assert(
      fc.property(solid, front, height, (s, f, z) => {
        const ours = measure(s, f, z);
        const brute = bruteImbalance(s, f, z, 360, 400);
        // The search may only be a little under what a finer look finds, never over what is there.
        expect(ours.imbalance).toBeGreaterThan(brute - 0.01);
        expect(ours.imbalance).toBeLessThan(brute + 0.03);
      }),
      { numRuns: 25, seed: 1899 },
    );
  }, 120_000);

  it("a mirrored solid seen from the other side is the same", () => {
    fc.assert(
      fc.property(solid, number(2, 12), height, (s, R, z) => {
        const flat = drillFront("two-insert", 2 * R, 180);
        const here = measure(s, flat, z);
        const there = measure(mirrored(s), flat, -z);
        return Math.abs(here.area - there.area) < 1e-9 && Math.abs(here.side - there.side) < 1e-9;
      }),
    );
  });
});

/** Some arc or gap of the corner's circle is too narrow for the grid. */
function narrowArcs(s: Solid, f: DrillFront, z: number): boolean {
  const arcs = arcsAt(s, f.R, z + f.slope * f.R);
  return (
    arcs.some((a, i) => i > 0 && a - (arcs[i - 1] as number) < 1e-3) ||
    (arcs[0] ?? 1) < 1e-3 ||
    2 * Math.PI - (arcs.at(-1) ?? 0) < 1e-3
  );
}
