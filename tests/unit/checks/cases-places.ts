/** Depths, planes, places and the tools that make threads and bores. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const TAP = ["T9 M6", "G0 X0. Y0. S300 M3", "G43 H9 Z50. M8", "G4 P3000"];
const NO_STOCK: Case["shop"] = [
  ["    stock: { wcs: G54, solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }] }\n", ""],
];
const key = (text: string): Case["shop"] => [["dialect: generic-mill", `dialect: { inherit: generic-mill, ${text} }`]];
const lost = (what: string): Case["shop"] => [["lead: 1.75, ", what]];
const REAMER: Case["shop"] = [["T: 9, family: tap, DC: 12, lead: 1.75", "T: 9, family: ream, DC: 12"]];

const SPOT = approach(1, 1600, "M8");
const list = (...xs: readonly number[]): string[] => xs.map((x) => `X${x * 20}.`);
const upTo = (last: number): number[] => Array.from({ length: last }, (_, i) => i + 1);
const two = (spots: readonly string[], drills: readonly string[]): string[] => [
  ...SPOT,
  "G99 G81 Z-2. R2. F160.",
  ...spots,
  "G80",
  ...T3,
  "G99 G81 Z-20. R2. F450.",
  ...drills,
  "G80",
];

export const PLACE_CASES: readonly Case[] = [
  ...rows("r-plane-high", [
    {
      name: "feed through air",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R40. F450.", "X20.", "G80"],
      expect: { severity: "info", line: 7, word: "R40.", count: 2, measured: 40, limit: 25, unit: "mm" },
    },
    { name: "near the part", body: [...T3, "G99 G81 X0. Y0. Z-20. R20. F450.", "G80"] },
    {
      name: "between clamps",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R40. F450.", "G80"],
      shop: key("clampHeight: 35"),
    },
    { name: "the top is not known", body: [...T3, "G99 G81 X0. Y0. Z-20. R40. F450.", "G80"], shop: NO_STOCK },
  ]),
  ...rows("hole-in-air", [
    {
      name: "a lost sign above R's level",
      body: [...T3, "G99 G81 X0. Y0. Z5. R10. F450.", "G80"],
      expect: { severity: "warning", line: 7, word: "Z5.", measured: 5, limit: 0 },
    },
    { name: "no stock declared", body: [...T3, "G99 G81 X0. Y0. Z5. R10. F450.", "G80"], shop: NO_STOCK },
    { name: "a hole", body: [...T3, "G99 G81 X0. Y0. Z-5. R10. F450.", "G80"] },
  ]),
  ...rows("cycle-plane", [
    {
      name: "G18 in force",
      body: [...T3, "G18", "G99 G81 X0. Z0. Y-20. R2. F450.", "G80"],
      expect: { severity: "warning", line: 8, word: "G81", says: ["G18", "along Y"] },
    },
    { name: "G17 comes back", body: [...T3, "G18", "G17", "G99 G81 X0. Y0. Z-20. R2. F450.", "G80"] },
    { name: "G18 without a cycle", body: ["G18", "G0 X1.", "G17"] },
  ]),
  ...rows("tap-depth", [
    {
      name: "below the tip of the drill",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "G80", ...TAP, "G84 X0. Y0. Z-25. R5. F525.", "G80"],
      expect: { severity: "error", line: 13, word: "Z-25.", measured: -25, limit: -20, says: ["T3", " in)"] },
    },
    {
      name: "into the cone of the drill",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "G80", ...TAP, "G84 X0. Y0. Z-19. R5. F525.", "G80"],
      expect: { severity: "warning", line: 13, word: "Z-19.", limit: -18.144 },
    },
    {
      name: "well above",
      body: [...T3, "G99 G81 X0. Y0. Z-25. R2. F450.", "G80", ...TAP, "G84 X0. Y0. Z-18. R5. F525.", "G80"],
    },
    {
      name: "only spotted here, drilled before",
      body: [...SPOT, "G99 G81 X0. Y0. Z-3. R2. F160.", "G80", ...TAP, "G84 X0. Y0. Z-18. R5. F525.", "G80"],
    },
    { name: "drilled elsewhere", body: [...TAP, "G84 X0. Y0. Z-25. R5. F525.", "G80"] },
    {
      name: "a through hole",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "G80", ...TAP, "G84 X0. Y0. Z-25. R5. F525.", "G80"],
      shop: [["z: [-200, 0]", "z: [-15, 0]"]],
    },
  ]),
  ...rows("tap-lead", [
    {
      name: "a wrong digit in F",
      body: [...TAP, "G84 X0. Y0. Z-18. R5. F565.", "G80"],
      shop: lost(""),
      expect: { severity: "warning", line: 7, word: "F565.", says: ["T9"] },
    },
    { name: "a metric lead", body: [...TAP, "G84 X0. Y0. Z-18. R5. F525.", "G80"], shop: lost("") },
    { name: "an inch lead", body: [...TAP, "G84 X0. Y0. Z-18. R5. F476.25", "G80"], shop: lost("") },
    { name: "a declared lead is compared elsewhere", body: [...TAP, "G84 X0. Y0. Z-18. R5. F565.", "G80"] },
  ]),
  ...rows("tap-cycle", [
    {
      name: "a tap in G81",
      body: [...TAP, "G81 X0. Y0. Z-18. R5. F525.", "G80"],
      expect: { severity: "error", line: 7, word: "G81", says: ["T9 is a tap", "G84"] },
    },
    {
      name: "a tap in G85",
      body: [...TAP, "G85 X0. Y0. Z-18. R5. F525.", "G80"],
      expect: { severity: "info", line: 7, word: "G85" },
    },
    {
      name: "a drill in G84",
      body: [...T3, "G84 X0. Y0. Z-18. R5. F450.", "G80"],
      expect: { severity: "error", line: 7, word: "G84", says: ["no tap"] },
    },
    { name: "a tap in G84", body: [...TAP, "G84 X0. Y0. Z-18. R5. F525.", "G80"] },
    { name: "a drill in G81", body: [...T3, "G81 X0. Y0. Z-18. R5. F450.", "G80"] },
  ]),
  ...rows("reamer-cycle", [
    {
      name: "out at rapid",
      body: [...TAP, "G81 X0. Y0. Z-18. R5. F60.", "G80"],
      shop: REAMER,
      expect: { severity: "warning", line: 7, word: "G81", says: ["rapid", "G85"] },
    },
    {
      name: "pecked",
      body: [...TAP, "G83 X0. Y0. Z-18. R5. Q3. F60.", "G80"],
      shop: REAMER,
      expect: { severity: "warning", line: 7, word: "G83", says: ["pecks"] },
    },
    { name: "G85", body: [...TAP, "G85 X0. Y0. Z-18. R5. F60.", "G80"], shop: REAMER },
    { name: "a drill", body: [...T3, "G81 X0. Y0. Z-18. R5. F450.", "G80"] },
  ]),
  ...rows("hole-twice", [
    {
      name: "a position that cannot be read is not the one before",
      body: [...T3, "G99 G81 X50. Y50. Z-20. R2. F450.", "X5.0.1", "X Y50.", "G80"],
    },
    {
      name: "a position stands twice",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "X20.", "X0.", "X40.", "G80"],
      expect: { severity: "warning", line: 9, word: "X0.", count: 1, says: ["before, in line 7"] },
    },
    {
      name: "a repeat count in G90",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450. L3", "G80"],
      expect: { severity: "warning", line: 7, word: "L3", says: ["G91"] },
    },
    {
      name: "a hair apart",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "X20.", "X20.05", "G80"],
      expect: { severity: "warning", line: 9, word: "X20.05", measured: 0.05, limit: 0.1 },
    },
    { name: "deeper the second time", body: [...T3, "G99 G81 X0. Y0. Z-10. R2. F450.", "Z-20.", "G80"] },
    { name: "repeats in G91", body: [...T3, "G99 G91 G81 X10. Y0. Z-22. R-48. F450. L3", "G90 G80"] },
    { name: "a pecking cycle", body: [...T3, "G99 G83 X0. Y0. Z-20. R2. Q8. F450.", "X20.", "G80"] },
    { name: "a tap in and out", body: [...TAP, "G84 X0. Y0. Z-18. R5. F525.", "G80"] },
  ]),
  ...rows("point-where-whole", [
    {
      name: "half a tool",
      body: ["T3.5 M6"],
      expect: { severity: "warning", line: 3, word: "T3.5", says: ["T3"] },
    },
    {
      name: "half a millisecond",
      body: ["G4 P0.5"],
      shop: key("dwellP: ms"),
      expect: { severity: "warning", line: 3, word: "P0.5", says: ["0.5 ms", "P500"] },
    },
    { name: "seconds", body: ["G4 P0.5"], shop: key("dwellP: s") },
    { name: "whole with a point", body: ["T3. M6", "G43 H3. Z50."] },
  ]),
  ...rows("pattern-differs", [
    {
      name: "24 spots, 23 holes",
      body: two(list(...upTo(23)), list(...upTo(22))),
      expect: { severity: "warning", line: 30, word: "X460.", count: 1, says: ["24 places", "T3 23", "list of T1"] },
    },
    {
      name: "one place has another number",
      body: two(list(...upTo(23)), [...list(...upTo(22)), "X461."]),
      expect: { severity: "warning", line: 59, word: "X461.", measured: 23, limit: 24, says: ["list of T3"] },
    },
    { name: "the same list", body: two(list(...upTo(23)), list(...upTo(23))) },
    { name: "the same list backwards", body: two(list(...upTo(23)), list(...upTo(23).reverse())) },
    { name: "every second hole is meant", body: two(list(...upTo(23)), list(...upTo(12))) },
    { name: "a short list", body: two(list(1, 2, 3), list(1, 2)) },
  ]),
  ...rows("units-doubtful", [
    {
      name: "feeds and depths of an inch program",
      body: [...T3, "G99 G81 X0. Y0. Z-.8 R.1 F17.7", "X1.", "G80"],
      expect: { severity: "error", line: 2, word: "G21", measured: 2, says: ["0.80 mm (0.031 in)", "G20"] },
    },
    {
      name: "feeds of an inch program, and holes that no drill is made for",
      body: [...approach(8, 300, "M8"), "G99 G83 X0. Y0. Z-2.1 R.1 Q.5 F3.5", "X3.", "G80"],
      expect: { severity: "error", line: 2, word: "G21", measured: 2, says: ["no hole is 0.15 x D deep", "G20"] },
    },
    { name: "a shallow hole alone", body: [...T3, "G99 G81 X0. Y0. Z-.8 R.1 F450.", "G80"] },
    { name: "a comment alone", body: ["(ALL DIMENSIONS IN INCHES)", ...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "G80"] },
  ]),
  {
    check: "units-doubtful",
    name: "sizes of mm drills in an inch program",
    text: [
      "%",
      "(DRILL SIZE 10.2 MM)",
      "G20 G17 G40 G49 G80 G90 G94 G54",
      "T3 M6",
      "G0 X0. Y0. S2500 M3",
      "G43 H3 Z2. M88",
      "G99 G81 X0. Y0. Z-.8 R.1 F17.7",
      "G80",
      "M30",
    ].join("\n"),
    expect: [],
  },
  ...(["reach", "r-plane-high", "feed-mode", "units-doubtful"] as const).map(
    (check): Case => ({
      check,
      name: "mm in a program in inches: one finding",
      text: program(...T3, "G98 G81 X10. Y10. Z-40. R2. F560.", "G80").replace("G21", "G20"),
      expect:
        check === "units-doubtful"
          ? [{ severity: "error", line: 2, word: "G20", says: ["40.000 in (1016.00 mm) deep", "Way out: G21"] }]
          : [],
    }),
  ),
  {
    check: "reach",
    name: "told again where somebody answers for the unit",
    text: program(
      "(CUT ALLOW units-doubtful UP TO 2 BY AB BECAUSE A LONG PART)",
      ...T3,
      "G98 G81 X10. Y10. Z-40. R2. F560.",
      "G80",
    ).replace("G21", "G20"),
    expect: [{ severity: "error", line: 8, word: "Z-40." }],
  },
  {
    check: "vc-window",
    name: "over the speed limit, which is told with an S for both",
    text: program(...approach(3, 11000), "G81 X0. Y0. Z-20. R2. F1800."),
    expect: [],
  },
  {
    check: "rpm-limit",
    name: "the tool's window ends below the limit",
    text: program(...approach(3, 11000), "G81 X0. Y0. Z-20. R2. F1800."),
    expect: [
      { severity: "error", line: 4, word: "S11000", says: ["S3432 or less", "window of T3 ends", "F561 mm/min"] },
    ],
  },
  {
    check: "vc-window",
    name: "over a speed limit that nobody wants told",
    text: program(...approach(3, 11000), "G81 X0. Y0. Z-20. R2. F1800."),
    shop: [["units: mm\n", "units: mm\nseverity: { rpm-limit: off }\n"]],
    expect: [{ severity: "warning", line: 4, word: "S11000" }],
  },
  ...rows("tip-allowance", [
    {
      name: "a round depth",
      body: ["(12 DRILL THRU)", ...approach(5, 500, "M8"), "G83 X0. Y0. Z-25. R2. Q12. F90.", "G80"],
      shop: NO_STOCK,
      expect: { severity: "info", line: 8, word: "Z-25.", measured: -21.395, says: ["3.61 mm", "-28.61 mm"] },
    },
    {
      name: "a depth with the point added",
      body: ["(12 DRILL THRU)", ...approach(5, 500, "M8"), "G83 X0. Y0. Z-28.7 R2. Q12. F90.", "G80"],
      shop: NO_STOCK,
    },
    {
      name: "a blind hole",
      body: ["(12 DRILL)", ...approach(5, 500, "M8"), "G83 X0. Y0. Z-25. R2. Q12. F90.", "G80"],
      shop: NO_STOCK,
    },
    {
      name: "coolant through the tool",
      body: ["(12 DRILL THRU COOLANT)", ...approach(5, 500, "M8"), "G83 X0. Y0. Z-25. R2. Q12. F90.", "G80"],
      shop: NO_STOCK,
    },
  ]),
  ...rows("tool-change", [
    {
      name: "the run goes on with the new tool",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "T4 M6", "X20.", "G80"],
      expect: { severity: "error", line: 8, word: "M6", says: ["G80"] },
    },
    {
      name: "in a run, but nothing is drilled after it",
      body: [...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "T4 M6", "G80"],
      expect: { severity: "warning", line: 8, word: "M6" },
    },
  ]),
  ...rows("peck-style", [
    {
      name: "pecks of four times the diameter",
      body: [...approach(5, 500, "M8"), "G83 X0. Y0. Z-90. R2. Q48. F90.", "G80"],
      expect: { severity: "info", line: 7, word: "Q48.", measured: 48, limit: 36, says: ["4 x D", " in)"] },
    },
    {
      name: "pecks of twice the diameter",
      body: [...approach(5, 500, "M8"), "G83 X0. Y0. Z-90. R2. Q24. F90.", "G80"],
    },
  ]),
  ...rows("dwell-long", [
    {
      name: "a dwell in the wrong unit",
      body: [...T3, "G82 X0. Y0. Z-20. R2. P0.5 F450.", "G80"],
      expect: { severity: "info", line: 7, word: "P0.5", says: ["half a turn"] },
    },
    { name: "one turn", body: [...T3, "G82 X0. Y0. Z-20. R2. P24 F450.", "G80"] },
  ]),
];
