/** What is kept from one execution to the next, and what must not be. */
import { expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { createLoads } from "../../../server/loads/loads.ts";
import { execute } from "../../../server/program/execute.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { setup } from "./fixtures.ts";

function drilled(...body: string[]) {
  const inForce = setup();
  const text = ["G21 G90 G94 G54", "T7 M6", "S2000 M3", "G43 H7 Z50. M88", ...body, "M30"].join("\n");
  const execution = execute(readBlocks(LineStore.from(text)), inForce, { program: "part.nc" });
  return { shape: execution.shapes[0], shapes: execution.shapes, loads: createLoads(execution, inForce) };
}

// Only the first hole after coolant came on is timed: the second kind of hole differs from its trial in its number alone.
test.each([0, 1])(
  "kind %i with another feed has loads of its own, though it has the likeness of the real one",
  (kind) => {
    const { shapes, loads } = drilled("G81 X0. Y0. Z-40. R2. F200.", "X60. Z-30.");
    const shape = shapes[kind];
    if (shape === undefined) throw new Error("no hole");
    const real = loads(shape);
    expect(shape.likeness).toBeDefined();
    const half = { ...shape, id: -1, strokes: shape.strokes.map((stroke) => ({ ...stroke, f: (stroke.f ?? 0) / 2 })) };
    const tried = loads(half);
    expect(tried.f).toBeCloseTo((real.f ?? 0) / 2, 9);
    expect(tried.torque?.nominal).toBeLessThan(0.8 * (real.torque?.nominal ?? 0));
    // And the trial leaves nothing behind: asked again, by a fresh look-up of the real shape, the values are its own.
    const again = loads({ ...shape });
    expect(again.f).toBe(real.f);
    expect(again.torque).toEqual(real.torque);
  },
);

test("equal shapes are worked out once", () => {
  const { shape, loads } = drilled("G81 X0. Y0. Z-40. R2. F200.");
  if (shape === undefined) throw new Error("no hole");
  expect(loads({ ...shape }).engagement).toBe(loads(shape).engagement);
});
