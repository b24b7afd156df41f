/** The surface that friendly forms of the stock make, against a search from above. */
import { expect, test } from "vitest";
import { Surface } from "../../../server/program/surface.ts";
import type { Stock, Vec3 } from "../../../server/setup/types.ts";
import { metal, stockOf } from "../setup/bodies.ts";

const BLOCK = "solids: [{ box: { x: [0, 100], y: [0, 60], z: [-40, 0] } }]";
const STEP = 0.01;

function highest(stock: Stock, axis: number, u: number, v: number): number {
  for (let w = 101; w > -41; w -= STEP) {
    const p: Vec3 = axis === 0 ? [w, u, v] : axis === 1 ? [u, w, v] : [u, v, w];
    if (metal(stock, p)) return w;
  }
  return Number.NaN;
}

test.each([
  [
    "an inclined face",
    "solids: [{ box: { x: [0, 100], y: [0, 60], z: [-40, 0] }, face: { incline: 30, towards: x+, through: [60, 0, 0] } }]",
    2,
  ],
  [
    "a ridge at an angle",
    "solids: [{ box: { x: [0, 100], y: [0, 60], z: [-40, 0] }, ridge: { flank: 20, along: 30, crest: [50, 30, 0] } }]",
    2,
  ],
  [
    "an inclined side",
    "solids: [{ box: { x: [0, 100], y: [0, 60], z: [-40, 0] }, face: { side: x+, incline: 25, towards: y-, through: [100, 40, 0] } }]",
    0,
  ],
  ["a slot", `${BLOCK}\nvoids: [{ slot: { along: 20, through: [50, 30], width: 30, floor: -12 } }]`, 2],
  ["a blind hole", `${BLOCK}\nvoids: [{ hole: { at: [50, 30], diameter: 50, floor: -17 } }]`, 2],
  [
    "an oblique cross hole that comes out at the top",
    `${BLOCK}\nvoids: [{ crossHole: { along: [1, 0.2, 1], through: [50, 30, 0], diameter: 30 } }]`,
    2,
  ],
  [
    "one that comes out at the side",
    `${BLOCK}\nvoids: [{ crossHole: { along: [1, 1, 1], through: [50, 50, -15], diameter: 30 } }]`,
    1,
  ],
  [
    "plates below a face",
    "solids:\n  - plates: { x: [0, 100], y: [0, 60], top: 0, layers: [{ plate: 10 }, { gap: 3 }, { plate: 20 }] }\n    face: { incline: 30, towards: x+, through: [60, 0, 0] }",
    2,
  ],
])("%s", (_what, lines, axis) => {
  const { stock, problems, setup } = stockOf(lines);
  expect(problems).toEqual([]);
  if (stock === null) throw new Error("no stock");
  const surface = new Surface(setup);
  const levels = new Set<number>();
  const across = axis === 0 ? 59 : 99;
  const along = axis === 2 ? 59 : -39;
  for (let i = 1; i < 12; i++) {
    for (let k = 1; k < 12; k++) {
      const [u, v] = [(across * i) / 12, (along * k) / 12];
      const found = highest(stock, axis, u, v);
      const hit = surface.at([0, 0, 0], axis, u, v);
      if (Number.isNaN(found)) {
        expect([u, v, hit.beside]).toEqual([u, v, true]);
        continue;
      }
      expect(hit.beside).toBe(false);
      expect(hit.z - found).toBeGreaterThanOrEqual(-1e-9);
      expect(hit.z - found).toBeLessThanOrEqual(STEP + 1e-9);
      levels.add(Math.round(hit.z * 10));
    }
  }
  // A form that changed nothing would leave one level.
  expect(levels.size).toBeGreaterThan(1);
});
