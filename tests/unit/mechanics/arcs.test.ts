import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Arcs, entriesOf, largestGap, shareOf } from "../../../server/mechanics/engagement/arcs.ts";
import { measure } from "../../../server/mechanics/engagement/measures.ts";
import { arcsAt, spansAlong } from "../../../server/mechanics/engagement/scene.ts";
import {
  contains,
  intersectionOf,
  lifted,
  mirrored,
  not,
  type Solid,
  unionOf,
} from "../../../server/mechanics/engagement/solids.ts";
import { front, height, number, simple, solid } from "./shapes.ts";

const TURN = 2 * Math.PI;
const angle = number(0, 6.283);
const radius = number(0.1, 15);

/** Whether one of the intervals holds the value. */
const holds = (list: readonly number[], value: number): boolean => {
  for (let i = 0; i + 1 < list.length; i += 2)
    if (value >= (list[i] as number) && value <= (list[i + 1] as number)) return true;
  return false;
};
const share = (s: Solid, r: number, h: number): number => {
  const list = arcsAt(s, r, h);
  let sum = 0;
  for (let i = 0; i + 1 < list.length; i += 2) sum += (list[i + 1] as number) - (list[i] as number);
  return sum / TURN;
};
const close = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9;

describe("arcs of a circle", () => {
  const agree = (s: Solid, r: number, h: number, a: number): boolean => {
    // A point on a boundary belongs to either side.
    const edge = [-1e-7, 1e-7].map((d) => contains(s, r * Math.cos(a + d), r * Math.sin(a + d), h));
    return edge[0] !== edge[1] || holds(arcsAt(s, r, h), a) === edge[0];
  };

  it("agree with asking each point, for every primitive", () => {
    fc.assert(fc.property(simple, radius, height, angle, agree), { numRuns: 5000 });
  });

  it("agree with asking each point, for what is joined of them", () => {
    fc.assert(fc.property(solid, radius, height, angle, agree), { numRuns: 5000 });
  });

  it("are sorted, disjoint and within the turn", () => {
    fc.assert(
      fc.property(solid, radius, height, (s, r, h) => {
        const arcs = arcsAt(s, r, h);
        return (
          arcs.length % 2 === 0 &&
          arcs.every((a, i) => a >= 0 && a <= TURN && (i === 0 || a >= (arcs[i - 1] as number)))
        );
      }),
      { numRuns: 1000 },
    );
  });

  it("obey the laws of sets", () => {
    fc.assert(
      fc.property(solid, solid, radius, height, (a, b, r, h) => {
        return (
          close(share(a, r, h) + share(not(a), r, h), 1) &&
          close(share(unionOf(a, b), r, h) + share(intersectionOf(a, b), r, h), share(a, r, h) + share(b, r, h))
        );
      }),
      { numRuns: 1000 },
    );
  });

  it("carry the cosine and sine of their ends: the side force of a circle is that of its arcs", () => {
    fc.assert(
      fc.property(simple, front, height, (s, f, z) => {
        const m = measure(s, f, z);
        expect(Math.hypot(m.sideX, m.sideY)).toBeCloseTo(m.side, 9);
        // Turned by half a turn, the force points the other way.
        const away = measure(unionOf(not(s)), f, z);
        expect(Math.hypot(m.sideX + away.sideX, m.sideY + away.sideY)).toBeLessThan(1e-3);
      }),
    );
  });

  it("count an arc over zero once", () => {
    const of = (...list: number[]): Arcs => {
      const arcs = new Arcs();
      for (let i = 0; i < list.length; i += 2) arcs.push(list[i] as number, list[i + 1] as number, 0, 0, 0, 0);
      return arcs;
    };
    expect(entriesOf(of(0, 1, 6, TURN))).toBe(1);
    expect(entriesOf(of(1, 2, 3, 4))).toBe(2);
    expect(entriesOf(of())).toBe(0);
    expect(entriesOf(of(0, TURN))).toBe(0);
    expect(largestGap(of(0, 1, 6, TURN))).toBeCloseTo(5 / TURN, 12);
    expect(largestGap(of())).toBe(1);
    expect(largestGap(of(0, TURN))).toBe(0);
    expect(shareOf(of(0, 1, 3, 4))).toBeCloseTo(2 / TURN, 12);
  });

  it("hold more than a buffer begins with", () => {
    const holes = Array.from({ length: 40 }, (_, i): Solid => {
      const phi = (i * TURN) / 40;
      return { kind: "along", x: 10 * Math.cos(phi), y: 10 * Math.sin(phi), radius: 0.3 };
    });
    expect(measure(not(unionOf(...holes)), { kind: "two-lip", R: 10, slope: 0.3, centre: 5 }, 0).entries).toBe(40);
  });
});

describe("spans along a straight edge", () => {
  it("agree with asking each point", () => {
    fc.assert(
      fc.property(solid, front, height, angle, number(0.001, 0.999), (s, f, z, phi, at) => {
        const inside = (r: number): boolean => contains(s, r * Math.cos(phi), r * Math.sin(phi), z + f.slope * r);
        const r = at * f.R;
        if (inside(r - 1e-7) !== inside(r + 1e-7)) return true;
        return holds(spansAlong(s, phi, z, f), r) === inside(r);
      }),
      { numRuns: 5000 },
    );
  });
});

describe("a solid moved or turned over", () => {
  it("holds the points moved or turned over with it", () => {
    fc.assert(
      fc.property(solid, number(-12, 12), number(-12, 12), height, height, (s, x, y, z, dz) => {
        const here = contains(s, x, y, z);
        // A point on a boundary belongs to either side.
        if ([-1e-7, 1e-7].some((d) => contains(s, x, y, z + d) !== here)) return true;
        return (
          contains(lifted(s, dz), x, y, z + dz) === here &&
          contains(mirrored(s), x, y, -z) === here &&
          contains(mirrored(mirrored(s)), x, y, z) === here
        );
      }),
      { numRuns: 2000 },
    );
  });

  it("is the same to a flat front from the other side", () => {
    fc.assert(
      fc.property(solid, number(2, 12), height, (s, R, z) => {
        const flat = { kind: "two-insert", R, slope: 0, centre: R / 2 } as const;
        // On a level face of a solid the two sides differ.
        fc.pre(close(measure(s, flat, z).area, measure(s, flat, z + 1e-7).area));
        const here = measure(s, flat, z);
        const there = measure(mirrored(s), flat, -z);
        return Math.abs(here.area - there.area) < 1e-6 && Math.abs(here.side - there.side) < 1e-6;
      }),
    );
  });
});
