import { describe, expect, test } from "vitest";
import { readToolComment } from "../../../server/program/tool-comments.ts";
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
    ["a number drill: no size is written", "#7 DRILL", "inch"],
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
