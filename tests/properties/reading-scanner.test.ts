import fc from "fast-check";
import { expect, test } from "vitest";
import { parseLine } from "../../grammar/line.ts";
import { scanPlain } from "../../grammar/scanner.ts";
import { anyLine, nearPlainLine, readWith } from "./reading-material.ts";

const parse = (line: string) => readWith((text, writer) => void parseLine(text, writer), line);

test("the plain scanner writes what the parser writes, or gives up without a trace", () => {
  let accepted = 0;
  let runs = 0;
  fc.assert(
    fc.property(fc.oneof({ weight: 3, arbitrary: nearPlainLine }, { weight: 1, arbitrary: anyLine }), (line) => {
      runs++;
      const scanned = readWith(scanPlain, line);
      if (scanned === null) return;
      accepted++;
      expect(scanned).toEqual(parse(line));
    }),
    { numRuns: 6000 },
  );
  // The property says nothing unless the scanner takes a good share of the lines.
  expect(accepted / runs).toBeGreaterThan(0.25);
  expect(accepted / runs).toBeLessThan(0.95);
});

test.each([
  "G81 X10. Y-5.25 Z-12. R2. F120.",
  "N100 T5 M6 (10.2 DRILL)",
  "g0x +0. 12 34y 7",
  "%",
  " % ",
  "O1234 (PART)",
  "/2 G1 X5; rest",
  "N10O100",
  "",
  " \t ",
])("the scanner takes %j and the parser agrees", (line) => {
  const scanned = readWith(scanPlain, line);
  expect(scanned).not.toBeNull();
  expect(scanned).toEqual(parse(line));
});

test.each([
  "X#1",
  "X1.2.3",
  "X",
  "(open",
  "(a (b) c)",
  "O100 SUB",
  "X1O2",
  "X5)",
  "G1/2X5",
  "X1 O2",
  "% X1",
  "(CUT ENTRY SKIN)",
  "POPEN",
  "N5 PCLOS",
  "DPRNT[X#100[53]]",
  "SETVN510[A]",
])("the scanner leaves %j to the parser", (line) => {
  expect(readWith(scanPlain, line)).toBeNull();
});
