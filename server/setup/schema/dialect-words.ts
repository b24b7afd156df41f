/** Keys of a dialect: numbers, words and blocks. */

import { gCode, letters, mCode } from "./dialect-parts.ts";
import { choice, flag, list, map, number, record, text, whole } from "./node.ts";

const step = (unit: string, example: string) =>
  number({ description: `One step of F in ${unit}.`, examples: [example] }, { min: 0, max: 1000 });

export const WORDS = {
  machineKind: choice(
    {
      mill: "The tool turns.",
      "turn-A": "The work turns; G98 and G99 are feed modes, G90, G92 and G94 turning cycles.",
      "turn-B": "The work turns; G90, G91, G94, G95, G98 and G99 as on a mill.",
    },
    { description: "Which system of codes the control has: the same code has another meaning on a turning centre." },
  ),
  decimalMode: choice(
    {
      calculator: "X5 is 5 units.",
      "least-increment": "X5 is 5 least increments (0.005 mm).",
      undeclared: "Read as calculator, and said once where a number has no point.",
    },
    { description: "What a number without a decimal point means on axis words: 5 mm or 0.005 mm." },
  ),
  incrementSystem: choice(
    { A: "0.01 mm, 0.001 in", B: "0.001 mm, 0.0001 in", C: "0.0001 mm, 0.00001 in" },
    { description: "Least input increment, used when `decimalMode` is least-increment." },
  ),
  decimalAddresses: letters("Addresses whose numbers the decimal rule is for.", "XYZIJKRQ"),
  feedWithoutPoint: choice(
    { plain: "F100 is 100.", scaled: "F100 is 100 steps of `feedIncrements`." },
    { description: "What F without a decimal point means." },
  ),
  feedIncrements: record(
    "feed increments",
    {
      mmPerMin: step("mm/min", "1"),
      inPerMin: step("in/min", "0.01"),
      mmPerRev: step("mm/rev", "0.001"),
      inPerRev: step("in/rev", "0.0001"),
    },
    {
      description: "What one step of F is where `feedWithoutPoint` is scaled, by unit and feed mode.",
      examples: ["{ mmPerRev: 0.01 }"],
    },
  ),
  qUnit: choice(
    { length: "Length unit in force.", micrometre: "Whole micrometres." },
    { description: "Unit of Q in a peck cycle." },
  ),
  dwellP: choice(
    {
      s: "Seconds.",
      ms: "Milliseconds.",
      undeclared: "Read as milliseconds, and said once where P could be seconds as well.",
    },
    { description: "Unit of P in a dwell: half a second or eight minutes hang on it." },
  ),
  dwellLetters: letters("Letters that may carry a dwell time beside G4.", "PXU"),
  unitsCodes: choice(
    { "G20/G21": "G20 inch, G21 mm.", "G70/G71": "G70 inch, G71 mm.", both: "Either pair." },
    { description: "Codes that switch inch and mm." },
  ),
  defaultUnits: choice(
    { mm: "Millimetres.", inch: "Inches.", unknown: "Must be programmed." },
    { description: "Units before any units code." },
  ),
  unitsChangeFeed: choice(
    { "keep-number": "F200 stays 200.", convert: "F200 mm/min becomes 7.874 in/min." },
    { description: "What becomes of F when G20 or G21 changes the units." },
  ),
  startFeedMode: choice(
    { "per-minute": "F per minute.", "per-rev": "F per revolution." },
    { description: "Feed mode before any feed mode code, and after the end of the program." },
  ),
  startPlane: choice(
    { G17: "XY.", G18: "ZX, usual on turning centres.", G19: "YZ." },
    { description: "Plane before any plane code, and after the end of the program." },
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
  parenComments: flag({ description: "Round brackets make a comment." }),
  semicolonComments: flag({ description: "A semicolon starts a comment." }),
  blockDelete: choice(
    {
      "first-only": "Only `/` at the start of a block.",
      "any-position": "`/` at any place of a block, one switch for all.",
      numbered: "`/` and `/1` to `/9` at any place, a switch for each.",
    },
    { description: "Forms of block delete." },
  ),
  repeatWord: choice(
    { error: "A mistake.", "last-wins": "The last one counts." },
    { description: "The same address twice in a block." },
  ),
  maxMPerBlock: whole({ description: "M words allowed in one block." }, { min: 1, max: 20 }),
  lineLength: whole({ description: "Longest block in characters." }, { min: 20, max: 100_000 }),
  nDigits: whole({ description: "Digits allowed in a block number." }, { min: 1, max: 20 }),
  oDigits: whole({ description: "Digits allowed in a program number." }, { min: 1, max: 20 }),
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
  assign: choice(
    { parallel: "All right sides first.", sequential: "One after the other." },
    { description: "Several assignments in one block." },
  ),
  unusedWords: choice(
    { error: "A mistake.", ignore: "Read over." },
    { description: "Words that nothing in the block uses." },
  ),
  unknownCode: choice(
    { error: "A mistake.", warn: "A warning.", ignore: "Nothing." },
    { description: "What is said about a G or M code that is not known." },
  ),
  customG: map(
    text("plain", {
      description: "`ignore`, or what the code does, in words.",
      examples: ["ignore", "chip conveyor on"],
    }),
    {
      description: "G codes of the machine's builder, which are then known. `ignore` says nothing about them.",
      examples: ["{ G187: smoothing }"],
    },
    gCode,
  ),
  customM: map(
    text("plain", {
      description: "`ignore`, or what the code does, in words.",
      examples: ["ignore", "chip conveyor on"],
    }),
    {
      description: "M codes of the machine's builder, which are then known. `ignore` says nothing about them.",
      examples: ["{ M20: ignore, M77: door opens }"],
    },
    mCode,
  ),
  programEnd: choice(
    { required: "M2 or M30 must stand.", optional: "May be missing." },
    { description: "End of the program." },
  ),
  endCodes: list(
    choice(
      { M2: "End.", M30: "End and rewind.", M99: "Back to the start: bar and series work." },
      { description: "A code that ends the main program." },
    ),
    { description: "Codes that end the main program; a list replaces the inherited one.", examples: ["[M30, M99]"] },
    { single: true },
  ),
};
