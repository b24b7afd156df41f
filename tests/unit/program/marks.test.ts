import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { execute } from "../../../server/program/execute.ts";
import { inProgram, marksOf, problemsInside } from "../../../server/program/marks.ts";
import { nist } from "../../../server/setup/dialects/index.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { holes, moves, run, setup } from "./helpers.ts";

const BODY = "G21 G90 G54 G17 G94\nG0 X0 Y0 Z50. S1000 M3 F100.\nG98 G81 X10. Y0 Z-20. R2.\nG80\nM30";
const problems = (text: string) => problemsInside(readBlocks(LineStore.from(text))).map(({ text: told }) => told);
const drilled = (text: string) => holes(run(text)).map((hole) => hole.at);

describe("text outside the marks", () => {
  test.each([
    ["free text", "PART 7\nFILE: X.NC"],
    ["a comment", "(PART 7)"],
    ["empty lines", "\n"],
    ["words of other units, a loop that never ends", "PROGRAM G20 !\nWHILE[1EQ1]DO1"],
  ])("before the first mark is leader: %s", (_, leader) => {
    const text = `${leader}\n%\n${BODY}\n%`;
    expect(drilled(text)).toEqual([[10, 0]]);
    expect(problems(text)).toEqual([]);
    expect(run(text).events).toEqual([]);
  });

  test("padding before the mark on its own line is leader", () => {
    const text = `\0\0\0%\n${BODY}\n%`;
    expect(drilled(text)).toEqual([[10, 0]]);
    expect(problems(text)).toEqual([]);
    expect(run(text).events).toEqual([]);
  });

  test.each([
    ["on the line of the mark", "% PROGRAM LIST 3 OF 9"],
    ["free text", "%\nthis is a note after the end $$$ !!\nX5"],
    ["the end mark of an old file", "%\n\x1a"],
    ["the end mark on the same line", "%\x1a"],
    ["padding", "%\n\0\0\0"],
  ])("behind the second mark is trailer: %s", (_, trailer) => {
    for (const dialect of [undefined, nist]) {
      const body =
        dialect === undefined
          ? BODY
          : "G21 G90 G54 G17 G94 G98\nM3 S1000 F100\nG0 X0 Y0 Z50\nG81 X10 Y0 Z-20 R2\nG80\nM2";
      const text = `%\n${body}\n${trailer}`;
      const e = run(text, dialect === undefined ? {} : { dialect });
      expect(holes(e).map((hole) => hole.at)).toEqual([[10, 0]]);
      expect(e.events).toEqual([]);
      expect(problems(text)).toEqual([]);
    }
  });

  test("one mark at the end of a program closes it", () => {
    const text = `${BODY}\n%\nPROGRAM LIST`;
    expect(drilled(text)).toEqual([[10, 0]]);
    expect(problems(text)).toEqual([]);
  });

  test("a program before the first mark is no leader, though another follows", () => {
    const text = `O1\n${BODY}\n%\nO2\n${BODY.replace("X10.", "X70.")}\n%`;
    expect(drilled(text)).toEqual([[10, 0]]);
    expect(marksOf(readBlocks(LineStore.from(text)))).toMatchObject({ first: 0, close: 6, trailerEnd: 7 });
  });

  test("a program behind the mark is called, and what cannot be read in it is told", () => {
    const text = `%\n${BODY.replace("G80", "G80\nM98 P7")}\n%\nNOTE 3!\nO7\nG98 G81 X40. Z-5. R2.\nX4..\nG80\nM99`;
    expect(drilled(text).slice(0, 2)).toEqual([
      [10, 0],
      [40, 0],
    ]);
    expect(problems(text)).toHaveLength(1);
  });

  test("the name of a program may follow the mark directly", () => {
    const text = `%1234\n${BODY}\n%`;
    expect(problems(text)).toEqual([]);
    expect(run(text).events).toEqual([]);
    expect(drilled(text)).toEqual([[10, 0]]);
    expect(problems(`%12.5\n${BODY}\n%`)).toHaveLength(1);
    expect(problems(`%\n${BODY.replace("Z-20.", "Z-2O.")}\n%`)).toHaveLength(1);
  });

  test("`%`, a move, `%`, another move: the other is not run", () => {
    expect(moves(run("%\nG0 X1\n%\nG0 X9", { dialect: nist }))).toEqual(["R(1,?,?)"]);
  });

  test("an execution after edits of the marks is that from scratch", () => {
    const lines = LineStore.from(`PART 7\n%\n${BODY}\n%\nNOTE`);
    const blocks = readBlocks(lines);
    let e = execute(blocks, setup(), { program: "part.nc" });
    const edit = (line: number, removed: number, text: string) => {
      blocks.update(lines.edit({ startLine: line, startColumn: 0, endLine: line + removed, endColumn: 0, text }));
      e = execute(blocks, setup(), { program: "part.nc", previous: e });
      const fresh = execute(readBlocks(LineStore.from(lines.text())), setup(), { program: "part.nc" });
      expect(moves(e)).toEqual(moves(fresh));
      expect(e.events.map(({ kind }) => kind)).toEqual(fresh.events.map(({ kind }) => kind));
      return e.holeCount;
    };
    expect(e.holeCount).toBe(1);
    expect(edit(0, 1, "")).toBe(1);
    expect(edit(0, 0, "G0 X5.\nM30\n")).toBe(0);
    expect(edit(0, 2, "HEAD\n")).toBe(1);
    expect(edit(1, 1, "")).toBe(1);
    expect(inProgram(marksOf(blocks), 0)).toBe(true);
  });
});
