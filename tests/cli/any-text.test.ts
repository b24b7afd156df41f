/** Whatever stands in a file, the commands answer in their public forms. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { validSarif } from "./sarif.ts";
import { nullsOf, swarfline } from "./swarfline.ts";

const WORDS = [
  "G0",
  "G1",
  "G20",
  "G21",
  "G73",
  "G80",
  "G81",
  "G83",
  "G84",
  "G91",
  "G95",
  "G98",
  "G99",
  "X1.",
  "Y-2.5",
  "Z-10.",
  "R2.",
  "Q3",
  "F100.",
  "F.1",
  "S500",
  "M3",
  "M4",
  "M5",
  "M6",
  "M8",
  "M98",
  "T1",
  "T99999999999999999999",
  "H1",
  "X",
  "Z#1",
  "#1=2",
  "X[1/0]",
  "G1.5",
  "(T1 10. DRILL)",
  "(CUT ENTRY INCLINE 30 DEG)",
  "(CUT",
  "/",
  "N10",
  "O5",
  "%",
  "X1E5",
  "Z99999999999.",
  "F0",
  "S0",
  "K0",
  "L3",
  "P1000",
  "G28",
  "G53",
  "IF[#1EQ1]GOTO10",
  "WHILE[#1LT9]DO1",
  "END1",
];
const block = fc.array(fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...WORDS) }, fc.string({ maxLength: 6 })), {
  maxLength: 7,
});
const program = fc.array(block, { maxLength: 14 }).map((blocks) => blocks.map((words) => words.join(" ")).join("\n"));

test("any text is answered, in every format", async () => {
  await fc.assert(
    fc.asyncProperty(program, async (text) => {
      const world = { files: { "/shop/a.nc": text } };
      const check = await swarfline(["check", "--format", "json", "a.nc"], world);
      expect(check.err).toBe("");
      expect([0, 1]).toContain(check.code);
      const lines = text.split(/\r\n|\r|\n/);
      for (const { line, column, endColumn } of JSON.parse(check.out).files[0].findings) {
        expect(lines.length).toBeGreaterThanOrEqual(line);
        expect(column).toBeGreaterThan(0);
        expect(endColumn).toBeGreaterThanOrEqual(column);
        expect(endColumn).toBeLessThanOrEqual((lines[line - 1] ?? "").length + 1);
      }
      validSarif((await swarfline(["check", "--format", "sarif", "a.nc"], world)).out);
      for (const command of ["explain", "trace"]) {
        const { code, out } = await swarfline([command, "--format", "json", "a.nc"], world);
        expect(code).toBe(0);
        expect(out).not.toMatch(/NaN|Infinity|undefined/);
        for (const hole of JSON.parse(out).holes ?? []) {
          expect(nullsOf(hole).sort()).toEqual(Object.keys(hole.unknown).sort());
        }
        expect((await swarfline([command, "a.nc"], world)).out).not.toMatch(/NaN|Infinity|undefined/);
      }
    }),
    { numRuns: 150 },
  );
}, 120_000);
