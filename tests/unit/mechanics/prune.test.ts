import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isPlain, keyOf, NOTHING, pruned } from "../../../server/mechanics/engagement/prune.ts";
import { arcsAt } from "../../../server/mechanics/engagement/scene.ts";
import {
  below,
  contains,
  EVERYWHERE,
  intersectionOf,
  not,
  type Solid,
  unionOf,
} from "../../../server/mechanics/engagement/solids.ts";
import { number, simple, solid } from "./shapes.ts";

const range = fc.tuple(number(-12, 12), number(0.1, 20)).map(([low, span]) => ({ low, high: low + span }));
const place = { turn: number(0, 6.283), out: number(0, 1), up: number(0, 1) };

/** Number of primitives. */
const count = (s: Solid): number => {
  if (s.kind === "not") return count(s.part);
  return s.kind === "union" || s.kind === "intersection" ? s.parts.reduce((n, part) => n + count(part), 0) : 1;
};

describe("pruned", () => {
  it("is the same at every point that the drill sweeps, and no larger", () => {
    fc.assert(
      fc.property(
        solid,
        number(1, 12),
        range,
        fc.array(fc.record(place), { minLength: 20, maxLength: 20 }),
        (...args) => {
          const [s, R, { low, high }, places] = args;
          const less = pruned(s, R, low, high);
          expect(count(less)).toBeLessThanOrEqual(count(s));
          for (const { turn, out, up } of places) {
            const x = R * Math.sqrt(out) * Math.cos(turn);
            const y = R * Math.sqrt(out) * Math.sin(turn);
            const z = low + up * (high - low);
            if (contains(s, x, y, z) === contains(less, x, y, z)) continue;
            // Only on a boundary, which belongs to either side.
            const near = [-1e-6, 1e-6].flatMap((d) => [
              contains(s, x + d, y, z),
              contains(s, x, y + d, z),
              contains(s, x, y, z + d),
            ]);
            expect(new Set(near).size).toBe(2);
          }
        },
      ),
      { numRuns: 1500 },
    );
  });

  it("keeps the arcs", () => {
    fc.assert(
      fc.property(solid, number(1, 12), range, number(0.01, 1), number(0, 1), (s, R, { low, high }, out, up) => {
        const r = out * R;
        const h = low + up * (high - low);
        const [a, b] = [arcsAt(s, r, h), arcsAt(pruned(s, R, low, high), r, h)];
        const length = (list: readonly number[]) => list.reduce((sum, x, i) => sum + (i % 2 === 0 ? -x : x), 0);
        expect(Math.abs(length(a) - length(b))).toBeLessThan(1e-5);
      }),
      { numRuns: 1500 },
    );
  });

  it("decides what is whole or nothing in the swept cylinder", () => {
    const far: Solid = { kind: "along", x: 30, y: 0, radius: 5 };
    const around: Solid = { kind: "along", x: 1, y: 0, radius: 30 };
    const box = (low: number, high: number): Solid => intersectionOf(below(high), not(below(low)));
    expect(pruned(far, 10, -20, 0)).toBe(NOTHING);
    expect(pruned(around, 10, -20, 0)).toBe(EVERYWHERE);
    expect(pruned(not(far), 10, -20, 0)).toBe(EVERYWHERE);
    expect(pruned(not(around), 10, -20, 0)).toBe(NOTHING);
    expect(pruned(box(-50, 10), 10, -20, 0)).toEqual(EVERYWHERE);
    expect(pruned(unionOf(far, box(-50, -40)), 10, -20, 0)).toBe(NOTHING);
    expect(pruned(intersectionOf(box(-50, -5), not(far)), 10, -20, 0)).toEqual(below(-5));
    expect(pruned({ kind: "drilled", x: 5, y: 0, radius: 10, tip: 3, point: 2 }, 10, -20, 0)).toBe(NOTHING);
    expect(pruned({ kind: "oblique", through: [0, 0, 40], dir: [1, 0, 0.1], radius: 6 }, 10, -20, 0)).toBe(NOTHING);
    expect(pruned({ kind: "across", square: 0, offset: 30, z: 0, radius: 6 }, 10, -20, 0)).toBe(NOTHING);
  });

  it("an endless top decides nothing that a top would not", () => {
    expect(pruned(below(0), 10, -20, Number.POSITIVE_INFINITY)).toEqual(below(0));
    expect(pruned({ kind: "half-space", nx: 1, ny: 0, nz: 0, d: 20 }, 10, -20, Number.POSITIVE_INFINITY)).toBe(
      EVERYWHERE,
    );
  });

  it("flattens, and takes a hole whose point is out of reach for an endless one", () => {
    const hole: Solid = { kind: "drilled", x: 12, y: 0, radius: 10, tip: -40, point: 5 };
    const face = pruned(intersectionOf(intersectionOf(below(0), not(hole)), EVERYWHERE), 10, -20, 5);
    expect(face).toEqual(intersectionOf(below(0), not({ kind: "along", x: 12, y: 0, radius: 10 })));
    expect(pruned(hole, 10, -36, 5)).toBe(hole);
  });
});

describe("key", () => {
  it("says no more than the solid: whatever has the same one has the same arcs", () => {
    // Moved by less than the rounding, turned round in their order, told twice, normals longer: one key.
    fc.assert(
      fc.property(simple, simple, number(0.1, 12), number(-9, 9), (a, b, r, h) => {
        const one = intersectionOf(a, unionOf(b, not(a)));
        const other = intersectionOf(unionOf(not(same(a)), same(b), same(b)), same(a));
        expect(keyOf(other)).toBe(keyOf(one));
        const [p, q] = [arcsAt(one, r, h), arcsAt(other, r, h)];
        const length = (list: readonly number[]) => list.reduce((sum, x, i) => sum + (i % 2 === 0 ? -x : x), 0);
        expect(Math.abs(length(p) - length(q))).toBeLessThan(1e-4);
      }),
      { numRuns: 1000 },
    );
  });

  it("tells apart what differs by a micrometre", () => {
    fc.assert(
      fc.property(simple, (s) => {
        // A plane without a normal says everything or nothing, wherever it is.
        fc.pre(s.kind !== "half-space" || Math.hypot(s.nx, s.ny, s.nz) > 0);
        expect(keyOf(moved(s))).not.toBe(keyOf(s));
      }),
    );
  });

  it("-0 is 0", () => {
    expect(keyOf({ kind: "along", x: -0, y: -1e-9, radius: 1 })).toBe(keyOf({ kind: "along", x: 0, y: 0, radius: 1 }));
  });
});

/** The same solid in other words. */
function same(s: Solid): Solid {
  switch (s.kind) {
    case "half-space":
      // By a power of two: a factor that is not exact may tip the rounding of the key, which costs a curve and no more.
      return { ...s, nx: 4 * s.nx, ny: 4 * s.ny, nz: 4 * s.nz, d: 4 * s.d };
    case "across":
      return { ...s, square: s.square + Math.PI, offset: -s.offset };
    case "oblique": {
      const [x, y, z] = s.through;
      const [dx, dy, dz] = s.dir;
      return { ...s, through: [x + 2 * dx, y + 2 * dy, z + 2 * dz], dir: [-2 * dx, -2 * dy, -2 * dz] };
    }
    default:
      return { ...s };
  }
}

/** The same solid, a little larger. */
function moved(s: Solid): Solid {
  if (s.kind === "half-space") return { ...s, d: s.d + 4e-3 };
  return "radius" in s ? { ...s, radius: s.radius + 1e-3 } : s;
}

describe("plain", () => {
  it("is what can interrupt nothing", () => {
    const pilot: Solid = { kind: "drilled", x: 0, y: 0, radius: 4, tip: -30, point: 2 };
    expect(isPlain(intersectionOf(below(0), not(pilot)))).toBe(true);
    expect(isPlain(EVERYWHERE)).toBe(true);
    expect(isPlain(NOTHING)).toBe(true);
    expect(isPlain(intersectionOf(below(0), not({ ...pilot, x: 1 })))).toBe(false);
    expect(isPlain({ kind: "half-space", nx: 0.1, ny: 0, nz: 1, d: 0 })).toBe(false);
    expect(isPlain({ kind: "across", square: 0, offset: 0, z: 0, radius: 3 })).toBe(false);
    expect(isPlain({ kind: "oblique", through: [0, 0, 0], dir: [1, 0, 1], radius: 3 })).toBe(false);
  });
});
