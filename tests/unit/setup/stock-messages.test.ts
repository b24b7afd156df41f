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

/** In flow, over two lines. */
const empty = (form: string): string => `solids: [{ ${BLOCK} }]\n      voids: [{ ${form} }]`;
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
      "«{ incline: 30, towards: …» warning solids[0].face[0]: expected a cut through the body, got one that passes 23.30 mm (0.917 in) outside it",
    ],
  ],
  [
    "a face below the body",
    solid("face: { incline: 30, towards: x+, through: [-30, 0, -41] }"),
    [
      "«{ incline: 30, towards: …» error solids[0].face[0]: expected some of the body to be left, got a cut that takes the whole body away",
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
      '«angle» error solids[0].ridge.angle: "angle" is no key of a ridge; known: flank, along, crest, side',
      "«ridge» error solids[0].ridge: expected flank in a ridge, got none",
    ],
  ],
  [
    "a ridge high above",
    solid("ridge: { flank: 30, along: y, crest: [50, 0, 60] }"),
    [
      "«{ flank: 30, along: y, c…» warning solids[0].ridge: expected a cut through the body, got one that passes 26.96 mm (1.061 in) outside it",
    ],
  ],
  ["a ridge on the edge of the body", solid("ridge: { flank: 30, along: y, crest: [0, 0, 0] }"), []],
  [
    "a cut the wrong way round",
    solid("cut: [{ through: [0, 0, 0], normal: [0, 0, -1] }]"),
    [
      "«{ through: [0, 0, 0], no…» error solids[0].cut[0]: expected some of the body to be left, got a cut that takes the whole body away",
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
  ["no metal", "solids: []", ["«[]» error solids: expected a body of metal, got an empty list"]],
  [
    "a slot without width",
    empty("slot: { along: x, through: [0, 30], width: 0, floor: -8 }"),
    ["«0» error voids[0].slot.width: expected a length in mm or in over 0, got 0"],
  ],
  [
    "a slot that says little",
    empty("slot: { along: x, width: 8 }"),
    ["«slot» error voids[0].slot: expected through, floor in a slot, got none"],
  ],
  [
    "a slot along its depth",
    empty("slot: { along: z, through: [0, 30], width: 8, floor: -8 }"),
    ['«z» error voids[0].slot.along: expected one of x, y, or an angle in deg, got "z"'],
  ],
  [
    "a floor above the metal",
    empty("slot: { along: x, through: [0, 30], width: 8, floor: 8 }"),
    [
      "«8» error voids[0].slot.floor: expected a floor below the top of the metal at 0.00 mm (0.000 in), got 8.00 mm (0.315 in)",
    ],
  ],
  [
    "a floor above its top",
    empty("slot: { along: x, through: [0, 30], width: 8, floor: -8, top: -20 }"),
    [
      "«-8» error voids[0].slot.floor: expected a floor below its top at -20.00 mm (-0.787 in), got -8.00 mm (-0.315 in)",
    ],
  ],
  [
    "ends the wrong way round",
    empty("slot: { along: x, through: [0, 30], width: 8, floor: -8, span: [90, 20] }"),
    [
      "«[90, 20]» error voids[0].slot.span: expected [from, to] that rises, got 90.00 mm (3.543 in) to 20.00 mm (0.787 in)",
    ],
  ],
  [
    "a slot beside the metal",
    empty("slot: { along: x, through: [0, 70], width: 8, floor: -8 }"),
    ["«{ along: x, through: [0,…» warning voids[0].slot: expected a void that meets the metal, got one beside it"],
  ],
  [
    "an oblique slot beside the metal",
    empty("slot: { along: 45, through: [-80, 70], width: 8, floor: -8 }"),
    ["«{ along: 45, through: [-…» warning voids[0].slot: expected a void that meets the metal, got one beside it"],
  ],
  ["an oblique slot over a corner", empty("slot: { along: 135, through: [0, 2], width: 8, floor: -8 }"), []],
  [
    "a hole in the air",
    empty("hole: { at: [130, 30], diameter: 8, floor: none }"),
    ["«{ at: [130, 30], diamete…» warning voids[0].hole: expected a void that meets the metal, got one beside it"],
  ],
  [
    "a hole under the metal",
    empty("hole: { at: [30, 30], diameter: 8, floor: none, top: -45 }"),
    ["«{ at: [30, 30], diameter…» warning voids[0].hole: expected a void that meets the metal, got one beside it"],
  ],
  [
    "a hole of which nobody said how deep",
    empty("hole: { at: [30, 30], diameter: 8 }"),
    ["«hole» error voids[0].hole: expected floor in a hole, got none"],
  ],
  [
    "a floor in other words",
    empty("hole: { at: [30, 30], diameter: 8, floor: through }"),
    ['«through» error voids[0].hole.floor: expected a length in mm or in, or none, got "through"'],
  ],
  [
    "a floor of the metal's own top",
    empty("hole: { at: [30, 30], diameter: 8, floor: 0 }"),
    [
      "«0» error voids[0].hole.floor: expected a floor below the top of the metal at 0.00 mm (0.000 in), got 0.00 mm (0.000 in)",
    ],
  ],
  ["a floor in inches", empty('hole: { at: [30, 30], diameter: 8, floor: "-0.5 in" }'), []],
  [
    "a cross hole above",
    empty("crossHole: { along: x, through: [0, 30, 20], diameter: 12 }"),
    ["«{ along: x, through: [0,…» warning voids[0].crossHole: expected a void that meets the metal, got one beside it"],
  ],
  [
    "an oblique cross hole of no direction",
    empty("crossHole: { along: [0, 0, 0], through: [0, 30, 0], diameter: 12 }"),
    ["«[0, 0, 0]» error voids[0].crossHole.along: expected a direction, got [0, 0, 0]"],
  ],
  [
    "a cross hole without diameter",
    empty("crossHole: { along: x, through: [0, 30, -20] }"),
    ["«crossHole» error voids[0].crossHole: expected diameter in a cross hole, got none"],
  ],
  [
    "a slot in the metal's list",
    solid("slot: { along: x, through: [0, 30], width: 8, floor: -8 }"),
    ['«slot» error solids[0].slot: "slot" is no key of a solid: write it under voids'],
  ],
  [
    "a mistyped end",
    empty("slot: { along: x, through: [0, 30], width: 8, floor: -8, spam: [0, 9] }"),
    ['«spam» error voids[0].slot.spam: "spam" is no key of a slot; span?'],
  ],
  [
    "a mistyped list",
    `solids: [{ ${BLOCK} }]\n      void: []`,
    ['«void» error void: "void" is no key of the stock; voids?'],
  ],
  [
    "a ridge of air",
    empty("box: { x: [0, 50], y: [0, 50], z: [-10, 0] }, ridge: { flank: 30, along: y, crest: [25, 0, 0] }"),
    ['«ridge» error voids[0].ridge: "ridge" is no key of a void: write it under solids'],
  ],
  [
    "a lone slot in the metal's list",
    "solids: [{ slot: { along: x, through: [0, 30], width: 8, floor: -8 } }]",
    ['«slot» error solids[0].slot: "slot" is no key of a solid: write it under voids'],
  ],
  [
    "two voids in one",
    empty(
      "slot: { along: x, through: [0, 30], width: 8, floor: -8 }, hole: { at: [30, 30], diameter: 8, floor: none }",
    ),
    [
      "«{ slot: { along: x, thro…» error voids[0]: expected one of box, cylinder, slot, hole, crossHole, got slot and hole: write two bodies",
    ],
  ],
  [
    "a cut void that is not there",
    empty("box: { x: [0, 50], y: [0, 50], z: [-10, 0] }, cut: [{ through: [0, 0, 5], normal: [0, 0, -1] }]"),
    [
      "«{ through: [0, 0, 5], no…» error voids[0].cut[0]: expected some of the body to be left, got a cut that takes the whole body away",
    ],
  ],
  [
    "a skin of nothing",
    `${solid("")}\n      skin: { thickness: 0 }`,
    ["«0» error skin.thickness: expected a length in mm or in over 0, got 0"],
  ],
  [
    "a skin on some side",
    `${solid("")}\n      skin: { thickness: 2, on: z+ }`,
    ['«z+» error skin.on: expected one of all, top, got "z+"'],
  ],
  [
    "a skin of unknown depth",
    `${solid("")}\n      skin: { on: top }`,
    ["«skin» error skin: expected thickness in a skin, got none"],
  ],
  [
    "a skin that is a number",
    `${solid("")}\n      skin: 2`,
    ["«2» error skin: expected a skin: a map with thickness, on, got 2"],
  ],
];

describe("a slip in the stock is told once, at its place", () => {
  test.each(rows)("%s", (_what, stock, problems) => {
    expect(said(stock)).toEqual(problems);
  });
});
