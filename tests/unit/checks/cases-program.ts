/** Programs, cycle words and setups, and what the checks must say about them. */
import type { Case } from "./cases.ts";
import { rows } from "./rows.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const T7 = approach(7, 2000);

export const PROGRAM_CASES: readonly Case[] = [
  // Reading
  {
    check: "syntax",
    name: "what prints and names is passed over, in a run of holes too",
    text: program(
      "SETVN510[DEPTH-1, WIDTH]",
      "POPEN",
      ...T3,
      "G81 X0. Y0. Z-20. R2. F450.",
      "DPRNT[HOLE*NO.#100[30]*X#5041[53]]",
      "BPRNT[C*X#100[4]]",
      "X20.",
      "G80",
      "PCLOS",
    ),
    expect: [],
  },
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
  {
    check: "not-a-machining-program",
    name: "header of a drill tape",
    text: "M48\nMETRIC,TZ\nT01C0.800\n%\nT01\nX0100Y0200\nM30",
    expect: [{ severity: "error", line: 1, word: "M48" }],
  },
  {
    check: "not-a-machining-program",
    name: "overrides on",
    text: program("M48", "T3 M6"),
    expect: [],
  },
  // Program
  {
    check: "program-end",
    name: "no end",
    text: "G21 G90 G0 X1.\nX2.",
    expect: [{ severity: "warning", line: 2, word: "X2.", says: ["Way out: M30"] }],
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
    expect: [{ severity: "warning", line: 3, word: "M77", count: 2, says: ["M77", "Way out: `coolant: { M77: … }`"] }],
  },
  { check: "unknown-code", name: "codes of the machine are known", text: program("M88", "M9"), expect: [] },
  {
    check: "not-executed",
    name: "a measuring move",
    text: program("G31 Z-5. F100."),
    expect: [{ severity: "warning", line: 3, word: "G31" }],
  },
  { check: "not-executed", name: "a feed move", text: program("G1 Z5. F100."), expect: [] },
  {
    check: "subprogram",
    name: "called and not there",
    text: program("M98 P1002", "M98 P1002", "G65 P9010 A1."),
    expect: [
      { severity: "warning", line: 3, word: "M98", says: ["O1002", "2 times"] },
      { severity: "warning", line: 5, word: "G65", says: ["O9010"] },
    ],
  },
  {
    check: "subprogram",
    name: "without return",
    text: `${program("M98 P2")}\nO2\nG0 X1.`,
    expect: [{ severity: "warning", line: 6, word: "O2", says: ["M99"] }],
  },
  { check: "subprogram", name: "there", text: `${program("M98 P2")}\nO2\nG0 X1.\nM99`, expect: [] },
  {
    check: "flow-structure",
    name: "a jump to nowhere and loops that cross",
    text: program("DO1", "DO2", "GOTO 9", "END1", "END2", "N9 GOTO 77"),
    expect: [
      { severity: "error", line: 6, word: "END1", says: ["must not cross"] },
      { severity: "error", line: 7, word: "END2", says: ["END2"] },
      { severity: "error", line: 8, word: "GOTO 77", says: ["N77"] },
    ],
  },
  {
    check: "flow-structure",
    name: "loops one after the other and within each other",
    text: program("#1=0", "WHILE[#1LT2]DO1", "#2=0", "WHILE[#2LT2]DO2", "#2=#2+1", "END2", "#1=#1+1", "END1"),
    expect: [],
  },
  {
    check: "unknown-branch",
    name: "a retained variable decides",
    text: program("IF[#500EQ1]GOTO9", "G0 X1.", "N9"),
    expect: [{ severity: "info", line: 3, word: "IF[#500EQ1]GOTO9", says: ["#500", "both ways"] }],
  },
  {
    check: "unknown-branch",
    name: "a variable of the program decides",
    text: program("#1=2", "IF[#1EQ1]GOTO9", "G0 X1.", "N9"),
    expect: [],
  },
  {
    check: "run-limit",
    name: "a loop without end",
    text: program("DO1", "#1=#1+1", "END1"),
    expect: [{ severity: "warning", line: 5, word: "END1", says: ["no end"] }],
  },
  {
    check: "run-limit",
    name: "a loop that ends",
    text: program("#1=0", "WHILE[#1LT9]DO1", "#1=#1+1", "END1"),
    expect: [],
  },
  {
    check: "modal-leak",
    name: "a subprogram leaves G91",
    text: `${program("M98 P2", "G90")}\nO2\nG91\nM99`,
    expect: [{ severity: "info", line: 3, word: "M98 P2", says: ["G91", "G90"] }],
  },
  { check: "modal-leak", name: "it puts G90 back", text: `${program("M98 P2")}\nO2\nG91\nG90\nM99`, expect: [] },
  {
    check: "main-return",
    name: "M99 at the main level",
    text: "G21 G90\nG0 X1.\nM99",
    expect: [{ severity: "info", line: 3, word: "M99" }],
  },
  { check: "main-return", name: "M30", text: program("G0 X1."), expect: [] },
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
    expect: [{ severity: "warning", line: 3, word: "M6", says: ["Way out: T with the number"] }],
  },
  { check: "tool-change", name: "staged early", text: program("T3 M6", "T7", "G0 X1.", "T7 M6"), expect: [] },
  {
    check: "length-offset",
    name: "a tool that is selected but not loaded",
    text: program("T2 M6", "G0 X0. Y0. S1330 M3", "G43 H2 Z50. M8", "T3", "S2500", "G43 H3 Z50.", "G81 Z-1. R2. F133."),
    expect: [
      {
        severity: "error",
        line: 8,
        word: "H3",
        says: ["T3 is selected but no M6 has loaded it", "T2 is still in the spindle", "M6 for T3", "or H2 if T2"],
        measured: 3,
        limit: 2,
      },
    ],
  },
  {
    check: "length-offset",
    name: "the next tool is staged early, and H is that of neither",
    text: program("T2 M6", "G0 X0. Y0. S1330 M3", "T3", "G43 H5 Z50. M8", "G81 Z-1. R2. F133."),
    expect: [{ severity: "error", line: 6, word: "H5", says: ["Way out: H2, or"], silentOn: ["T3"] }],
  },
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
    name: "one mistake for all positions of the run",
    text: program(...T3, "G99 G83 X0. Y0. Z-20. R2. F450.", "X20.", "X40.", "G80"),
    expect: [{ severity: "error", line: 7, word: "G83", count: 3, says: ["Q"] }],
  },
  {
    check: "cycle-word-missing",
    name: "a word that cannot be read is there",
    text: program(...T3, "G99 G81 X0. Y0. Z-2O. R2. F450.", "X20.", "G80"),
    expect: [],
  },
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
    name: "a lost sign rules all holes of its cycle: one finding",
    text: program(...T3, "G81 X0. Y0. Z25. R2. F450.", "X20.", "X40.", "G80", "G81 X60. Z25. R2."),
    expect: [
      { severity: "error", line: 7, word: "Z25.", count: 3, says: ["3 times, first here"] },
      { severity: "error", line: 11, word: "Z25.", count: 1 },
    ],
  },
  {
    check: "cycle-depth-order",
    name: "no depth",
    text: program(...T3, "G81 X0. Y0. Z-1. R-1. F450."),
    expect: [{ severity: "info", line: 7, word: "Z-1.", says: ["feeds nowhere"] }],
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
  {
    check: "r-plane-low",
    name: "a pocket floor where no stock is declared",
    text: program(...T3, "G98 G81 X0. Y0. Z-40. R-18. F450.", "X30."),
    shop: [["    stock: { wcs: G54, solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }] }\n", ""]],
    expect: [{ severity: "info", line: 7, word: "R-18.", count: 2, says: ["floor of a pocket", "cannot be checked"] }],
  },
  {
    check: "r-plane-low",
    name: "R at the assumed surface",
    text: program(...T3, "G81 X0. Y0. Z-20. R0. F450."),
    shop: [["    stock: { wcs: G54, solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }] }\n", ""]],
    expect: [{ severity: "warning", line: 7, word: "R0.", says: ["at the surface (assumed"] }],
  },
  { check: "r-plane-low", name: "R above", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
  {
    check: "r-plane-low",
    name: "R above the surface but below the high side of an incline",
    text: program(...approach(7, 2000), "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R2. F90."),
    // 26 mm flat front: 13 tan 30 = 7.51 mm above the axis.
    expect: [
      {
        severity: "error",
        line: 8,
        word: "R2.",
        says: ["first contact at 7.51 mm", "incline of 30°", "Way out: R 9.51 mm"],
        measured: 2,
      },
    ],
  },
  {
    check: "r-plane-low",
    name: "a feed in long hand that begins below the high side",
    text: program(...approach(7, 2000), "(CUT ENTRY INCLINE 30 DEG)", "G0 Z1.", "G1 Z-40. F90.", "G0 Z50."),
    expect: [
      {
        severity: "error",
        line: 8,
        word: "Z1.",
        says: [
          "The feed begins at Z 1.00 mm (0.039 in), below the first contact at 7.51 mm",
          "Way out: end the rapid at Z 9.51 mm (0.374 in)",
        ],
        silentOn: ["R 9"],
      },
    ],
  },
  {
    check: "r-plane-low",
    name: "R above the high side",
    text: program(...approach(7, 2000), "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R9.6 F90."),
    expect: [],
  },
  {
    check: "rapid-into-metal",
    name: "G0 below the top",
    text: program(...T3, "G0 Z-5."),
    expect: [{ severity: "error", line: 7, word: "Z-5.", measured: -5, limit: 0 }],
  },
  {
    check: "rapid-into-metal",
    name: "below a top that is only assumed",
    text: program("G0 X0. Y0. Z5.", "Z-5."),
    noSetup: true,
    expect: [{ severity: "warning", line: 4, word: "Z-5.", says: ["assumed"] }],
  },
  {
    check: "rapid-into-metal",
    name: "into a hole already drilled",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450.", "G80", "G0 Z-15.", "Z50."),
    expect: [],
  },
  {
    check: "sideways-in-metal",
    name: "the retract is missing",
    text: program(...T3, "G0 X0. Y0. Z2.", "G1 Z-20. F450.", "G0 X40.", "X80.", "Z50."),
    expect: [
      { severity: "error", line: 9, word: "X40.", measured: -20, limit: 0, says: ["T3", "at rapid", "2 times"] },
    ],
  },
  {
    check: "sideways-in-metal",
    name: "retracted first",
    text: program(...T3, "G0 X0. Y0. Z2.", "G1 Z-20. F450.", "G0 Z2.", "X40.", "Z50."),
    expect: [],
  },
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
    check: "setup",
    name: "a tab that loses the machines is one fault",
    text: program("G0 X1."),
    shop: [["    kind: mill", "\tkind: mill"]],
    expect: [{ severity: "error", line: 6, word: "/shop/swarfline.yaml", says: ["got a tab"] }],
  },
  {
    check: "setup",
    name: "a machine that many rules name and that is not there",
    text: program("G0 X1."),
    shop: [
      [
        '  - { files: "*.nc", machine: vmc, tools: crib, workpiece: part }',
        '  - { files: "a-*.nc", machine: vmc, tools: crib }\n  - { files: "*.nc", machine: vmc, tools: crib, workpiece: part }\n  - { files: "b.x", machine: vmc }',
      ],
      ["  vmc:", "  vmx:"],
    ],
    expect: [
      {
        severity: "error",
        line: 4,
        word: "/shop/swarfline.yaml",
        count: 3,
        says: ["no machine vmc; declared: vmx", "2 more rules name it"],
      },
    ],
  },
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
    expect: [
      { severity: "info", line: 5, word: "G81", count: 2, says: ["no tool is known", "T… M6"] },
      { severity: "info", line: 5, word: "G81", count: 2, says: ["Not checked", "no machine", "a swarfline.yaml"] },
    ],
  },
  {
    check: "cannot-check",
    name: "one finding for each place where it can be put right, on the first hole that has the reason",
    text: program(
      ...T3,
      "G81 X0. Y0. Z-20. R2. F450.",
      "G80",
      ...T7,
      "G81 X80. Y0. Z-40. R2. F200.",
      "G80",
      "#100=[#5241]",
      "G81 X160. Y0. Z#100 R2. F200.",
    ),
    shop: [
      [", thrust: 9 kN", ""],
      ["DC: 26, SIG: 180, LU: 78,", "DC: 26, SIG: 180,"],
    ],
    expect: [
      { severity: "info", line: 7, word: "G81", count: 2, says: ["axis thrust limit", "`axis.thrust` of machine vmc"] },
      { severity: "info", line: 13, word: "G81", count: 1, says: ["reach of T7", "`LU` of T7 in the tool table"] },
      { severity: "info", line: 16, word: "G81", says: ["depth and loads of T7", "a plain number for the level"] },
      { severity: "info", line: 16, word: "Z#100", says: ["system variable", "a plain number in its place"] },
    ],
  },
  {
    check: "cannot-check",
    name: "a straight move under G93 has a feed; one from an unknown height has none",
    text: program(...T3, "G93", "G0 Z2.", "G1 Z-20. F20.", "G0 Z50."),
    expect: [],
  },
  {
    check: "cannot-check",
    name: "under G93 a move from an unknown height has no length",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 M88", "G93 G1 Z-20. F20.", "G0 Z50."),
    expect: [
      {
        severity: "info",
        line: 6,
        word: "Z-20.",
        says: ["the height before the stroke is not known", "a move to a known height before it"],
      },
    ],
  },
  ...rows("feed-mode", [
    {
      name: "G93 with the number of a feed per minute",
      body: [...T3, "G0 Z2.", "G93 G1 Z-20. F450.", "G94", "G0 Z50."],
      expect: {
        severity: "error",
        line: 8,
        word: "F450.",
        says: ["G93 makes F the time of the move", "3.960 mm/rev", "G94 before it", "0.180 mm/rev"],
        measured: (22 * 450) / 2500,
      },
    },
    {
      name: "G93 with the number of a feed per revolution",
      body: [...T3, "G0 Z2.", "G93 G1 Z-20. F.18", "G94", "G0 Z50."],
      expect: {
        severity: "error",
        line: 8,
        word: "F.18",
        says: ["G95 before it", "0.180 mm/rev"],
        measured: (22 * 0.18) / 2500,
      },
    },
    { name: "G93 with a time that fits", body: [...T3, "G0 Z2.", "G93 G1 Z-20. F20.45", "G94", "G0 Z50."] },
  ]),
  ...rows("feed-window", [
    {
      name: "G93 too fast",
      body: [...T3, "G0 Z2.", "G93 G1 Z-20. F40.", "G94", "G0 Z50."],
      expect: {
        severity: "warning",
        line: 8,
        word: "F40.",
        says: ["0.352 mm/rev", "F for 625 mm/min (24.6 in/min) or less"],
        measured: (22 * 40) / 2500,
      },
    },
    { name: "G93 as fast as the window asks", body: [...T3, "G0 Z2.", "G93 G1 Z-20. F20.45", "G94", "G0 Z50."] },
  ]),
  ...rows("no-feed", [
    {
      name: "F0 under G93",
      body: [...T3, "G0 Z2.", "G93 G1 Z-20. F0", "G94", "G0 Z50."],
      expect: { severity: "error", line: 8, word: "F0", says: ["never gets into the metal"] },
    },
  ]),
  {
    check: "interrupted-feed",
    name: "G93 into an incline",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G0 Z12.", "G93 G1 Z-40. F4.", "G94", "G0 Z50."),
    expect: [
      { severity: "error", line: 9, word: "F4.", says: ["F for 100 mm/min"], measured: (52 * 4) / 2000, limit: 0.05 },
    ],
  },
  {
    check: "cannot-check",
    name: "a cycle under G93 is told by its own rule",
    text: program(...T3, "G93", "G81 X0. Y0. Z-20. R2. F450."),
    expect: [],
  },
  {
    check: "cannot-check",
    name: "no thrust limit",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."),
    shop: [[", thrust: 9 kN", ""]],
    expect: [{ severity: "info", line: 7, word: "G81", says: ["axis thrust limit", "not declared"] }],
  },
  {
    check: "cannot-check",
    name: "a turning machine",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."),
    shop: [["kind: mill", "kind: turn"]],
    expect: [{ severity: "info", line: 7, word: "G81", says: ["machine vmc turns", "its dialect is that of a mill"] }],
  },
  {
    check: "cannot-check",
    name: "a spot drill needs no usable length",
    text: program(...approach(2, 1300), "G81 X0. Y0. Z-4. R2. F130."),
    shop: [["{ T: 2, family: spot, DC: 12, SIG: 142, LU: 20,", "{ T: 2, family: spot, DC: 12, SIG: 142,"]],
    expect: [],
  },
  { check: "cannot-check", name: "all declared", text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."), expect: [] },
];
