/** Nonsense in a stock: each row is one slip, and what is said of it as `«where it stands» severity path: message`. */
import { describe, expect, test } from "vitest";
import { setupProblems } from "../../../server/setup/assist/problems.ts";

const BLOCK = "box: { x: [0, 100], y: [0, 60], z: [-40, 0] }";

function said(stock: string): string[] {
  const text = `units: mm\nworkpieces:\n  w:\n    stock:\n      ${stock}\n`;
  return setupProblems("swarfline.yaml", text, { checks: [] }).map(({ range, severity, message }) => {
    const line = text.split("\n")[range.line] ?? "";
    const where = line.slice(range.column, range.endLine === range.line ? range.endColumn : undefined);
    return `«${where.length > 24 ? `${where.slice(0, 24)}…` : where}» ${severity} ${message.replace("workpieces.w.stock.", "")}`;
  });
}

const solid = (form: string): string => `solids: [{ ${BLOCK}, ${form} }]`;

const plates = (layers: string): string =>
  `solids: [{ plates: { x: [0, 100], y: [0, 60], top: 0, layers: ${layers} } }]`;

const rows: readonly (readonly [what: string, stock: string, problems: readonly string[]])[] = [
  [
    "a face at a right angle",
    solid("face: { incline: 90, towards: x+, through: [60, 0, 0] }"),
    ["«90» error solids[0].face[0].incline: expected an angle in deg over 0 below 90°, got 90"],
  ],
  [
    "a face without incline",
    solid("face: { incline: 0, towards: x+, through: [60, 0, 0] }"),
    ["«0» error solids[0].face[0].incline: expected an angle in deg over 0 below 90°, got 0"],
  ],
  [
    "a face that says little",
    solid("face: { incline: 30 }"),
    ["«{ incline: 30 }» error solids[0].face[0]: expected towards, through in a face, got none"],
  ],
  [
    "a face that falls nowhere",
    solid("face: { incline: 30, towards: +x, through: [60, 0, 0] }"),
    ['«+x» error solids[0].face[0].towards: expected one of x+, x-, y+, y-, z+, z-, or an angle in deg, got "+x"'],
  ],
  [
    "a face that falls upwards",
    solid("face: { incline: 30, towards: z+, through: [60, 0, 0] }"),
    [
      "«z+» error solids[0].face[0].towards: expected one of x+, x-, y+, y- on the side z+, got z+: a face does not fall that way",
    ],
  ],
  [
    "degrees on a side",
    solid("face: { side: x+, incline: 30, towards: 45, through: [60, 0, 0] }"),
    [
      "«45» error solids[0].face[0].towards: expected one of y+, y-, z+, z- on the side x+, got 45: degrees are for top and underside",
    ],
  ],
  [
    "a face through a point of the plane above",
    solid("face: { incline: 30, towards: x+, through: [60, 0] }"),
    ["«[60, 0]» error solids[0].face[0].through: expected [x, y, z], 3 values, got 2"],
  ],
  [
    "a face beside the body",
    solid("face: { incline: 30, towards: x+, through: [60, 0, 50] }"),
    [
      "«{ incline: 30, towards: …» warning solids[0].face[0]: expected a cut through the body, got one that takes nothing off it",
    ],
  ],
  [
    "a face below the body",
    solid("face: { incline: 30, towards: x+, through: [-30, 0, -41] }"),
    [
      "«{ incline: 30, towards: …» error solids[0].face[0]: expected some metal to be left, got a cut that takes the whole body away",
    ],
  ],
  [
    "a second face that is broken",
    solid(
      "face: [{ incline: 30, towards: x+, through: [60, 0, 0] }, { incline: 95, towards: x-, through: [0, 0, 0] }]",
    ),
    ["«95» error solids[0].face[1].incline: expected an angle in deg over 0 below 90°, got 95"],
  ],
  [
    "a ridge along its own height",
    solid("ridge: { flank: 30, along: z, crest: [60, 0, 0] }"),
    ["«z» error solids[0].ridge.along: expected one of x, y on the side z+, got z: a crest lies in its side"],
  ],
  [
    "a ridge in other words",
    solid("ridge: { angle: 30, along: y, crest: [60, 0, 0] }"),
    [
      '«angle» warning solids[0].ridge.angle: "angle" is no key of a ridge; known: flank, along, crest, side',
      "«ridge» error solids[0].ridge: expected flank in a ridge, got none",
    ],
  ],
  [
    "a ridge high above",
    solid("ridge: { flank: 30, along: y, crest: [50, 0, 60] }"),
    [
      "«{ flank: 30, along: y, c…» warning solids[0].ridge: expected a cut through the body, got one that takes nothing off it",
    ],
  ],
  ["a ridge on the edge of the body", solid("ridge: { flank: 30, along: y, crest: [0, 0, 0] }"), []],
  [
    "a cut the wrong way round",
    solid("cut: [{ through: [0, 0, 0], normal: [0, 0, -1] }]"),
    [
      "«{ through: [0, 0, 0], no…» error solids[0].cut[0]: expected some metal to be left, got a cut that takes the whole body away",
    ],
  ],
  [
    "an axis without direction",
    "solids: [{ cylinder: { axis: [0, 0, 0], through: [0, 0, 0], diameter: 5, span: [0, 9] } }]",
    ["«[0, 0, 0]» error solids[0].cylinder.axis: expected a direction, got [0, 0, 0]"],
  ],
  [
    "an axis in other words",
    "solids: [{ cylinder: { axis: w, through: [0, 0, 0], diameter: 5, span: [0, 9] } }]",
    ['«w» error solids[0].cylinder.axis: expected one of x, y, z, or [x, y, z], got "w"'],
  ],
  [
    "a gap of less than nothing",
    plates("[{ plate: 10 }, { gap: -2 }, { plate: 8 }]"),
    ["«-2» error solids[0].plates.layers[1].gap: expected a length in mm or in over 0, got -2"],
  ],
  [
    "a plate of nothing",
    plates("[{ plate: 0 }]"),
    ["«0» error solids[0].plates.layers[0].plate: expected a length in mm or in over 0, got 0"],
  ],
  ["no plates", plates("[]"), ["«[]» error solids[0].plates.layers: expected a plate, got an empty list"]],
  [
    "a gap at the end",
    plates("[{ plate: 8 }, { gap: 2 }]"),
    ["«{ gap: 2 }» error solids[0].plates.layers[1]: expected a plate above and below a gap, got none"],
  ],
  [
    "two gaps",
    plates("[{ plate: 8 }, { gap: 2 }, { gap: 3 }, { plate: 8 }]"),
    [
      "«{ gap: 3 }» error solids[0].plates.layers[2]: expected a plate above the gap, got another gap: write one gap of both",
    ],
  ],
  [
    "a bare thickness",
    plates("[8]"),
    ["«8» error solids[0].plates.layers[0]: expected a layer: a map with plate, gap, got 8"],
  ],
  [
    "both in one layer",
    plates("[{ plate: 8, gap: 2 }, { plate: 8 }]"),
    ["«{ plate: 8, gap: 2 }» error solids[0].plates.layers[0]: expected a plate or a gap, got both: write two layers"],
  ],
  [
    "plates beside a box",
    solid("plates: { x: [0, 100], y: [0, 60], top: 0, layers: [{ plate: 8 }] }"),
    [
      "«{ box: { x: [0, 100], y:…» error solids[0]: expected one of box, cylinder, plates, got box and plates: write two bodies",
    ],
  ],
  [
    "plates without a top",
    "solids: [{ plates: { x: [0, 100], y: [0, 60], layers: [{ plate: 8 }] } }]",
    ["«plates» error solids[0].plates: expected top in plates, got none"],
  ],
];

describe("a slip in the stock is told once, at its place", () => {
  test.each(rows)("%s", (_what, stock, problems) => {
    expect(said(stock)).toEqual(problems);
  });
});
