/** Programs and what one check must say about them: the words it stands on, and when it must be silent. */
import { approach, program } from "./shop.ts";

export interface Expected {
  readonly severity: "error" | "warning" | "info";
  /** From 1. */
  readonly line: number;
  readonly word: string;
  readonly count?: number;
  /** Parts of the message. */
  readonly says?: readonly string[];
  readonly measured?: number;
  readonly limit?: number;
  readonly unit?: string;
}

export interface Case {
  readonly check: string;
  readonly name: string;
  readonly text: string;
  /** Replaces parts of the shop's setup: [from, to]. */
  readonly shop?: readonly (readonly [string, string])[];
  readonly noSetup?: true;
  readonly dialect?: string;
  /** Empty: silent. */
  readonly expect: readonly Expected[];
}

const T3 = approach(3, 2500);
const T7 = approach(7, 2000);

export const CASES: readonly Case[] = [
  // Reading
  {
    check: "syntax",
    name: "letter O in a number",
    text: program("G1 Z-1O. F100."),
    expect: [{ severity: "error", line: 3, word: "Z-1O." }],
  },
  {
    check: "syntax",
    name: "open comment is a warning for other controls",
    text: program("G0 X1. (OPEN"),
    expect: [{ severity: "warning", line: 3, word: "(OPEN" }],
  },
  {
    check: "syntax",
    name: "open comment is an error for nist",
    text: program("G0 X1. (OPEN"),
    dialect: "nist",
    expect: [{ severity: "error", line: 3, word: "(OPEN" }],
  },
  { check: "syntax", name: "plain program", text: program("G0 X1."), expect: [] },
  {
    check: "cut-note",
    name: "note that cannot be read",
    text: program("(CUT ENTRY INCLINE STEEP)"),
    expect: [{ severity: "warning", line: 3, word: "(CUT ENTRY INCLINE STEEP)" }],
  },
  {
    check: "cut-note",
    name: "material that nobody knows",
    text: program("(CUT MATERIAL UNOBTAINIUM)"),
    expect: [
      {
        severity: "warning",
        line: 3,
        word: "(CUT MATERIAL UNOBTAINIUM)",
        says: ["UNOBTAINIUM", "42CrMo4 of the setup is used"],
      },
    ],
  },
  {
    check: "cut-note",
    name: "good notes",
    text: program("(CUT MATERIAL C45E HB 190)", "(CUT ENTRY INCLINE 30 DEG)", "(CUTTER 10)"),
    expect: [],
  },
  // Program
  {
    check: "program-end",
    name: "no end",
    text: "G21 G90 G0 X1.\nX2.",
    expect: [{ severity: "warning", line: 2, word: "X2." }],
  },
  {
    check: "program-end",
    name: "no end in nist",
    text: "G21 G90 G0 X1.\nX2.",
    dialect: "nist",
    expect: [{ severity: "error", line: 2, word: "X2." }],
  },
  { check: "program-end", name: "M2 ends", text: "G21 G90 G0 X1.\nM2", expect: [] },
  {
    check: "unknown-code",
    name: "M77",
    text: program("M77", "M77"),
    expect: [{ severity: "warning", line: 3, word: "M77", count: 2, says: ["M77"] }],
  },
  { check: "unknown-code", name: "codes of the machine are known", text: program("M88", "M9"), expect: [] },
  {
    check: "not-executed",
    name: "call",
    text: program("M98 P1002"),
    expect: [{ severity: "warning", line: 3, word: "M98" }],
  },
  {
    check: "dialect-rule",
    name: "two codes of one group",
    text: program("G90 G91 G0 X1."),
    dialect: "nist",
    expect: [{ severity: "error", line: 3, word: "G91" }],
  },
  {
    check: "dialect-rule",
    name: "plane change in a cycle",
    text: program(...T3, "G99 G81 X0. Y0. Z-20. R2. F450.", "G18", "G17 G80"),
    expect: [{ severity: "error", line: 8, word: "G18", says: ["plane"] }],
  },
  {
    check: "tool-change",
    name: "M6 without T",
    text: program("M6"),
    expect: [{ severity: "warning", line: 3, word: "M6" }],
  },
  { check: "tool-change", name: "staged early", text: program("T3 M6", "T7", "G0 X1.", "T7 M6"), expect: [] },
  {
    check: "length-offset",
    name: "H of another tool",
    text: program("T1 M6", "G0 X0. Y0.", "G43 H2 Z50."),
    expect: [{ severity: "error", line: 5, word: "H2", says: ["H2", "T1", "H1"] }],
  },
  { check: "length-offset", name: "H of the tool", text: program("T1 M6", "G0 X0. Y0.", "G43 H1 Z50."), expect: [] },
  // Cycle words
  {
    check: "cycle-word-missing",
    name: "peck without Q",
    text: program(...T3, "G83 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "error", line: 7, word: "G83", says: ["Q", "G83"] }],
  },
  {
    check: "cycle-word-missing",
    name: "sticky Q",
    text: program(...T3, "G83 X0. Y0. Z-20. R2. Q5. F450.", "X20."),
    expect: [],
  },
  {
    check: "cycle-depth-order",
    name: "lost sign",
    text: program(...T3, "G81 X0. Y0. Z25. R2. F450."),
    expect: [
      { severity: "error", line: 7, word: "Z25.", says: ["2.00 mm", "25.00 mm"], measured: 2, limit: 25, unit: "mm" },
    ],
  },
  {
    check: "cycle-depth-order",
    name: "peck of zero",
    text: program(...T3, "G83 X0. Y0. Z-20. R2. Q0 F450."),
    expect: [{ severity: "error", line: 7, word: "Q0", says: ["Q0"] }],
  },
  {
    check: "cycle-data-inherited",
    name: "G83 takes Z and R of G81",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450.", "G83 X20. Q5."),
    expect: [{ severity: "warning", line: 8, word: "G83", says: ["G81"] }],
  },
  {
    check: "r-plane-low",
    name: "R at the surface",
    text: program(...T3, "G81 X0. Y0. Z-20. R0. F450."),
    expect: [{ severity: "warning", line: 7, word: "R0.", says: ["at the surface"], measured: 0, limit: 0 }],
  },
  {
    check: "r-plane-low",
    name: "R below declared stock",
    text: program(...T3, "G81 X0. Y0. Z-20. R-1. F450."),
    expect: [{ severity: "error", line: 7, word: "R-1.", says: ["below the surface"], measured: -1, limit: 0 }],
  },
  { check: "r-plane-low", name: "R above", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "rapid-into-metal",
    name: "G0 below the top",
    text: program(...T3, "G0 Z-5."),
    expect: [{ severity: "error", line: 7, word: "Z-5.", measured: -5, limit: 0 }],
  },
  {
    check: "rapid-into-metal",
    name: "into a hole already drilled",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450.", "G80", "G0 Z-15.", "Z50."),
    expect: [],
  },
  // Spindle and feed
  {
    check: "spindle-state",
    name: "stopped by the tool change",
    text: program("S2500 M3", "T3 M6", "G0 X0. Y0.", "G43 H3 Z50. M88", "G81 X0. Y0. Z-20. R2. F450.", "X20."),
    expect: [{ severity: "error", line: 7, word: "G81", count: 2, says: ["stands still", "T3", "M3"] }],
  },
  {
    check: "spindle-state",
    name: "wrong way",
    text: program("T3 M6", "G0 X0. Y0. S2500 M4", "G43 H3 Z50. M88", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "error", line: 6, word: "G81", says: ["wrong way", "M3"] }],
  },
  {
    check: "spindle-state",
    name: "left-hand drill",
    text: program("T3 M6", "G0 X0. Y0. S2500 M4", "G43 H3 Z50. M88", "G81 X0. Y0. Z-20. R2. F450."),
    shop: [["T: 3, family: solid-carbide,", "T: 3, hand: left, family: solid-carbide,"]],
    expect: [],
  },
  {
    check: "spindle-state",
    name: "no S",
    text: program("T3 M6", "G0 X0. Y0. M3", "G43 H3 Z50. M88", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "warning", line: 6, word: "G81", says: ["No S"] }],
  },
  {
    check: "spindle-state",
    name: "S0",
    text: program("T3 M6", "G0 X0. Y0. S0 M3", "G43 H3 Z50. M88", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "error", line: 6, word: "G81", says: ["S0"] }],
  },
  {
    check: "spindle-state",
    name: "reversed into a hole already drilled",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450.", "G80", "G0 Z5.", "M4 S50", "G1 Z-15. F500.", "G0 Z50. M3"),
    expect: [],
  },
  {
    check: "spindle-state",
    name: "rigid tapping starts it itself",
    text: program("T9 M6", "G0 X0. Y0. S400", "G43 H9 Z50. M8", "G84 X0. Y0. Z-15. R5. F700."),
    expect: [],
  },
  {
    check: "spindle-state",
    name: "tapping with M4",
    text: program("T9 M6", "G0 X0. Y0. S400 M4", "G43 H9 Z50. M8", "G84 X0. Y0. Z-15. R5. F700."),
    expect: [{ severity: "error", line: 6, word: "G84", says: ["M3"] }],
  },
  {
    check: "no-feed",
    name: "no F",
    text: program(...T3, "G81 X0. Y0. Z-20. R2."),
    expect: [{ severity: "error", line: 7, word: "G81", says: ["No F", "G94"] }],
  },
  {
    check: "no-feed",
    name: "mode change forgets F",
    text: program("G1 X0. F450.", ...T3, "G95 G81 X0. Y0. Z-20. R2."),
    expect: [{ severity: "error", line: 8, word: "G81", says: ["G95"] }],
  },
  {
    check: "feed-mode",
    name: "per minute under G95",
    text: program(...T3, "G95", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [
      { severity: "error", line: 8, word: "F450.", says: ["G94", "0.180 mm/rev"], measured: 450, unit: "mm/rev" },
    ],
  },
  {
    check: "feed-mode",
    name: "per revolution under G94",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F0.18"),
    expect: [{ severity: "error", line: 7, word: "F0.18", says: ["G95", "0.180 mm/rev"] }],
  },
  {
    check: "feed-mode",
    name: "without a setup",
    text: program("G95", "S1000 M3", "M8", "G81 X0. Y0. Z-5. R2. F120."),
    noSetup: true,
    expect: [{ severity: "error", line: 6, word: "F120.", limit: 1 }],
  },
  {
    check: "feed-mode",
    name: "inch number in a mm program",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F17.7"),
    expect: [{ severity: "error", line: 7, word: "F17.7", says: ["inch"] }],
  },
  {
    check: "feed-mode",
    name: "tap off its lead",
    text: program("T9 M6", "G0 X0. Y0. S400 M3", "G43 H9 Z50. M8", "G84 X0. Y0. Z-15. R5. F600."),
    expect: [
      { severity: "error", line: 6, word: "F600.", says: ["1.75 mm", "F700 mm/min"], measured: 1.5, limit: 1.75 },
    ],
  },
  {
    check: "feed-mode",
    name: "tap on its lead",
    text: program("T9 M6", "G0 X0. Y0. S400 M3", "G43 H9 Z50. M8", "G84 X0. Y0. Z-15. R5. F700."),
    expect: [],
  },
  { check: "feed-mode", name: "right feed", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  // Machine
  {
    check: "rpm-limit",
    name: "over the spindle",
    text: program(...approach(3, 10500), "G81 X0. Y0. Z-20. R2. F1890."),
    expect: [
      {
        severity: "error",
        line: 4,
        word: "S10500",
        says: ["10500 1/min", "10000 1/min", "S10000"],
        measured: 10500,
        limit: 10000,
        unit: "1/min",
      },
    ],
  },
  {
    check: "rpm-limit",
    name: "at the limit",
    text: program(...approach(3, 10000), "G81 X0. Y0. Z-20. R2. F1800."),
    expect: [],
  },
  {
    check: "rpm-limit",
    name: "fast in air only",
    text: program(...approach(3, 2500), "G81 X0. Y0. Z-20. R2. F450.", "G80", "S10500", "G0 X50."),
    expect: [],
  },
  {
    check: "feed-limit",
    name: "over the axis",
    text: program(...approach(3, 10000), "G81 X0. Y0. Z-20. R2. F5500."),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F5500.",
        says: ["5500 mm/min", "5000 mm/min", "F5000"],
        measured: 5500,
        limit: 5000,
        unit: "mm/min",
      },
    ],
  },
  {
    check: "feed-limit",
    name: "at the limit",
    text: program(...approach(3, 10000), "G81 X0. Y0. Z-20. R2. F5000."),
    expect: [],
  },
  {
    check: "spindle-power",
    name: "far over",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-30. R2. F500."),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F500.",
        says: ["Power", "kW (", "hp)", "band", "2000 1/min", "Way out: F", "or less keeps it under"],
        unit: "kW",
      },
    ],
  },
  {
    check: "spindle-power",
    name: "in the torque range the torque speaks",
    text: program(...approach(11, 1200), "G81 X0. Y0. Z-30. R2. F300."),
    expect: [],
  },
  {
    check: "spindle-torque",
    name: "in the torque range",
    text: program(...approach(11, 1200), "G81 X0. Y0. Z-30. R2. F300."),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F300.",
        says: ["Torque", "N·m", "ft·lb", "The same in power", "kW"],
        unit: "N·m",
      },
    ],
  },
  {
    check: "spindle-torque",
    name: "in the power range the power speaks",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-30. R2. F500."),
    expect: [],
  },
  { check: "spindle-torque", name: "within", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "spindle-power",
    name: "full feed after a slow entry is what counts",
    text: program(...approach(11, 2000), "G0 Z2.", "G1 Z-2. F200.", "G1 Z-30. F500.", "G0 Z50."),
    expect: [{ severity: "error", line: 9, word: "F500.", unit: "kW" }],
  },
  {
    check: "axis-thrust",
    name: "big HSS drill",
    text: program(...approach(8, 200, "M8"), "G83 X0. Y0. Z-100. R3. Q30. F40."),
    expect: [{ severity: "warning", line: 7, word: "F40.", says: ["Thrust", "9000 N", "lbf"], limit: 9000, unit: "N" }],
  },
  {
    check: "axis-thrust",
    name: "small drill",
    text: program(...approach(5, 600, "M8"), "G81 X0. Y0. Z-20. R3. F108."),
    expect: [],
  },
  // Windows
  {
    check: "vc-window",
    name: "too fast",
    text: program(...approach(3, 4700), "G81 X0. Y0. Z-20. R2. F850.", "X20."),
    expect: [
      {
        severity: "warning",
        line: 4,
        word: "S4700",
        count: 2,
        says: ["151 m/min (494 ft/min)", "S3432"],
        limit: 110,
        unit: "m/min",
      },
    ],
  },
  {
    check: "vc-window",
    name: "too slow is information",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F270."),
    expect: [{ severity: "info", line: 4, word: "S1500", says: ["below", "S2185"], limit: 70 }],
  },
  {
    check: "vc-window",
    name: "too slow at the top speed",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F270."),
    shop: [["maxRpm: 10000", "maxRpm: 1500"]],
    expect: [],
  },
  { check: "vc-window", name: "inside", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "feed-window",
    name: "too high",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F800."),
    expect: [
      {
        severity: "warning",
        line: 7,
        word: "F800.",
        says: ["0.320 mm/rev (0.0126 in/rev)", "F625"],
        measured: 0.32,
        limit: 0.25,
        unit: "mm/rev",
      },
    ],
  },
  {
    check: "feed-window",
    name: "too low is information",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F200."),
    expect: [{ severity: "info", line: 7, word: "F200.", limit: 0.15 }],
  },
  {
    check: "feed-window",
    name: "rubbing is a warning",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F60."),
    expect: [{ severity: "warning", line: 7, word: "F60.", says: ["rubs"] }],
  },
  {
    check: "feed-window",
    name: "low on purpose in an interrupted cut",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F100."),
    expect: [],
  },
  {
    check: "feed-window",
    name: "slow entry, then full feed",
    text: program(...T3, "G0 Z2.", "G1 Z-3. F200.", "G1 Z-20. F450.", "G0 Z50."),
    expect: [],
  },
  // Interrupted cuts
  {
    check: "interrupted-feed",
    name: "full feed on an incline",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F200."),
    expect: [
      {
        severity: "error",
        line: 8,
        word: "F200.",
        says: ["incline of 30.0°", "heavy", "0.050 mm/rev", "F100 mm/min", "full feed from there"],
        measured: 0.1,
        limit: 0.05,
        unit: "mm/rev",
      },
    ],
  },
  {
    check: "interrupted-feed",
    name: "a little over is a warning",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F130."),
    expect: [{ severity: "warning", line: 8, word: "F130." }],
  },
  {
    check: "interrupted-feed",
    name: "already halved",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F105."),
    expect: [],
  },
  {
    check: "interrupted-feed",
    name: "halved in the zone only",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G0 Z12.", "G1 Z-9. F100.", "G1 Z-40. F200.", "G0 Z50."),
    expect: [],
  },
  { check: "interrupted-feed", name: "flat", text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."), expect: [] },
  {
    check: "entry-not-allowed",
    name: "solid carbide on a slope",
    text: program(...T3, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-30. R6. F180."),
    expect: [{ severity: "error", line: 8, word: "G81", says: ["T3 (solid carbide drill)", "incline of 30.0°"] }],
  },
  {
    check: "entry-not-allowed",
    name: "insert drill on the same slope",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F100."),
    expect: [],
  },
  {
    check: "entry-not-allowed",
    name: "the tool's own limit",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F100."),
    shop: [["T: 7, family: indexable,", "T: 7, entry: { maxIncline: 20 }, family: indexable,"]],
    expect: [{ severity: "error", line: 8, word: "G81", says: ["20.0°"], measured: 30, limit: 20 }],
  },
  // Coolant
  {
    check: "coolant-late",
    name: "off with carbide in steel",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G81 X0. Y0. Z-20. R2. F450.", "X20."),
    expect: [{ severity: "error", line: 6, word: "G81", count: 2, says: ["off", "T3", "group P", "M88"] }],
  },
  {
    check: "coolant-late",
    name: "on after the first hole",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G81 X0. Y0. Z-20. R2. F450.", "M88", "X20."),
    expect: [{ severity: "error", line: 6, word: "G81", count: 1 }],
  },
  {
    check: "coolant-late",
    name: "off with HSS",
    text: program("T5 M6", "G0 X0. Y0. S600 M3", "G43 H5 Z50.", "G81 X0. Y0. Z-20. R3. F108."),
    expect: [{ severity: "warning", line: 6, word: "G81" }],
  },
  {
    check: "coolant-late",
    name: "off in cast iron",
    text: program(
      "(CUT MATERIAL EN-GJL-250 HB 200)",
      "T3 M6",
      "G0 X0. Y0. S2500 M3",
      "G43 H3 Z50.",
      "G81 X0. Y0. Z-20. R2. F450.",
    ),
    expect: [{ severity: "info", line: 7, word: "G81" }],
  },
  {
    check: "coolant-late",
    name: "dry tool",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G81 X0. Y0. Z-20. R2. F450."),
    shop: [["LU: 55, NOF: 2, coolant: through", "LU: 55, NOF: 2, coolant: dry"]],
    expect: [],
  },
  {
    check: "coolant-late",
    name: "less than two seconds before",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G0 Z5. M88", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "info", line: 7, word: "G81", says: ["2 s"], limit: 2, unit: "s" }],
  },
  { check: "coolant-late", name: "in time", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "through-coolant",
    name: "flood for a through-coolant drill",
    text: program(...approach(3, 2500, "M8"), "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "warning", line: 5, word: "M8", says: ["through the tool", "M88"] }],
  },
  {
    check: "through-coolant",
    name: "deep",
    text: program(...approach(3, 2500, "M8"), "G81 X0. Y0. Z-45. R2. F450."),
    expect: [{ severity: "error", line: 5, word: "M8" }],
  },
  {
    check: "through-coolant",
    name: "insert drill from outside",
    text: program(...approach(10, 1900, "M8"), "G81 X0. Y0. Z-50. R2. F190."),
    expect: [{ severity: "warning", line: 5, word: "M8", says: ["2.5 x D"], limit: 1 }],
  },
  { check: "through-coolant", name: "through is on", text: program(...T3, "G81 X0. Y0. Z-45. R2. F450."), expect: [] },
  {
    check: "coolant-supply",
    name: "too little flow",
    text: program(...approach(7, 2000, "M89"), "G81 X0. Y0. Z-40. R2. F200."),
    expect: [
      {
        severity: "warning",
        line: 5,
        word: "M89",
        says: ["10.0 L/min", "23.4 L/min", "gal/min"],
        measured: 10,
        limit: 23.4,
        unit: "L/min",
      },
    ],
  },
  {
    check: "coolant-supply",
    name: "too little pressure",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."),
    shop: [["minPressure: 8", "minPressure: 30"]],
    expect: [
      {
        severity: "warning",
        line: 5,
        word: "M88",
        says: ["20.0 bar", "30.0 bar", "psi"],
        measured: 20,
        limit: 30,
        unit: "bar",
      },
    ],
  },
  { check: "coolant-supply", name: "enough", text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."), expect: [] },
  // Drill and hole
  {
    check: "reach",
    name: "corner too deep",
    text: program(...T3, "G81 X0. Y0. Z-70. R2. F450.", "X20."),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "Z-70.",
        count: 2,
        says: ["70.00 mm", "55.00 mm"],
        measured: 70,
        limit: 55,
        unit: "mm",
      },
    ],
  },
  {
    check: "reach",
    name: "only the point stands out",
    text: program(...T3, "G81 X0. Y0. Z-56. R2. F450."),
    expect: [{ severity: "warning", line: 7, word: "Z-56." }],
  },
  { check: "reach", name: "to the end", text: program(...T3, "G81 X0. Y0. Z-55. R2. F450."), expect: [] },
  {
    check: "peck-style",
    name: "insert drill pecked",
    text: program(...T7, "G83 X0. Y0. Z-40. R2. Q10. F200."),
    expect: [{ severity: "warning", line: 7, word: "G83", says: ["full retract", "T7"] }],
  },
  {
    check: "peck-style",
    name: "carbide pecked in steel",
    text: program(...T3, "G83 X0. Y0. Z-20. R2. Q5. F450."),
    expect: [{ severity: "info", line: 7, word: "G83" }],
  },
  {
    check: "peck-style",
    name: "carbide pecked in stainless",
    text: program("(CUT MATERIAL X5CRNI18-10 HB 180)", ...approach(3, 1600), "G83 X0. Y0. Z-20. R2. Q5. F240."),
    expect: [{ severity: "warning", line: 8, word: "G83", says: ["group M"] }],
  },
  {
    check: "peck-style",
    name: "deep HSS without pecks",
    text: program(...approach(5, 600, "M8"), "G81 X0. Y0. Z-60. R3. F108."),
    expect: [{ severity: "warning", line: 7, word: "G81", says: ["5 x D", "G83"], limit: 3 }],
  },
  {
    check: "peck-style",
    name: "deep HSS with pecks",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q12. F108."),
    expect: [],
  },
  {
    check: "peck-style",
    name: "Q in micrometres",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-20. R3. Q3000. F108."),
    expect: [{ severity: "warning", line: 7, word: "Q3000.", says: ["micrometres"], measured: 3000, limit: 23 }],
  },
  {
    check: "spot-angle",
    name: "90 degree spot before a 140 degree drill",
    text: program(
      ...approach(1, 1600, "M8"),
      "G81 X0. Y0. Z-4. R2. F160.",
      "X20.",
      "G80 M9",
      ...T3,
      "G81 X0. Y0. Z-20. R2. F450.",
      "X20.",
    ),
    expect: [
      {
        severity: "warning",
        line: 14,
        word: "G81",
        count: 2,
        says: ["T1", "90.0°", "140.0°"],
        measured: 90,
        limit: 140,
      },
    ],
  },
  {
    check: "spot-angle",
    name: "142 degree spot",
    text: program(
      ...approach(2, 1330, "M8"),
      "G81 X0. Y0. Z-1.5 R2. F133.",
      "G80 M9",
      ...T3,
      "G81 X0. Y0. Z-20. R2. F450.",
    ),
    expect: [],
  },
  {
    check: "dwell-long",
    name: "a minute in each hole",
    text: program(...approach(5, 600, "M8"), "G82 X0. Y0. Z-20. R3. P60000 F108."),
    expect: [{ severity: "warning", line: 7, word: "P60000", says: ["milliseconds"], measured: 60 }],
  },
  {
    check: "dwell-long",
    name: "many turns in stainless",
    text: program("(CUT MATERIAL X5CRNI18-10 HB 180)", ...approach(3, 1600), "G82 X0. Y0. Z-20. R2. P500 F240."),
    expect: [{ severity: "warning", line: 8, word: "P500", says: ["13.3 turns", "group M"], limit: 2 }],
  },
  {
    check: "dwell-long",
    name: "short",
    text: program(...approach(5, 600, "M8"), "G82 X0. Y0. Z-20. R3. P200 F108."),
    expect: [],
  },
  // Cautions
  {
    check: "freed-disc",
    name: "exit note",
    text: program(...T7, "(CUT EXIT INCLINE 5 DEG)", "G81 X0. Y0. Z-42. R2. F200.", "X50."),
    expect: [{ severity: "info", line: 8, word: "Z-42.", says: ["Caution", "26.00 mm"] }],
  },
  {
    check: "freed-disc",
    name: "through the stock",
    text: program(...T7, "G81 X0. Y0. Z-42. R2. F200.", "X50."),
    shop: [["z: [-200, 0]", "z: [-40, 0]"]],
    expect: [{ severity: "info", line: 7, word: "Z-42.", count: 2 }],
  },
  { check: "freed-disc", name: "blind", text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."), expect: [] },
  {
    check: "combustible-chips",
    name: "titanium",
    text: program("(CUT MATERIAL TIAL6V4 HB 320)", ...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F180.", "X20."),
    expect: [{ severity: "info", line: 8, word: "G81", count: 2, says: ["titanium"] }],
  },
  { check: "combustible-chips", name: "steel", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  // Setup
  {
    check: "unknown-tool",
    name: "not in the table",
    text: program("T44 M6", "G0 X0. Y0. S2500 M3", "G43 H44 Z50. M8", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "warning", line: 3, word: "T44", says: ["T44"] }],
  },
  { check: "unknown-tool", name: "never cuts", text: program("T44 M6", "G0 X0. Y0."), expect: [] },
  {
    check: "setup",
    name: "severity of no check",
    text: program("G0 X1."),
    shop: [["workpieces:", "severity: { spindle-pwer: off }\nworkpieces:"]],
    expect: [{ severity: "warning", line: 37, word: "/shop/swarfline.yaml", says: ["spindle-pwer", "spindle-power"] }],
  },
  { check: "setup", name: "whole", text: program("G0 X1."), expect: [] },
  {
    check: "entry-lost",
    name: "no hole there",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."),
    shop: [
      [
        "    stock: {",
        '    entries: [{ program: part.nc, tool: 7, wcs: G54, at: [30, 40], entry: "INCLINE 30 DEG" }]\n    stock: {',
      ],
    ],
    expect: [{ severity: "warning", line: 41, word: "/shop/swarfline.yaml" }],
  },
  {
    check: "entry-lost",
    name: "hole found",
    text: program(...T7, "G81 X30. Y40. Z-40. R12. F100."),
    shop: [
      [
        "    stock: {",
        '    entries: [{ program: part.nc, tool: 7, wcs: G54, at: [30, 40], entry: "INCLINE 30 DEG" }]\n    stock: {',
      ],
    ],
    expect: [],
  },
  {
    check: "cannot-check",
    name: "no setup",
    text: program("S1000 M3", "M8", "G81 X0. Y0. Z-5. R2. F120.", "X20."),
    noSetup: true,
    expect: [{ severity: "info", line: 5, word: "G81", count: 2, says: ["Not checked"] }],
  },
  {
    check: "cannot-check",
    name: "no thrust limit",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."),
    shop: [[", thrust: 9 kN", ""]],
    expect: [{ severity: "info", line: 7, word: "G81", says: ["axis thrust limit", "not declared"] }],
  },
  { check: "cannot-check", name: "all declared", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
];
