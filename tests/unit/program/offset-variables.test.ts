/** Offsets that a program writes, by G10 or by their variables. */
import { describe, expect, test } from "vitest";
import { genericMill, genericTurn, nist } from "../../../server/setup/dialects/index.ts";
import type { Vec3 } from "../../../server/setup/types.ts";
import { drill, holes, moves, run, setup, workpiece } from "./helpers.ts";

const HEAD = "G21 G90 G54 G17 G94\nT1 M6\nS1000 M3\nG43 H1\nG0 X0 Y0 Z50.\n";
const CYCLE = "G98 G81 X10. Y0 Z-8. R2. F100.\nG80\n";
const offsets = new Map<string, Vec3>([
  ["G54", [0, 0, 0]],
  ["G55", [200, 0, 0]],
]);
const declared = setup({ workpiece: workpiece({ workOffsets: offsets }) }, [drill(1, 5), drill(2, 5)]);
const bare = setup({}, [drill(1, 5), drill(2, 5)]);
const SECOND = "T2 M6\nS1000 M3\nG43 H2\nG0 X0 Y0 Z50.\n";
/** How often each hole's place was drilled before it: one of T1, one of T2. */
const drilled = (text: string, s = declared) =>
  run(`${HEAD}${text}M30`, { setup: s }).shapes.map((shape) => shape.bored.length);
const reached = (text: string, s = declared) =>
  moves(run(`${HEAD}${text}\nM30`, { setup: s }))
    .filter((move) => /^[RF]/.test(move))
    .at(-1);

describe("two holes at one number of the program", () => {
  test.each([
    ["one place where nothing was written", "", "", [0, 1]],
    ["two where a variable moves the origin", "#5221=0\n", "#5221=100.\n", [0, 0]],
    ["one where it leaves it where it is", "#5221=0\n", "#5221=0\n", [0, 1]],
    ["one where it moves another system", "", "#5241=100.\n", [0, 1]],
    ["two where a variable moves all systems", "#5201=0\n", "#5201=100.\n", [0, 0]],
    ["two where the values are not known", "#5221=#501\n", "#5221=#502\n", [0, 0]],
    ["two where G10 sets values that are not known", "G10 L2 P1 X#501\n", "G10 L2 P1 X#502\n", [0, 0]],
    ["one under one origin that is not known", "G10 L2 P1 X#501\n", "", [0, 1]],
    ["one while another system becomes unknown", "G10 L2 P1 X#501\n", "G10 L2 P2 X#502\n", [0, 1]],
    ["one where a rotary axis is written", "", "#5224=30.\n", [0, 1]],
  ])("%s", (_, first, second, expected) => {
    for (const s of [declared, bare])
      expect(drilled(`${first}${CYCLE}${SECOND}${second}${CYCLE}`, s)).toEqual(expected);
  });

  test("a loop that writes the origin drills a place in each turn", () => {
    const loop = `#1=0\nWHILE[#1LT2]DO1\n#5221=#1*100.\n${CYCLE}#1=#1+1\nEND1\n`;
    expect(run(`${HEAD}${loop}M30`, { setup: declared }).holeCount).toBe(2);
  });

  test("ways of which one wrote the origin leave it unknown", () => {
    expect(drilled(`${CYCLE}${SECOND}IF[#500EQ1]GOTO5\n#5221=100.\nN5\n${CYCLE}`)).toEqual([0, 0]);
    expect(drilled(`${CYCLE}${SECOND}IF[#500EQ1]GOTO5\nG10 L2 P1 X100.\nN5\n${CYCLE}`, bare)).toEqual([0, 0]);
  });
});

describe("what is written", () => {
  test("is read back, by either way, in the units in force", () => {
    expect(reached("#5221=12.\nG10 L2 P2 Y7.\nG0 X#5221 Y#5242")).toBe("R(12,7,50)");
    expect(reached("#5221=12.\nG10 L2 P1 X5.\nG0 X#5221 Y1.")).toBe("R(5,1,50)");
    expect(reached("G10 L2 P1 X25.4\nG20\nG0 X#5221 Y0 Z2.")).toBe("R(1,0,2)");
  });

  test("is not what the setup declares, which has another zero", () => {
    expect(reached("G0 X#5241 Y3.")).toBe("R(?,3,50)");
  });

  test("tells G53 where machine zero is", () => {
    expect(reached("#5221=100.\nG53 G0 X150.")).toBe("R(50,0,50)");
    expect(reached("#5221=#500\nG53 G0 X150.")).toBe("R(?,0,50)");
    expect(reached("IF[#500EQ1]GOTO5\n#5221=0\nN5\nG53 G0 X150.")).toBe("R(?,0,50)");
  });

  test("on a lathe is not known: the variables are not the same on all", () => {
    const e = run("G21 G97 G54\nG0 X20. Z5.\n#5222=3.\nG0 X10.\nM30", { dialect: genericTurn });
    expect(moves(e)).toContain("R(10,?,?)");
  });

  test("the strict language has nine systems and no shift under all", () => {
    const text = "G21 G90 G17 G94 G59.3\nG0 X0 Y0 Z50\n#5201=9\n#5381=4\nG0 X#5381 Y#5201\nM2";
    expect(moves(run(text, { dialect: nist })).slice(1, -1)).toEqual(["R(4,9,50)"]);
    expect(holes(run(`${HEAD}#5381=4.\nG0 X#5381\nM30`, { dialect: genericMill }))).toEqual([]);
  });
});
