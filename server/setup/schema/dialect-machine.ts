/** Keys of a dialect: tools, coolant, calls and the machine. */

import { mCode } from "./dialect-parts.ts";
import { choice, flag, list, map, quantity, record, text, whole } from "./node.ts";

const SUPPLY = {
  flood: "From nozzles.",
  mist: "Oil or water in air.",
  through: "Through the tool.",
  air: "Compressed air.",
  none: "Takes an inherited code away.",
} as const;

export const MACHINE = {
  tM6SameBlock: choice(
    { "loads-this": "Loads this T.", "loads-previous": "Loads the T staged before." },
    { description: "T and M6 in one block." },
  ),
  toolWord: choice(
    { tool: "T2 is tool 2.", "tool-offset": "T0202 is tool 2 with offset 2, T0200 takes the offset away." },
    { description: "What the digits of T are." },
  ),
  toolLoadedBy: choice(
    { M6: "M6 loads the tool that T has selected.", T: "T loads it: a turret." },
    { description: "What brings the tool into work." },
  ),
  tloWord: choice(
    { H: "H word.", D: "D word.", auto: "With the tool." },
    { description: "Word that calls the tool length offset." },
  ),
  tloApply: choice(
    { "with-z": "Nothing moves until the next Z.", immediate: "Z moves by the length at once." },
    { description: "What a length offset without a Z word does." },
  ),
  hEqualsT: choice(
    { required: "Must be the tool's.", advisory: "Said as information.", off: "Not checked." },
    { description: "H number and tool number." },
  ),
  m6StopsSpindle: flag({ description: "M6 stops the spindle." }),
  m6StopsCoolant: flag({ description: "M6 stops the coolant." }),
  m0StopsCoolant: flag({ description: "M0 and M1 stop the coolant until the start." }),
  endStopsSpindle: flag({ description: "M2 and M30 stop the spindle and the coolant." }),
  m6CancelsTlo: flag({ description: "M6 cancels the tool length offset." }),
  m6RetractsZ: flag({ description: "M6 retracts Z." }),
  coolantOn: map(
    choice(SUPPLY, { description: "What this code switches on." }),
    {
      description: "M codes that switch coolant on, changed or added to the inherited ones.",
      examples: ["{ M88: through }"],
    },
    mCode,
  ),
  coolantOff: list(
    text("m-code", { description: "An M code.", examples: ["M9"] }),
    { description: "M codes that switch all coolant off, added to the inherited ones.", examples: ["[M9, M89]"] },
    { single: true },
  ),
  spindleCoolant: map(
    record(
      "a spindle and coolant code",
      {
        direction: choice(
          { cw: "Clockwise.", ccw: "Counter-clockwise." },
          { description: "Direction of the spindle." },
        ),
        coolant: text("m-code", { description: "The coolant code it includes.", examples: ["M8"] }),
      },
      { description: "What the code switches on." },
      ["direction", "coolant"],
    ),
    {
      description: "M codes that start spindle and coolant at once.",
      examples: ["{ M13: { direction: cw, coolant: M8 } }"],
    },
    mCode,
  ),
  liveSpindle: map(
    choice(
      {
        cw: "Starts it clockwise.",
        ccw: "Starts it counter-clockwise.",
        stop: "Stops it.",
        none: "Takes an inherited code away.",
      },
      { description: "What this code does to the driven tools." },
    ),
    {
      description:
        "M codes of the driven tools. While they turn, S is their speed and holes may lie beside the centre.",
      examples: ["{ M33: cw, M34: ccw, M35: stop }"],
    },
    mCode,
  ),
  diameterX: flag({ description: "X words are diameters." }),
  incrementalWords: flag({ description: "U, W and H are increments of X, Z and C." }),
  subCallForm: choice(
    {
      "P-L": "M98 P1002 L5: program and repeats apart.",
      PkkkNnnn: "M98 P51002: repeats before the last four digits.",
      both: "By digits: up to four are a program, more hold repeats too.",
    },
    { description: "How M98 tells the program and how often it runs." },
  ),
  maxNesting: record(
    "levels of calls",
    {
      macro: whole({ description: "Levels of G65 and G66.", examples: ["4"] }, { min: 0, max: 100 }),
      sub: whole({ description: "Levels of M98.", examples: ["10"] }, { min: 0, max: 100 }),
    },
    { description: "How deep calls may stand in calls.", examples: ["{ macro: 4, sub: 10 }"] },
  ),
  macroDialect: choice(
    {
      none: "No jumps, loops or calls of macros.",
      "hash-iso": "IF [..] GOTO, WHILE [..] DO, G65.",
      "o-word": "o100 while, o100 sub, o100 call.",
      undeclared: "Read as hash-iso; o words are run as well, and said once.",
    },
    { description: "How the control writes jumps, loops and macros." },
  ),
  maxLoopSteps: whole(
    {
      description:
        "Blocks and holes that loops, jumps, calls and repeats may make beyond once through the text before the review stops.",
      examples: ["200000"],
    },
    { min: 100, max: 10_000_000 },
  ),
  fix: choice({ magnitude: "Towards zero.", floor: "Downwards." }, { description: "FIX of a negative number." }),
  logic: choice({ bitwise: "Bit by bit.", logical: "True and false." }, { description: "AND, OR and XOR." }),
  andPrecedence: choice({ mul: "As multiplication.", add: "As addition." }, { description: "Precedence of AND." }),
  stockTop: quantity(
    "length",
    { description: "Height of the surface in program coordinates where no stock is declared." },
    {},
  ),
  stockBottom: quantity(
    "length",
    { description: "Underside of the part in program coordinates where no stock is declared.", examples: ["-25"] },
    {},
  ),
  clearanceMin: quantity(
    "length",
    { description: "Least distance of the R plane above the surface.", examples: ["1"] },
    { min: 0 },
  ),
  clampHeight: quantity(
    "length",
    { description: "Height of the clamps in program coordinates: rapids across must clear it.", examples: ["30"] },
    {},
  ),
  travel: record(
    "the travels",
    {
      x: quantity("length", { description: "Travel in X.", examples: ["500"] }),
      y: quantity("length", { description: "Travel in Y.", examples: ["400"] }),
      z: quantity("length", { description: "Travel in Z.", examples: ["450"] }),
    },
    {
      description: "How far each axis goes: a longer way is a slipped decimal point or unit.",
      examples: ["{ x: 500, y: 400, z: 450 }"],
    },
  ),
  toolCount: whole(
    { description: "Places for tools: a higher T or H is a mistake.", examples: ["24"] },
    { min: 1, max: 9999 },
  ),
  minRpm: quantity("rotation", { description: "Lowest spindle speed.", examples: ["50"] }),
};
