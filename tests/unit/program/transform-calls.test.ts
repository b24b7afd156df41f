import { expect, test } from "vitest";
import { holes, run } from "./helpers.ts";

const HEAD = "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG0 X0 Y0 Z50.\n";
const places = (text: string) => holes(run(`${HEAD}${text}`)).map((hole) => hole.at);

test("one hole turned eight times by a subprogram that adds 45 degrees", () => {
  const text = "M98 P1001 L8\nG69\nG80\nM30\n" + "O1001\nG90 G81 X10. Y0 Z-5. R2.\nG91 G68 X0 Y0 R45.\nG90\nM99";
  // 10 at 0, 45, … 315 degrees; 10 cos 45 = 7.071068.
  expect(places(text)).toEqual([
    [10, 0],
    [7.071068, 7.071068],
    [0, 10],
    [-7.071068, 7.071068],
    [-10, 0],
    [-7.071068, -7.071068],
    [0, -10],
    [7.071068, -7.071068],
  ]);
});

test("a part and its mirror image by one subprogram", () => {
  const text = "M98 P1001\nG51.1 X0\nM98 P1001\nG50.1\nG80\nM30\nO1001\nG81 X10. Y5. Z-5. R2.\nX20.\nG80\nG0 Z50.\nM99";
  expect(places(text)).toEqual([
    [10, 5],
    [20, 5],
    [-10, 5],
    [-20, 5],
  ]);
});

test("a bolt circle by a loop in polar numbers", () => {
  const text = "#1=0\nG16\nG81 X50. Y0 Z-5. R2. L0\nWHILE[#1LT4]DO1\nX50. Y[90*#1]\n#1=#1+1\nEND1\nG15\nG80\nM30";
  expect(places(text)).toEqual([
    [50, 0],
    [0, 50],
    [-50, 0],
    [0, -50],
  ]);
});

test("a pattern in several work systems, shifted in each", () => {
  const text =
    "G54\nM98 P1001\nG55\nM98 P1001\nM30\n" +
    "O1001\nG52 X100. Y0\nG90 G0 X0 Y0 Z50.\nG81 X10. Y5. Z-5. R2.\nG80\nG52 X0 Y0\nM99";
  const execution = run(`${HEAD}${text}`);
  expect(holes(execution).map((hole) => hole.at)).toEqual([
    [10, 5],
    [10, 5],
  ]);
  expect(execution.shapes.map((shape) => shape.wcs)).toEqual(["G54", "G55"]);
  expect(execution.shapes.map((shape) => shape.bored)).toEqual([[], []]);
});

test.each([
  ["a rotation", "G68 X0 Y0 R90.", "G69"],
  ["a scaling", "G51 X0 Y0 I2. J2.", "G50"],
  ["a mirror image", "G51.1 X0 Y0", "G50.1"],
  ["polar numbers", "G16", "G15"],
])("%s on one of two ways: places are unknown until it is cancelled", (_, on, off) => {
  const text = `IF[#600EQ1]GOTO77\n${on}\nN77\nG81 X10. Y5. Z-5. R2.\n${off}\nX20. Y7.\nM30`;
  expect(places(text)).toEqual([
    [null, null],
    [20, 7],
  ]);
});

test("the same on both ways is known", () => {
  const text = "G68 X0 Y0 R90.\nIF[#600EQ1]GOTO77\nM8\nN77\nG81 X10. Y5. Z-5. R2.\nM30";
  expect(places(text)).toEqual([[-5, 10]]);
});
