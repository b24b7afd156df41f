import fc from "fast-check";
import { expect, test } from "vitest";
import { CHECKS } from "../../server/checks/registry.ts";
import { lineRange } from "../../server/review/places.ts";
import { reviewText, SHOP, seen } from "../unit/checks/shop.ts";

const number = fc.oneof(
  fc.integer({ min: -60, max: 60 }).map(String),
  fc.integer({ min: -60, max: 60 }).map((n) => `${n}.`),
  fc.double({ min: -60, max: 60, noNaN: true }).map((n) => n.toFixed(3)),
  fc.constantFrom("0", "1e9", "999", "-.5", "", "1.2.3", "#1", "[1+2]", "[1/0]"),
);
const code = fc.constantFrom(
  ...[
    "G0",
    "G1",
    "G81",
    "G82",
    "G83",
    "G73",
    "G84",
    "G85",
    "G87",
    "G80",
    "G90",
    "G91",
    "G20",
    "G21",
    "G94",
    "G95",
    "G93",
  ],
  ...[
    "G98",
    "G99",
    "G17",
    "G18",
    "G43",
    "G49",
    "G54",
    "G55",
    "G28",
    "G53",
    "G4",
    "G92",
    "M3",
    "M4",
    "M5",
    "M6",
    "M8",
    "M88",
  ],
  ...[
    "M9",
    "M13",
    "M0",
    "M30",
    "T1",
    "T3",
    "T5",
    "T7",
    "T8",
    "T9",
    "T44",
    "H3",
    "%",
    "/",
    "(T5 31MM DRILL)",
    "(CUT ENTRY SKIN)",
  ],
  ...[
    "(CUT ENTRY INCLINE 30 DEG)",
    "(CUT ENTRY CHAIN PITCH 15.)",
    "(CUT MATERIAL C45E HB 190)",
    "(CUT MATERIAL X)",
    "(",
    ")",
    "#1=3",
  ],
  ...[
    "(CUT ALLOW FEED-WINDOW UP TO F300 BY AB BECAUSE X)",
    "(CUT EXIT FLAT)",
    "L99999999",
    "IF[#1GT2]GOTO5",
    "WHILE[#1LT3]DO1",
    "END1",
    "M98P2",
    "O1",
  ],
);
const word = fc.oneof(
  { weight: 2, arbitrary: code },
  {
    weight: 3,
    arbitrary: fc.tuple(fc.constantFrom(..."XYZRQPFSLKIJN"), number).map(([letter, value]) => letter + value),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 4 }) },
);
const block = fc.array(word, { maxLength: 7 }).map((words) => words.join(" "));
/** Half of the texts begin like a program, so that holes come about. */
const start = fc.constantFrom(
  "",
  "G21 G90 G94\nT3 M6\nS2500 M3\nG0 X0 Y0\nG43 H3 Z50. M88\nG4 P3000\nG81 X1. Y1. Z-9. R2. F450.\n",
);
const text = fc
  .tuple(start, fc.array(block, { maxLength: 20 }), fc.constantFrom("\n", "\r\n", "\r"))
  .map(([head, blocks, eol]) => head + blocks.join(eol));
const setup = fc.constantFrom(SHOP, null);

test("arbitrary text gives findings that lie inside the file, with whole messages", () => {
  fc.assert(
    fc.property(text, setup, (source, yaml) => {
      const { review, lines } = reviewText(source, yaml);
      for (const finding of review.findings) {
        expect(finding.check).not.toBe("internal");
        expect(finding.message).not.toMatch(/NaN|undefined|Infinity|\[object/);
        expect(finding.message.trim()).toBe(finding.message);
        expect(finding.message).toMatch(/[.!?…]$/);
        expect(finding.count).toBeGreaterThanOrEqual(1);
        for (const place of [finding.place, ...finding.related.map((related) => related.place)]) {
          if (place.in === "file") continue;
          const range = lineRange(place, review.execution.blocks);
          expect(range.line).toBeGreaterThanOrEqual(0);
          expect(range.line).toBeLessThan(lines.count);
          expect(range.start).toBeGreaterThanOrEqual(0);
          expect(range.end).toBeGreaterThanOrEqual(range.start);
          expect(range.end).toBeLessThanOrEqual(lines.line(range.line).length);
        }
        for (const value of [finding.data?.measured ?? 0, finding.data?.limit ?? 0])
          expect(Number.isFinite(value)).toBe(true);
      }
    }),
    { numRuns: 200 },
  );
}, 120_000);

test("severity off removes exactly the findings of that check", () => {
  fc.assert(
    fc.property(text, fc.constantFrom(...CHECKS.map((check) => check.id)), (source, id) => {
      const all = seen(reviewText(source));
      const quiet = SHOP.replace("workpieces:", `severity: { ${id}: off }\nworkpieces:`);
      expect(seen(reviewText(source, quiet))).toEqual(all.filter((finding) => finding.check !== id));
    }),
    { numRuns: 100 },
  );
}, 120_000);
