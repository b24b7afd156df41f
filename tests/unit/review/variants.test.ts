import { expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { review } from "../../../server/review/review.ts";
import { LineStore } from "../../../server/text/lines.ts";

function said(text: string, deleteOn = false) {
  const lines = LineStore.from(text);
  const blocks = readBlocks(lines);
  const made = review({ program: "a.nc", lines, blocks, sources: new Map(), setupFile: null, deleteOn });
  return {
    holes: Array.from({ length: made.execution.holeCount }, (_, i) => made.execution.hole(i).at),
    findings: made.findings.map((f) => ({ check: f.check, variant: f.variant ?? null, message: f.message })),
  };
}

const part = (...rows: readonly string[]) =>
  [
    "G21 G90 G54 G17 G40 G49 G80 G94 G98",
    "T1 M6 (8.5 DRILL)",
    "S900 M3",
    "G43 H1 Z50.",
    ...rows,
    "G80",
    "M5",
    "M30",
  ].join("\n");

test("what is wrong in one position of the switches only says in which", () => {
  const { findings } = said(part("M8", "/M9", "G99 G81 X10. Y10. Z-12. R2. F90.", "M9"));
  const late = findings.filter((f) => f.check === "coolant-late");
  expect(late.map((f) => f.variant)).toEqual(["off"]);
  expect(late[0]?.message).toMatch(/^With block delete off: /);
});

test("what is wrong with the switches on is found", () => {
  const { findings } = said(part("M8", "G99 G81 X10. Y10. Z-12. R2. F90.", "/G0 Z50.", "/G80", "T2 M6 (5 DRILL)"));
  expect(findings.filter((f) => f.variant === "on").length).toBeGreaterThan(0);
  expect(findings.filter((f) => f.variant === "on").every((f) => f.message.startsWith("With block delete on: "))).toBe(
    true,
  );
});

test("what stands in both is said once, without a word of it", () => {
  const { findings } = said(part("G99 G81 X10. Y10. Z-12. R2. F90.", "/X20.", "M9"));
  const late = findings.filter((f) => f.check === "coolant-late");
  expect(late.map((f) => f.variant)).toEqual([null]);
});

test("a program without block deletes says nothing of them", () => {
  expect(said(part("G99 G81 X10. Y10. Z-12. R2. F90.")).findings.every((f) => f.variant === null)).toBe(true);
});

test("one of the two is listed", () => {
  const text = part("M8", "G99 G81 X10. Y10. Z-12. R2. F90.", "/X20.", "X30. / Y40.");
  expect(said(text).holes).toEqual([
    [10, 10],
    [20, 10],
    [30, 40],
  ]);
  expect(said(text, true).holes).toEqual([
    [10, 10],
    [30, 10],
  ]);
});
