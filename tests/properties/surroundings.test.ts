/** The metal around each hole against the part as it is described, point by point; and after edits against a fresh look. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { arranged, surroundingsOf } from "../../server/loads/surroundings/arrange.ts";
import { contains } from "../../server/mechanics/engagement/solids.ts";
import { execute } from "../../server/program/execute.ts";
import type { Execution } from "../../server/program/types.ts";
import { resolveSetup } from "../../server/setup/resolve.ts";
import type { ResolvedSetup } from "../../server/setup/types.ts";
import { LineStore } from "../../server/text/lines.ts";

type Point = readonly [x: number, y: number, z: number];
interface Form {
  readonly yaml: string;
  readonly inside: (p: Point) => boolean;
}

const whole = (min: number, max: number) => fc.integer({ min, max });
const TAN20 = Math.tan((20 * Math.PI) / 180);

const plainBox: fc.Arbitrary<Form> = fc.tuple(whole(-40, 20), whole(20, 60), whole(-8, 8)).map(([x, w, top]) => ({
  yaml: `{ box: { x: [${x}, ${x + w}], y: [-30, 30], z: [-40, ${top}] } }`,
  inside: ([px, py, pz]) => px >= x && px <= x + w && Math.abs(py) <= 30 && pz >= -40 && pz <= top,
}));
const ramp: fc.Arbitrary<Form> = whole(-20, 20).map((at) => ({
  yaml: `{ box: { x: [-50, 50], y: [-30, 30], z: [-40, 30] }, face: { incline: 20, towards: x+, through: [${at}, 0, 0] } }`,
  inside: ([x, y, z]) => Math.abs(x) <= 50 && Math.abs(y) <= 30 && z >= -40 && z <= Math.min(30, (at - x) * TAN20),
}));
const post: fc.Arbitrary<Form> = fc.tuple(whole(-30, 30), whole(-20, 20), whole(8, 40)).map(([x, y, d]) => ({
  yaml: `{ cylinder: { axis: z, through: [${x}, ${y}, 0], diameter: ${d}, span: [-40, 9] } }`,
  inside: (p) => Math.hypot(p[0] - x, p[1] - y) <= d / 2 && p[2] >= -40 && p[2] <= 9,
}));
const leaning: fc.Arbitrary<Form> = fc.tuple(whole(-20, 20), whole(10, 30)).map(([x, d]) => ({
  yaml: `{ cylinder: { axis: [1, 0, 2], through: [${x}, 0, -20], diameter: ${d}, span: [-20, 30] } }`,
  inside: (p) => {
    const q = [p[0] - x, p[1], p[2] + 20] as const;
    const along = (q[0] + 2 * q[2]) / Math.sqrt(5);
    return along >= -20 && along <= 30 && q[0] ** 2 + q[1] ** 2 + q[2] ** 2 - along * along <= (d / 2) ** 2;
  },
}));
const gallery: fc.Arbitrary<Form> = fc.tuple(whole(-20, 20), whole(-30, -5), whole(4, 16)).map(([y, z, d]) => ({
  yaml: `{ cylinder: { axis: x, through: [0, ${y}, ${z}], diameter: ${d}, span: [-70, 70] } }`,
  inside: (p) => Math.abs(p[0]) <= 70 && (p[1] - y) ** 2 + (p[2] - z) ** 2 <= (d / 2) ** 2,
}));
const pocket: fc.Arbitrary<Form> = fc.tuple(whole(-40, 30), whole(4, 30)).map(([x, w]) => ({
  yaml: `{ box: { x: [${x}, ${x + w}], y: [-10, 14], z: [-12, 60] } }`,
  inside: (p) => p[0] >= x && p[0] <= x + w && p[1] >= -10 && p[1] <= 14 && p[2] >= -12 && p[2] <= 60,
}));

const DRILLS = [
  { DC: 6, SIG: 140 },
  { DC: 12, SIG: 118 },
  { DC: 26, SIG: 180 },
] as const;
const pointOf = ({ DC, SIG }: (typeof DRILLS)[number]): number =>
  SIG === 180 ? 0 : DC / 2 / Math.tan((SIG * Math.PI) / 360);

interface Made {
  readonly tool: number;
  readonly wcs: "G54" | "G55";
  readonly x: number;
  readonly y: number;
  readonly end: number;
}
const OFFSETS = { G54: [0, 0, 0], G55: [7, -3, 2] } as const;
const made: fc.Arbitrary<Made> = fc.record({
  tool: whole(1, 3),
  wcs: fc.constantFrom("G54", "G55"),
  x: whole(-40, 40),
  y: whole(-20, 20),
  end: whole(-35, -3),
});

function setupOf(solids: readonly Form[], voids: readonly Form[]): ResolvedSetup {
  const text = `units: mm
programs: [{ files: "*.nc", machine: vmc, tools: crib, workpiece: part }]
machines: { vmc: { kind: mill, dialect: generic-mill } }
tools:
  crib:
${DRILLS.map(({ DC, SIG }, i) => `    - { T: ${i + 1}, family: twist-hss, DC: ${DC}, SIG: ${SIG}, LU: 200 }`).join("\n")}
workpieces:
  part:
    workOffsets: { G54: [${OFFSETS.G54.join()}], G55: [${OFFSETS.G55.join()}] }
    stock: { wcs: G54, solids: [${solids.map((s) => s.yaml).join(", ")}], voids: [${voids.map((s) => s.yaml).join(", ")}] }
`;
  const FILE = "/shop/swarfline.yaml";
  return resolveSetup({ program: "/shop/p.nc", setupFile: FILE, sources: new Map([[FILE, text]]) }).setup;
}

const programOf = (holes: readonly Made[]): string =>
  [
    "G21 G90 G94 G17",
    ...holes.flatMap(({ tool, wcs, x, y, end }) => [
      `T${tool} M6`,
      `${wcs} G0 X${x} Y${y} S900 M3`,
      `G43 H${tool} Z90.`,
      `G98 G81 X${x} Y${y} Z${end} R60. F90.`,
      "G80",
    ]),
    "M30",
  ].join("\n");

/** In the coordinates of the stock. */
const placeOf = ({ wcs, x, y, end }: Made): Point => [x + OFFSETS[wcs][0], y + OFFSETS[wcs][1], end + OFFSETS[wcs][2]];

function takenBy(hole: Made, p: Point): boolean {
  const [x, y, tip] = placeOf(hole);
  const drill = DRILLS[hole.tool - 1] ?? DRILLS[0];
  const point = pointOf(drill);
  const up = p[2] - tip;
  if (up < 0) return false;
  const radius = point === 0 ? drill.DC / 2 : Math.min(drill.DC / 2, (up / point) * (drill.DC / 2));
  return Math.hypot(p[0] - x, p[1] - y) < radius;
}

const run = (text: string, setup: ResolvedSetup): Execution =>
  arranged(execute(readBlocks(LineStore.from(text)), setup, { program: "p.nc" }), setup);

const STEP = 1e-6;
const NEAR: readonly Point[] = [0, 1, 2].flatMap((axis): Point[] =>
  [STEP, -STEP].map((d) => [axis === 0 ? d : 0, axis === 1 ? d : 0, axis === 2 ? d : 0]),
);

test("the solid around a hole is the part less the holes drilled before, at every point that the drill sweeps", () => {
  let looked = 0;
  let metal = 0;
  fc.assert(
    fc.property(
      fc.array(fc.oneof(plainBox, ramp, post, leaning), { minLength: 1, maxLength: 3 }),
      fc.array(fc.oneof(gallery, pocket), { maxLength: 2 }),
      fc.array(made, { minLength: 2, maxLength: 7 }),
      fc.array(
        fc.tuple(
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.double({ min: 0, max: 6.283, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
        ),
        { minLength: 40, maxLength: 40 },
      ),
      (solids, voids, holes, spots) => {
        const setup = setupOf(solids, voids);
        const execution = run(programOf(holes), setup);
        holes.forEach((hole, index) => {
          const around = execution.holeCount > index ? surroundingsOf(execution.shapeOf(index)) : null;
          if (around === null || "why" in around) return;
          // Two drills on one line may be one hole.
          if (execution.holeCount !== holes.length) return;
          const drill = DRILLS[hole.tool - 1] ?? DRILLS[0];
          const [x, y, tip] = placeOf(hole);
          const { surfaceZ } = execution.shapeOf(index);
          const top = surfaceZ + OFFSETS[hole.wcs][2];
          for (const [a, phi, c] of spots) {
            const r = Math.sqrt(a) * (drill.DC / 2);
            const p: Point = [x + r * Math.cos(phi), y + r * Math.sin(phi), tip + c * (35 - tip)];
            const isMetal = (q: Point): boolean =>
              solids.some((form) => form.inside(q)) &&
              !voids.some((form) => form.inside(q)) &&
              !holes.slice(0, index).some((earlier) => takenBy(earlier, q));
            const expected = isMetal(p);
            // On a face itself either is right.
            if (NEAR.some((d) => isMetal([p[0] + d[0], p[1] + d[1], p[2] + d[2]]) !== expected)) continue;
            looked++;
            if (expected) metal++;
            expect(contains(around.solid, p[0] - x, p[1] - y, p[2] - top), `hole ${index} at ${p.join()}`).toBe(
              expected,
            );
          }
        });
      },
    ),
    { numRuns: 100 },
  );
  expect(looked).toBeGreaterThan(5000);
  expect(metal).toBeGreaterThan(1000);
});

test("after edits the surroundings are those of a fresh look", () => {
  const solids =
    "{ box: { x: [-50, 50], y: [-30, 30], z: [-40, 30] }, face: { incline: 20, towards: x+, through: [0, 0, 0] } }";
  const setup = setupOf([{ yaml: solids, inside: () => false }], []);
  const keys = (execution: Execution): (string | null)[] =>
    Array.from({ length: execution.holeCount }, (_, i) => {
      const around = surroundingsOf(execution.shapeOf(i));
      return around === null ? null : "why" in around ? around.why : around.key;
    });
  fc.assert(
    fc.property(
      fc.array(made, { minLength: 3, maxLength: 8 }),
      fc.array(fc.tuple(fc.nat(), fc.constantFrom("X3 Y4 Z-9.", "(nothing)", "T2 M6", "G55", "G52 X2.", "")), {
        minLength: 1,
        maxLength: 5,
      }),
      (holes, edits) => {
        const lines = LineStore.from(programOf(holes));
        const blocks = readBlocks(lines);
        let last = execute(blocks, setup, { program: "p.nc" });
        arranged(last, setup);
        for (const [at, text] of edits) {
          const line = 1 + (at % (lines.count - 1));
          blocks.update(
            lines.edit({ startLine: line, startColumn: 0, endLine: line, endColumn: lines.line(line).length, text }),
          );
          last = execute(blocks, setup, { program: "p.nc", previous: last });
          expect(keys(arranged(last, setup))).toEqual(keys(run(lines.text(), setup)));
        }
      },
    ),
    { numRuns: 60 },
  );
});
