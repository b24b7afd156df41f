/** Speeds, feeds and loads, and what the checks must say about them. */
import type { Case } from "./cases.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const HOLE = "G81 X0. Y0. Z-20. R2. F450.";
const T7 = approach(7, 2000);

export const MACHINE_CASES: readonly Case[] = [
  // Spindle and feed
  {
    check: "spindle-state",
    name: "it stands still on one of two ways",
    text: program(...T3, "IF[#500EQ1]GOTO5", "M5", "N5", HOLE),
    expect: [{ severity: "warning", line: 10, word: "G81", says: ["On one of the ways", "#500"] }],
  },
  {
    check: "spindle-state",
    name: "it turns backwards on one of two ways",
    text: program(...T3, "IF[#500EQ1]GOTO5", "M4", "N5", HOLE),
    expect: [],
  },
  {
    check: "coolant-late",
    name: "coolant is off on one of two ways",
    text: program(...T3, "IF[#500EQ1]GOTO5", "M9", "N5", HOLE),
    expect: [{ severity: "info", line: 10, word: "G81", says: ["On one of the ways"] }],
  },
  ...(
    ["end-state", "cycle-left-active", "cycle-plane", "list-after-cancel", "stopped-in-hole", "no-feed"] as const
  ).map(
    (check): Case => ({
      check,
      name: "what is so on one of two ways only",
      text: program(
        ...T3,
        "IF[#500EQ1]GOTO5",
        "G18 G91 G95",
        "N5",
        HOLE,
        "G80",
        "IF[#500EQ1]GOTO6",
        HOLE,
        "N6",
        "G28 Z0.",
        "G0 X1. Y1.",
        "X2.",
      ),
      expect: [],
    }),
  ),
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
  ...["F", "F4.5.0", "F#501", "F[#501*2]"].map((word) => ({
    check: "no-feed" as const,
    name: `${word} is told at the word, not as missing`,
    text: program(...T3, "F200.", `G81 X0. Y0. Z-20. R2. ${word}`),
    expect: [],
  })),
  {
    check: "no-feed",
    name: "an F that differs between two ways is there",
    text: program(...T3, "F300.", "IF [#501 EQ 1] GOTO 5", "F450.", "N5 G81 X0. Y0. Z-20. R2."),
    expect: [],
  },
  {
    check: "no-feed",
    name: "an unknown F does not outlast a change of the feed mode",
    text: program("G1 X0. F#501", ...T3, "G95 G81 X0. Y0. Z-20. R2."),
    expect: [{ severity: "error", line: 8, word: "G81", says: ["G95"] }],
  },
  ...["S", "S8.0.0", "S#500"].map((word) => ({
    check: "spindle-state" as const,
    name: `${word} is told at the word, not as missing`,
    text: program("T3 M6", `G0 X0. Y0. ${word} M3`, "G43 H3 Z50. M88", "G4 P3000", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [],
  })),
  {
    check: "cannot-check",
    name: "a speed that hangs on a condition is told where it matters",
    text: program(...T3, "IF [#501 EQ 1] GOTO 5", "S1800", "N5 G81 X0. Y0. Z-20. R2. F450."),
    expect: [{ severity: "info", line: 9, word: "G81", says: ["T3", "it depends on a condition: #501 is not set"] }],
  },
  {
    check: "cannot-check",
    name: "an F that cannot be read has its finding, and what follows from it none",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F4.5.0"),
    expect: [],
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
      {
        severity: "error",
        line: 8,
        word: "F450.",
        says: [
          "G95 makes F a feed per revolution: that is 450",
          "T3, 10.20 mm (0.402 in), takes 0.010 to 0.612 mm/rev",
          "Way out: G94 before it",
          "0.180 mm/rev",
        ],
        measured: 450,
        unit: "mm/rev",
      },
    ],
  },
  {
    check: "feed-mode",
    name: "per revolution under G94",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F0.18"),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F0.18",
        says: ["G94 makes F a feed per minute: at 2500 1/min that is", "Way out: G95 before it", "0.180 mm/rev"],
      },
    ],
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
    name: "a tap in a drilling cycle keeps its lead too, told to its last digit",
    text: program(...approach(9, 303, "M8"), "G81 X0. Y0. Z-20. R5. F300."),
    expect: [
      { severity: "error", line: 7, word: "F300.", says: ["lead of 1.75 mm", "Way out: F530.25 mm/min (20.9 in/min)"] },
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
    name: "over the spindle in a hole that is there",
    text: program(
      ...T7,
      "G81 X0. Y0. Z-40. R2. F200.",
      "G80",
      ...approach(7, 11000),
      "G0 Z2.",
      "G1 Z-39. F2000.",
      "G0 Z50.",
    ),
    expect: [{ severity: "error", line: 10, word: "S11000", says: ["10000 1/min", "S10000"], limit: 10000 }],
  },
  {
    check: "rpm-limit",
    name: "over the spindle",
    text: program(...approach(3, 10500), "G81 X0. Y0. Z-20. R2. F1890."),
    expect: [
      {
        severity: "error",
        line: 4,
        word: "S10500",
        says: ["10500 1/min", "10000 1/min", "S3432"],
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
    name: "two F words in one hole are two findings, its pecks are not",
    text: program(
      ...approach(10, 9000, "M8"),
      "G0 Z2.",
      "G1 Z-5. F5100.",
      "G0 Z2.",
      "G0 Z-4.",
      "G1 Z-10.",
      "Z-12. F5200.",
      "G0 Z50.",
    ),
    expect: [
      { severity: "error", line: 8, word: "F5100.", count: 1 },
      { severity: "error", line: 12, word: "F5200.", count: 1 },
    ],
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
    name: "over continuous, inside short-time: the mean of the operation is told",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-8. R2. F118."),
    expect: [
      {
        severity: "warning",
        line: 7,
        word: "F118.",
        says: ["of the 16.4 kW", "for 30 min", "Over the whole operation", "which passes"],
      },
    ],
  },
  {
    check: "spindle-power",
    name: "over continuous in a long cut: the mean of the operation does not pass and is not told",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-50. R2. F118."),
    expect: [{ severity: "warning", line: 7, word: "F118.", silentOn: ["Over the whole operation"] }],
  },
  {
    check: "spindle-power",
    name: "close to the limit is information",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-30. R2. F93."),
    expect: [{ severity: "info", line: 7, word: "F93.", says: ["close to", "worn edge"] }],
  },
  {
    check: "spindle-power",
    name: "in the torque range the torque speaks",
    text: program(...approach(11, 1200), "G81 X0. Y0. Z-30. R2. F300."),
    expect: [],
  },
  {
    check: "spindle-torque",
    name: "slow at the entry, too fast after it: the fast stroke is judged",
    text: program(...approach(11, 1300), "G0 Z2.", "G1 Z-4. F60.", "G1 Z-60. F320.", "G0 Z50."),
    expect: [
      { severity: "error", line: 9, word: "F320.", says: ["203.8 N·m", "Way out: F94 mm/min"], silentOn: ["1 hole"] },
    ],
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
    name: "big HSS drill, over even at the low end",
    text: program(...approach(8, 200, "M8"), "G83 X0. Y0. Z-100. R3. Q30. F70."),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F70.",
        says: ["Thrust", "low end", "9000 N", "lbf"],
        limit: 9000,
        unit: "N",
      },
    ],
  },
  {
    check: "axis-thrust",
    name: "over in the middle of the band is a warning",
    text: program(...approach(11, 2000), "G81 X0. Y0. Z-30. R2. F500."),
    expect: [{ severity: "warning", line: 7, word: "F500.", says: ["Way out: F", "or less keeps it under"] }],
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
        says: ["151 m/min (494 ft/min)", "S3432", "F620 mm/min"],
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
  {
    check: "vc-window",
    name: "one slip of S, too slow, raises the feed per turn: one finding at the S",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F450."),
    expect: [
      {
        severity: "warning",
        line: 4,
        word: "S1500",
        says: [
          "the F makes 0.300 mm/rev (0.0118 in/rev), above 0.250 mm/rev",
          "S2185",
          "the F as written is then 0.206 mm/rev",
        ],
        limit: 70,
      },
    ],
  },
  {
    check: "vc-window",
    name: "one slip of S, too fast, lowers the feed per turn: one finding at the S",
    text: program(...approach(3, 5500), "G81 X0. Y0. Z-20. R2. F700."),
    expect: [
      { severity: "warning", line: 4, word: "S5500", says: ["below", "as written is then 0.204 mm/rev"], limit: 110 },
    ],
  },
  {
    check: "feed-window",
    name: "too high for one slip of S, too slow",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F450."),
    expect: [],
  },
  {
    check: "feed-window",
    name: "too low for one slip of S, too fast",
    text: program(...approach(3, 5500), "G81 X0. Y0. Z-20. R2. F700."),
    expect: [],
  },
  {
    check: "feed-window",
    name: "too high for one slip of S, the check on the speed off",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F450."),
    shop: [["units: mm\n", "units: mm\nseverity: { vc-window: off }\n"]],
    expect: [{ severity: "warning", line: 7, word: "F450.", says: ["0.300 mm/rev"] }],
  },
  {
    check: "feed-window",
    name: "speed and feed are both wrong",
    text: program(...approach(3, 1500), "G81 X0. Y0. Z-20. R2. F900."),
    expect: [{ severity: "warning", line: 7, word: "F900.", says: ["0.600 mm/rev"] }],
  },
  { check: "vc-window", name: "inside", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "vc-window",
    name: "HSS in skin",
    text: program(...approach(5, 640, "M8"), "(CUT ENTRY SKIN)", "G81 X0. Y0. Z-20. R3. F115."),
    expect: [{ severity: "warning", line: 4, word: "S640", says: ["three quarters in skin"], limit: 21 }],
  },
  {
    check: "vc-window",
    name: "HSS at that speed elsewhere",
    text: program(...approach(5, 640, "M8"), "G81 X0. Y0. Z-20. R3. F115."),
    expect: [],
  },
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
    text: program(
      ...T7,
      "(CUT ENTRY INCLINE 30 DEG)",
      "G0 Z12.",
      "G1 Z-8.5 F100.",
      "Z-40. F180.",
      "G0 Z50.",
      "(CUT ENTRY INCLINE 30 DEG)",
      "G81 X50. Y0. Z-12. R12. F100.",
    ),
    expect: [],
  },
  {
    check: "feed-window",
    name: "low for the interrupted cut and not brought back up is told by a check of its own",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F100."),
    expect: [],
  },
  {
    check: "feed-window",
    name: "low below the interrupted cut, in a stroke of its own",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G0 Z12.", "G1 Z-9. F100.", "Z-40. F110.", "G0 Z50."),
    expect: [
      { severity: "info", line: 10, word: "F110.", says: ["F120 mm/min (4.7 in/min) or more outside the interrupted"] },
    ],
  },
  {
    check: "feed-window",
    name: "lower than the interrupted cut asks for",
    text: program(...T7, "(CUT ENTRY INCLINE 1 DEG)", "G81 X0. Y0. Z-40. R2. F100."),
    expect: [{ severity: "info", line: 8, word: "F100.", says: ["outside the interrupted cut"] }],
  },
  {
    check: "feed-window",
    name: "low where the drill is in metal for part of the turn all the way down",
    text: program(...T7, "(CUT ENTRY CHAIN PITCH 19.5)", "G81 X0. Y0. Z-40. R2. F100."),
    expect: [],
  },
  {
    check: "feed-stays-low",
    name: "a feed that rubs has a warning that says more",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F66."),
    expect: [],
  },
  {
    check: "feed-window",
    name: "the edge rubs in an interrupted cut as anywhere",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F66."),
    expect: [
      {
        severity: "warning",
        line: 8,
        word: "F66.",
        says: [
          "under 0.040 mm/rev (0.0016 in/rev) the edge rubs",
          "Way out: F100 mm/min (3.9 in/min) in the interrupted cut, F120 mm/min (4.7 in/min) or more outside it",
        ],
        measured: 0.033,
      },
    ],
  },
  {
    check: "feed-window",
    name: "a slow entry that rubs, full feed below it",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G0 Z12.", "G1 Z-8.5 F66.", "Z-40. F180.", "G0 Z50."),
    expect: [
      {
        severity: "warning",
        line: 9,
        word: "F66.",
        says: ["rubs", "F100 mm/min (3.9 in/min) in the interrupted cut."],
      },
    ],
  },
  {
    check: "feed-window",
    name: "a slow end that rubs needs to cut, no more",
    text: program(...T3, "G0 Z2.", "G1 Z-30. F450.", "Z-36. F60.", "G0 Z50."),
    expect: [
      { severity: "warning", line: 9, word: "F60.", says: ["rubs", "Way out: F77 mm/min (3.0 in/min) or more."] },
    ],
  },
  {
    check: "feed-window",
    name: "the edge rubs where holes overlap and no note tells how",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F66.", "X19.5"),
    expect: [{ severity: "warning", line: 7, word: "F66.", count: 2, says: ["rubs"] }],
  },
  {
    check: "feed-window",
    name: "a window that begins below where an edge rubs as a rule is the tool's own data",
    text: program(...T7, "(CUT ENTRY CHAIN PITCH 19.5)", "G81 X0. Y0. Z-40. R2. F66."),
    shop: [["f: [0.06, 0.1, 0.14]", "f: [0.03, 0.1, 0.14]"]],
    expect: [],
  },
  {
    check: "feed-window",
    name: "low where holes overlap and no note tells how",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F100.", "X19.5"),
    expect: [],
  },
  {
    check: "feed-window",
    name: "low in the same holes further apart",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F100.", "X29.5"),
    expect: [{ severity: "info", line: 7, word: "F100." }],
  },
  {
    check: "feed-window",
    name: "high stays high where holes overlap",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F400.", "X19.5"),
    expect: [{ severity: "warning", line: 7, word: "F400." }],
  },
  {
    check: "feed-window",
    name: "slow entry, then full feed",
    text: program(...T3, "G0 Z2.", "G1 Z-3. F200.", "G1 Z-20. F450.", "G0 Z50."),
    expect: [],
  },
];
