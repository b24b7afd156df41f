/**
 * Friendly forms of the stock, in the words of a drawing. All of them come to boxes and cylinders with cut planes
 * (`build/stock-forms.ts`).
 */
import { choice, either, list, quantity, record, type Say } from "./node.ts";
import { level, position, span } from "./places.ts";

const SIDES = {
  "z+": "The top.",
  "z-": "The underside.",
  "x+": "The side at the largest X.",
  "x-": "The side at the smallest X.",
  "y+": "The side at the largest Y.",
  "y-": "The side at the smallest Y.",
} as const;

const side = choice(SIDES, { description: "The side of the body that it stands on.", fallback: "z+, the top" });

const degrees = (description: string, example: string) => quantity("angle", { description, examples: [example] }, {});

const incline = (description: string) =>
  quantity("angle", { description, examples: ["30"] }, { min: 0, over: true, max: 90, under: true });

const FALLS = "Direction in which the face falls away; a number is an angle seen from above, from X+ towards Y+.";

/** What lies along the axis of its side, or turns about another one than Z, is no direction in it. */
function inSide(side: string, way: number | string | undefined, key: string, what: string, say: Say): void {
  const across = side[0];
  const square = ["x", "y", "z"].filter((axis) => axis !== across).flatMap((axis) => [`${axis}+`, `${axis}-`]);
  const wanted = key === "along" ? [...new Set(square.map((name) => name[0]))].join(", ") : square.join(", ");
  if (typeof way === "number" && across !== "z")
    say(key, `expected one of ${wanted} on the side ${side}, got ${way}: degrees are for top and underside`, {
      fatal: true,
    });
  if (typeof way === "string" && way[0] === across)
    say(key, `expected one of ${wanted} on the side ${side}, got ${way}: ${what}`, { fatal: true });
}

export const FACE = list(
  record(
    "a face",
    {
      incline: incline("Angle between the face and its side, in degrees: 0 would be the side itself."),
      towards: either(
        choice(
          {
            "x+": "Falls towards larger X.",
            "x-": "Falls towards smaller X.",
            "y+": "Falls towards larger Y.",
            "y-": "Falls towards smaller Y.",
            "z+": "On a side: the body gets thinner towards larger Z.",
            "z-": "On a side: the body gets thinner towards smaller Z.",
          },
          { description: FALLS },
        ),
        degrees(FALLS, "45"),
        { description: FALLS },
      ),
      through: position("A point of the face.", "[60, 0, 0]"),
      side,
    },
    {
      description: "An inclined face: what lies beyond it is cut off the body.",
      examples: ["{ incline: 30, towards: x+, through: [60, 0, 0] }"],
    },
    ["incline", "towards", "through"],
    (f, say) => inSide(f.side ?? "z+", f.towards, "towards", "a face does not fall that way", say),
    { strict: true },
  ),
  {
    description: "An inclined face, or a list of them: what lies beyond is cut off the body.",
    examples: ["{ incline: 30, towards: x+, through: [60, 0, 0] }"],
  },
  { whole: true, single: true },
);

const RUNS = "Direction of the crest; a number is an angle seen from above, from X+ towards Y+.";

export const RIDGE = record(
  "a ridge",
  {
    flank: incline("Angle of each flank to its side, in degrees: 30 is a roof with an edge of 120 degrees."),
    along: either(
      choice(
        { x: "The crest runs along X.", y: "The crest runs along Y.", z: "On a side: the crest runs along Z." },
        { description: RUNS },
      ),
      degrees(RUNS, "45"),
      { description: RUNS },
    ),
    crest: position("A point of the crest.", "[60, 0, 0]"),
    side,
  },
  {
    description: "A roof: two flanks that fall away from a crest on both sides; what lies beyond is cut off the body.",
    examples: ["{ flank: 30, along: y, crest: [60, 0, 0] }"],
  },
  ["flank", "along", "crest"],
  (r, say) => inSide(r.side ?? "z+", r.along, "along", "a crest lies in its side", say),
  { strict: true },
);

const layers = list(
  record(
    "a layer",
    {
      plate: quantity("length", { description: "Thickness of a plate.", examples: ["10"] }),
      gap: quantity("length", { description: "Height of the air between two plates.", examples: ["2"] }),
    },
    { description: "A plate, or the gap below one.", examples: ["{ plate: 10 }"] },
    [],
    (l, say) => {
      if (l.plate !== undefined && l.gap !== undefined)
        say("", "expected a plate or a gap, got both: write two layers", { fatal: true });
      if (l.plate === undefined && l.gap === undefined)
        say("", "expected a plate or a gap, got neither", { fatal: true, absent: true });
    },
    { strict: true },
  ),
  {
    description: "Thicknesses and gaps from the top down. Plates without a gap between them touch.",
    examples: ["[{ plate: 10 }, { gap: 2 }, { plate: 8 }]"],
  },
  { whole: true },
  (all, say) => {
    if (all.length === 0) say("", "expected a plate, got an empty list", { fatal: true });
    for (const [i, layer] of all.entries()) {
      if (layer.gap === undefined) continue;
      if (i === 0 || i === all.length - 1)
        say(`[${i}]`, "expected a plate above and below a gap, got none", { fatal: true });
      else if (all[i - 1]?.gap !== undefined)
        say(`[${i}]`, "expected a plate above the gap, got another gap: write one gap of both", { fatal: true });
    }
  },
);

export const PLATES = record(
  "plates",
  {
    x: span("From and to in X, of all plates.", "[0, 120]"),
    y: span("From and to in Y, of all plates.", "[0, 80]"),
    top: level("Z of the top of the uppermost plate.", "0"),
    layers,
  },
  {
    description: "A stack of plates, with or without gaps.",
    examples: ["{ x: [0, 120], y: [0, 80], top: 0, layers: [{ plate: 10 }, { gap: 2 }, { plate: 8 }] }"],
  },
  ["x", "y", "top", "layers"],
  undefined,
  { strict: true },
);
