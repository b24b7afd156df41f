import fc from "fast-check";
import { expect, test } from "vitest";
import { engagedShape } from "../../../server/pictures/engagement-shape.ts";
import { covers, lengthOf } from "./engagement-area.ts";

const place = { x: 0, y: 0, radiusMm: 10, radiusPx: 1000 };
const SLOTS = 6;
const slotOf = (slot: number): number => (2 * Math.PI * slot) / SLOTS;

/** Per ring, which sixths of the turn are metal, and by how much the ends of each are turned, radians. */
const anyRings = fc.array(
  fc.record({
    metal: fc.array(fc.boolean(), { minLength: SLOTS, maxLength: SLOTS }),
    turned: fc.array(fc.double({ min: -0.2, max: 0.2, noNaN: true }), { minLength: SLOTS, maxLength: SLOTS }),
  }),
  { minLength: 1, maxLength: 8 },
);

test("however rings follow each other, in the middle of each the metal is where its arcs are", () => {
  fc.assert(
    fc.property(anyRings, (made) => {
      const rings = made.map(({ metal, turned }, i) => {
        const arcs: number[] = [];
        for (const [slot, isMetal] of metal.entries()) {
          const before = metal[(slot + SLOTS - 1) % SLOTS];
          if (!isMetal || before) continue;
          let end = slot + 1;
          while (metal[end % SLOTS]) end++;
          arcs.push(slotOf(slot) + (turned[slot] ?? 0), slotOf(end) + (turned[end % SLOTS] ?? 0));
        }
        if (metal.every(Boolean)) arcs.push(0, 2 * Math.PI);
        return { fromR: (10 * i) / made.length, toR: (10 * (i + 1)) / made.length, arcs };
      });
      const { metal } = engagedShape(rings, place);
      expect(metal).not.toMatch(/NaN/);
      for (const [i, ring] of made.entries()) {
        const r = ((i + 0.5) / made.length) * 1000;
        for (const [slot, isMetal] of ring.metal.entries()) {
          const angle = slotOf(slot + 0.5);
          const found = covers(metal, r * Math.cos(angle), -r * Math.sin(angle));
          expect(found, `ring ${i}, sixth ${slot}`).toBe(isMetal);
        }
      }
    }),
    { numRuns: 200 },
  );
});

test("no line is drawn where metal lies on both sides of it", () => {
  const { metal, rim } = engagedShape(
    [
      { fromR: 0, toR: 5, arcs: [] },
      { fromR: 5, toR: 7, arcs: [1, 2 * Math.PI] },
      { fromR: 7, toR: 10, arcs: [0, 3, 4, 2 * Math.PI] },
    ],
    place,
  );
  expect(lengthOf(rim)).toBeCloseTo(1000 * (2 * Math.PI - 1), 0);
  // The rim, the inner circle, and two gaps of 1 rad that open to the rim or to the middle.
  const most = 1000 * (2 * Math.PI - 1) + 500 * (2 * Math.PI - 1) + 4 * 500 + 2 * 700;
  expect(lengthOf(metal)).toBeLessThan(most);
});

test("an end that turns far from one ring to the next does so in a step between them", () => {
  const { metal } = engagedShape(
    [
      { fromR: 0, toR: 5, arcs: [0, 3] },
      { fromR: 5, toR: 10, arcs: [0, 4] },
    ],
    place,
  );
  // Along the rim 4 rad, at the border 1 rad, and twice the way from the middle to the rim.
  expect(lengthOf(metal)).toBeCloseTo(4 * 1000 + 500 + 2 * 1000, -1);
  const at = (r: number, angle: number): boolean => covers(metal, r * Math.cos(angle), -r * Math.sin(angle));
  expect([at(480, 2.9), at(480, 3.1), at(520, 3.1), at(520, 3.9), at(520, 4.1)]).toEqual([
    true,
    false,
    true,
    true,
    false,
  ]);
});

test("a ring that is missing between others is air", () => {
  const whole = [0, 2 * Math.PI];
  const { metal } = engagedShape(
    [
      { fromR: 6, toR: 10, arcs: whole },
      { fromR: 0, toR: 4, arcs: whole },
    ],
    place,
  );
  expect([200, 390, 410, 590, 610, 990].map((r) => covers(metal, r, 1))).toEqual([
    true,
    true,
    false,
    false,
    true,
    true,
  ]);
  expect(engagedShape([], place)).toEqual({ metal: "", rim: "" });
});
