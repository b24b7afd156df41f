import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { execute } from "../../../server/program/execute.ts";
import type { Execution } from "../../../server/program/types.ts";
import type { Vec3 } from "../../../server/setup/types.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { drill, setup, workpiece } from "./helpers.ts";

/** Where everything is, and what was told. */
function picture(e: Execution): unknown {
  const frames: (number | undefined)[] = [];
  return {
    holes: Array.from({ length: e.holeCount }, (_, i) => {
      const { at, block, shape } = e.hole(i);
      if (!frames.includes(shape.frame)) frames.push(shape.frame);
      const { startZ, endZ, bored, surfaceZ, surfaceFrom, wcs, unknown } = shape;
      return [
        at,
        e.blocks.lineOf(block),
        frames.indexOf(shape.frame),
        startZ,
        endZ,
        bored,
        surfaceZ,
        surfaceFrom,
        wcs,
        unknown,
      ];
    }),
    events: e.events.map((v) => [v.kind, e.blocks.lineOf(v.span.block), v.span.start, v.data]),
    motions: [...e.motions()].map((m) => [m.kind, e.blocks.lineOf(m.block), m.x, m.y, m.z, m.seconds]),
  };
}

const LINES = [
  "G68 X1. Y2. R30.",
  "G68 R90.",
  "G91 G68 X0 Y0 R45.",
  "G69",
  "G51 X3. Y0 I2. J-1.",
  "G51 X0 Y0 P2.",
  "G50",
  "G51.1 X5.",
  "G51.1 Y0",
  "G50.1 X0",
  "G50.1",
  "G16",
  "G15",
  "X20. Y45.",
  "Y60.",
  "X10.",
  "G91",
  "G90",
  "G52 X5. Y1.",
  "G52 X0 Y0",
  "G92 X5.",
  "G92 Z3.",
  "G92.1",
  "G92.2",
  "G92.3",
  "G28 X0 Y0",
  "G53 G0 X0 Y0",
  "G10 L2 P1 X12.",
  "G10 L2 P0 X2.",
  "G10 L2 P3 X50. Y20. Z-300.",
  "G55",
  "G56",
  "G54",
  "G54.1 P3",
  "G0 X4. Y4.",
  "G0 Z-3.",
  "G0 Z20.",
  "G1 Z-5.",
  "G1 X9.",
  "G99 G81 X1. Y1. Z-10. R2. F100.",
  "G98 G83 X7. Z-20. R2. Q4.",
  "G80",
  "T2 M6",
  "G43 H2 Z50.",
  "M30",
];

const program = fc.array(fc.constantFrom(...LINES.slice(0, -1)), { maxLength: 30 });
// Long enough that checkpoints lie before, in and after the edit.
const bulk = (seed: number) =>
  Array.from({ length: 800 }, (_, i) =>
    i % 45 === 0 ? `G99 G81 X${(i * seed) % 97}. Y1. Z-${5 + (i % 7)}. R2. F100.` : `X${(i * seed) % 89}. Y${i % 13}.`,
  );

test("with transforms and shifts in force an edited program says what it says from scratch", () => {
  const offsets = new Map<string, Vec3>([
    ["G54", [10, 20, -300]],
    ["G55", [110, 20, -300]],
  ]);
  const s = setup({ workpiece: workpiece({ workOffsets: offsets }) }, [drill(1, 8), drill(2, 10)]);
  const edit = fc.tuple(fc.nat(4000), fc.nat(3), fc.array(fc.constantFrom(...LINES), { maxLength: 3 }));
  fc.assert(
    fc.property(program, program, fc.array(edit, { minLength: 1, maxLength: 3 }), (a, b, edits) => {
      const text = [
        "G21 G90 G54 G17",
        ...a,
        "T1 M6",
        "G43 H1 Z50. S1000 M3",
        ...bulk(7),
        ...b,
        ...bulk(11),
        "G80",
        "M30",
      ];
      const lines = LineStore.from(text.join("\n"));
      const blocks = readBlocks(lines);
      let e = execute(blocks, s, { program: "part.nc" });
      for (const [at, remove, insert] of edits) {
        const startLine = at % lines.count;
        const endLine = Math.min(startLine + remove, lines.count - 1);
        blocks.update(
          lines.edit({ startLine, startColumn: 0, endLine, endColumn: 0, text: insert.map((l) => `${l}\n`).join("") }),
        );
        e = execute(blocks, s, { program: "part.nc", previous: e });
      }
      expect(picture(e)).toEqual(picture(execute(readBlocks(LineStore.from(lines.text())), s, { program: "part.nc" })));
    }),
    { numRuns: 25 },
  );
}, 120_000);
