import { say as inBoth } from "../../units/wording.ts";
import {
  choice,
  hardness,
  list,
  map,
  number,
  pair,
  quantity,
  type Range,
  record,
  type Say,
  text,
  triple,
  whole,
} from "./node.ts";

const any: Range = {};
const size = (mm: number): string => inBoth(mm, "length", "mm");
const WCS = "^G5\\d(\\.\\d)?( ?P\\d+)?$";

function isWcs(value: string, say: Say): void {
  if (!new RegExp(WCS, "i").test(value))
    say("", `expected a work coordinate system such as G54, got "${value}"`, { fatal: true });
}

const xyz = ["x", "y", "z"] as const;
const coordinate = quantity("length", { description: "A coordinate." }, any);

const position = (description: string, example: string) =>
  triple(coordinate, xyz, { description, examples: [example] });

const span = (description: string, example: string) =>
  pair(coordinate, ["from", "to"], { description, examples: [example] }, ([from, to], say) => {
    if (from >= to) say("", `expected [from, to] that rises, got ${size(from)} to ${size(to)}`, { fatal: true });
  });

const cut = list(
  record(
    "a cut plane",
    {
      through: position("A point of the plane.", "[60, 0, 0]"),
      normal: triple(
        number({ description: "Component of the normal." }),
        xyz,
        {
          description: "Direction square to the plane; the side it points away from is kept.",
          examples: ["[0.5, 0, 0.866]"],
        },
        ([x, y, z], say) => {
          if (Math.hypot(x, y, z) < 1e-9) say("", "expected a direction, got [0, 0, 0]", { fatal: true });
        },
      ),
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
    axis: choice({ x: "Along X.", y: "Along Y.", z: "Along Z." }, { description: "Direction of the cylinder's axis." }),
    through: position("A point of the cylinder's axis.", "[60, 40, 0]"),
    diameter: quantity("length", { description: "Diameter.", examples: ["50"] }),
    span: span("From and to along the axis.", "[-40, 10]"),
  },
  { description: "A cylinder along one of the axes." },
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

const stock = record(
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

const entry = record(
  "an entry",
  {
    program: text("glob", {
      description: "The program the entry belongs to: a file pattern relative to this setup file.",
      examples: ["parts/bracket-1.nc"],
    }),
    tool: whole({ description: "Tool number.", examples: ["7"] }, { min: 0 }),
    wcs: text("wcs", { description: "Work coordinate system of `at` or `region`.", examples: ["G54"] }, isWcs),
    at: pair(coordinate, ["first", "second"], {
      description: "Position of the hole square to the drill axis; left out: every hole of that tool.",
      examples: ["[30, 40]"],
    }),
    region: record(
      "a region",
      { x: span("From and to, first coordinate.", "[0, 50]"), y: span("From and to, second coordinate.", "[0, 50]") },
      { description: "Holes inside this rectangle, square to the drill axis." },
      ["x", "y"],
    ),
    entry: text("entry", {
      description: "The face the drill meets, in the words of a cut note.",
      examples: ['"INCLINE 30 DEG"', '"EDGE AREA 30 PCT"', '"RIDGE FLANK 30 DEG"'],
    }),
    exit: text("entry", {
      description: "The face the drill leaves through, in the words of a cut note.",
      examples: ['"INCLINE 15 DEG"'],
    }),
  },
  {
    description:
      "The drawing's facts about the entry of a hole, kept here so that a program posted anew does not lose them.",
  },
  ["program"],
  (e, say) => {
    if (e.at !== undefined && e.region !== undefined)
      say("region", "expected a position or a region, got both: the position counts", {
        severity: "warning",
        onKey: true,
      });
    if (e.entry === undefined && e.exit === undefined)
      say("", "expected an entry or an exit, got neither", { fatal: true, absent: true });
  },
);

/** One workpiece. */
export const WORKPIECE = record(
  "a workpiece",
  {
    material: text("material", {
      description: "Material by any designation of the built-in table, or a key of `materials:`.",
      examples: ["42CrMo4", "1.7225", "AISI 4140"],
    }),
    hardness: hardness({
      description: "Measured hardness or strength, with its scale: HB, HRC, HV, MPa or ksi.",
      examples: ["290 HB", "32 HRC", "990 MPa"],
    }),
    workOffsets: map(
      position("Where this WCS lies: its zero in the coordinates common to all of them.", "[200, 0, 0]"),
      {
        description: "Where the work coordinate systems lie to each other.",
        examples: ["{ G54: [0, 0, 0], G55: [200, 0, 0] }"],
      },
      { keyRole: "wcs", keyPattern: WCS, keyTitle: "a work coordinate system such as G54" },
    ),
    stock,
    entries: list(entry, { description: "Entries and exits of holes that the drawing shows and the program cannot." }),
  },
  { description: "A workpiece: its material, blank and what the drawing says about its holes." },
);

/** `workpieces:`, by name. */
export const WORKPIECES = map(
  WORKPIECE,
  { description: "The workpieces, by names of your own." },
  { keyTitle: "a workpiece's name" },
);
