/** Which words of a cut note the metal around a hole comes to. */
import { describe, expect, test } from "vitest";
import { formOf } from "../../../server/loads/surroundings/form.ts";
import { pruned } from "../../../server/mechanics/engagement/prune.ts";
import { below, intersectionOf, not, type Solid, unionOf } from "../../../server/mechanics/engagement/solids.ts";
import { entrySurface } from "../../../server/mechanics/engagement/surfaces.ts";

const R = 13;
const over = (z: number): Solid => ({ kind: "half-space", nx: 0, ny: 0, nz: -1, d: -z });
const hole = (x: number, y: number, radius = R): Solid => ({ kind: "along", x, y, radius });
const gallery: Solid = { kind: "across", square: 0, offset: 0, z: -25, radius: 5 };
const tilted = entrySurface({ kind: "incline", angleDeg: 20 }, 2 * R);

describe("the words of a cut note come back", () => {
  test.each([
    { kind: "incline", angleDeg: 20 },
    { kind: "edge-axis", insideMm: 3.5 },
    { kind: "ridge", flankDeg: 30, offsetMm: 0 },
    { kind: "ridge", flankDeg: 30, offsetMm: 4 },
    { kind: "chain", pitchMm: 19.5, sides: 1 },
    { kind: "chain", pitchMm: 19.5, sides: 2 },
  ] as const)("%o", (form) => {
    expect(formOf(entrySurface(form, 2 * R), R)).toEqual(form);
  });
});

const INCLINE = { kind: "incline", angleDeg: 20 };
test.each<[string, Solid, unknown]>([
  ["an underside is no entry", intersectionOf(tilted, over(-40)), INCLINE],
  ["nor is a face that is never met", intersectionOf(tilted, below(30)), INCLINE],
  ["a level face that cuts the slope off makes another form", intersectionOf(tilted, below(1)), null],
  ["a bore far below changes nothing", intersectionOf(tilted, not(gallery)), INCLINE],
  ["a level face over a bore is flat", intersectionOf(below(0), over(-60), not(gallery)), { kind: "flat" }],
  ["the body on top is what is entered", unionOf(below(-20), intersectionOf(tilted, over(-20))), INCLINE],
  ["of two bodies side by side none is", unionOf(intersectionOf(tilted, hole(0, 0, 5)), below(-1)), null],
  ["holes of another size are no chain", intersectionOf(below(0), not(hole(15, 0, 5))), null],
  ["two holes at an angle are no web", intersectionOf(below(0), not(hole(19, 0)), not(hole(0, 19))), null],
  [
    "a roof whose crest is level with the box is a ridge",
    intersectionOf(entrySurface({ kind: "ridge", flankDeg: 30, offsetMm: 0 }, 2 * R), below(0)),
    { kind: "ridge", flankDeg: 30, offsetMm: 0 },
  ],
])("%s", (_, solid, form) => {
  expect(formOf(pruned(solid, R, -100, 100), R)).toEqual(form);
});
