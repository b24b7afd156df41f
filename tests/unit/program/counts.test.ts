import { describe, expect, test } from "vitest";
import type { Execution } from "../../../server/program/types.ts";
import { nist } from "../../../server/setup/dialects/index.ts";
import { holes, run } from "./helpers.ts";

const HEAD = "O1\nG21 G90 G54 G17 G94\n(PLATE)\nG0 X0 Y0 Z50. S1000 M3 F100.\n";
const WHY = "#501 is not set in this program";
const drilled = (...rows: readonly string[]) => run(`${HEAD}${rows.join("\n")}`);
const at = (e: Execution) => holes(e).map((h) => h.at);
const told = (e: Execution) => e.events.map((event) => [event.kind, e.blocks.lineOf(event.span.block) + 1]);

describe("a repeat count that is not known", () => {
  test("of a cycle: two holes along an increment, and where the tool stands after them is not known", () => {
    const e = drilled(
      "G98 G81 X15. Y0 Z-22. R2.",
      "G91 X15. Z-24. R-48. L#501",
      "X1.",
      "G90 X7. Z-22. R2.",
      "G80",
      "M30",
    );
    expect(at(e)).toEqual([
      [15, 0],
      [30, 0],
      [45, 0],
      [null, 0],
      [7, 0],
    ]);
    expect(told(e)).toEqual([["branch", 6]]);
    expect(e.events[0]?.data.text).toContain(`how often this cycle runs is not known (${WHY})`);
    expect(e.events[0]?.span).toMatchObject({ start: 21, end: 26 });
  });

  test("of a cycle in G90: one hole, and none may have been made", () => {
    const e = drilled("G98 G81 X15. Y0 Z-22. R2. K#501", "Y4.", "G80", "M30");
    expect(at(e)).toEqual([
      [15, 0],
      [null, 4],
    ]);
    expect(told(e)).toEqual([["branch", 5]]);
  });

  test("where a count of 0 is an error the place of one hole is known", () => {
    const e = run("G21 G90 G94 G17 G98\nG0 X0 Y0 Z50.\nM3 S1000 F100\nG81 X15 Y0 Z-22 R2 L#501\nY4\nG80\nM2", {
      dialect: nist,
    });
    expect(at(e)).toEqual([
      [15, 0],
      [15, 4],
    ]);
  });

  test.each([
    ["M98 P7 L#501", "O7"],
    ["G65 P7 L#501", "O7"],
    ["M97 P7 L#501", "N7"],
  ])("of %s: the body runs twice", (call, label) => {
    const e = drilled(
      "G98 G81 X5. Y0 Z-22. R2.",
      "G80",
      call,
      "G98 G81 Y3. Z-20. R2.",
      "G80",
      "M30",
      label,
      "G91 G98 G81 X10. Z-24. R-48.",
      "G90 G80",
      "M99",
    );
    expect(at(e)).toEqual([
      [5, 0],
      [15, 0],
      [25, 0],
      [null, 3],
    ]);
    expect(told(e)).toEqual([["branch", 7]]);
    expect(e.events[0]?.data.text).toContain(`how often this call runs is not known (${WHY})`);
    expect([1, 2].map((i) => e.hole(i).calls.length)).toEqual([1, 1]);
  });

  test("what is the same after none, one and two turns stays known, and arguments begin anew", () => {
    const e = drilled(
      "G0 X5.",
      "#101=3.",
      "#102=1.",
      "G65 P7 A2. L#501",
      "G98 G81 Y#101 Z-20. R2.",
      "X#102",
      "G80",
      "M30",
      "O7",
      "#102=#102+#1",
      "#1=#1+1.",
      "M99",
    );
    expect(at(e)).toEqual([
      [5, 3],
      [null, 3],
    ]);
    const [x] = e.events.filter((event) => event.kind === "unknown-value");
    expect(x?.data).toMatchObject({ what: "X", why: `it depends on a count: ${WHY}` });
  });

  test("where nothing counts by the letter it is told as any word", () => {
    expect(drilled("G0 X4. L#501", "M30").events.map((event) => event.data)).toMatchObject([{ what: "L", why: WHY }]);
  });
});

describe("a level of a cycle that is not known has the reason of its word", () => {
  test.each([
    ["Z-20. R#501", "startZ", `R is not known: ${WHY}`],
    ["Z#501 R2.", "endZ", `Z of the cycle is not known: ${WHY}`],
  ])("%s", (words, level, why) => {
    const e = drilled(`G98 G81 X10. ${words}`, "X20.", "G80", "M30");
    expect(e.holeCount).toBe(2);
    for (const i of [0, 1]) expect(e.hole(i).shape.unknown).toMatchObject({ [level]: why });
  });

  test("where two ways gave it differently it is the condition", () => {
    const e = drilled("G98 G81 X10. Z-20. R2.", "IF[#501EQ1]GOTO5", "X11. R3.", "N5 X20.", "G80", "M30");
    expect(e.hole(2).shape.unknown).toMatchObject({ startZ: `R is not known: it depends on a condition: ${WHY}` });
  });

  test("and it is forgotten with the next word that is known", () => {
    const e = drilled("G98 G81 X10. Z-20. R#501", "R2. X20.", "G80", "M30");
    expect(e.hole(1).shape.unknown).toEqual({});
  });
});
