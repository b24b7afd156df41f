/** The grid of holes against looking at every pair, and the search that goes on after an edit against a fresh one. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { neighboursOf, type Overlap } from "../../server/loads/surroundings/neighbours.ts";
import { execute } from "../../server/program/execute.ts";
import type { Execution } from "../../server/program/types.ts";
import { resolveSetup } from "../../server/setup/resolve.ts";
import { LineStore } from "../../server/text/lines.ts";

const DIAMETERS = [1.5, 6, 11, 40] as const;
const SETUP = `units: mm
programs: [{ files: "*.nc", machine: vmc, tools: crib }]
machines: { vmc: { kind: mill, dialect: generic-mill } }
tools:
  crib:
${DIAMETERS.map((d, i) => `    - { T: ${i + 1}, family: indexable, DC: ${d}, SIG: 180, LU: 200 }`).join("\n")}
`;
const FILE = "/shop/swarfline.yaml";
const { setup } = resolveSetup({ program: "/shop/p.nc", setupFile: FILE, sources: new Map([[FILE, SETUP]]) });

const place = fc.record({
  x: fc.integer({ min: -60, max: 60 }),
  y: fc.integer({ min: -60, max: 60 }),
  deep: fc.boolean(),
});
const section = fc.record({
  tool: fc.integer({ min: 1, max: 4 }),
  wcs: fc.constantFrom("G54", "G55"),
  holes: fc.array(place, { minLength: 1, maxLength: 12 }),
});
type Section = typeof section extends fc.Arbitrary<infer S> ? S : never;

function textOf(sections: readonly Section[]): string {
  const lines = ["G21 G90 G94 G17"];
  for (const { tool, wcs, holes } of sections) {
    lines.push(`T${tool} M6`, `${wcs} G0 X0. Y0. S1000 M3`, `G43 H${tool} Z50. M8`);
    for (const { x, y, deep } of holes) lines.push(`G81 X${x} Y${y} Z${deep ? -30 : -8} R2. F100.`);
    lines.push("G80");
  }
  return [...lines, "M30"].join("\n");
}

function run(text: string): Execution {
  return execute(readBlocks(LineStore.from(text)), setup, { program: "p.nc" });
}

const all = (execution: Execution): (Overlap | null)[] =>
  Array.from({ length: execution.holeCount }, (_, i) => neighboursOf(execution).ofHole(i));

/** Every earlier hole that this one cuts into, nearest first. */
function byPairs(execution: Execution, index: number): { hole: number; pitch: number }[] {
  const own = execution.hole(index);
  const [x, y] = own.at;
  const found: { hole: number; pitch: number }[] = [];
  for (let i = 0; i < index; i++) {
    const other = execution.hole(i);
    if (other.shape.wcs !== own.shape.wcs || own.shape.firstCut < 0 || other.shape.firstCut < 0) continue;
    const pitch = Math.hypot((x ?? 0) - (other.at[0] ?? 0), (y ?? 0) - (other.at[1] ?? 0));
    const radius = (DIAMETERS[(own.shape.tool ?? 0) - 1] ?? 0) / 2;
    const otherRadius = (DIAMETERS[(other.shape.tool ?? 0) - 1] ?? 0) / 2;
    const top = Math.min(own.shape.surfaceZ, other.shape.surfaceZ);
    const bottom = Math.max(own.shape.endZ ?? 0, other.shape.endZ ?? 0);
    const recess = pitch + radius <= otherRadius + 1e-3;
    if (pitch > 0.01 && pitch < radius + otherRadius - 1e-3 && top - bottom > 0.1 * radius + 1e-3 && !recess)
      found.push({ hole: i, pitch });
  }
  return found.sort((a, b) => a.pitch - b.pitch);
}

test("the grid finds what looking at every pair finds", () => {
  let overlaps = 0;
  fc.assert(
    fc.property(fc.array(section, { minLength: 1, maxLength: 5 }), (sections) => {
      const execution = run(textOf(sections));
      all(execution).forEach((overlap, i) => {
        const pairs = byPairs(execution, i);
        expect(overlap !== null).toBe(pairs.length > 0);
        if (overlap === null) return;
        overlaps++;
        const same = pairs.find(({ hole }) => hole === overlap.earlier);
        expect(same?.pitch).toBeCloseTo(overlap.pitch, 9);
        // Among many any of them will do; among few it is the nearest.
        if (pairs.length < 4) expect(overlap.pitch).toBeCloseTo(pairs[0]?.pitch ?? 0, 9);
      });
      const counted = execution.shapes.map((shape) => neighboursOf(execution).ofShape(shape)?.count ?? 0);
      expect(counted.reduce((sum, n) => sum + n, 0)).toBe(all(execution).filter((o) => o !== null).length);
    }),
    { numRuns: 120 },
  );
  expect(overlaps).toBeGreaterThan(200);
});

test("after edits it says what a fresh search says", () => {
  fc.assert(
    fc.property(
      fc.array(section, { minLength: 2, maxLength: 5 }),
      fc.array(
        fc.record({ at: fc.nat(), with: fc.constantFrom("X3 Y4", "(nothing)", "", "X900.", "T1 M6", "G52 Z-9.") }),
        {
          minLength: 1,
          maxLength: 6,
        },
      ),
      (sections, edits) => {
        const lines = LineStore.from(textOf(sections));
        const blocks = readBlocks(lines);
        let last = execute(blocks, setup, { program: "p.nc" });
        all(last);
        for (const { at, with: text } of edits) {
          const line = 1 + (at % (lines.count - 1));
          blocks.update(
            lines.edit({
              startLine: line,
              startColumn: 0,
              endLine: line,
              endColumn: lines.line(line).length,
              text,
            }),
          );
          last = execute(blocks, setup, { program: "p.nc", previous: last });
          expect(all(last)).toEqual(all(run(lines.text())));
        }
      },
    ),
    { numRuns: 60 },
  );
});

test("ten thousand holes close together cost little more than look-ups", () => {
  const row = (i: number): string => `X${(i % 100) * 0.02} Y${Math.floor(i / 100) * 0.02}`;
  const lines = ["G21 G90 G94 G54", "T4 M6", "S1000 M3", "G43 H4 Z50. M8", "G81 X-1. Y0. Z-20. R2. F100."];
  const text = [...lines, ...Array.from({ length: 10_000 }, (_, i) => row(i)), "G80", "M30"].join("\n");
  // Least of several: what else the machine does only adds.
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 4; turn++) {
    const execution = run(text);
    const start = performance.now();
    neighboursOf(execution);
    least = Math.min(least, performance.now() - start);
    expect(all(execution).filter((overlap) => overlap !== null).length).toBeGreaterThan(9_900);
  }
  // Every pair would be fifty million looks: seconds.
  expect(least).toBeLessThan(400);
});

test("grown past its first size and cut back by edits it says what a fresh search says", () => {
  const rows = Array.from(
    { length: 6000 },
    (_, i) => `X${(i % 75) * 55} Y${Math.floor(i / 75) * (i % 7 === 0 ? 39 : 55)}`,
  );
  const head = ["G21 G90 G94 G54", "T4 M6", "S1000 M3", "G43 H4 Z50. M8", "G81 X-90. Y0. Z-20. R2. F100."];
  const lines = LineStore.from([...head, ...rows, "G80", "M30"].join("\n"));
  const blocks = readBlocks(lines);
  let last = execute(blocks, setup, { program: "p.nc" });
  expect(all(last).filter((overlap) => overlap !== null).length).toBeGreaterThan(100);
  for (const line of [4000, 300, 5900, 20]) {
    blocks.update(lines.edit({ startLine: line, startColumn: 0, endLine: line + 3, endColumn: 0, text: "X7 Y9\n" }));
    last = execute(blocks, setup, { program: "p.nc", previous: last });
    expect(all(last)).toEqual(all(run(lines.text())));
  }
});
