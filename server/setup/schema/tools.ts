import { say as inBoth } from "../../units/wording.ts";
import {
  choice,
  either,
  list,
  map,
  number,
  quantity,
  type Range,
  record,
  type Say,
  text,
  triple,
  whole,
} from "./node.ts";

const size = (mm: number): string => inBoth(mm, "length", "mm");

const from0: Range = { min: 0 };
const share: Range = { min: 0, over: true, max: 1 };

export const GROUPS = {
  P: "Steels, but not austenitic stainless.",
  M: "Stainless steels, austenitic and duplex.",
  K: "Cast irons.",
  N: "Aluminium, magnesium, copper alloys, other non-ferrous.",
  S: "Heat-resistant alloys and titanium.",
  H: "Hardened steel, chilled and hardened iron.",
} as const;

export const FAMILIES = {
  "twist-hss": "Twist drill of high-speed steel.",
  "solid-carbide": "Solid carbide drill.",
  indexable: "Drill with a centre and a peripheral insert.",
  spade: "Spade drill: one blade across the holder.",
  gun: "Gun drill, one lip, coolant through.",
  spot: "Spot or centre drill.",
  ream: "Reamer.",
  tap: "Tap.",
  countersink: "Countersink.",
  bore: "Boring bar or boring head.",
} as const;

function rises(what: string): (value: readonly [number, number, number], say: Say) => void {
  return ([min, nominal, max], say) => {
    if (min > nominal || nominal > max) {
      say(
        "",
        `expected ${what} as [min, nominal, max] that do not fall, got a ${min > nominal ? "min over the nominal" : "nominal over the max"}`,
        { fatal: true },
      );
    }
  };
}

const three = ["min", "nominal", "max"] as const;

const window = record(
  "a window",
  {
    group: choice(GROUPS, { description: "Material group by ISO 513 this window is for." }),
    material: text("material", {
      description: "One material this window is for, by any designation; wins over a group.",
      examples: ["42CrMo4", "4140"],
    }),
    vc: triple(
      quantity("speed", { description: "Cutting speed." }, { min: 0, over: true, max: 5000 }),
      three,
      {
        description: "Cutting speed the tool is made for: [min, nominal, max], m/min or ft/min.",
        examples: ["[70, 90, 110]"],
      },
      rises("cutting speeds"),
    ),
    f: triple(
      quantity("feedPerRev", { description: "Feed per revolution." }, { min: 0, over: true, max: 10 }),
      three,
      {
        description: "Feed per revolution the tool is made for: [min, nominal, max], mm/rev or in/rev.",
        examples: ["[0.15, 0.2, 0.25]"],
      },
      rises("feeds"),
    ),
  },
  { description: "Speed and feed the tool is made for in one group or material, as the box label says." },
  [],
  (w, say) => {
    if (w.group === undefined && w.material === undefined)
      say("", "expected a group (P, M, K, N, S, H) or a material, got neither", { fatal: true, absent: true });
    if (w.group !== undefined && w.material !== undefined)
      say("group", "expected a group or a material, got both: the material counts", {
        severity: "warning",
        onKey: true,
      });
  },
);

const classShare = (name: string, what: string) =>
  quantity(
    "share",
    {
      description: `Share of the nominal feed this tool may run in class ${name} (${what}), 0 to 1 or in %.`,
      examples: ["0.5", "50 %"],
    },
    share,
  );

const entry = record(
  "entry data",
  {
    maxIncline: quantity(
      "angle",
      { description: "Steepest incline of the entry face, from a face square to the drill.", examples: ["30"] },
      { min: 0, max: 90, under: true },
    ),
    light: classShare("light", "hardly interrupted"),
    medium: classShare("medium", "part of the turn in air"),
    heavy: classShare("heavy", "a large part of the turn in air"),
    extreme: classShare("extreme", "the axis itself in air"),
    fMin: quantity("feedPerRev", {
      description: "Smallest feed at which the edge still cuts and does not rub.",
      examples: ["0.04"],
    }),
  },
  { description: "What the tool's maker says about interrupted entries. Wins over every default of common practice." },
);

const observed = record(
  "a load-meter reading",
  {
    program: text("glob", {
      description: "Program the reading was taken with, relative to this setup file.",
      examples: ["parts/bracket-2.nc"],
    }),
    operation: whole({ description: "Number of the operation in that program, from 1.", examples: ["2"] }, { min: 1 }),
    load: number(
      { description: "Load meter while cutting, in percent of the rating it refers to.", examples: ["42"] },
      { min: 0, max: 300 },
    ),
    idle: number(
      { description: "Load meter with the spindle turning in air, in percent.", examples: ["6"] },
      { min: 0, max: 300 },
    ),
    meter: choice(
      { continuous: "100 % is the continuous rating.", "short-time": "100 % is the short-time rating." },
      { description: "Which rating the meter's 100 % refers to." },
    ),
    wear: choice(
      { new: "A fresh edge.", worn: "An edge about to be changed." },
      { description: "State of the edge when the meter was read." },
    ),
  },
  {
    description:
      "A reading of the spindle load meter. Worth more than every table: it narrows the load's band to ±15 %.",
  },
  ["program", "operation", "load", "idle", "meter", "wear"],
  (o, say) => {
    if (o.load !== undefined && o.idle !== undefined && o.idle >= o.load)
      say("idle", `expected less than the load of ${o.load} %, got ${o.idle} %`, { fatal: true });
  },
);

export const TOOL = record(
  "a tool",
  {
    T: whole({ description: "Tool number as the program calls it.", examples: ["3"] }, { min: 0 }),
    name: text("plain", { description: "Name as the shop says it, for messages.", examples: ["10.2 carbide drill"] }),
    family: choice(FAMILIES, { description: "Kind of hole-making tool." }),
    DC: quantity("length", { description: "Cutting diameter (ISO 13399 DC).", examples: ["10.2", "0.650 in"] }),
    SIG: quantity(
      "angle",
      { description: "Point angle (ISO 13399 SIG).", examples: ["118", "140"] },
      { min: 0, over: true, max: 180 },
    ),
    LU: quantity("length", {
      description: "Usable length (ISO 13399 LU): deepest hole the flutes serve.",
      examples: ["55"],
    }),
    PL: quantity(
      "length",
      {
        description: "Point length (ISO 13399 PL): tip to corner along the axis.",
        examples: ["1.9"],
        fallback: "from DC and SIG",
      },
      from0,
    ),
    NOF: whole({ description: "Number of flutes (ISO 13399 NOF).", examples: ["2"] }, { min: 1, max: 12 }),
    ZEFP: whole(
      {
        description: "Effective peripheral cutting edges (ISO 13399 ZEFP). A centre and a peripheral insert are one.",
        examples: ["1"],
      },
      { min: 1, max: 12 },
    ),
    KAPR: quantity(
      "angle",
      { description: "Cutting edge angle κr (ISO 13399 KAPR).", examples: ["88"], fallback: "SIG / 2" },
      { min: 0, over: true, max: 100 },
    ),
    RPMX: quantity("rotation", {
      description: "Highest speed the tool may turn (ISO 13399 RPMX).",
      examples: ["12000"],
    }),
    hand: choice(
      { right: "Cuts turning clockwise (M3).", left: "Cuts turning counter-clockwise (M4)." },
      { description: "Hand of cut.", fallback: "right" },
    ),
    edge: choice(
      {
        light: "Sharp, rake about +12 degrees (common practice).",
        general: "Rake about +6 degrees (common practice).",
        strong: "Strong, rake about 0 degrees (common practice).",
      },
      { description: "How strong the insert's edge is made; gives its rake by common practice." },
    ),
    point: choice(
      {
        standard: "Chisel edge 0.18 of the diameter (common practice).",
        split: "Split or thinned point, chisel edge 0.03 of the diameter (common practice).",
      },
      { description: "Form of the drill point; the chisel edge makes most of the thrust.", fallback: "standard" },
    ),
    r1: quantity("length", {
      description: "Two-insert drill: radius where the centre insert ends and the peripheral insert begins.",
      examples: ["6.5"],
      fallback: "DC / 4 (common practice)",
    }),
    coolant: choice(
      {
        through: "Holes for coolant through the tool.",
        external: "Coolant only from outside.",
        dry: "Made to run dry.",
      },
      { description: "How the tool takes coolant." },
    ),
    minPressure: quantity(
      "pressure",
      { description: "Least coolant pressure the tool asks for.", examples: ["10", "150 psi"] },
      from0,
    ),
    minFlow: quantity(
      "flow",
      { description: "Least coolant flow the tool asks for.", examples: ["15", "4 gal/min"] },
      from0,
    ),
    lead: quantity("length", { description: "Tap: lead, the advance per turn.", examples: ["1.5", "0.05 in"] }),
    H: list(
      whole({ description: "H number." }, { min: 0 }),
      {
        description: "Length offset numbers allowed for this tool.",
        examples: ["3", "[3, 33]"],
        fallback: "its T number",
      },
      { single: true },
    ),
    windows: list(
      window,
      {
        description: "Speed and feed windows, one per material group or material.",
        examples: ["[{ group: P, vc: [70, 90, 110], f: [0.15, 0.2, 0.25] }]"],
      },
      { itemKey: ["material", "group"], unique: true },
    ),
    entry,
    price: number(
      { description: "Price of the drill or of one insert set, in the shop's currency.", examples: ["24"] },
      from0,
    ),
    edges: whole(
      { description: "Usable edges (insert corners or regrinds) for that price.", examples: ["4"] },
      { min: 1 },
    ),
    holesPerEdge: number(
      { description: "Holes one edge makes, by the shop's experience.", examples: ["60"] },
      { min: 0, over: true },
    ),
    observed: list(observed, { description: "Load-meter readings with this tool." }),
  },
  { description: "A tool, by the symbols of ISO 13399." },
  ["T"],
  (t, say) => {
    if (t.r1 !== undefined && t.DC !== undefined && t.r1 >= t.DC / 2)
      say("r1", `expected a radius below DC / 2, got ${size(t.r1)} in a drill of ${size(t.DC)}`, {
        severity: "warning",
      });
    if (t.family !== undefined && t.family !== "tap" && t.lead !== undefined)
      say("lead", "only a tap has a lead: not used", { severity: "warning", onKey: true });
  },
);

/** A tool table: a list, or a file that holds one. */
export const TOOL_TABLE = list(
  TOOL,
  { description: "A tool table: one entry per tool number." },
  { itemKey: ["T"], itemPrefix: "T", unique: true },
);

/** `tools:`, by name. */
export const TOOLS = map(
  either(
    TOOL_TABLE,
    text("plain", {
      description: "A tool table in a file (CSV or YAML), relative to this setup file.",
      examples: ["tools/crib.csv"],
    }),
    {
      description: "A tool table: a list of tools, or the file that holds it.",
    },
  ),
  { description: "Tool tables, by names of your own." },
  { keyTitle: "a tool table's name" },
);
