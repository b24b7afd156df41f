/** Each friendly form against what its words mean, point by point. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Vec3 } from "../../../server/setup/types.ts";
import { metal, stockOf } from "./bodies.ts";
import { resolve } from "./complete.ts";

const BLOCK = "box: { x: [0, 100], y: [0, 60], z: [-40, 0] }";
const inBlock = ([x, y, z]: Vec3): boolean => x >= 0 && x <= 100 && y >= 0 && y <= 60 && z >= -40 && z <= 0;
const rad = (degrees: number): number => (degrees * Math.PI) / 180;
const tan = (degrees: number): number => Math.tan(rad(degrees));

const SOLID = `solids: [{ ${BLOCK} }]`;
/** From the middle line of the slots at 30 degrees. */
const aside = ([x, y]: Vec3): number => (y - 30) * Math.cos(rad(30)) - (x - 50) * Math.sin(rad(30));

type Meaning = (p: Vec3) => boolean;

/** [what, lines of the stock, what the words mean] */
const rows: readonly (readonly [what: string, lines: string, meaning: Meaning])[] = [
  [
    "a face that falls towards larger X",
    `solids: [{ ${BLOCK}, face: { incline: 30, towards: x+, through: [60, 0, 0] } }]`,
    (p) => inBlock(p) && p[2] <= -tan(30) * (p[0] - 60),
  ],
  [
    "a face that falls towards smaller Y",
    `solids: [{ ${BLOCK}, face: { incline: 12.5, towards: y-, through: [0, 20, -3] } }]`,
    (p) => inBlock(p) && p[2] <= -3 - tan(12.5) * (20 - p[1]),
  ],
  [
    "a face that falls at 30 degrees from X towards Y",
    `solids: [{ ${BLOCK}, face: { incline: 45, towards: 30, through: [50, 30, 0] } }]`,
    (p) => inBlock(p) && p[2] <= -((p[0] - 50) * Math.cos(rad(30)) + (p[1] - 30) * Math.sin(rad(30))),
  ],
  [
    "an inclined underside",
    `solids: [{ ${BLOCK}, face: { side: z-, incline: 20, towards: x+, through: [40, 0, -40] } }]`,
    (p) => inBlock(p) && p[2] >= -40 + tan(20) * (p[0] - 40),
  ],
  [
    "an inclined side for a hole along X",
    `solids: [{ ${BLOCK}, face: { side: x-, incline: 15, towards: z+, through: [0, 0, -20] } }]`,
    (p) => inBlock(p) && p[0] >= tan(15) * (p[2] + 20),
  ],
  [
    "two faces",
    `solids:\n  - ${BLOCK}\n    face:\n      - { incline: 30, towards: x+, through: [60, 0, 0] }\n      - { incline: 10, towards: x-, through: [40, 0, 0] }`,
    (p) => inBlock(p) && p[2] <= -tan(30) * (p[0] - 60) && p[2] <= tan(10) * (p[0] - 40),
  ],
  [
    "a ridge along Y",
    `solids: [{ ${BLOCK}, ridge: { flank: 30, along: y, crest: [60, 0, 0] } }]`,
    (p) => inBlock(p) && p[2] <= -tan(30) * Math.abs(p[0] - 60),
  ],
  [
    "a ridge at 45 degrees, below the top",
    `solids: [{ ${BLOCK}, ridge: { flank: 20, along: 45, crest: [50, 30, -2] } }]`,
    (p) => inBlock(p) && p[2] <= -2 - tan(20) * Math.abs((p[1] - 30 - (p[0] - 50)) * Math.SQRT1_2),
  ],
  [
    "a ridge on a side",
    `solids: [{ ${BLOCK}, ridge: { side: y+, flank: 10, along: z, crest: [50, 60, 0] } }]`,
    (p) => inBlock(p) && p[1] <= 60 - tan(10) * Math.abs(p[0] - 50),
  ],
  [
    "plates, the last two without a gap",
    "solids: [{ plates: { x: [0, 100], y: [0, 60], top: -2, layers: [{ plate: 10 }, { gap: 3 }, { plate: 8 }, { plate: 7 }] } }]",
    (p) => inBlock(p) && p[2] <= -2 && p[2] >= -30 && !(p[2] < -12 && p[2] > -15),
  ],
  [
    "plates under an inclined face",
    "solids:\n  - plates: { x: [0, 100], y: [0, 60], top: 0, layers: [{ plate: 10 }, { gap: 3 }, { plate: 20 }] }\n    face: { incline: 30, towards: x+, through: [60, 0, 0] }",
    (p) => inBlock(p) && p[2] >= -33 && !(p[2] < -10 && p[2] > -13) && p[2] <= -tan(30) * (p[0] - 60),
  ],
  [
    "a slot along X, right across",
    `${SOLID}\nvoids: [{ slot: { along: x, through: [0, 25], width: 14, floor: -12 } }]`,
    (p) => inBlock(p) && !(p[2] > -12 && Math.abs(p[1] - 25) < 7),
  ],
  [
    "a slot along Y with ends, right through",
    `${SOLID}\nvoids: [{ slot: { along: y, through: [50, 0], width: 20, floor: none, span: [10, 40] } }]`,
    (p) => inBlock(p) && !(Math.abs(p[0] - 50) < 10 && p[1] > 10 && p[1] < 40),
  ],
  [
    "a slot at 30 degrees",
    `${SOLID}\nvoids: [{ slot: { along: 30, through: [50, 30], width: 16, floor: -25 } }]`,
    (p) => inBlock(p) && !(p[2] > -25 && Math.abs(aside(p)) < 8),
  ],
  [
    "a covered slot at 30 degrees with ends",
    `${SOLID}\nvoids: [{ slot: { along: 30, through: [50, 30], width: 16, floor: -25, top: -5, span: [-10, 30] } }]`,
    (p) => {
      const along = (p[0] - 50) * Math.cos(rad(30)) + (p[1] - 30) * Math.sin(rad(30));
      return inBlock(p) && !(p[2] > -25 && p[2] < -5 && Math.abs(aside(p)) < 8 && along > -10 && along < 30);
    },
  ],
  [
    "a hole with a floor",
    `${SOLID}\nvoids: [{ hole: { at: [30, 40], diameter: 24, floor: -15 } }]`,
    (p) => inBlock(p) && !(p[2] > -15 && Math.hypot(p[0] - 30, p[1] - 40) < 12),
  ],
  [
    "a hole right through, and one from below",
    `${SOLID}\nvoids:\n  - hole: { at: [30, 40], diameter: 24, floor: none }\n  - hole: { at: [80, 20], diameter: 30, floor: none, top: -20 }`,
    (p) =>
      inBlock(p) && Math.hypot(p[0] - 30, p[1] - 40) > 12 && !(p[2] < -20 && Math.hypot(p[0] - 80, p[1] - 20) < 15),
  ],
  [
    "a cross hole along X",
    `${SOLID}\nvoids: [{ crossHole: { along: x, through: [0, 40, -20], diameter: 22 } }]`,
    (p) => inBlock(p) && Math.hypot(p[1] - 40, p[2] + 20) > 11,
  ],
  [
    "a blind cross hole along Y",
    `${SOLID}\nvoids: [{ crossHole: { along: y, through: [50, 0, -20], diameter: 22, span: [-1, 35] } }]`,
    (p) => inBlock(p) && !(Math.hypot(p[0] - 50, p[2] + 20) < 11 && p[1] < 35),
  ],
  [
    "an oblique cross hole",
    `${SOLID}\nvoids: [{ crossHole: { along: [2, 0, -2], through: [50, 30, -20], diameter: 18 } }]`,
    (p) => inBlock(p) && Math.hypot(p[1] - 30, (p[0] - 50 + p[2] + 20) * Math.SQRT1_2) > 9,
  ],
  [
    "an oblique cross hole that ends inside",
    `${SOLID}\nvoids: [{ crossHole: { along: [1, 0, -1], through: [50, 30, -20], diameter: 30, span: [-10, 200] } }]`,
    (p) =>
      inBlock(p) &&
      !(
        Math.hypot(p[1] - 30, (p[0] - 50 + p[2] + 20) * Math.SQRT1_2) < 15 &&
        (p[0] - 50 - p[2] - 20) * Math.SQRT1_2 > -10
      ),
  ],
  [
    "a cylinder about minus X",
    "solids: [{ cylinder: { axis: [-3, 0, 0], through: [40, 30, -20], diameter: 40, span: [-20, 35] } }]",
    (p) => Math.hypot(p[1] - 30, p[2] + 20) <= 20 && p[0] >= 5 && p[0] <= 60,
  ],
];

/** Even points around the block; the same ones every time. */
function* points(count: number): Generator<Vec3> {
  let seed = 20_261;
  const next = (low: number, high: number): number => {
    seed = (seed * 48_271) % 2_147_483_647;
    return low + ((high - low) * seed) / 2_147_483_647;
  };
  for (let i = 0; i < count; i++) yield [next(-3, 103), next(-3, 63), next(-43, 8)];
}

describe("a form is what its words say", () => {
  test.each(rows)("%s", (_what, lines, meaning) => {
    const { stock, problems, setup } = stockOf(lines);
    expect(problems).toEqual([]);
    if (stock === null) throw new Error("no stock");
    const forms = [...stock.solids, ...stock.voids].flatMap((body) => [body.path, ...body.cut.map(({ path }) => path)]);
    expect(forms.filter((path) => setup.origins.get(path)?.kind !== "file")).toEqual([]);
    let inside = 0;
    let outside = 0;
    for (const p of points(8000)) {
      if (metal(stock, p) !== meaning(p)) expect({ p, metal: metal(stock, p) }).toEqual({ p, metal: meaning(p) });
      if (meaning(p)) inside++;
      else if (inBlock(p)) outside++;
    }
    // The points tell the form from the bare block.
    expect(Math.min(inside, outside)).toBeGreaterThan(20);
  });
});

/** Where the bodies and the words differ, if anywhere. */
function difference(lines: string, meaning: Meaning): unknown {
  const { stock } = stockOf(lines);
  if (stock === null) return lines;
  for (const p of points(300)) if (metal(stock, p) !== meaning(p)) return { lines, p, metal: metal(stock, p) };
  return null;
}

describe("whatever its numbers", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((n) => Number(n.toFixed(3)));
  const turn = number(-360, 720);

  test("a face", () => {
    fc.assert(
      fc.property(
        number(0.1, 89),
        turn,
        number(20, 80),
        number(10, 50),
        number(-20, -1),
        (incline, towards, x, y, z) => {
          const lines = `solids: [{ ${BLOCK}, face: { incline: ${incline}, towards: ${towards}, through: [${x}, ${y}, ${z}] } }]`;
          const away = ([px, py]: Vec3): number =>
            (px - x) * Math.cos(rad(towards)) + (py - y) * Math.sin(rad(towards));
          expect(difference(lines, (p) => inBlock(p) && p[2] - z <= -tan(incline) * away(p))).toBe(null);
        },
      ),
      { numRuns: 100 },
    );
  });

  test("a slot", () => {
    fc.assert(
      fc.property(turn, number(10, 90), number(5, 55), number(1, 40), number(-39, -1), (along, x, y, width, floor) => {
        const lines = `${SOLID}\nvoids: [{ slot: { along: ${along}, through: [${x}, ${y}], width: ${width}, floor: ${floor} } }]`;
        const off = ([px, py]: Vec3): number =>
          Math.abs((py - y) * Math.cos(rad(along)) - (px - x) * Math.sin(rad(along)));
        expect(difference(lines, (p) => inBlock(p) && !(p[2] > floor && off(p) < width / 2))).toBe(null);
      }),
      { numRuns: 100 },
    );
  });

  test("an oblique cross hole goes right through", () => {
    const part = number(-1, 1);
    fc.assert(
      fc.property(
        fc.tuple(part, part, part).filter((d) => Math.hypot(...d) > 0.1),
        number(10, 90),
        number(10, 50),
        number(-35, -5),
        number(1, 30),
        ([dx, dy, dz], x, y, z, diameter) => {
          const lines = `${SOLID}\nvoids: [{ crossHole: { along: [${dx}, ${dy}, ${dz}], through: [${x}, ${y}, ${z}], diameter: ${diameter} } }]`;
          const off = (p: Vec3): number => {
            const [mx, my, mz] = [p[0] - x, p[1] - y, p[2] - z];
            const square = [my * dz - mz * dy, mz * dx - mx * dz, mx * dy - my * dx];
            return Math.hypot(...square) / Math.hypot(dx, dy, dz);
          };
          expect(difference(lines, (p) => inBlock(p) && off(p) > diameter / 2)).toBe(null);
        },
      ),
      { numRuns: 100 },
    );
  });
});

test("lengths of a form are in the file's unit", () => {
  const { stock } = stockOf(
    "solids: [{ plates: { x: [0, 4], y: [0, 2], top: 0, layers: [{ plate: 0.5 }, { gap: 1 mm }, { plate: 0.25 }] } }]\nskin: { thickness: 0.125, on: top }",
    "inch",
  );
  expect(stock?.solids.map((body) => (body.kind === "box" ? body.z : null))).toEqual([
    [-12.7, 0],
    [-12.7 - 1 - 6.35, -13.7],
  ]);
  expect(stock?.skin).toEqual({ thickness: 3.175, on: "top" });
});

test("what the slip is about costs the stock, since another part would be checked", () => {
  const { stock, setup } = stockOf(`${SOLID}\nvoids: [{ slot: { along: x, through: [0, 30], width: 8, floor: 8 } }]`);
  expect(stock).toBe(null);
  expect(setup.unknown.get("workpieces.w.stock")).toMatch(/makes no sense/);
});

test("a broken skin leaves the bodies", () => {
  const { stock, setup } = stockOf(`${SOLID}\nskin: { thickness: thick }`);
  expect(stock?.solids).toHaveLength(1);
  expect(stock?.skin).toBe(null);
  expect(setup.unknown.has("workpieces.w.stock.skin.thickness")).toBe(true);
});

test("the part in the README is read as it stands", () => {
  const readme = readFileSync(new URL("../../../README.md", import.meta.url), "utf8");
  const example = /^## The part$[\s\S]*?^```yaml\n([\s\S]*?)^```/m.exec(readme)?.[1] ?? "";
  const { setup } = resolve(
    { "swarfline.yaml": `programs: [{ files: "*.nc", workpiece: bracket }]\n${example}` },
    "a.nc",
  );
  expect(setup.problems).toEqual([]);
  const stock = setup.workpiece?.stock;
  const paths = [...(stock?.solids ?? []), ...(stock?.voids ?? [])].flatMap((body) => [
    body.path,
    ...body.cut.map(({ path }) => path),
  ]);
  const shown = (form: string): boolean => paths.some((path) => new RegExp(`\\.${form}(\\W|$)`).test(path));
  const forms = ["box", "cylinder", "plates", "face", "ridge", "slot", "hole", "crossHole"];
  expect(forms.filter((form) => !shown(form))).toEqual([]);
  expect(stock?.skin).toEqual({ thickness: 2, on: "top" });
});
