/** S and F that another tool left in force. */
import type { Case, Expected } from "./cases.ts";
import { approach, program } from "./shop.ts";

const CARBIDE = [...approach(3, 2500), "G99 G81 X0. Y0. Z-20. R2. F450.", "G80 M9"];
const HSS = [...approach(5, 600, "M8"), "G99 G81 X0. Y0. Z-20. R3. F108.", "G80 M9"];

/** A second tool whose S may be left out; its lines begin on line 9, and its cycle stands on line 13. */
const then = (tool: number, s: string, cycle: string, coolant = "M8"): string[] => [
  ...[`T${tool} M6`, `G0 X40. Y0. ${s}M3`, `G43 H${tool} Z50. ${coolant}`, "G4 P3000", cycle, "G80 M9"],
];

interface Row {
  readonly name: string;
  readonly lines: readonly string[];
  readonly expect?: Expected;
  readonly shop?: Case["shop"];
  /** Checks that leave it to the one that tells the cause. */
  readonly silent?: readonly string[];
}

const ROWS: readonly Row[] = [
  {
    name: "S and F left out",
    lines: [...CARBIDE, ...then(5, "", "G99 G81 X40. Y0. Z-20. R3.")],
    expect: {
      severity: "warning",
      line: 13,
      word: "G81",
      count: 1,
      says: [
        "No S and no F since the tool change to T5: S2500 and F450. of T3 are still in force",
        "S530 and F95 mm/min",
      ],
    },
    silent: ["vc-window", "feed-window", "feed-mode", "spindle-power", "axis-thrust"],
  },
  {
    name: "S left out, F of its own",
    lines: [...CARBIDE, ...then(5, "", "G99 G81 X40. Y0. Z-20. R3. F108.")],
    expect: { severity: "warning", line: 13, word: "G81", says: ["No S since the tool change to T5: S2500 of T3 is"] },
    silent: ["vc-window", "feed-window", "feed-mode"],
  },
  {
    name: "F left out, S of its own",
    lines: [...CARBIDE, ...then(5, "S600 ", "G99 G81 X40. Y0. Z-20. R3.")],
    expect: { severity: "error", line: 13, word: "G81", says: ["No F since the tool change to T5: F450. of T3 is"] },
    silent: ["vc-window", "feed-window", "feed-mode"],
    // Twice as much as a drill takes is an error.
    shop: [["T: 5, family: twist-hss, DC: 12", "T: 5, family: twist-hss, DC: 6"]],
  },
  {
    name: "far too slow is more than information",
    lines: [...HSS, ...then(3, "", "G99 G81 X40. Y0. Z-20. R2.", "M88")],
    expect: { severity: "warning", line: 13, word: "G81", says: ["S600 and F108. of T5", "below the 70 to 110"] },
    silent: ["vc-window", "feed-window"],
  },
  {
    name: "all holes of the operation, once",
    lines: [...CARBIDE, ...then(5, "", "G99 G81 X40. Y0. Z-20. R3.\nX60.\nG83 X80. Y0. Z-30. R3. Q6.")],
    expect: { severity: "warning", line: 13, word: "G81", count: 3 },
    silent: ["vc-window"],
  },
  {
    name: "of a mill that made no holes",
    lines: [
      ...["T20 M6", "G0 X0. Y0. S6000 M3", "G43 H20 Z50. M8", "G1 Z5. F2000.", "X100.", "G0 Z50."],
      ...then(5, "", "G99 G81 X40. Y0. Z-20. R3. F108."),
    ],
    expect: { severity: "warning", line: 13, word: "G81", says: ["S6000 of T20"] },
    silent: ["vc-window"],
  },
  {
    name: "like drills that share S and F",
    lines: [...CARBIDE, ...then(4, "", "G99 G81 X40. Y0. Z-20. R2.")],
    silent: ["vc-window", "feed-window"],
  },
  {
    name: "S before the tool change, written for the tool that comes",
    lines: [...CARBIDE, "G0 Z50. S950", ...then(5, "", "G99 G81 X40. Y0. Z-20. R3. F171.")],
  },
  {
    name: "the same tool again",
    lines: [
      ...approach(5, 900, "M8"),
      "G99 G81 X0. Y0. Z-20. R3. F150.",
      "G80 M9",
      ...then(5, "", "G81 X40. Z-20. R3."),
    ],
  },
];

export const INHERITED_CASES: readonly Case[] = [
  ...ROWS.flatMap(({ name, lines, expect, shop, silent = [] }): Case[] =>
    ["speed-inherited", ...silent].map((check) => ({
      check,
      name: `S and F of another tool: ${name}`,
      text: program(...lines),
      expect: check === "speed-inherited" && expect !== undefined ? [expect] : [],
      ...(shop === undefined ? {} : { shop }),
    })),
  ),
  {
    check: "vc-window",
    name: "S written for the tool that comes is told at its word",
    text: program(...CARBIDE, "G0 Z50. S950", ...then(5, "", "G99 G81 X40. Y0. Z-20. R3. F171.")),
    expect: [{ severity: "warning", line: 9, word: "S950" }],
  },
  {
    check: "rpm-limit",
    name: "an S over the limit of two tools is one fault",
    text: program(
      ...approach(3, 12000),
      "G81 X0. Y0. Z-20. R2. F1800.",
      "G80 M9",
      ...then(4, "", "G81 X40. Z-20. R2."),
    ),
    shop: [["RPMX: 12000", "RPMX: 14000"]],
    expect: [{ severity: "error", line: 4, word: "S12000", count: 2 }],
  },
  {
    check: "vc-window",
    name: "stays at the word where the other check is off",
    text: program(...CARBIDE, ...then(5, "", "G99 G81 X40. Y0. Z-20. R3. F108.")),
    shop: [["units: mm\n", "units: mm\nseverity: { speed-inherited: off }\n"]],
    expect: [{ severity: "warning", line: 4, word: "S2500" }],
  },
];
