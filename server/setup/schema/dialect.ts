import type { Dialect } from "../dialect.ts";
import { choice, flag, list, map, quantity, record, type Schema, text, whole } from "./node.ts";

const letters = (description: string, example: string) =>
  text("plain", { description, examples: [example] }, (value, say) => {
    if (!/^[A-Za-z]*$/.test(value)) say("", `expected address letters without spaces, got "${value}"`, { fatal: true });
  });

const mCode = { keyRole: "m-code", keyPattern: "^M\\d{1,3}$", keyTitle: "an M code such as M88" } as const;

const SUPPLY = {
  flood: "From nozzles.",
  mist: "Oil or water in air.",
  through: "Through the tool.",
  air: "Compressed air.",
  none: "Takes an inherited code away.",
} as const;

const CYCLES = {
  drill: "Feed to depth, rapid out.",
  "dwell-drill": "Feed to depth, dwell, rapid out.",
  peck: "Pecks with full retract.",
  "chip-break": "Pecks with a short retract.",
  tap: "Right-hand tapping.",
  "tap-left": "Left-hand tapping.",
  bore: "Boring.",
  "fine-bore": "Boring with orientation and shift.",
  "back-bore": "Boring from the far side.",
  none: "Takes an inherited cycle away.",
} as const;

/** Every key a control may read differently. A key of `Dialect` that is not here does not compile. */
const KEYS = {
  decimalMode: choice(
    { calculator: "X5 is 5 units.", "least-increment": "X5 is 5 least increments (0.005 mm)." },
    { description: "What a number without a decimal point means on axis words." },
  ),
  incrementSystem: choice(
    { A: "0.01 mm, 0.001 in", B: "0.001 mm, 0.0001 in", C: "0.0001 mm, 0.00001 in" },
    { description: "Least input increment, used when `decimalMode` is least-increment." },
  ),
  decimalAddresses: letters("Addresses whose numbers the decimal rule is for.", "XYZIJKRQ"),
  qUnit: choice(
    { length: "Length unit in force.", micrometre: "Whole micrometres." },
    { description: "Unit of Q in a peck cycle." },
  ),
  dwellP: choice({ s: "Seconds.", ms: "Milliseconds." }, { description: "Unit of P in a dwell." }),
  dwellLetters: letters("Letters that may carry a dwell time beside G4.", "PXU"),
  unitsCodes: choice(
    { "G20/G21": "G20 inch, G21 mm.", "G70/G71": "G70 inch, G71 mm.", both: "Either pair." },
    { description: "Codes that switch inch and mm." },
  ),
  defaultUnits: choice(
    { mm: "Millimetres.", inch: "Inches.", unknown: "Must be programmed." },
    { description: "Units before any units code." },
  ),
  feedOnModeChange: choice(
    {
      "keep-number": "F keeps its number.",
      "require-new": "A new F is needed.",
      "per-mode": "Each mode remembers its own F.",
    },
    { description: "What F means after a change of feed mode." },
  ),
  g93: choice(
    { "inverse-minutes": "1/min.", seconds: "Seconds for the block." },
    { description: "Meaning of F under G93." },
  ),
  semicolonComments: flag({ description: "A semicolon starts a comment." }),
  blockDelete: choice(
    { "first-only": "Only `/` at the start of a block.", numbered: "`/` and `/1` to `/9`." },
    { description: "Forms of block delete." },
  ),
  repeatWord: choice(
    { error: "A mistake.", "last-wins": "The last one counts." },
    { description: "The same address twice in a block." },
  ),
  maxMPerBlock: whole({ description: "M words allowed in one block." }, { min: 1, max: 20 }),
  lineLength: whole({ description: "Longest block in characters." }, { min: 20, max: 100_000 }),
  nDigits: whole({ description: "Digits allowed in a block number." }, { min: 1, max: 20 }),
  forbiddenLetters: letters("Letters that mean nothing to this control.", "EOUVW"),
  programNumbers: flag({ description: "O numbers name programs." }),
  nestedComments: choice(
    { error: "A mistake.", "first-close": "The first `)` closes." },
    { description: "A `(` inside a comment." },
  ),
  openComment: choice(
    { error: "A mistake.", warning: "Read to the end of the line." },
    { description: "A comment that is not closed on its line." },
  ),
  mTiming: choice(
    { iso: "M3, M4, M7, M8 before, M5, M9 and stops after the motion.", "all-before": "All before the motion." },
    { description: "When the M words of a block act." },
  ),
  tM6SameBlock: choice(
    { "loads-this": "Loads this T.", "loads-previous": "Loads the T staged before." },
    { description: "T and M6 in one block." },
  ),
  assign: choice(
    { parallel: "All right sides first.", sequential: "One after the other." },
    { description: "Several assignments in one block." },
  ),
  cycleGroupSeparate: flag({ description: "Cycle codes G80 to G89 form a group of their own." }),
  afterG80: choice(
    { none: "No motion mode.", "previous-group1": "The motion mode before the cycle.", G0: "Rapid." },
    { description: "Motion mode after G80." },
  ),
  startMotion: choice(
    { none: "No motion mode.", G0: "Rapid.", G1: "Feed." },
    { description: "Motion mode at the start of a program." },
  ),
  bareMotionCode: choice(
    { error: "A mistake.", mode: "Sets the mode." },
    { description: "G0 or G1 without axis words." },
  ),
  unusedWords: choice(
    { error: "A mistake.", ignore: "Read over." },
    { description: "Words that nothing in the block uses." },
  ),
  cycles: map(
    choice(CYCLES, { description: "What this cycle code does." }),
    {
      description: "Cycle codes and what they do, changed or added to the inherited ones.",
      examples: ["{ G83: peck, G73: chip-break }"],
    },
    { keyRole: "g-code", keyPattern: "^G?\\d{1,3}(\\.\\d)?$", keyTitle: "a G code such as G83" },
  ),
  cycleDataScope: choice(
    { "same-code": "Only under the same code.", "until-g80": "Until G80, also under another code." },
    { description: "How long R, Z, Q and P stay in force." },
  ),
  stickyKind: choice(
    { number: "The number stays.", position: "The position stays." },
    { description: "What stays in force when G90 and G91 change inside a run." },
  ),
  pRequired: flag({ description: "Dwell cycles need P." }),
  initialLevel: choice(
    { "before-block": "Z before each block.", "before-run": "Z before the run of holes." },
    { description: "Initial level of G98." },
  ),
  g91RReference: choice(
    { "current-z": "From the Z before the block.", "initial-level": "From the initial level." },
    { description: "What R is measured from under G91." },
  ),
  repeatLetters: letters("Letters that carry the repeat count of a cycle.", "LK"),
  repeatZero: choice(
    { error: "A mistake.", "store-only": "Stores the data, drills nothing." },
    { description: "A repeat count of 0." },
  ),
  cycleWithoutXy: choice(
    { drill: "Drills here.", store: "Stores the data." },
    { description: "A cycle block without a position." },
  ),
  planeInCycle: choice(
    { reuse: "Goes on in the new plane.", error: "A mistake." },
    { description: "Plane change inside a run of holes." },
  ),
  peckRetract: choice(
    { R: "To the R plane.", clear: "To the clearance above the last depth." },
    { description: "Where a full-retract peck goes back to." },
  ),
  peckClearance: quantity(
    "length",
    { description: "Distance above the last depth where the peck feeds again." },
    { min: 0 },
  ),
  chipBreakRetract: quantity("length", { description: "Retract of a chip-break peck." }, { min: 0 }),
  returnDefault: choice(
    { G98: "Initial level.", G99: "R plane.", unknown: "Must be programmed." },
    { description: "Return level before any G98 or G99." },
  ),
  g28Axes: choice({ "named-only": "Only the axes named.", all: "All axes." }, { description: "Axes that G28 moves." }),
  g28Bare: choice(
    { "all-axes": "All axes go home.", nothing: "Nothing moves.", error: "A mistake." },
    { description: "G28 without axis words." },
  ),
  g53InG91: choice(
    { error: "A mistake.", absolute: "Machine coordinates all the same." },
    { description: "G53 under G91." },
  ),
  rapidPath: choice(
    { linear: "Straight.", dogleg: "Each axis at its own rate." },
    { description: "Path of a rapid move." },
  ),
  tloWord: choice(
    { H: "H word.", D: "D word.", auto: "With the tool." },
    { description: "Word that calls the tool length offset." },
  ),
  hEqualsT: choice(
    { required: "Must be the tool's.", advisory: "Said as information.", off: "Not checked." },
    { description: "H number and tool number." },
  ),
  m6StopsSpindle: flag({ description: "M6 stops the spindle." }),
  m6StopsCoolant: flag({ description: "M6 stops the coolant." }),
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
  tapNeedsSpindle: flag({ description: "A tapping cycle needs the spindle on beforehand." }),
  unknownCode: choice(
    { error: "A mistake.", warn: "A warning.", ignore: "Nothing." },
    { description: "What is said about a G or M code that is not known." },
  ),
  fix: choice({ magnitude: "Towards zero.", floor: "Downwards." }, { description: "FIX of a negative number." }),
  logic: choice({ bitwise: "Bit by bit.", logical: "True and false." }, { description: "AND, OR and XOR." }),
  andPrecedence: choice({ mul: "As multiplication.", add: "As addition." }, { description: "Precedence of AND." }),
  programEnd: choice(
    { required: "M2 or M30 must stand.", optional: "May be missing." },
    { description: "End of the program." },
  ),
  stockTop: quantity(
    "length",
    { description: "Height of the surface in program coordinates where no stock is declared." },
    {},
  ),
} satisfies { readonly [K in Exclude<keyof Dialect, "name">]: Schema };

/** A dialect of the shop's own: inherits a ready one and changes keys. */
export const DIALECT = record(
  "a dialect",
  {
    inherit: text("dialect", {
      description: "The ready dialect whose keys hold where nothing is written.",
      examples: ["generic-mill", "nist"],
      fallback: "generic-mill",
    }),
    ...KEYS,
  },
  { description: "How the control reads programs, as changes to a ready dialect." },
);
