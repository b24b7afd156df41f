/** Codes between the strokes of one hole, and what the checks must say about the stroke that cuts after them. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
/** Up to line 8: a first stroke as it should be. */
const FIRST = [...T3, "G0 Z2.", "G1 Z-10. F450."];
const OUT = ["G0 Z50. M9", "M5"];
/** A gun drill of 10 mm in the place of the spot drill. */
const GUN = [
  [
    "{ T: 1, family: spot, DC: 10, SIG: 90, LU: 20, coolant: external,",
    "{ T: 1, family: gun, DC: 10, SIG: 120, LU: 300, coolant: through, minPressure: 10,",
  ],
] as const;
const PILOT = [...T3, "G81 X0. Y0. Z-20. R2. F450.", "G80 M9", "G0 Z50. M5"];

export const STROKE_CASES: readonly Case[] = [
  ...rows("spindle-state", [
    {
      name: "M5 after a retract, then deeper",
      body: [...FIRST, "G0 Z2.", "M5", "G0 Z-9.", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 12, word: "Z-20.", count: 1, says: ["stands still", "goes on", "M3"] },
    },
    {
      name: "M5 in the hole, then deeper",
      body: [...FIRST, "M5", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20.", says: ["stands still"] },
    },
    {
      name: "M4 after a retract, then deeper",
      body: [...FIRST, "G0 Z2.", "M4", "G0 Z-9.", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 12, word: "Z-20.", says: ["wrong way", "M4"] },
    },
    {
      name: "M4 between two feed strokes",
      body: [...FIRST, "M4", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20.", says: ["wrong way"] },
    },
    {
      name: "S0 between two feed strokes",
      body: [...FIRST, "S0", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20.", says: ["S0", "goes on"] },
    },
    {
      name: "one M4, several strokes: one cause",
      body: [...FIRST, "M4", "G1 Z-15.", "G0 Z2.", "G0 Z-14.", "S2600", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-15.", count: 1 },
    },
    {
      name: "two holes with one shape count twice",
      body: [...FIRST, "M4", "G1 Z-20.", "G0 Z2. M3", "X20.", "G1 Z-10.", "M4", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20.", count: 2 },
    },
    {
      name: "a cycle that goes deeper at the place of another",
      body: [...T3, "G81 X0. Y0. Z-10. R2. F450.", "M4", "Z-20.", "G80", ...OUT],
      expect: { severity: "error", line: 9, word: "Z-20.", says: ["wrong way"] },
    },
    { name: "reversed on the way out", body: [...FIRST, "M4", "G1 Z2. F900.", ...OUT] },
    {
      name: "reversed back into its own hole, then right",
      body: [...FIRST, "G0 Z2. M4", "G1 Z-9.", "M3", "G1 Z-20.", ...OUT],
    },
    { name: "another speed", body: [...FIRST, "S2400", "G1 Z-20.", ...OUT] },
  ]),
  ...rows("vc-window", [
    {
      name: "S between two strokes",
      body: [...FIRST, "S9000", "G1 Z-20.", ...OUT],
      expect: { severity: "warning", line: 9, word: "S9000", says: ["line 10"] },
    },
  ]),
  ...rows("rpm-limit", [
    {
      name: "S between two strokes",
      body: [...FIRST, "S15000", "G1 Z-20. F2700.", ...OUT],
      expect: { severity: "error", line: 9, word: "S15000", count: 1, limit: 10000 },
    },
  ]),
  ...rows("feed-limit", [
    {
      name: "S and F between two strokes",
      body: [...FIRST, "S9900", "G1 Z-20. F5500.", ...OUT],
      expect: { severity: "error", line: 10, word: "F5500.", limit: 5000 },
    },
  ]),
  ...rows("spindle-power", [
    {
      name: "a later stroke at a higher speed and less feed per turn",
      body: [...approach(11, 400), "G0 Z2.", "G1 Z-10. F40.", "S5000", "G1 Z-40. F490.", ...OUT],
      expect: { severity: "error", line: 10, word: "F490." },
    },
  ]),
  ...rows("no-feed", [
    { name: "M5 between two strokes is no missing F", body: [...FIRST, "M5", "G1 Z-20.", ...OUT] },
    {
      name: "G95 between two strokes takes F away",
      body: [...FIRST, "G95", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20.", says: ["G95"] },
    },
  ]),
  ...rows("coolant-late", [
    {
      name: "M9 after a retract, then deeper",
      body: [...FIRST, "G0 Z2.", "M9", "G0 Z-9.", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 12, word: "Z-20.", says: ["off", "goes on", "M88"] },
    },
    {
      name: "M9 in the hole, then deeper",
      body: [...FIRST, "M9", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 10, word: "Z-20." },
    },
    {
      name: "off and on between two strokes",
      body: [...FIRST, "G0 Z2. M9", "M88", "G0 Z-9.", "G1 Z-20.", ...OUT],
      expect: { severity: "info", line: 12, word: "Z-20.", count: 1, says: ["only"], limit: 2 },
    },
    {
      name: "off and on between two strokes, with a dwell",
      body: [...FIRST, "G0 Z2. M9", "M88", "G4 P3000", "G0 Z-9.", "G1 Z-20.", ...OUT],
    },
    {
      name: "begun dry, then on in the hole: one cause",
      body: ["T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G0 Z2.", "G1 Z-10. F450.", "M88", "G1 Z-20.", ...OUT],
      expect: { severity: "error", line: 7, word: "G1 Z-10. F450.", count: 1 },
    },
    {
      name: "the second time on without a dwell, holes alike",
      body: [...T3, "G81 X0. Y0. Z-20. R2. F450.", "G80 M9", "G0 X20.", "M88", "G81 X20. Y0. Z-20. R2. F450.", ...OUT],
      expect: { severity: "info", line: 11, word: "G81", count: 1, limit: 2 },
    },
    {
      name: "the first time on without a dwell, holes alike",
      body: [
        "T3 M6",
        "G0 X0. Y0. S2500 M3",
        "G43 H3 Z50.",
        "M88",
        "G81 X0. Y0. Z-20. R2. F450.",
        "G80 M9",
        "G0 X20.",
        "M88",
        "G4 P3000",
        "G81 X20. Y0. Z-20. R2. F450.",
        ...OUT,
      ],
      expect: { severity: "info", line: 7, word: "G81", count: 1, limit: 2 },
    },
    {
      name: "the second time on without a dwell, in long hand",
      body: [...FIRST, "G0 Z50. M9", "M88", "G0 X20.", "G0 Z2.", "G1 Z-10.", ...OUT],
      expect: { severity: "info", line: 13, word: "Z-10.", count: 1, limit: 2 },
    },
    {
      name: "a pattern that switches on before each hole: each counts",
      body: [
        "T3 M6",
        "G0 X0. Y0. S2500 M3",
        "G43 H3 Z50.",
        "M98 P8 L3",
        ...OUT,
        "M30",
        "O8",
        "M88",
        "G91 G81 X20. Z-22. R-48. F450.",
        "G80 G90 M9",
        "M99",
      ],
      expect: { severity: "info", line: 12, word: "G81", count: 3, limit: 2 },
    },
    {
      name: "on in a pilot: the way to metal counts",
      body: [
        ...PILOT,
        ...approach(3, 2500).map((line) => line.replace(" M88", "")),
        "G0 Z2.",
        "G1 Z1. F450.",
        "M88",
        "G1 Z-40.",
        ...OUT,
      ],
    },
  ]),
  ...rows("stopped-in-hole", [
    { name: "M5 in the hole, then deeper, is told there", body: [...FIRST, "M5", "G1 Z-20.", ...OUT] },
    { name: "M9 in the hole, then deeper, is told there", body: [...FIRST, "M9", "G1 Z-20.", ...OUT] },
    {
      name: "M5 and M3 at the bottom",
      body: [...FIRST, "M5", "M3", "G1 Z-20.", ...OUT],
      expect: { severity: "warning", line: 9, word: "M5", says: ["starts again"], silentOn: ["pulled out"] },
    },
    {
      name: "a gun drill: coolant off at the bottom, standing still on its way out",
      body: [...PILOT, ...approach(1, 2200), "G0 Z2.", "G1 Z-17. F500.", "G1 Z-160. F88.", "M9", "M5", "G0 Z50."],
      shop: GUN,
    },
    {
      name: "a drill back in its pilot",
      body: [...PILOT, ...approach(4, 2500), "G0 Z2.", "G1 Z-60. F400.", "G1 Z-17. F2000.", "M5", "M9", "G0 Z50."],
    },
    {
      name: "the same below its pilot",
      body: [...PILOT, ...approach(4, 2500), "G0 Z2.", "G1 Z-60. F400.", "G1 Z-21. F2000.", "M5", "G0 Z50."],
      expect: { severity: "warning", line: 17, word: "M5", measured: -21 },
    },
    {
      name: "a drill larger than its pilot",
      body: [...PILOT, ...approach(5, 500), "G0 Z2.", "G1 Z-60. F80.", "G1 Z-17. F2000.", "M5", "G0 Z50."],
      expect: { severity: "warning", line: 17, word: "M5", measured: -17 },
    },
  ]),
  {
    check: "spindle-state",
    name: "a pilot at another place frees nothing",
    text: program(...FIRST, "G0 Z50.", "X20. Z2.", "G1 Z-10.", "M5", "G1 Z-20.", ...OUT),
    expect: [{ severity: "error", line: 13, word: "Z-20." }],
  },
];
