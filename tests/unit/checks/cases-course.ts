/** The order of things: modes left in force, tools left low, cycles left active, and what must stay silent beside them. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const HOLE = "G99 G81 X0. Y0. Z-20. R2. F450.";
const DIALECT = "dialect: generic-mill";
const key = (text: string): readonly (readonly [string, string])[] => [
  [DIALECT, `dialect: { inherit: generic-mill, ${text} }`],
];
const on = (id: string): readonly (readonly [string, string])[] => [
  ["units: mm", `units: mm\nseverity: { ${id}: info }`],
];

export const COURSE_CASES: readonly Case[] = [
  ...rows("cycle-left-active", [
    {
      name: "home in a run",
      body: [...T3, HOLE, "G91 G28 Z0.", "G90"],
      expect: { severity: "warning", line: 8, word: "G28", says: ["G81", "G80"] },
    },
    { name: "G80 before it", body: [...T3, HOLE, "G80", "G91 G28 Z0.", "G90"] },
    { name: "G0 of the move home ends the cycle", body: [...T3, HOLE, "G53 G0 Z0."] },
    { name: "the next tool is staged in the run", body: [...T3, HOLE, "T4", "X20.", "G80"] },
  ]),
  ...rows("g91-left-active", [
    {
      name: "the approach after G91 G28",
      body: ["G0 X1. Y1.", "G91 G28 Z0.", "X20. Y20."],
      expect: { severity: "warning", line: 5, word: "X20. Y20.", says: ["G90"] },
    },
    { name: "a whole program in G91", body: ["G91", "G0 X1. Y1.", "G91 G28 Z0.", "X20. Y20."] },
    { name: "G90 in the approach", body: ["G91 G28 Z0.", "G90 X20. Y20."] },
    { name: "a second axis goes home, then the end", body: ["G91 G28 Z0.", "G28 X0. Y0."] },
    { name: "G91 is meant", body: ["G91 G28 Z0.", "G91 G0 X20."] },
  ]),
  ...rows("list-after-cancel", [
    {
      name: "G0 in the list",
      body: [...T3, HOLE, "X20.", "G0 X40.", "X60.", "X80.", "G80"],
      expect: { severity: "info", line: 9, word: "G0 X40.", count: 3, says: ["the 2 after it"] },
    },
    { name: "G80 before the path", body: [...T3, HOLE, "G80", "G0 X40.", "X60."] },
    { name: "one move away", body: [...T3, HOLE, "G0 X40.", "M9"] },
    { name: "up, then away", body: [...T3, HOLE, "G0 Z50.", "X40.", "X60."] },
  ]),
  ...rows("offset-cancelled-low", [
    {
      name: "G49 at R",
      body: [...T3, HOLE, "G80", "G49", "G0 Z50."],
      expect: { severity: "warning", line: 9, word: "G49", measured: 2, limit: 5, unit: "mm" },
    },
    { name: "home in the next block", body: [...T3, HOLE, "G80", "G49", "G53 G0 Z0."] },
    { name: "home in the same block", body: [...T3, HOLE, "G80", "G91 G28 Z0. G49", "G90"] },
    { name: "raised first", body: [...T3, HOLE, "G80", "G0 Z100.", "G49"] },
    { name: "the line at the top of a section", body: ["T3 M6", "G40 G49 G80", "G43 H3 Z50."] },
  ]),
  ...rows("stopped-in-hole", [
    {
      name: "M5 at the bottom",
      body: [...T3, "G0 Z2.", "G1 Z-10. F450.", "M5", "G0 Z50."],
      expect: { severity: "warning", line: 9, word: "M5", measured: -10, limit: 0, says: [" in)"] },
    },
    {
      name: "coolant off at the bottom",
      body: [...T3, "G0 Z2.", "G1 Z-10. F450.", "M9", "G0 Z50."],
      expect: { severity: "info", line: 9, word: "M9" },
    },
    {
      name: "M5 in the block that raises, acting after it",
      body: [...T3, "G0 Z2.", "G1 Z-10. F450.", "G0 Z50. M5 M9"],
    },
    {
      name: "M5 in the block that raises, acting before it",
      body: [...T3, "G0 Z2.", "G1 Z-10. F450.", "G0 Z50. M5"],
      shop: key("mTiming: all-before"),
      expect: { severity: "warning", line: 9, word: "M5" },
    },
    { name: "after a cycle the tool is out", body: [...T3, HOLE, "G80 M9", "M5"] },
  ]),
  ...rows("low-rapid", [
    {
      name: "across at R after the run",
      body: [...T3, HOLE, "G80", "G0 X100.", "Z50."],
      shop: key("clampHeight: 30"),
      expect: { severity: "warning", line: 9, word: "G0 X100.", measured: 2, limit: 30, says: [" in)"] },
    },
    {
      name: "to the next fixture without a retract",
      body: [...T3, HOLE, "G80", "G55 G0 X100.", "Z50."],
      shop: key("clampHeight: 30"),
      expect: { severity: "warning", line: 9, word: "G55 G0 X100.", measured: 2, limit: 30 },
    },
    {
      name: "the return level of the run counts, not that of the block",
      body: [...T3, HOLE, "G98 G0 X100.", "Z50."],
      shop: key("clampHeight: 30"),
      expect: { severity: "warning", line: 8, word: "G98 G0 X100.", measured: 2 },
    },
    { name: "above the clamps", body: [...T3, HOLE, "G80", "G0 Z50.", "X100."], shop: key("clampHeight: 30") },
    { name: "no clamps declared", body: [...T3, HOLE, "G80", "G0 X100."] },
    { name: "from home", body: [...T3, HOLE, "G80", "G91 G28 Z0.", "G90 G0 X100."], shop: key("clampHeight: 30") },
  ]),
  ...rows("diagonal-approach", [
    {
      name: "down and across",
      body: ["G0 Z50.", "G0 X10. Y10. Z2."],
      expect: { severity: "info", line: 4, word: "G0 X10. Y10. Z2.", measured: 2, limit: 5 },
    },
    { name: "ends well above", body: ["G0 Z100.", "G0 X10. Y10. Z50."] },
    { name: "goes up", body: ["G0 Z1.", "G0 X10. Y10. Z3."] },
    { name: "straight rapids", body: ["G0 Z50.", "G0 X10. Y10. Z2."], shop: key("rapidPath: linear") },
  ]),
  ...rows("cycle-at-home", [
    {
      name: "no place since the tool change",
      body: ["T3 M6", "S2500 M3", "G43 H3 Z50. M88", "G99 G81 Z-20. R2. F450.", "X20.", "G80"],
      expect: { severity: "warning", line: 6, word: "G81" },
    },
    { name: "placed before", body: [...T3, "G99 G81 Z-20. R2. F450.", "X20.", "G80"] },
    { name: "placed in the block", body: ["T3 M6", "S2500 M3", "G43 H3 Z50. M88", HOLE, "G80"] },
    {
      name: "only stored",
      body: ["T3 M6", "S2500 M3", "G43 H3 Z50. M88", "G99 G81 Z-20. R2. F450. L0", "X20.", "G80"],
    },
  ]),
  ...rows("coolant-at-change", [
    {
      name: "on at M6",
      body: [...T3, HOLE, "G80", "T4 M6"],
      shop: key("m6StopsCoolant: false"),
      expect: { severity: "info", line: 9, word: "M6", says: ["M88"] },
    },
    { name: "off before", body: [...T3, HOLE, "G80 M9", "T4 M6"], shop: key("m6StopsCoolant: false") },
    { name: "the control stops it", body: [...T3, HOLE, "G80", "T4 M6"] },
  ]),
  ...rows("low-tool-change", [
    {
      name: "at R",
      body: [...T3, HOLE, "G80", "T4 M6"],
      shop: key("m6RetractsZ: false"),
      expect: { severity: "warning", line: 9, word: "M6", measured: 2, limit: 5 },
    },
    { name: "home first", body: [...T3, HOLE, "G80", "G91 G28 Z0.", "T4 M6"], shop: key("m6RetractsZ: false") },
    { name: "home in the block", body: [...T3, HOLE, "G80", "G91 G28 Z0. T4 M6"], shop: key("m6RetractsZ: false") },
    { name: "the control raises it", body: [...T3, HOLE, "G80", "T4 M6"] },
  ]),
  ...rows("tool-not-loaded", [
    {
      name: "selected last, never loaded",
      body: [...T3, HOLE, "G80", "T4", "G0 X20."],
      expect: { severity: "warning", line: 9, word: "T4", says: ["T3 stays"] },
    },
    { name: "the first tool is staged for the next part", body: ["T4 M6", ...T3, HOLE, "G80", "T4"] },
    { name: "T0 at the end", body: [...T3, HOLE, "G80", "T0"] },
    { name: "staged early and loaded", body: ["T3 M6", "T4", "G0 X1.", "M6", "G0 X2."] },
    {
      name: "the same tool again",
      body: ["T3 M6", "G0 X1.", "T3 M6"],
      expect: { severity: "info", line: 5, word: "M6", says: ["T3 is in the spindle"] },
    },
  ]),
  {
    check: "work-system-late",
    name: "the first holes are in none",
    text: "G21 G90 G94\nS2500 M3\nM88\nG4 P3000\nG81 X0. Y0. Z-5. R2. F450.\nG80\nG55\nG81 X0. Y0. Z-5. R2. F450.\nG80\nM30",
    expect: [{ severity: "warning", line: 5, word: "G81 X0. Y0. Z-5. R2. F450.", says: ["G55", "line 7"] }],
  },
  {
    check: "work-system-late",
    name: "one fixture",
    text: "G21 G90 G94\nS2500 M3\nM88\nG4 P3000\nG81 X0. Y0. Z-5. R2. F450.\nG80\nM30",
    expect: [],
  },
  ...rows("work-system-late", [{ name: "named at the top", body: [...T3, HOLE, "G80", "G55", HOLE, "G80"] }]),
  ...rows("shift-left-active", [
    {
      name: "G92 at the end",
      body: ["G92 X10. Y0.", "G0 X0. Y0."],
      expect: { severity: "warning", line: 3, word: "G92", says: ["line 5", "G92.1"] },
    },
    {
      name: "G52 at the end",
      body: ["G52 X10. Y0.", "G0 X0. Y0."],
      expect: { severity: "info", line: 3, word: "G52" },
    },
    { name: "set back", body: ["G52 X10. Y0.", "G0 X0. Y0.", "G52 X0. Y0."] },
    { name: "cancelled", body: ["G92 X10. Y0.", "G0 X0. Y0.", "G92.1"] },
  ]),
  ...rows("end-state", [
    {
      name: "the cycle is active",
      body: [...T3, HOLE],
      expect: { severity: "info", line: 8, word: "M30", says: ["G81", "G80"] },
    },
    {
      name: "the tool is in the part",
      body: [...T3, HOLE, "G80", "G0 Z2.", "G1 Z-5. F450."],
      expect: { severity: "warning", line: 11, word: "M30", measured: -5, limit: 0 },
    },
    { name: "home in G91", body: [...T3, HOLE, "G80 M9", "G91 G28 Z0.", "G28 X0. Y0."] },
    {
      name: "G91 of a list",
      body: [...T3, "G0 Z2.", "G91 G1 Z-10. F450.", "G0 Z60."],
      expect: { severity: "info", line: 10, word: "M30", says: ["G91"] },
    },
    { name: "all in the last lines", body: [...T3, HOLE, "G80 G0 Z50. M9"] },
    { name: "up and off", body: [...T3, HOLE, "G80 M9", "G0 Z50. M5"] },
    { name: "nothing is drilled", body: ["G91", "G28 Z0."] },
  ]),
  ...rows("stop-in-run", [
    {
      name: "M1 in a run",
      body: [...T3, HOLE, "M1", "X20.", "G80"],
      shop: on("stop-in-run"),
      expect: { severity: "info", line: 8, word: "M1", says: ["G81"] },
    },
    { name: "off by default", body: [...T3, HOLE, "M1", "X20.", "G80"] },
    { name: "after the run", body: [...T3, HOLE, "G80", "M1"], shop: on("stop-in-run") },
    { name: "before the change", body: ["M1", ...T3, HOLE, "G80"], shop: on("stop-in-run") },
  ]),
  ...rows("skip-changes-state", [
    {
      name: "coolant off or not",
      body: [...T3, "/M9", HOLE, "G80"],
      shop: on("skip-changes-state"),
      expect: { severity: "info", line: 7, word: "/M9", says: ["the coolant"] },
    },
    { name: "set anyway", body: [...T3, HOLE, "/M9", "M9"], shop: on("skip-changes-state") },
    { name: "a hole more or less", body: [...T3, HOLE, "/X20.", "X40.", "G80"], shop: on("skip-changes-state") },
    { name: "a stop", body: [...T3, HOLE, "G80", "/M1", "G0 Z50."], shop: on("skip-changes-state") },
    { name: "off by default", body: [...T3, "/M9", HOLE, "G80"] },
  ]),
  ...rows("start-line", [
    {
      name: "nothing after M6",
      body: [...T3, HOLE, "G80"],
      shop: on("start-line"),
      expect: { severity: "info", line: 3, word: "M6", says: ["G90, work system and G80"] },
    },
    { name: "off by default", body: [...T3, HOLE, "G80"] },
    {
      name: "a whole line",
      body: ["T3 M6", "G90 G54 G80", "G0 X0. Y0. S2500 M3", HOLE],
      shop: on("start-line"),
    },
  ]),
  ...rows("offset-overwritten", [
    {
      name: "written by a program that drills",
      body: ["G10 L2 P1 X0. Y0. Z0.", ...T3, HOLE, "G80"],
      expect: { severity: "info", line: 3, word: "G10" },
    },
    {
      name: "added to",
      body: ["G91 G10 L2 P1 X0. Y0. Z0.", "G90", ...T3, HOLE, "G80"],
      expect: { severity: "warning", line: 3, word: "G10", says: ["again at every run"] },
    },
    { name: "a program that only sets up", body: ["G10 L2 P1 X0. Y0. Z0."] },
    { name: "none", body: [...T3, HOLE, "G80"] },
  ]),
  ...rows("return-level", [
    {
      name: "G98 after G99",
      body: [...T3, HOLE, "G98 X20.", "X90.", "G80"],
      shop: key("initialLevel: before-block"),
      expect: { severity: "warning", line: 8, word: "G98" },
    },
    { name: "the level of the run is kept", body: [...T3, HOLE, "G98 X20.", "X90.", "G80"] },
    {
      name: "G98 from the start",
      body: [...T3, "G98 G81 X0. Y0. Z-20. R2. F450.", "X20.", "G80"],
      shop: key("initialLevel: before-block"),
    },
  ]),
  ...rows("rigid-tap-start", [
    {
      name: "M3 between",
      body: ["T9 M6", "G43 H9 Z50. M8", "G0 X0. Y0.", "M29 S300", "M3", "G84 Z-20. R5. F525.", "G80"],
      expect: { severity: "warning", line: 7, word: "M3" },
    },
    {
      name: "no S",
      body: ["T9 M6", "G43 H9 Z50. M8", "G0 X0. Y0.", "M29", "G84 Z-20. R5. F525.", "G80"],
      expect: { severity: "warning", line: 6, word: "M29", says: ["S in the block"] },
    },
    {
      name: "a drilling cycle after it",
      body: [...T3, "M29 S300", HOLE, "G80"],
      expect: { severity: "warning", line: 7, word: "M29", says: ["no tapping cycle"] },
    },
    {
      name: "as it should be",
      body: ["T9 M6", "G43 H9 Z50. M8", "G0 X0. Y0.", "M29 S300", "G84 Z-20. R5. F525.", "G80"],
    },
    { name: "tapping without M29", body: ["T9 M6", "G0 X0. Y0. S300 M3", "G84 Z-20. R5. F525.", "G80"] },
  ]),
  {
    check: "end-state",
    name: "the last block cancels the cycle, raises the tool and ends",
    text: program(...T3, HOLE).replace("M30", "G80 G0 Z50. M30"),
    expect: [],
  },
];
