import { describe, expect, test } from "vitest";
import { readToolComment } from "../../../server/program/tool-words.ts";
import { run } from "./helpers.ts";

describe("a comment that names a tool", () => {
  test.each([
    ["T5 31MM DRILL", "inch", { T: 5, DC: 31, family: "twist-hss" }],
    ["T04 DIA .650", "inch", { T: 4, DC: 16.51, family: "twist-hss" }],
    ["10.2 DRILL T3", "mm", { T: 3, DC: 10.2, family: "twist-hss" }],
    ["T3 10.2 x 130 DRILL", "mm", { T: 3, DC: 10.2, family: "twist-hss" }],
    ["1/2 DRILL", "inch", { T: null, DC: 12.7 }],
    ["1/2 DRILL", "mm", { T: null, DC: 12.7 }],
    ["T8 - 1-1/4 INSERT DRILL", "inch", { T: 8, DC: 31.75, family: "indexable" }],
    ["TOOL 3 - 8.5 MM CARBIDE DRILL 140 DEG", "mm", { T: 3, DC: 8.5, family: "solid-carbide", SIG: 140 }],
    ["T1 Ø12 INDEXABLE DRILL", "mm", { T: 1, DC: 12, family: "indexable" }],
    ["T2 90 DEG SPOT DRILL 16MM", "mm", { T: 2, DC: 16, family: "spot", SIG: 90 }],
    ["T9 D=10.2 LU=50 CARBIDE", "mm", { T: 9, DC: 10.2, family: "solid-carbide" }],
    ["T6 10 MM DRILL 60 MM LONG", "mm", { T: 6, DC: 10 }],
    ["T5 10.0 REAMER H7", "mm", { T: 5, DC: 10, family: "ream" }],
    ["OP10 T5 26.0 SPADE DRILL", "mm", { T: 5, DC: 26, family: "spade" }],
    ["T1 10,2 MM DRILL", "mm", { T: 1, DC: 10.2 }],
    ["T7 M8X1.25 TAP", "inch", { T: 7, DC: 8, family: "tap", lead: 1.25 }],
    ["M8 TAP", "mm", { DC: 8, lead: 1.25 }],
    ["1/4-20 TAP", "inch", { DC: 6.35, lead: 1.27 }],
    ["T8 12.7MM DRILL THRU COOLANT", "mm", { DC: 12.7, through: true }],
    ["t3 8mm hss drill", "mm", { T: 3, DC: 8, family: "twist-hss" }],
  ] as const)("%s in a program in %s", (comment, units, expected) => {
    expect(readToolComment(comment, units)).toMatchObject(expected);
  });

  test.each([
    ["a milling tool", "T2 12 MM END MILL", "mm"],
    ["a length in diameters", "3XD DRILL", "mm"],
    ["a count of holes", "T12 DRILL 24 HOLES", "mm"],
    ["two sizes", "T10 8.5MM OR 9MM DRILL", "mm"],
    ["an inch way of writing in a metric program", "T04 DIA .650", "mm"],
    ["a size too large for inches", "T4 31 DRILL", "inch"],
    ["a size without a unit in a program without units", "T4 10.2 DRILL", null],
    ["a part number", "PART 12345 REV B", "mm"],
    ["words only", "ROUGH BEFORE DRILLING", "mm"],
  ] as const)("%s names none: %s", (_, comment, units) => {
    expect(readToolComment(comment, units)).toBeNull();
  });
});

describe("sizes and words of other shops", () => {
  const inch = (size: number) => expect.closeTo(size * 25.4, 6);

  test.each([
    // Reamers with their tolerance class.
    ["REAMER 12H7", "mm", { DC: 12, family: "ream", work: "ream" }],
    ["12H7 REAMER", "mm", { DC: 12, family: "ream" }],
    ["T9 12 H7 REAMER", "mm", { T: 9, DC: 12, family: "ream" }],
    ["REAMER 9.98", "mm", { DC: 9.98, family: "ream" }],
    ["REIBAHLE 8H7", "mm", { DC: 8, family: "ream" }],
    ["10F8 REIBAHLE", "mm", { DC: 10, family: "ream" }],
    [".500 REAMER", "inch", { DC: 12.7, family: "ream" }],
    // Number and letter sizes.
    ["#7 DRILL", "inch", { DC: inch(0.201), family: "twist-hss", work: "drill" }],
    ["#7 DRILL", "mm", { DC: inch(0.201) }],
    ["T4 #7 DRILL", "inch", { T: 4, DC: inch(0.201) }],
    ["T04 - NO. 21 COBALT DRILL", "inch", { T: 4, DC: inch(0.159), family: "twist-hss" }],
    ["#80 DRILL", "inch", { DC: inch(0.0135) }],
    ["#7 TAP DRILL", "inch", { DC: inch(0.201), work: "drill" }],
    ["#7 CARBIDE DRILL .201", "inch", { DC: inch(0.201), family: "solid-carbide" }],
    ["LETTER F DRILL", "inch", { DC: inch(0.257), family: "twist-hss" }],
    ["T6 LETTER U DRILL", "inch", { T: 6, DC: inch(0.368), family: "twist-hss" }],
    ["LTR Z STUB DRILL", "inch", { DC: inch(0.413) }],
    ['"Q" DRILL', "inch", { DC: inch(0.332) }],
    // Offset numbers beside the size.
    ["T3 | .5 DRILL | H3 | D3", "inch", { T: 3, DC: 12.7 }],
    ["T3 D3 H3 .5 DRILL", "inch", { T: 3, DC: 12.7 }],
    ["T3 1/2 DRILL D3", "mm", { T: 3, DC: 12.7 }],
    ["T3 0.5 IN DRILL H3 D3", "mm", { T: 3, DC: 12.7 }],
    ["T3 H=3 D=3 10.2 DRILL", "mm", { T: 3, DC: 10.2 }],
    ["T3 10.2 DRILL H23 D43", "mm", { T: 3, DC: 10.2 }],
    ["T7 12H7 REAMER H7 D7", "mm", { T: 7, DC: 12 }],
    ["T3 D3 3MM DRILL", "mm", { T: 3, DC: 3 }],
    // A diameter all the same.
    ["T3 D3. DRILL H3", "mm", { T: 3, DC: 3 }],
    ["T3 D3 MM DRILL", "mm", { T: 3, DC: 3 }],
    ["T4 DIA 4 DRILL", "mm", { T: 4, DC: 4 }],
    ["T10 D=10 CR=0 DRILL", "mm", { T: 10, DC: 10 }],
    ["T7 REAMER D12 H7", "mm", { T: 7, DC: 12 }],
    ["T5 DRILL D8", "mm", { T: 5, DC: 8 }],
    // German.
    ["BOHRER 8,5", "mm", { DC: 8.5, family: "twist-hss", work: "drill" }],
    ["T5 BOHRER D8,5", "mm", { T: 5, DC: 8.5 }],
    ["SPIRALBOHRER 6.8 HSS", "mm", { DC: 6.8, family: "twist-hss" }],
    ["VHM BOHRER 10,2 140 GRAD IK", "mm", { DC: 10.2, family: "solid-carbide", SIG: 140, through: true }],
    ["8,5 VHM-BOHRER", "mm", { DC: 8.5, family: "solid-carbide" }],
    ["C-DRILL 6.35 MM", "mm", { DC: 6.35, family: "spot" }],
    ["ZENTRIERBOHRER 3,15", "mm", { DC: 3.15, family: "spot", work: "other" }],
    ["NC-ANBOHRER 16 90 GRAD", "mm", { DC: 16, family: "spot", SIG: 90 }],
    ["GEWINDEBOHRER M8", "mm", { DC: 8, lead: 1.25, family: "tap", work: "tap" }],
    ["GEWINDEBOHRER M10X1,25", "mm", { DC: 10, lead: 1.25, family: "tap" }],
    ["WENDEPLATTENBOHRER 26", "mm", { DC: 26, family: "indexable" }],
    ["T12 KEGELSENKER 16,5 90 GRAD", "mm", { T: 12, DC: 16.5, family: "countersink", SIG: 90 }],
    // Kinds of drill.
    ["8.5 CARBIDE DRILL", "mm", { DC: 8.5, family: "solid-carbide" }],
    ["25 U-DRILL", "mm", { DC: 25, family: "indexable" }],
    ["1.25 IN DRILL", "mm", { DC: 31.75 }],
    ["U-DRILL 1.25", "inch", { DC: 31.75, family: "indexable" }],
    ["INDEXABLE DRILL 32", "mm", { DC: 32, family: "indexable" }],
    ["SPADE DRILL 38.1", "mm", { DC: 38.1, family: "spade" }],
    ["DRILL 8.5 MM", "mm", { DC: 8.5 }],
    ["T5,10.2 DRILL", "mm", { T: 5, DC: 10.2 }],
    // Fractions and taps.
    ["1-1/4 DRILL", "inch", { DC: 31.75 }],
    ["1 1/4 SPADE DRILL", "inch", { DC: 31.75, family: "spade" }],
    ["DRILL 1/2", "inch", { DC: 12.7 }],
    ["M8X1.25 TAP", "mm", { DC: 8, lead: 1.25, family: "tap" }],
    ["1/2-13 TAP", "inch", { DC: 12.7, lead: expect.closeTo(25.4 / 13, 9), family: "tap" }],
    ["T5 1/4-20 TAP", "inch", { T: 5, DC: 6.35, lead: 1.27 }],
    ["1-1/4-7 UNC TAP", "inch", { DC: 31.75, lead: expect.closeTo(25.4 / 7, 9) }],
    ["#10-24 TAP", "inch", { DC: inch(0.19), lead: expect.closeTo(25.4 / 24, 9) }],
    ["10-32 UNF TAP", "inch", { DC: inch(0.19), lead: expect.closeTo(25.4 / 32, 9) }],
    ["1-8 UNC TAP", "inch", { DC: 25.4, lead: 3.175 }],
    ["6.8 TAP DRILL", "mm", { DC: 6.8, work: "drill" }],
    ["6.8 DRILL FOR M8 TAP", "mm", { DC: 6.8, work: "drill", family: "twist-hss" }],
  ] as const)("%s in a program in %s", (comment, units, expected) => {
    expect(readToolComment(comment, units)).toMatchObject(expected);
  });

  test.each(["T3 | .5 DRILL | H3 | D3", "T3 .5 DRILL D13", "T3 10.2 DRILL D13", "10.2 DRILL D4"])(
    "%j can be read in two ways in mm",
    (comment) => {
      expect(readToolComment(comment, "mm")).toBeNull();
    },
  );

  test("a D that is the number of the tool called there is its offset", () => {
    expect(readToolComment("1/2 DRILL D3", "mm", 3)).toMatchObject({ DC: 12.7 });
    expect(readToolComment("DRILL D3", "mm", 3)).toBeNull();
    expect(readToolComment("DRILL D8", "mm", 3)).toMatchObject({ DC: 8 });
  });

  test.each([
    " T5 DONE ",
    "T3 D3 DRILL",
    "T12 D12 H12 DRILL",
    "T3 D13 10.2 DRILL .4",
    "T3 DRILL D3 H3",
    "DRILL 5 HOLES",
    "12 DEEP",
    "DRILL 4 IN ALL CORNERS",
    "REAM 2 IN PLACE",
    "SPOT DRILL 10MM HOLES",
    "C-DRILL 8.5 DIA HOLES",
    "DRILL 10.5 THRU HOLES",
    "DRILL D8.5 BOHRUNGEN",
    "SPOT DRILL 12.7 MM TAPPED HOLES",
    "DRILL 4 CORNERS",
    "DRILL 2 PASSES",
    "DRILL 3 SIDES THRU",
    "DRILL #2",
    "HOLE #7 DRILL",
    "OP NO 2 DRILL",
    "CENTER DRILL #4",
    "#4 CENTER DRILL",
    "#95 DRILL",
    "F DRILL",
    "U DRILL",
    "#7 DRILL 6.35 MM",
    "M8 TAP DRILL",
    "DRILL AND TAP M8",
    "SPOT & DRILL 8.5",
    "DRILL FOR 12H7",
    "1/4-18 NPT TAP",
    "TAP G1/4",
    "10-24 TAP",
    "REAM 4 HOLES",
    "BOHRER 5 LOECHER",
    "BOHRER 12 TIEF",
    "FRAESER 12",
    "12 SCHAFTFRÄSER",
    "THREAD MILL M8",
    "M8 BOLT HOLES",
    `${"LONG ".repeat(50)}8.5 DRILL`,
  ])("%j names none", (comment) => {
    expect(readToolComment(comment, "mm")).toBeNull();
    expect(readToolComment(comment, "inch")).toBeNull();
  });

  test("the table of number sizes falls from step to step, that of letters rises", () => {
    const size = (comment: string) => readToolComment(comment, "inch")?.DC ?? Number.NaN;
    for (let n = 2; n <= 80; n++) expect(size(`#${n} DRILL`)).toBeLessThan(size(`#${n - 1} DRILL`));
    const letters = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].map((letter) => size(`LETTER ${letter} DRILL`));
    expect(letters).toEqual([...letters].sort((a, b) => a - b));
    expect(letters[0]).toBeGreaterThan(size("#1 DRILL"));
  });

  test.each([
    "T".concat(" ".repeat(100_000)),
    "1".repeat(100_000),
    "8.5 ".repeat(25_000),
    "DRILL ".repeat(20_000),
    "1-".repeat(50_000),
    "#1 ".repeat(30_000),
  ])("a long comment takes no time", (text) => {
    const start = performance.now();
    for (const length of [190, 100_000]) for (let i = 0; i < 100; i++) readToolComment(text.slice(0, length), "inch");
    expect(performance.now() - start).toBeLessThan(1000);
  });
});

describe("the tools of a program", () => {
  test.each([
    ["in the list at the top", "G21\n(T3 10.2 DRILL)\nT3 M6"],
    ["on the line of the change", "G21\nT3 M6 (10.2 DRILL)"],
    ["on the line before the change", "G21\n(10.2 DRILL)\nT3 M6"],
    ["on the line after the change", "G21\nT3 M6\n(10.2 DRILL)"],
    ["as a comment to the end of the line", "G21\nT3 M6 ; 10.2 DRILL"],
  ])("a comment %s", (_, text) => {
    const e = run(text);
    expect([e.tool(3)?.DC, e.tool(3)?.assumed, e.tool(3)?.path]).toEqual([10.2, true, "comment.T3"]);
    const span = e.toolComment(3);
    expect(span === null ? "" : e.blocks.textOf(span.block).slice(span.start, span.end)).toContain("10.2 DRILL");
  });

  test("two comments that differ give none", () => {
    expect(run("G21\n(T3 10.2 DRILL)\nT3 M6 (T3 12. DRILL)").tool(3)).toBeNull();
  });

  test("the unit of the program counts even when it comes later", () => {
    expect(run("(T3 .5 DRILL)\nG20\nT3 M6").tool(3)?.DC).toBeCloseTo(12.7, 9);
  });
});
