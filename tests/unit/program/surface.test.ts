import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Surface } from "../../../server/program/surface.ts";
import type { StockCylinder, StockSolid, Vec3 } from "../../../server/setup/types.ts";
import { setup, workpiece } from "./helpers.ts";

const ORIGIN: Vec3 = [0, 0, 0];
const box = (x: [number, number], y: [number, number], z: [number, number]): StockSolid => ({
  kind: "box",
  x,
  y,
  z,
  cut: [],
  path: "",
});
const bore: StockSolid = {
  kind: "cylinder",
  axis: "z",
  through: [20, 20, 0],
  diameter: 10,
  span: [-60, 10],
  cut: [],
  path: "",
};
const cross: StockSolid = {
  kind: "cylinder",
  axis: "x",
  through: [0, 50, -20],
  diameter: 16,
  span: [-10, 110],
  cut: [],
  path: "",
};

function surface(...voids: StockSolid[]): Surface {
  const solids = [box([0, 100], [0, 100], [-50, 0]), box([0, 10], [0, 100], [-50, 5])];
  return new Surface(setup({ workpiece: workpiece({ stock: { wcs: "G54", solids, voids, skin: null } }) }));
}

test.each([
  ["the top", surface(), 50, 50, 0, false],
  ["the higher of two solids", surface(), 5, 50, 5, false],
  ["the floor of a pocket", surface(box([40, 60], [40, 60], [-12, 0])), 50, 50, -12, false],
  [
    "the floor of a step in a pocket",
    surface(box([40, 60], [40, 60], [-12, 0]), box([48, 52], [48, 52], [-20, -12])),
    50,
    50,
    -20,
    false,
  ],
  ["above a hidden cross hole", surface(cross), 50, 50, 0, false],
  [
    "the floor of a pocket that opens into a cross hole",
    surface(cross, box([40, 60], [40, 60], [-20, 0])),
    50,
    50,
    -28,
    false,
  ],
  ["beside the stock the highest of all", surface(), 200, 50, 5, true],
  ["in a bore right through there is no metal: the highest of all", surface(bore), 20, 20, 5, true],
])("%s", (_, it, u, v, z, beside) => {
  const hit = it.at(ORIGIN, 2, u, v);
  expect(hit.z).toBeCloseTo(z, 9);
  expect([hit.declared, hit.beside]).toEqual([true, beside]);
});

test("from above, along Y, and where the place is not known", () => {
  const it = surface(cross);
  // The side of the block is at Y100; a cross hole under its skin changes nothing.
  expect(it.at(ORIGIN, 1, 50, -20).z).toBe(100);
  expect(it.at(ORIGIN, 2, Number.NaN, 50).z).toBe(5);
  expect(it.at(null, 2, 50, 50)).toEqual({ z: 0, declared: false });
});

describe("a cylinder about any direction", () => {
  /** Point in the bare cylinder, without any of the closed form. */
  const within = (c: StockCylinder, d: Vec3, p: readonly number[]): boolean => {
    const m = p.map((value, i) => value - (c.through[i] ?? 0));
    const along = m.reduce((sum, value, i) => sum + value * (d[i] ?? 0), 0);
    const aside = Math.sqrt(m.reduce((sum, value) => sum + value * value, 0) - along * along);
    return along >= c.span[0] && along <= c.span[1] && aside <= c.diameter / 2;
  };
  const tilted = fc
    .tuple(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), fc.double({ min: -0.99, max: 0.99, noNaN: true }))
    .map(([turn, up]): Vec3 => {
      const flat = Math.sqrt(1 - up * up);
      return [flat * Math.cos(turn), flat * Math.sin(turn), up];
    });
  const small = fc.double({ min: -30, max: 30, noNaN: true });

  test("its top is where a search along the line finds it", () => {
    let met = 0;
    fc.assert(
      fc.property(
        tilted,
        fc.tuple(small, small, small),
        fc.double({ min: 5, max: 40, noNaN: true }),
        fc.constantFrom(0, 1, 2),
        small,
        small,
        (d, through, diameter, axis, u, v) => {
          const it: StockCylinder = {
            kind: "cylinder",
            axis: d,
            through,
            diameter,
            span: [-20, 25],
            cut: [],
            path: "",
          };
          const hit = new Surface(
            setup({ workpiece: workpiece({ stock: { wcs: "G54", solids: [it], voids: [], skin: null } }) }),
          ).at(ORIGIN, axis, u, v);
          const on = (w: number): readonly number[] => {
            const square = [u, v];
            return [0, 1, 2].map((i) => (i === axis ? w : (square.shift() ?? 0)));
          };
          let highest = Number.NEGATIVE_INFINITY;
          for (let w = -120; w <= 120; w += 0.05) if (within(it, d, on(w))) highest = w;
          // Where the search steps over a sliver it sees nothing.
          if (highest === Number.NEGATIVE_INFINITY) return hit.beside === true || !within(it, d, on(hit.z + 0.05));
          met++;
          expect(hit.beside).toBe(false);
          expect(hit.z).toBeGreaterThanOrEqual(highest - 1e-9);
          expect(hit.z).toBeLessThanOrEqual(highest + 0.05);
          return true;
        },
      ),
      { numRuns: 400, seed: 4 },
    );
    expect(met).toBeGreaterThan(60);
  });

  test.each([
    ["a bar at 45 degrees over its own point", 0, 0, 10 * Math.SQRT2],
    ["its side", 18, 0, 10 * Math.SQRT2 - 18],
    ["its end face", -15, 0, 20 * Math.SQRT2 - 15],
    ["beside it: the highest of all", 0, 11, 15 * Math.SQRT2],
  ])("%s", (_, u, v, z) => {
    const half = Math.SQRT1_2;
    const bar: StockSolid = {
      kind: "cylinder",
      axis: [half, 0, -half],
      through: [0, 0, 0],
      diameter: 20,
      span: [-20, 20],
      cut: [],
      path: "",
    };
    const it = new Surface(
      setup({ workpiece: workpiece({ stock: { wcs: "G54", solids: [bar], voids: [], skin: null } }) }),
    );
    expect(it.at(ORIGIN, 2, u, v).z).toBeCloseTo(z, 9);
  });
});
