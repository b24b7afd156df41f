/** The blank of a workpiece: bodies of metal, and what is taken out of them. */
import { choice, either, list, quantity, record, type Say, text } from "./node.ts";
import { direction, isWcs, position, span } from "./places.ts";
import { FACE, PLATES, RIDGE } from "./stock-forms.ts";
import { CROSS_HOLE, HOLE, SLOT } from "./stock-voids.ts";

/** A body without what stands under a mistyped key would be another body. */
const STRICT = { strict: true } as const;

const cut = list(
  record(
    "a cut plane",
    {
      through: position("A point of the plane.", "[60, 0, 0]"),
      normal: direction("Direction square to the plane; the side it points away from is kept.", "[0.5, 0, 0.866]"),
    },
    { description: "A plane that cuts this body; the side the normal points away from is kept." },
    ["through", "normal"],
    undefined,
    STRICT,
  ),
  { description: "Planes that cut this body, one after the other." },
  { whole: true },
);

const box = record(
  "a box",
  {
    x: span("From and to in X.", "[0, 120]"),
    y: span("From and to in Y.", "[0, 80]"),
    z: span("From and to in Z.", "[-40, 0]"),
  },
  { description: "A box along the axes." },
  ["x", "y", "z"],
  undefined,
  STRICT,
);

const cylinder = record(
  "a cylinder",
  {
    axis: either(
      choice({ x: "Along X.", y: "Along Y.", z: "Along Z." }, { description: "Direction of the cylinder's axis." }),
      direction("Direction of the cylinder's axis.", "[1, 0, -1]"),
      { description: "Direction of the cylinder's axis: x, y, z, or [x, y, z] of an oblique one." },
    ),
    through: position("A point of the cylinder's axis.", "[60, 40, 0]"),
    diameter: quantity("length", { description: "Diameter.", examples: ["50"] }),
    span: span(
      "From and to along the axis: coordinates along x, y or z; along an oblique axis distances from `through`.",
      "[-40, 10]",
    ),
  },
  { description: "A cylinder about any axis." },
  ["axis", "through", "diameter", "span"],
  undefined,
  STRICT,
);

const SOLID_KINDS = ["box", "cylinder", "plates"] as const;
const VOID_KINDS = ["box", "cylinder", "slot", "hole", "crossHole"] as const;

/** A body is of one kind; what else stands beside it only changes it. */
function oneOf<K extends string>(kinds: readonly K[], written: Readonly<Partial<Record<K, unknown>>>, say: Say): void {
  const [first, second] = kinds.filter((kind) => written[kind] !== undefined);
  const wanted = `expected one of ${kinds.join(", ")}`;
  if (first === undefined) say("", `${wanted}, got none`, { fatal: true, absent: true });
  else if (second !== undefined) say("", `${wanted}, got ${first} and ${second}: write two bodies`, { fatal: true });
}

const UNDER_VOIDS = "write it under voids";
const UNDER_SOLIDS = "write it under solids";

const solid = record(
  "a solid",
  { box, cylinder, plates: PLATES, face: FACE, ridge: RIDGE, cut },
  { description: "A body of metal: one of its kinds, with optional faces, a ridge or cut planes." },
  [],
  (written, say) => oneOf(SOLID_KINDS, written, say),
  {
    strict: true,
    elsewhere: { slot: UNDER_VOIDS, hole: UNDER_VOIDS, crossHole: UNDER_VOIDS },
  },
);

const hollow = record(
  "a void",
  { box, cylinder, slot: SLOT, hole: HOLE, crossHole: CROSS_HOLE, cut },
  { description: "A body of air: one of its kinds, with optional cut planes." },
  [],
  (written, say) => oneOf(VOID_KINDS, written, say),
  {
    strict: true,
    elsewhere: { plates: UNDER_SOLIDS, face: UNDER_SOLIDS, ridge: UNDER_SOLIDS },
  },
);

const skin = record(
  "a skin",
  {
    thickness: quantity("length", { description: "How deep the hard skin goes.", examples: ["2"] }),
    on: choice(
      { all: "All faces of the solids.", top: "Only the faces that look up in Z: the others are machined." },
      { description: "Which faces of the solids have it; voids are machined and have none.", fallback: "all" },
    ),
  },
  {
    description: "A hard, uneven outside, as castings and forgings have.",
    examples: ["{ thickness: 2, on: top }"],
  },
  ["thickness"],
  undefined,
  STRICT,
);

export const STOCK = record(
  "the stock",
  {
    wcs: text(
      "wcs",
      {
        description: "Work coordinate system the stock is given in.",
        examples: ["G54"],
        fallback: "G54",
      },
      isWcs,
    ),
    // A body that cannot be read would leave a stock that nobody described, so the whole list becomes unknown.
    solids: list(solid, { description: "Bodies of metal." }, { whole: true }, (all, say) => {
      if (all.length === 0) say("", "expected a body of metal, got an empty list", { fatal: true });
    }),
    voids: list(
      hollow,
      {
        description: "Bodies taken out of the solids: bores, slots, pockets that are there before the program starts.",
      },
      { whole: true },
    ),
    skin,
  },
  { description: "The blank: solids minus voids, in the coordinates of one WCS." },
  ["solids"],
  undefined,
  STRICT,
);
