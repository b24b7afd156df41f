import { expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { review } from "../../../server/review/review.ts";
import { LineStore } from "../../../server/text/lines.ts";

const SETUP = "file:///shop/swarfline.yaml";
const yaml = (patterns: string) => `subprograms: ${patterns}\n`;
const MAIN = [
  "O1",
  "G21 G90 G54 G17 G40 G49 G80 G94 G98",
  "T1 M6 (8.5 DRILL)",
  "S900 M3",
  "G43 H1 Z50.",
  "M8",
  "G0 X0 Y0",
  "M98 P1002",
  "G0 X50. Y50.",
  "G65 P7 A12.",
  "M9",
  "M30",
].join("\n");
const SUB = "O1002\nG99 G81 X10. Y10. Z-12. R2. F90.\nX20.\nG80\nM99\n";

function looked(sources: Record<string, string>, text = MAIN) {
  const lines = LineStore.from(text);
  const blocks = readBlocks(lines);
  return review({
    program: "file:///shop/parts/a.nc",
    lines,
    blocks,
    sources: new Map(Object.entries(sources)),
    setupFile: SETUP,
  });
}

test("the files that may hold a called program are named as missing", () => {
  const made = looked({ [SETUP]: yaml("subs/O*.nc") });
  expect(made.missing).toEqual([
    "file:///shop/subs/O1002.nc",
    "file:///shop/subs/O01002.nc",
    "file:///shop/subs/O7.nc",
    "file:///shop/subs/O0007.nc",
    "file:///shop/subs/O00007.nc",
  ]);
  expect(made.findings.filter((f) => f.check === "subprogram").length).toBe(2);
});

test("a called program in a file of its own drills, and its holes name the call", () => {
  const made = looked({
    [SETUP]: yaml("[lost/O*.nc, subs/O*.nc]"),
    "file:///shop/subs/O1002.nc": SUB,
    "file:///shop/subs/O0007.nc": "(A FILE WITHOUT A NUMBER)\nG99 G81 X60. Y60. Z-#1 R2. F90.\nG80\nM99",
  });
  const { execution } = made;
  const seen = Array.from({ length: execution.holeCount }, (_, i) => execution.hole(i));
  expect(seen.map((h) => [h.at, h.shape.endZ])).toEqual([
    [[10, 10], -12],
    [[20, 10], -12],
    [[60, 60], -12],
  ]);
  expect(seen.map((h) => h.calls.map((b) => execution.blocks.lineOf(b) + 1))).toEqual([[8], [8], [10]]);
  expect(made.missing).toEqual([]);
  expect(made.findings.filter((f) => f.check === "subprogram")).toEqual([]);
});

test("a finding in another file stands at the call, and names the block", () => {
  const made = looked({
    [SETUP]: yaml("subs/O*.nc"),
    "file:///shop/subs/O1002.nc": SUB.replace("G99 G81", "M9\nG99 G81"),
    "file:///shop/subs/O7.nc": "O7\nM99",
  });
  const late = made.findings.find((f) => f.check === "coolant-late");
  expect(late?.message).toMatch(/^In O1002\.nc, line \d, called here: /);
  expect(late?.place.in === "program" ? made.execution.blocks.lineOf(late.place.span.block) + 1 : null).toBe(8);
  expect(late?.related[0]?.place).toMatchObject({ in: "file", file: "file:///shop/subs/O1002.nc" });
});

test("a program that calls on and on ends", () => {
  const made = looked({
    [SETUP]: yaml("subs/O*.nc"),
    "file:///shop/subs/O1002.nc": "O1002\nM98 P1002\nM99",
    "file:///shop/subs/O7.nc": "O7\nM98 P1002\nM99",
  });
  expect(made.findings.some((f) => f.check === "subprogram" && f.severity === "error")).toBe(true);
});

test("an edit goes on with the same files, and a changed file is read anew", () => {
  const lines = LineStore.from(MAIN);
  const blocks = readBlocks(lines);
  const input = { program: "file:///shop/parts/a.nc", lines, blocks, setupFile: SETUP };
  const with_ = (sub: string) =>
    new Map([
      [SETUP, yaml("subs/O*.nc")],
      ["file:///shop/subs/O1002.nc", sub],
      ["file:///shop/subs/O7.nc", "O7\nM99"],
    ]);
  const first = review({ ...input, sources: with_(SUB) });
  blocks.update(lines.edit({ startLine: 3, startColumn: 0, endLine: 3, endColumn: 0, text: "\n" }));
  const second = review({ ...input, sources: with_(SUB), previous: first });
  expect(second.execution.hole(1).calls.map((b) => second.execution.blocks.lineOf(b) + 1)).toEqual([9]);
  const third = review({ ...input, sources: with_(SUB.replace("X20.", "X33.")), previous: second });
  expect(third.execution.hole(1).at).toEqual([33, 10]);
});
