/** Friendly forms of what is taken out of the stock before the program starts. They come to boxes and cylinders. */
import { choice, either, quantity, record, type Say } from "./node.ts";
import { direction, level, position, size, span, spot } from "./places.ts";

const floor = either(
  level("Z of the flat floor; none where it goes right through.", "-12"),
  choice({ none: "It goes right through." }, { description: "Z of the flat floor; none where it goes right through." }),
  { description: "Z of the flat floor; none where it goes right through." },
);

const top = level("Z where it begins, for one that is covered or starts from below.", "-20", "open at the top");

function floorBelowTop(form: { readonly floor?: number | "none"; readonly top?: number }, say: Say): void {
  if (typeof form.floor !== "number" || form.top === undefined || form.floor < form.top) return;
  say("floor", `expected a floor below its top at ${size(form.top)}, got ${size(form.floor)}`, { fatal: true });
}

const RUNS = "Direction of the slot; a number is an angle seen from above, from X+ towards Y+.";

export const SLOT = record(
  "a slot",
  {
    along: either(
      choice({ x: "The slot runs along X.", y: "The slot runs along Y." }, { description: RUNS }),
      quantity("angle", { description: RUNS, examples: ["45"] }, {}),
      { description: RUNS },
    ),
    through: spot("A point of its middle line, seen from above.", "[60, 40]"),
    width: quantity("length", { description: "Width.", examples: ["12"] }),
    floor,
    top,
    span: span(
      "From and to along the slot, its ends square: coordinates along x or y; along an angle distances from `through`.",
      "[20, 90]",
      "right across",
    ),
  },
  {
    description: "A slot seen from above, with square ends and a flat floor.",
    examples: ["{ along: x, through: [60, 40], width: 12, floor: -8 }"],
  },
  ["along", "through", "width", "floor"],
  floorBelowTop,
  { strict: true },
);

export const HOLE = record(
  "a hole",
  {
    at: spot("Its axis, seen from above.", "[30, 40]"),
    diameter: quantity("length", { description: "Diameter.", examples: ["20"] }),
    floor,
    top,
  },
  {
    description:
      "A hole along Z that is there before the program starts, with a flat floor: a drill's cone is left out.",
    examples: ["{ at: [30, 40], diameter: 20, floor: none }", "{ at: [30, 40], diameter: 20, floor: -15 }"],
  },
  ["at", "diameter", "floor"],
  floorBelowTop,
  { strict: true },
);

const BORED = "Direction of its axis: x, y, z, or [x, y, z] of an oblique one.";

export const CROSS_HOLE = record(
  "a cross hole",
  {
    along: either(
      choice({ x: "Along X.", y: "Along Y.", z: "Along Z." }, { description: BORED }),
      direction(BORED, "[1, 0, -1]"),
      { description: BORED },
    ),
    through: position("A point of its axis.", "[0, 40, -20]"),
    diameter: quantity("length", { description: "Diameter.", examples: ["12"] }),
    span: span(
      "From and to along the axis: coordinates along x, y or z; along an oblique axis distances from `through`.",
      "[0, 60]",
      "right through",
    ),
  },
  {
    description: "A hole across the ones to be drilled.",
    examples: ["{ along: x, through: [0, 40, -20], diameter: 12 }"],
  },
  ["along", "through", "diameter"],
  undefined,
  { strict: true },
);
