import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { run } from "./helpers.ts";

const HEAD = "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG0 X0 Y0 Z50.\n";
type Point = readonly [number, number];

const word = (value: number) => `${value < 0 ? "-" : ""}${Math.abs(value).toFixed(4)}`;
const drillAt = (points: readonly Point[]) =>
  `${points.map(([x, y], i) => `${i === 0 ? "G81 " : ""}X${word(x)} Y${word(y)}${i === 0 ? " Z-5. R2." : ""}`).join("\n")}\n`;
const places = (text: string): Point[] => {
  const execution = run(text);
  return Array.from({ length: execution.holeCount }, (_, i) => {
    const [x, y] = execution.hole(i).at;
    return [x ?? Number.NaN, y ?? Number.NaN] as const;
  });
};

function same(actual: readonly Point[], expected: readonly Point[], within = 2e-4): void {
  expect(actual.length).toBe(expected.length);
  actual.forEach(([x, y], i) => {
    expect(Math.abs(x - (expected[i]?.[0] ?? Number.NaN))).toBeLessThan(within);
    expect(Math.abs(y - (expected[i]?.[1] ?? Number.NaN))).toBeLessThan(within);
  });
}

const rotate = ([x, y]: Point, [cx, cy]: Point, degrees: number): Point => {
  const a = (degrees / 180) * Math.PI;
  return [cx + (x - cx) * Math.cos(a) - (y - cy) * Math.sin(a), cy + (x - cx) * Math.sin(a) + (y - cy) * Math.cos(a)];
};

// Tenths on a grid that no two holes share, so that none joins another.
const coordinate = fc.integer({ min: -2000, max: 2000 }).map((n) => n / 10);
const point = fc.tuple(coordinate, coordinate);
const points = fc.uniqueArray(point, {
  minLength: 1,
  maxLength: 8,
  comparator: ([a, b], [c, d]) => Math.hypot(a - c, b - d) < 1,
});
const angle = fc.integer({ min: -7200, max: 7200 }).map((n) => n / 10);
const factor = fc.constantFrom(-2, -1, 0.5, 1, 1.5, 3);

describe("transforms are what a person would work out by hand", () => {
  test("G68 about a centre = every point turned by hand", () => {
    fc.assert(
      fc.property(points, point, angle, (list, centre, degrees) => {
        const turned = list.map((p) => rotate(p, centre, degrees));
        const code = `G68 X${word(centre[0])} Y${word(centre[1])} R${word(degrees)}\n`;
        same(places(`${HEAD}${code}${drillAt(list)}G69\nM30\n`), places(`${HEAD}${drillAt(turned)}M30\n`));
      }),
      { numRuns: 60 },
    );
  });

  test("increments in G68 = the same points in G90", () => {
    fc.assert(
      fc.property(points, point, angle, (list, centre, degrees) => {
        const code = `G68 X${word(centre[0])} Y${word(centre[1])} R${word(degrees)}\n`;
        const [first = [0, 0] as const] = list;
        const steps = list.slice(1).map(([x, y], i) => {
          const [px, py] = list[i] ?? [0, 0];
          return `X${word(x - px)} Y${word(y - py)}\n`;
        });
        const chain = `${HEAD}${code}${drillAt([first])}G91\n${steps.join("")}M30\n`;
        same(places(chain), places(`${HEAD}${code}${drillAt(list)}M30\n`));
      }),
      { numRuns: 40 },
    );
  });

  test("mirrored by hand and by G51.1 = not mirrored", () => {
    fc.assert(
      fc.property(points, coordinate, (list, line) => {
        const twice = list.map(([x, y]): Point => [2 * line - x, y]);
        same(places(`${HEAD}G51.1 X${word(line)}\n${drillAt(twice)}M30\n`), list);
      }),
      { numRuns: 40 },
    );
  });

  test("mirror on and off again leaves nothing behind", () => {
    fc.assert(
      fc.property(points, point, (list, [a, b]) => {
        const on = `G51.1 X${word(a)} Y${word(b)}\nG50.1 X0\nG50.1 Y0\n`;
        same(places(`${HEAD}${on}${drillAt(list)}M30\n`), list);
      }),
      { numRuns: 40 },
    );
  });

  test("polar numbers = their cartesian points", () => {
    const polar = fc.tuple(
      fc.integer({ min: 10, max: 2000 }).map((n) => n / 10),
      fc.integer({ min: -3600, max: 3600 }).map((n) => n / 10),
    );
    fc.assert(
      fc.property(fc.array(polar, { minLength: 1, maxLength: 8 }), (list) => {
        const execution = run(`${HEAD}G16\n${list.map(([r, a]) => `G0 X${word(r)} Y${word(a)}\n`).join("")}G15\nM30\n`);
        const ends = [...execution.motions()].filter((m) => m.kind === "rapid").slice(1);
        // A move to where the tool stands is none.
        const expected: Point[] = [];
        let before: Point = [0, 0];
        for (const [r, a] of list) {
          const next = rotate([r, 0], [0, 0], a);
          if (Math.hypot(next[0] - before[0], next[1] - before[1]) > 1e-6) expected.push(next);
          before = next;
        }
        same(
          ends.map((m) => [m.x ?? Number.NaN, m.y ?? Number.NaN]),
          expected,
        );
      }),
      { numRuns: 40 },
    );
  });

  test("scaling, rotation and mirror image together: in this order", () => {
    fc.assert(
      fc.property(points, point, factor, factor, angle, coordinate, (list, centre, fx, fy, degrees, line) => {
        const [cx, cy] = centre;
        const codes =
          `G51.1 X${word(line)}\nG68 X${word(cx)} Y${word(cy)} R${word(degrees)}\n` +
          `G51 X0 Y0 I${word(fx)} J${word(fy)}\n`;
        const expected = list.map(([x, y]): Point => {
          const [rx, ry] = rotate([fx * x, fy * y], centre, degrees);
          return [2 * line - rx, ry];
        });
        same(places(`${HEAD}${codes}${drillAt(list)}G50\nG69\nG50.1\nM30\n`), expected);
      }),
      { numRuns: 60 },
    );
  });

  test("cancelled, a point is where it is written", () => {
    fc.assert(
      fc.property(points, point, angle, factor, (list, [cx, cy], degrees, f) => {
        const codes = `G68 X${word(cx)} Y${word(cy)} R${word(degrees)}\nG51 X${word(cy)} Y${word(cx)} I${word(f)}\n`;
        same(places(`${HEAD}${codes}G0 X7. Y9.\nG69\nG50\n${drillAt(list)}M30\n`), list);
      }),
      { numRuns: 40 },
    );
  });
});
