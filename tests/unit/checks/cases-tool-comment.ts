/** Comments that name tools, against the tool table of the shop. */
import type { Case } from "./cases.ts";
import { approach, program } from "./shop.ts";

const check = "tool-comment-differs";
const DRILLED = [...approach(3, 2500), "G81 Z-20. R2. F450."];

const silent = (name: string, ...lines: string[]): Case => ({
  check,
  name,
  text: program(...lines, ...DRILLED),
  expect: [],
});

export const TOOL_COMMENT_CASES: readonly Case[] = [
  ...[
    ["(T3 | 10.2 DRILL | H3 | D3)"],
    ["(T3 10.2 MM DRILL H3 D3)"],
    ["(T3 D3 H3 10.2 DRILL)"],
    ["(T3 DRILL D3)"],
    ["T3 (10.2 DRILL D3)"],
  ].map((lines) => silent(`D is the offset: ${lines[0]}`, ...lines)),
  {
    check,
    name: "another diameter",
    text: program("(T3 8.5 DRILL)", ...DRILLED),
    expect: [
      {
        severity: "warning",
        line: 3,
        word: "(T3 8.5 DRILL)",
        says: ["says DC 8.50 mm (0.335 in) for T3", "has DC 10.20 mm (0.402 in)", "mend the comment or DC of T3"],
        measured: 8.5,
        limit: 10.2,
        unit: "mm",
      },
    ],
  },
  {
    check,
    name: "an inch size in a metric program",
    text: program("(T5 1/2 DRILL)", ...DRILLED),
    expect: [{ severity: "warning", line: 3, word: "(T5 1/2 DRILL)", says: ["DC 12.70 mm (0.500 in)"] }],
  },
  {
    check,
    name: "once for each tool, with a count",
    text: program("(T3 8.5 DRILL)", "(T5 14. DRILL)", ...DRILLED, "T3 M6 (8.5 DRILL)"),
    expect: [
      { severity: "warning", line: 3, word: "(T3 8.5 DRILL)", count: 2, says: ["2 comments name it so"] },
      { severity: "warning", line: 4, word: "(T5 14. DRILL)", count: 1 },
    ],
  },
  {
    check,
    name: "one comment of two",
    text: program("(T3 10.2 DRILL)", ...DRILLED, "(T3 9.5 DRILL)"),
    expect: [{ severity: "warning", line: 9, word: "(T3 9.5 DRILL)", count: 1 }],
  },
  {
    check,
    name: "a tap for a drill",
    text: program("(T3 M10 TAP)", ...DRILLED),
    expect: [
      {
        severity: "warning",
        line: 3,
        word: "(T3 M10 TAP)",
        says: ["says a tap of 10.00 mm (0.394 in) for T3", "has a drill of 10.20 mm (0.402 in)", "family of T3"],
      },
    ],
  },
  {
    check,
    name: "a drill for a tap",
    text: program("(T9 10.3 DRILL)", ...DRILLED),
    expect: [{ severity: "warning", line: 3, word: "(T9 10.3 DRILL)", says: ["has a tap of 12.00 mm (0.472 in)"] }],
  },
  {
    check,
    name: "another lead of a tap",
    text: program("(T9 M12X1.5 TAP)", ...DRILLED),
    expect: [
      {
        severity: "warning",
        line: 3,
        word: "(T9 M12X1.5 TAP)",
        says: ["lead 1.50 mm (0.059 in)", "lead 1.75 mm (0.069 in)"],
        measured: 1.5,
      },
    ],
  },
  silent("the same diameter", "(T3 10.2 DRILL)"),
  silent("within 0.05 mm", "(T3 10.25 DRILL)"),
  silent("within 1 %", "(T8 1-37/64 HSS DRILL)"),
  silent("another kind of drill", "(T3 10.2 INSERT DRILL)"),
  silent("a spot drill for a drill", "(T1 10. DRILL)"),
  silent("words that name no size", "(T3 DONE)", "(DRILL 5 HOLES)"),
  silent("a tool that is not in the table", "(T44 9. DRILL)"),
  {
    check,
    name: "a family that the table does not have",
    text: program("(T9 12. TAP)", ...DRILLED),
    shop: [["{ T: 9, family: tap, DC: 12, lead: 1.75,", "{ T: 9, DC: 12,"]],
    expect: [],
  },
  { check, name: "no tool table", text: program("(T3 8.5 DRILL)", ...DRILLED), noSetup: true, expect: [] },
];
