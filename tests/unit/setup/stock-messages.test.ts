/** Nonsense in a stock: each row is one slip, and what is said of it as `line:column severity path: message`. */
import { describe, expect, test } from "vitest";
import { setupProblems } from "../../../server/setup/assist/problems.ts";

const BLOCK = "box: { x: [0, 100], y: [0, 60], z: [-40, 0] }";

/** In line 5, from column 11. */
function said(stock: string): string[] {
  const text = `units: mm\nworkpieces:\n  w:\n    stock:\n      ${stock}\n`;
  return setupProblems("swarfline.yaml", text, { checks: [] }).map(
    ({ range, severity, message }) =>
      `${range.line + 1}:${range.column + 1} ${severity} ${message.replace("workpieces.w.stock.", "")}`,
  );
}

const solid = (form: string): string => `solids: [{ ${BLOCK}, ${form} }]`;

const rows: readonly (readonly [what: string, stock: string, problems: readonly string[]])[] = [
  [
    "a face at a right angle",
    solid("face: { incline: 90, towards: x+, through: [60, 0, 0] }"),
    ["5:82 error solids[0].face[0].incline: expected an angle in deg over 0 below 90°, got 90"],
  ],
  [
    "a face without incline",
    solid("face: { incline: 0, towards: x+, through: [60, 0, 0] }"),
    ["5:82 error solids[0].face[0].incline: expected an angle in deg over 0 below 90°, got 0"],
  ],
  [
    "a face that says little",
    solid("face: { incline: 30 }"),
    ["5:71 error solids[0].face[0]: expected towards, through in a face, got none"],
  ],
  [
    "a face that falls nowhere",
    solid("face: { incline: 30, towards: +x, through: [60, 0, 0] }"),
    ['5:95 error solids[0].face[0].towards: expected one of x+, x-, y+, y-, z+, z-, or an angle in deg, got "+x"'],
  ],
  [
    "a face that falls upwards",
    solid("face: { incline: 30, towards: z+, through: [60, 0, 0] }"),
    [
      "5:95 error solids[0].face[0].towards: expected one of x+, x-, y+, y- on the side z+, got z+: a face does not fall that way",
    ],
  ],
  [
    "degrees on a side",
    solid("face: { side: x+, incline: 30, towards: 45, through: [60, 0, 0] }"),
    [
      "5:105 error solids[0].face[0].towards: expected one of y+, y-, z+, z- on the side x+, got 45: degrees are for top and underside",
    ],
  ],
  [
    "a face through a point of the plane above",
    solid("face: { incline: 30, towards: x+, through: [60, 0] }"),
    ["5:108 error solids[0].face[0].through: expected [x, y, z], 3 values, got 2"],
  ],
  [
    "a face beside the body",
    solid("face: { incline: 30, towards: x+, through: [60, 0, 50] }"),
    ["5:71 warning solids[0].face[0]: expected a cut through the body, got one that takes nothing off it"],
  ],
  [
    "a face below the body",
    solid("face: { incline: 30, towards: x+, through: [-30, 0, -41] }"),
    ["5:71 error solids[0].face[0]: expected some metal to be left, got a cut that takes the whole body away"],
  ],
  [
    "a second face that is broken",
    solid(
      "face: [{ incline: 30, towards: x+, through: [60, 0, 0] }, { incline: 95, towards: x-, through: [0, 0, 0] }]",
    ),
    ["5:134 error solids[0].face[1].incline: expected an angle in deg over 0 below 90°, got 95"],
  ],
  [
    "a ridge along its own height",
    solid("ridge: { flank: 30, along: z, crest: [60, 0, 0] }"),
    ["5:92 error solids[0].ridge.along: expected one of x, y on the side z+, got z: a crest lies in its side"],
  ],
  [
    "a ridge in other words",
    solid("ridge: { angle: 30, along: y, crest: [60, 0, 0] }"),
    [
      '5:74 warning solids[0].ridge.angle: "angle" is no key of a ridge; known: flank, along, crest, side',
      "5:65 error solids[0].ridge: expected flank in a ridge, got none",
    ],
  ],
  [
    "a ridge high above",
    solid("ridge: { flank: 30, along: y, crest: [50, 0, 60] }"),
    ["5:72 warning solids[0].ridge: expected a cut through the body, got one that takes nothing off it"],
  ],
  ["a ridge on the edge of the body", solid("ridge: { flank: 30, along: y, crest: [0, 0, 0] }"), []],
  [
    "a cut the wrong way round",
    solid("cut: [{ through: [0, 0, 0], normal: [0, 0, -1] }]"),
    ["5:71 error solids[0].cut[0]: expected some metal to be left, got a cut that takes the whole body away"],
  ],
  [
    "an axis without direction",
    "solids: [{ cylinder: { axis: [0, 0, 0], through: [0, 0, 0], diameter: 5, span: [0, 9] } }]",
    ["5:36 error solids[0].cylinder.axis: expected a direction, got [0, 0, 0]"],
  ],
  [
    "an axis in other words",
    "solids: [{ cylinder: { axis: w, through: [0, 0, 0], diameter: 5, span: [0, 9] } }]",
    ['5:36 error solids[0].cylinder.axis: expected one of x, y, z, or [x, y, z], got "w"'],
  ],
];

describe("a slip in the stock is told once, at its place", () => {
  test.each(rows)("%s", (_what, stock, problems) => {
    expect(said(stock)).toEqual(problems);
  });
});
