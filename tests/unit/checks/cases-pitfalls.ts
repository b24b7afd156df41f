/** Slips that a program hides well: points, hands, systems and modes that were left out, and what is sound beside them. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const HOLE = "G99 G81 X0. Y0. Z-20. R2. F450.";
const DIALECT = "dialect: generic-mill";
const STOCK = "    stock: { wcs: G54, solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }] }\n";
const key = (text: string): readonly (readonly [string, string])[] => [
  [DIALECT, `dialect: { inherit: generic-mill, ${text} }`],
];
/** The dialect alone knows where the part is. */
const bare = (text: string): readonly (readonly [string, string])[] => [...key(text), [STOCK, ""]];
const STEPS = key("decimalMode: least-increment");
const PLAIN = key("decimalMode: calculator");
const LEFT: readonly (readonly [string, string])[] = [["family: tap, DC: 12,", "family: tap, DC: 12, hand: left,"]];
const TAP = (m: string, cycle = "G74") => [
  "T9 M6",
  `G0 X0. Y0. S300 ${m}`,
  "G43 H9 Z50. M8",
  "G4 P3000",
  `${cycle} Z-20. R5. F525.`,
  "G80",
];
/** A whole program without the codes of one group in its first line. */
const without = (code: string, ...body: readonly string[]): string => program(...body).replace(` ${code}`, "");
const END = ["G80 M9", "G0 Z50. M5"];

export const PITFALL_CASES: readonly Case[] = [
  ...rows("missing-point", [
    {
      name: "a depth without a point beside words with one",
      body: [...T3, "G99 G81 X10. Y10. Z-25 R2. F450.", "X20.", "G80"],
      shop: STEPS,
      expect: {
        severity: "error",
        line: 7,
        word: "Z-25",
        measured: 0.025,
        limit: 0.1,
        unit: "mm",
        says: ["Z-25.", " in)"],
      },
    },
    {
      name: "the second R of a program",
      body: [...T3, HOLE, "G80", "G99 G81 X40. Y0. Z-20. R2", "G80"],
      shop: STEPS,
      expect: { severity: "error", line: 9, word: "R2", says: ["X40."] },
    },
    { name: "all in increments", body: [...T3, "G99 G81 X10000 Y10000 Z-25000 R2000 F450", "G80"], shop: STEPS },
    { name: "zero", body: [...T3, "G99 G81 X0 Y10. Z-25. R2. F450.", "G80"], shop: STEPS },
    {
      name: "small on purpose beside small ones",
      body: [...T3, "G0 Z2.", "G1 Z-.05 F450.", "Z-60", "G0 Z50."],
      shop: STEPS,
    },
    { name: "an argument of a macro", body: [...T3, "G65 P7 X10. Z-25 R2."], shop: STEPS },
    { name: "values of variables", body: [...T3, "#1=25", "G99 G81 X10. Y10. Z-#1 R2. F450.", "G80"], shop: STEPS },
    { name: "a dwell", body: [...T3, "G4 X2", HOLE, "G80"], shop: STEPS },
    {
      name: "both ways of writing whole numbers",
      body: [...T3, "G99 G81 X10. Y10 Z-25. R2. F450.", "X20", "G80"],
      shop: PLAIN,
      expect: { severity: "info", line: 7, word: "Y10", count: 1, says: ["Z50."] },
    },
    { name: "points only where they are needed", body: ["G0 X10 Y10.5", "X20 Y-.5", "X30 Z50"], shop: PLAIN },
    { name: "points everywhere", body: [...T3, HOLE, "G80"], shop: PLAIN },
    { name: "a dialect that does not say", body: [...T3, "G99 G81 X10. Y10 Z-25. R2. F450.", "G80"] },
  ]),
  ...rows("dialect-rule", [
    {
      name: "what `missing-point` tells is not told twice",
      body: [...T3.slice(0, 3), "G4 X3.", "G99 G81 X10. Y10. Z-25 R2. F450.", "G80"],
      shop: key("decimalMode: least-increment, dwellP: ms"),
    },
    {
      name: "G91 in a run, levels kept as positions",
      body: [...T3, HOLE, "G91 X20. L4", "G90 G80"],
      shop: key("dwellP: ms"),
      expect: { severity: "warning", line: 8, word: "G91", says: ["stay where they were", "Way out: R and the depth"] },
    },
    {
      name: "G91 in a run, numbers read anew: another bottom",
      body: [...T3, HOLE, "G91 X20. L4", "G90 G80"],
      shop: key("stickyKind: number, dwellP: ms"),
      expect: { severity: "error", line: 8, word: "G91", says: ["52.00 mm", " in)"] },
    },
    {
      name: "the same bottom by chance",
      body: [...T3.slice(0, 2), "G43 H3 Z0. M88", "G4 P3000", "G99 G81 X0. Y0. Z-20. R0. F450.", "G91 X20.", "G90 G80"],
      shop: key("stickyKind: number, dwellP: ms"),
      expect: { severity: "warning", line: 8, word: "G91", says: ["read anew"] },
    },
    {
      name: "with R and Z of its own",
      body: [...T3, HOLE, "G91 X20. R-48. Z-22.", "G90 G80"],
      shop: key("dwellP: ms"),
    },
    {
      name: "a local variable that nothing set as a place",
      body: ["G0 X10. Y#1"],
      expect: { severity: "warning", line: 3, word: "Y#1", says: ["never set"] },
    },
    {
      name: "a feed from one",
      body: ["G0 X10. Y5.", "F#1"],
      expect: { severity: "info", line: 4, word: "F#1" },
    },
    {
      name: "the empty variable, on purpose",
      body: ["G0 X10. Y#0"],
      expect: { severity: "info", line: 3, word: "Y#0" },
    },
    { name: "a common variable is set elsewhere", body: ["#1=2", "G0 X10. Y#1"] },
  ]),
  {
    check: "dialect-rule",
    name: "an argument that the call leaves out",
    text: "G21 G90 G54\nG65 P7 X5.\nM30\nO7\nG0 X#24 Y#25\nM99",
    expect: [{ severity: "info", line: 5, word: "Y#25" }],
  },
  ...rows("spindle-state", [
    {
      name: "G74 with M3",
      body: TAP("M3"),
      expect: { severity: "error", line: 7, word: "G74", says: ["left-hand", "M4", "G84"] },
    },
    { name: "G74 with M4", body: TAP("M4") },
    { name: "G84 with M3", body: TAP("M3", "G84") },
    {
      name: "G84 with M4",
      body: TAP("M4", "G84"),
      expect: { severity: "error", line: 7, word: "G84" },
    },
    { name: "a left-hand tap in G84 with M4", body: TAP("M4", "G84"), shop: LEFT },
    {
      name: "a left-hand tap in G74 with M3",
      body: TAP("M3"),
      shop: LEFT,
      expect: { severity: "error", line: 7, word: "G74", silentOn: ["G84"] },
    },
    { name: "a rigid G74 turns by itself", body: TAP("M3"), shop: key("rigidTap: always") },
    { name: "M29 before G74", body: [...TAP("M3").slice(0, 4), "M29 S300", "G74 Z-20. R5. F525.", "G80"] },
  ]),
  {
    check: "work-system-late",
    name: "none in the whole program",
    text: without("G54", ...T3, HOLE, ...END),
    expect: [{ severity: "warning", line: 7, word: HOLE, says: ["no work system", "G54"] }],
  },
  { check: "work-system-late", name: "named", text: program(...T3, HOLE, ...END), expect: [] },
  {
    check: "work-system-late",
    name: "lines of a program",
    text: "G21 G90 G94\nS2500 M3\nM88\nG4 P3000\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    expect: [],
  },
  {
    check: "work-system-late",
    name: "a zero of its own by G92",
    text: without("G54", "G92 X0. Y0.", ...T3, HOLE, ...END, "G92.1"),
    expect: [],
  },
  ...rows("work-system-low", [
    {
      name: "across at R after the run",
      body: [...T3, HOLE, "G80", "G55", "G0 X0. Y0.", "Z50."],
      expect: { severity: "warning", line: 9, word: "G55", measured: 2, limit: 5, unit: "mm", says: [" in)"] },
    },
    {
      name: "in one block",
      body: [...T3, HOLE, "G80", "G55 G0 X100."],
      expect: { severity: "warning", line: 9, word: "G55 G0 X100." },
    },
    {
      name: "in a run that returns to R",
      body: [...T3, HOLE, "G55 X20.", "G80"],
      expect: { severity: "warning", line: 8, word: "G55 X20." },
    },
    { name: "raised first", body: [...T3, HOLE, "G80", "G0 Z50.", "G55", "G0 X0. Y0."] },
    { name: "raised in the next block", body: [...T3, HOLE, "G80", "G55", "G0 Z50.", "X0. Y0."] },
    { name: "raised by the run", body: [...T3, HOLE.replace("G99", "G98"), "G80", "G55", "G0 X0. Y0."] },
    { name: "home first", body: [...T3, HOLE, "G80", "G91 G28 Z0.", "G90 G55", "G0 X0. Y0."] },
    { name: "the same system again", body: [...T3, HOLE, "G80", "G54", "G0 X40."] },
  ]),
  {
    check: "feed-mode-open",
    name: "neither G94 nor G95",
    text: without("G94", ...T3, HOLE, ...END),
    expect: [{ severity: "info", line: 7, word: "F450.", says: ["G94", "G95"] }],
  },
  {
    check: "feed-mode-open",
    name: "once, whatever is drilled",
    text: without(
      "G94",
      ...T3,
      HOLE,
      "X20.",
      "G80",
      ...approach(4, 3200, "M8"),
      "G99 G81 X90. Y0. Z-12. R2. F576.",
      ...END,
    ),
    expect: [{ severity: "info", line: 7, word: "F450." }],
  },
  { check: "feed-mode-open", name: "written", text: program(...T3, HOLE, ...END), expect: [] },
  {
    check: "feed-mode-open",
    name: "written before the first cut",
    text: without("G94", ...T3, "G94", HOLE, ...END),
    expect: [],
  },
  {
    check: "feed-mode-open",
    name: "a tap is judged by its lead",
    text: without("G94", ...TAP("M3", "G84"), ...END),
    expect: [],
  },
  {
    check: "feed-mode-open",
    name: "lines of a program",
    text: "G21 G90\nS2500 M3\nM88\nG4 P3000\nG81 X0. Y0. Z-5. R2. F450.\nG80",
    expect: [],
  },
  ...rows("coolant-at-stop", [
    {
      name: "on at M1",
      body: [...T3, HOLE, "G80", "M1"],
      expect: { severity: "info", line: 9, word: "M1", says: ["M88", "M9"] },
    },
    { name: "off before", body: [...T3, HOLE, "G80 M9", "M1"] },
    { name: "off in the block", body: [...T3, HOLE, "G80", "M9 M1"] },
    { name: "the control stops it", body: [...T3, HOLE, "G80", "M0"], shop: key("m0StopsCoolant: true") },
  ]),
  ...rows("end-running", [
    {
      name: "both on",
      body: [...T3, HOLE, "G80", "G0 Z50."],
      expect: { severity: "info", line: 10, word: "M30", says: ["M3", "M88", "M5 and M9"] },
    },
    {
      name: "the spindle alone",
      body: [...T3, HOLE, "G80 M9", "G0 Z50."],
      expect: { severity: "info", line: 10, word: "M30", silentOn: ["M88", "M9"] },
    },
    { name: "both off", body: [...T3, HOLE, ...END] },
    { name: "the control stops them", body: [...T3, HOLE, "G80", "G0 Z50."], shop: key("endStopsSpindle: true") },
    { name: "nothing is drilled", body: ["S2500 M3", "G0 X5."] },
  ]),
  {
    check: "end-running",
    name: "off in the last block",
    text: program(...T3, HOLE, "G80", "G0 Z50.").replace("M30", "M5 M9 M30"),
    expect: [],
  },
  ...rows("too-deep", [
    {
      name: "far below `stockBottom`",
      body: [...T3, HOLE.replace("Z-20.", "Z-40."), "G80"],
      shop: bare("stockBottom: -25"),
      expect: { severity: "warning", line: 7, word: "Z-40.", measured: -40, unit: "mm", says: ["15.00 mm", " in)"] },
    },
    {
      name: "its point and a little",
      body: [...T3, HOLE.replace("Z-20.", "Z-30."), "G80"],
      shop: bare("stockBottom: -25"),
    },
    {
      name: "far below the stock",
      body: [...T3, HOLE.replace("Z-20.", "Z-215."), "G80"],
      expect: { severity: "warning", line: 7, word: "Z-215." },
    },
    { name: "nothing declared", body: [...T3, HOLE.replace("Z-20.", "Z-40."), "G80"], shop: [[STOCK, ""]] },
    {
      name: "a tap goes deeper",
      body: TAP("M3", "G84").map((line) => line.replace("Z-20.", "Z-40.")),
      shop: bare("stockBottom: -25"),
    },
  ]),
  ...rows("r-plane-high", [
    {
      name: "above the surface that the dialect tells",
      body: [...T3, HOLE.replace("R2.", "R40."), "G80"],
      shop: bare("stockTop: 0"),
      expect: { severity: "info", line: 7, word: "R40.", measured: 40, limit: 25 },
    },
    {
      name: "`clearanceMin` tells it too",
      body: [...T3, HOLE.replace("R2.", "R40."), "G80"],
      shop: bare("clearanceMin: 1"),
      expect: { severity: "info", line: 7, word: "R40." },
    },
    { name: "nothing tells it", body: [...T3, HOLE.replace("R2.", "R40."), "G80"], shop: [[STOCK, ""]] },
  ]),
  ...rows("hole-in-air", [
    {
      name: "above the surface that the dialect tells",
      body: [...T3, "G99 G81 X0. Y0. Z5. R8. F450.", "G80"],
      shop: bare("stockTop: 0"),
      expect: { severity: "warning", line: 7, word: "Z5.", measured: 5, limit: 0, silentOn: ["stock"] },
    },
    {
      name: "work zero at the bottom, told",
      body: [...T3, "G99 G81 X0. Y0. Z5. R28. F450.", "G80"],
      shop: bare("stockTop: 25"),
    },
    { name: "nothing tells it", body: [...T3, "G99 G81 X0. Y0. Z5. R8. F450.", "G80"], shop: [[STOCK, ""]] },
  ]),
];
