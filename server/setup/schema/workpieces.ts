import { hardness, list, map, pair, record, text, whole } from "./node.ts";
import { coordinate, isWcs, position, span, WCS } from "./places.ts";
import { STOCK } from "./stock.ts";

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
    stock: STOCK,
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
