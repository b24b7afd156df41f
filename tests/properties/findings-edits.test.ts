import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { review } from "../../server/review/review.ts";
import type { Review } from "../../server/review/types.ts";
import { LineStore } from "../../server/text/lines.ts";
import { PROGRAM, reviewText, SETUP_FILE, SHOP, seen } from "../unit/checks/shop.ts";

const PROGRAM_LINES = [
  "%",
  "G21 G17 G40 G49 G80 G90 G94 G54",
  "(T5 12MM DRILL)",
  "T3 M6",
  "G0 X0. Y0. S2500 M3",
  "G43 H3 Z50. M88",
  "G4 P3000",
  "G99 G81 X0. Y0. Z-20. R2. F450.",
  "X20.",
  "X40. Y10.",
  "G80 M9",
  "T7 M6",
  "G0 X0. Y50. S2000 M3",
  "G43 H7 Z50. M88",
  "G4 P3000",
  "(CUT ENTRY INCLINE 30 DEG)",
  "G98 G81 X0. Y50. Z-40. R12. F100.",
  "X60.",
  "G80 G0 Z50.",
  "G0 X100. Y0.",
  "Z2.",
  "G1 Z-10. F120.",
  "G0 Z5.",
  "G0 Z-9.",
  "G1 Z-25.",
  "G0 Z50. M9",
  "M5",
  "M30",
  "%",
];

const line = fc.oneof(
  fc.constantFrom(...PROGRAM_LINES),
  fc.constantFrom(
    "M9",
    "M5",
    "S9000",
    "F800.",
    "G91",
    "G20",
    "G95",
    "G80",
    "T5 M6",
    "(CUT ENTRY SKIN)",
    "(CUT EXIT FLAT)",
    "",
    "X#",
  ),
  fc.constantFrom(
    "G83 Q4.",
    "Z-70.",
    "G84",
    "M98 P2",
    "G0 Z-30.",
    "(CUT MATERIAL EN-GJL-250 HB 200)",
    "(OPEN",
    "#1=3",
    "X[#1*10]",
  ),
);
const edit = fc.record({
  at: fc.nat({ max: 40 }),
  remove: fc.nat({ max: 3 }),
  insert: fc.array(line, { maxLength: 3 }),
});

test("after any edits the findings are those of a fresh review", () => {
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
      const lines = LineStore.from(PROGRAM_LINES.join("\n"));
      const blocks = readBlocks(lines);
      const input = { program: PROGRAM, lines, blocks, sources: new Map([[SETUP_FILE, SHOP]]), setupFile: SETUP_FILE };
      let last: Review = review(input);
      for (const { at, remove, insert } of edits) {
        const start = Math.min(at, lines.count - 1);
        const end = Math.min(start + remove, lines.count - 1);
        const text = insert.map((one) => `${one}\n`).join("");
        blocks.update(lines.edit({ startLine: start, startColumn: 0, endLine: end, endColumn: 0, text }));
        last = review({ ...input, previous: last });
        expect(seen({ review: last, lines })).toEqual(seen(reviewText(lines.text())));
      }
    }),
    { numRuns: 150 },
  );
}, 120_000);
