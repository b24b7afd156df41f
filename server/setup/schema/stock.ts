/** The blank of a workpiece: bodies of metal, and what is taken out of them. */
import { choice, either, list, quantity, record, text } from "./node.ts";
import { direction, isWcs, position, span } from "./places.ts";

const cut = list(
  record(
    "a cut plane",
    {
      through: position("A point of the plane.", "[60, 0, 0]"),
      normal: direction("Direction square to the plane; the side it points away from is kept.", "[0.5, 0, 0.866]"),
    },
    { description: "A plane that cuts this body; the side the normal points away from is kept." },
    ["through", "normal"],
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
);

const body = record(
  "a body",
  { box, cylinder, cut },
  { description: "A box or a cylinder, with optional cut planes." },
  [],
  (b, say) => {
    if (b.box !== undefined && b.cylinder !== undefined)
      say("", "expected a box or a cylinder, got both: write two bodies", { fatal: true });
    if (b.box === undefined && b.cylinder === undefined)
      say("", "expected a box or a cylinder, got neither", { fatal: true, absent: true });
  },
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
    solids: list(body, { description: "Bodies of metal." }, { whole: true }),
    voids: list(
      body,
      {
        description: "Bodies taken out of the solids: bores, slots, pockets that are there before the program starts.",
      },
      { whole: true },
    ),
  },
  { description: "The blank: solids minus voids, in the coordinates of one WCS." },
  ["solids"],
);
