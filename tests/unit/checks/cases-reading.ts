/** Words that mean something else than they seem to: what is told of them, and what must not be. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach } from "./shop.ts";

const T3 = approach(3, 2500);
const DIALECT = "dialect: generic-mill";
const key = (text: string): readonly (readonly [string, string])[] => [
  [DIALECT, `dialect: { inherit: generic-mill, ${text} }`],
];
const TURN: readonly (readonly [string, string])[] = [
  [
    "kind: mill\n    dialect: generic-mill",
    "kind: turn\n    dialect: { inherit: generic-turn, liveSpindle: { M33: cw, M35: stop } }",
  ],
];
const turned = (...lines: readonly string[]): string => ["G21 G98", "T0303", ...lines, "M30"].join("\n");
const SIDE = ["M33 S2500", "G0 X60. Z-10. C0 M88", "G4 U3."];
const CENTRE = ["G97 S2500 M3", "G0 X0. Z5. M88", "G4 U3."];
const HOLE = "G99 G81 X0. Y0. Z-20. R2. F450.";
const FROM_INITIAL = "G99 G81 X0. Y0. Z-20. R-48. F450.";
const CODES = ["T9 M6", "G43 H9 Z50. M8", "G4 P3000", "S300 F525.", "G84.2 X1. Y1. Z-15. R5."];
const silent = (check: string, name: string, text: string): Case => ({ check, name, text, shop: TURN, expect: [] });

export const READING_CASES: readonly Case[] = [
  ...rows("stopped-in-hole", [
    {
      name: "R as the way from the level before: the tool is out after the cycle",
      body: [...T3, FROM_INITIAL, "X20.", "G80", "M9", "M5"],
      shop: key("cycleR: from-initial"),
    },
    {
      name: "a rigid tap of its own code ends at its return level",
      body: [...CODES, "G80", "M9"],
      shop: key("rigidTap: codes"),
    },
    {
      name: "a level from a variable is known to the control",
      body: [...T3, "#1=-10.", "G0 Z2.", "G1 Z#1 F450.", "M5", "G0 Z50."],
      expect: { severity: "warning", line: 10, word: "M5", measured: -10, limit: 0 },
    },
  ]),
  ...rows("end-state", [
    {
      name: "R as the way from the level before",
      body: [...T3, FROM_INITIAL, "G80 M9", "M5"],
      shop: key("cycleR: from-initial"),
    },
    { name: "a rigid tap of its own code", body: [...CODES, "G80 M9", "G0 X50."], shop: key("rigidTap: codes") },
    {
      name: "low by an increment",
      body: [...T3, HOLE, "G80", "G0 Z2.", "G91 G1 Z-7. F450.", "G90"],
      expect: { severity: "warning", line: 12, word: "M30", measured: -5, limit: 0 },
    },
  ]),
  ...rows("low-rapid", [
    {
      name: "a rigid tap of its own code returns to the level before it",
      body: [...CODES, "G80 M9", "G0 X50."],
      shop: key("rigidTap: codes, clampHeight: 20"),
    },
    {
      name: "R as the way: to R, below the clamps",
      body: [...T3, FROM_INITIAL, "G80 M9", "G0 X50.", "Z50."],
      shop: key("cycleR: from-initial, clampHeight: 20"),
      expect: { severity: "warning", line: 9, word: "G0 X50.", measured: 2, limit: 20 },
    },
    {
      name: "G98 with R as the way",
      body: [...T3, FROM_INITIAL.replace("G99", "G98"), "G80 M9", "G0 X50."],
      shop: key("cycleR: from-initial, clampHeight: 20"),
    },
  ]),
  ...rows("diagonal-approach", [
    { name: "a cycle is no rapid", body: [...CODES, "G80 M9"], shop: key("rigidTap: codes") },
  ]),
  silent(
    "cycle-word-missing",
    "at the face without R",
    turned("G99", ...CENTRE, "G83 Z-20. Q8000 F.18", "G80", "G0 Z50. M9"),
  ),
  silent(
    "cycle-word-missing",
    "in the side without R",
    turned(...SIDE, "G87 X30. Q5000 F450.", "C90.", "C180.", "G80", "G0 X100. M9", "M35"),
  ),
  silent(
    "cycle-depth-order",
    "R that may be a way is not an error while the key is undeclared",
    turned(...SIDE, "G87 X30. R-5. Q5000 F450.", "C90.", "G80", "G0 X100. M9", "M35"),
  ),
  {
    check: "dialect-rule",
    name: "R that may be a way is told once",
    text: turned(...SIDE, "G87 X30. R-5. Q5000 F450.", "C90.", "G80", "G0 X100. M9", "M35"),
    shop: TURN,
    expect: [{ severity: "info", line: 6, word: "R-5.", says: ["`cycleR: absolute` or `from-initial`"], count: 1 }],
  },
  {
    check: "cycle-depth-order",
    name: "R that can be neither a level nor a way",
    text: turned(...SIDE, "G87 X30. R-35. Q5000 F450.", "G80", "G0 X100. M9", "M35"),
    shop: TURN,
    expect: [{ severity: "error", line: 6, word: "R-35." }],
  },
  ...rows("dialect-rule", [
    {
      name: "P of G54 in a run is the number of the system, no dwell",
      body: [...T3.slice(0, 3), "G4 X3.", HOLE, "G54 P3 X30.", "G80"],
    },
    {
      name: "a variable whose number is no whole number",
      body: ["#1.5=2"],
      expect: { severity: "error", line: 3, word: "#1.5", says: ["whole number"], silentOn: ["always empty", "#2"] },
    },
    {
      name: "the empty variable",
      body: ["#0=2"],
      expect: { severity: "error", line: 3, word: "#0", says: ["always empty"] },
    },
  ]),
  ...rows("syntax", [
    {
      name: "polar words",
      body: ["@5. ^30"],
      expect: { severity: "warning", line: 3, word: "@5. ^30", says: ["position is unknown", "X and Y"] },
    },
    { name: "a sign alone is not one", body: ["G0 X1. @"], expect: { severity: "error", line: 3, word: "@" } },
  ]),
  ...rows("cycle-at-home", [
    {
      name: "polar words say where",
      body: ["T3 M6", "S2500 M3", "G43 H3 Z50. M88", "G99 G81 @5. ^30 Z-20. R2. F450.", "G80"],
    },
  ]),
  ...rows("cycle-plane", [
    {
      name: "Z cycles in G18: the plane is at fault, not a sign",
      body: [...T3, "G18", "G99 G81 X10. Y10. Z-20. R2. F126.", "X30.", "G80"],
      expect: { severity: "error", line: 8, word: "G81", count: 2, says: ["G18", "along Y", "Way out: G17", " in)"] },
    },
  ]),
  ...rows("cycle-depth-order", [
    {
      name: "nothing of signs where the plane is at fault",
      body: [...T3, "G18", "G99 G81 X10. Y10. Z-20. R2. F126.", "X30.", "G80"],
    },
  ]),
  ...rows("cycle-word-missing", [
    {
      name: "no depth along the axis of the plane",
      body: [...T3, "G18", "G99 G81 X10. Z-20. R2. F126.", "G80"],
      expect: { severity: "error", line: 8, word: "G81", says: ["G18", "Way out: G17"] },
    },
  ]),
  {
    check: "subprogram",
    name: "M17 returns from a subprogram",
    text: `G21 G90\nM98 P7\nM30\nO7\nG0 X5.\nM17`,
    expect: [],
  },
];
