import { expect, test } from "vitest";
import { Surface } from "../../../server/program/surface.ts";
import type { StockSolid, Vec3 } from "../../../server/setup/types.ts";
import { setup, workpiece } from "./helpers.ts";

const ORIGIN: Vec3 = [0, 0, 0];
const box = (x: [number, number], y: [number, number], z: [number, number]): StockSolid => ({
  kind: "box",
  x,
  y,
  z,
  cut: [],
});
const bore: StockSolid = { kind: "cylinder", axis: "z", through: [20, 20, 0], diameter: 10, span: [-60, 10], cut: [] };
const cross: StockSolid = {
  kind: "cylinder",
  axis: "x",
  through: [0, 50, -20],
  diameter: 16,
  span: [-10, 110],
  cut: [],
};

function surface(...voids: StockSolid[]): Surface {
  const solids = [box([0, 100], [0, 100], [-50, 0]), box([0, 10], [0, 100], [-50, 5])];
  return new Surface(setup({ workpiece: workpiece({ stock: { wcs: "G54", solids, voids } }) }));
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
