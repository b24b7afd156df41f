/** Entries, coolant, depth and cautions, and what the checks must say about them. */
import type { Case } from "./cases.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const T7 = approach(7, 2000);

export const HOLE_CASES: readonly Case[] = [
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
        says: ["incline of 30°", "heavy", "0.050 mm/rev", "F100 mm/min", "full feed from there"],
        measured: 0.1,
        limit: 0.05,
        unit: "mm/rev",
      },
    ],
  },
  {
    check: "interrupted-feed",
    name: "one F is one finding, whatever notes tell the entries",
    text: program(
      ...T7,
      "(CUT ENTRY INCLINE 30 DEG)",
      "G81 X0. Y0. Z-40. R12. F200.",
      "X50.",
      "(CUT ENTRY INCLINE 30 DEG)",
      "X150.",
      "X200. (CUT ENTRY INCLINE 30 DEG)",
      "X250. (CUT ENTRY INCLINE 30 DEG)",
    ),
    expect: [
      {
        severity: "error",
        line: 8,
        word: "F200.",
        count: 5,
        says: [" 5 holes, first line 8."],
        silentOn: ["Also"],
      },
    ],
  },
  ...(["entry-not-allowed", "walk"] as const).map(
    (check): Case => ({
      check,
      name: "stands on the first hole and names the worst",
      text: program(
        ...T3,
        "(CUT ENTRY INCLINE 8 DEG)",
        "G0 X0. Y0. Z12.",
        "G1 Z-1. F450.",
        "G0 Z12.",
        "X50.",
        "G1 Z-20.",
        "G0 Z50.",
      ),
      expect: [
        {
          severity: check === "walk" ? "info" : "warning",
          line: 9,
          word: "Z-1.",
          count: 2,
          says: ["2 holes, first line 9, worst line 12."],
        },
      ],
    }),
  ),
  {
    check: "interrupted-feed",
    name: "two entries under one F are one finding with both ways out",
    text: program(
      ...T7,
      "G81 X0. Y0. Z-40. R12. F200. (CUT ENTRY INCLINE 30 DEG)",
      "X60. (CUT ENTRY EDGE AREA 50 PCT)",
    ),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F200.",
        count: 2,
        says: [
          "incline of 30°",
          "full feed from there. Also: for the interrupted cut (an edge with 50 % of the hole in metal",
          "F100 mm/min (3.9 in/min) over the full depth. 2 holes, first line 7.",
        ],
      },
    ],
  },
  {
    check: "interrupted-feed",
    name: "the worst of two entries under one F is named, with its severity",
    text: program(
      ...T7,
      "G81 X0. Y0. Z-40. R12. F175. (CUT ENTRY CHAIN PITCH 24.5)",
      "X60. (CUT ENTRY INCLINE 30 DEG)",
    ),
    expect: [
      {
        severity: "error",
        line: 7,
        word: "F175.",
        count: 2,
        says: [
          "too high for the interrupted cut (an incline",
          "Also: for the interrupted cut (an equal hole beside it",
          "worst line 8.",
        ],
      },
    ],
  },
  ...(["spindle-state", "coolant-late", "feed-mode", "vc-window"] as const).map(
    (check): Case => ({
      check,
      name: "into a pilot of the same size reversed, slow, dry and fast, then right in metal",
      text: program(
        ...T7,
        "G81 X0. Y0. Z-20. R2. F200.",
        "G80",
        ...approach(7, 50).map((line) => line.replace("M3", "M4").replace(" M88", "")),
        "G0 Z2.",
        "G1 Z-19. F2000.",
        "M5",
        "S2000 M3",
        "M88",
        "G4 P3000",
        "G1 Z-40. F200.",
        "G0 Z50.",
      ),
      expect: [],
    }),
  ),
  ...(["feed-mode", "spindle-power", "peck-style"] as const).map(
    (check): Case => ({
      check,
      name: "fast through the tool's own hole, and the same hole twice",
      text: program(...T7, "G81 X0. Y0. Z-30. R2. F200.", "X0. Y0.", "G80", "G0 X0. Y0.", "G1 Z-29. F4000.", "G0 Z50."),
      expect: [],
    }),
  ),
  {
    check: "interrupted-feed",
    name: "pecks of one hole are one hole",
    text: program(...T7, "(CUT ENTRY EDGE AREA 30 PCT)", "G83 X0. Y0. Z-40. R2. Q4. F200.", "X60."),
    expect: [{ severity: "error", line: 8, word: "F200.", count: 2, says: ["2 holes, first line 8."] }],
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
    expect: [
      {
        severity: "error",
        line: 8,
        word: "G81",
        says: ["T3 (solid carbide drill) is not made for this entry", "incline of 30°"],
      },
    ],
  },
  {
    check: "interrupted-feed",
    name: "every hole beside the one before has its own word",
    text: program(
      ...T7,
      "G81 X0. Y0. Z-28. R2. F200.",
      "X19.5 (CUT ENTRY CHAIN PITCH 19.5)",
      "X39. F100. (CUT ENTRY CHAIN PITCH 19.5)",
    ),
    expect: [
      { severity: "error", line: 7, word: "F200.", count: 1, says: ["equal hole beside it", "over the full depth"] },
    ],
  },
  {
    check: "interrupted-feed",
    name: "skin",
    text: program(...T7, "(CUT ENTRY SKIN)", "G81 X0. Y0. Z-40. R2. F200."),
    expect: [{ severity: "warning", line: 8, word: "F200.", says: ["for the skin", "0.080 mm/rev"], limit: 0.08 }],
  },
  {
    check: "interrupted-feed",
    name: "where the allowed feed would rub, no feed is proposed",
    text: program(...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F200."),
    shop: [["f: [0.06, 0.1, 0.14] }] }\n    - { T: 8", "f: [0.04, 0.06, 0.14] }] }\n    - { T: 8"]],
    expect: [
      {
        severity: "error",
        line: 8,
        word: "F200.",
        says: ["so no feed fits. Way out: another drill or edge, or a flat entry."],
      },
    ],
  },
  {
    check: "interrupted-feed",
    name: "note in force, but the drill starts below the slope in a hole already drilled",
    text: program(
      ...T7,
      "(CUT ENTRY INCLINE 30 DEG)",
      "G81 X0. Y0. Z-40. R12. F100.",
      "G80",
      "G0 Z-9.",
      "G1 Z-30. F400. (CUT ENTRY INCLINE 30 DEG)",
      "G0 Z50.",
    ),
    expect: [],
  },
  ...(["interrupted-feed", "entry-not-allowed", "r-plane-low"] as const).map((check) => ({
    check,
    name: "a note of the run before says nothing of the next",
    text: program(
      ...T3,
      "(CUT ENTRY INCLINE 12 DEG)",
      "G81 X0. Y0. Z-30. R6. F150.",
      "G80",
      "G81 X40. Y0. Z-20. R2. F450.",
    ),
    expect: check === "entry-not-allowed" ? [{ severity: "warning" as const, line: 8, word: "G81" }] : [],
  })),
  {
    check: "entry-not-allowed",
    name: "a ridge beside the axis of an insert drill",
    text: program(...T7, "(CUT ENTRY RIDGE FLANK 30 DEG OFFSET 4.)", "G81 X0. Y0. Z-40. R12. F90."),
    expect: [
      {
        severity: "warning",
        line: 8,
        word: "G81",
        says: ["the ridge stands beside the drill axis by more than 0.1 D, ", "Way out: centre the ridge"],
        measured: 4,
        unit: "mm",
      },
    ],
  },
  {
    check: "entry-not-allowed",
    name: "two entries under one cycle are two causes, each at its hole",
    text: program(
      ...T3,
      "G81 X0. Y0. Z-30. R6. F450.",
      "X20. (CUT ENTRY INCLINE 30 DEG)",
      "X40. (CUT ENTRY INCLINE 40 DEG)",
    ),
    expect: [
      { severity: "error", line: 8, word: "X20. (CUT ENTRY INCLINE 30 DEG)", count: 1 },
      { severity: "error", line: 9, word: "X40. (CUT ENTRY INCLINE 40 DEG)", count: 1 },
    ],
  },
  {
    check: "entry-not-allowed",
    name: "insert drill with the axis in air is a warning",
    text: program(...T7, "(CUT ENTRY EDGE AREA 30 PCT)", "G81 X0. Y0. Z-30. R2. F100."),
    expect: [{ severity: "warning", line: 8, word: "G81", says: ["may not be made for this entry", "axis in air"] }],
  },
  {
    check: "walk",
    name: "steep entry of a slender drill",
    text: program(...approach(10, 1900, "M8"), "(CUT ENTRY INCLINE 20 DEG)", "G81 X0. Y0. Z-15. R5. F190."),
    expect: [{ severity: "info", line: 8, word: "G81", says: ["incline of 20°", "mm ("], limit: 0.05, unit: "mm" }],
  },
  {
    check: "walk",
    name: "a feed so wrong that the estimate ends",
    text: program(...approach(10, 1900, "M8"), "(CUT ENTRY INCLINE 20 DEG)", "G95 G81 X0. Y0. Z-15. R5. F190."),
    expect: [{ severity: "info", line: 8, word: "G81", says: ["more than", "a tenth of its diameter"] }],
  },
  {
    check: "walk",
    name: "flat",
    text: program(...approach(10, 1900, "M8"), "G81 X0. Y0. Z-15. R5. F190."),
    expect: [],
  },
  {
    check: "entry-advice",
    name: "a long HSS drill on a ridge, though its feed is right",
    text: program(...approach(5, 500, "M8"), "(CUT ENTRY RIDGE FLANK 30 DEG)", "G81 X0. Y0. Z-30. R8. F45."),
    expect: [
      {
        severity: "info",
        line: 8,
        word: "G81",
        says: ["T5 (HSS drill), 8.3xD long,", "ridge with flanks of 30°", "spot first, or a stub drill or a bush"],
      },
    ],
  },
  {
    check: "entry-advice",
    name: "the ridge is spotted first",
    text: program(
      ...approach(2, 1300, "M8"),
      "G81 X0. Y0. Z-1.5 R8. F130.",
      "G80",
      ...approach(5, 500, "M8"),
      "(CUT ENTRY RIDGE FLANK 30 DEG)",
      "G81 X0. Y0. Z-30. R8. F45.",
    ),
    expect: [],
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
    expect: [{ severity: "error", line: 8, word: "G81", says: ["20°"], measured: 30, limit: 20 }],
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
  {
    check: "coolant-late",
    name: "in the block of the first hole",
    text: program("T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G81 X0. Y0. Z-20. R2. F450. M88"),
    expect: [{ severity: "info", line: 6, word: "G81", says: ["only"] }],
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
  {
    check: "coolant-supply",
    name: "flow between 3 and 4 x D grows straight",
    text: program(...T7, "G81 X0. Y0. Z-91. R2. F200."),
    shop: [["M88: { kind: through, pressure: 20, flow: 40 }", "M88: { kind: through, pressure: 20, flow: 25 }"]],
    expect: [{ severity: "warning", line: 5, word: "M88", measured: 25, limit: 29.25, unit: "L/min" }],
  },
  {
    check: "coolant-supply",
    name: "pressure of an insert drill by its diameter where the tool says nothing",
    text: program(...T7, "G81 X0. Y0. Z-40. R2. F200."),
    shop: [
      [", minPressure: 8", ""],
      ["M88: { kind: through, pressure: 20,", "M88: { kind: through, pressure: 6,"],
    ],
    expect: [
      {
        severity: "info",
        line: 5,
        word: "M88",
        says: ["6.0 bar", "6.8 bar", "psi", "common practice", "`minPressure`"],
        measured: 6,
        limit: 6.8,
      },
    ],
  },
  {
    check: "coolant-supply",
    name: "twice the pressure in stainless steel",
    text: program("(CUT MATERIAL X5CRNI18-10 HB 180)", ...T7, "G81 X0. Y0. Z-40. R2. F200."),
    shop: [
      [", minPressure: 8", ""],
      ["M88: { kind: through, pressure: 20,", "M88: { kind: through, pressure: 10,"],
    ],
    expect: [{ severity: "info", line: 6, word: "M88", measured: 10, limit: 13.6 }],
  },
  {
    check: "coolant-supply",
    name: "pressure of a gun drill",
    text: program(...approach(4, 3200), "G81 X0. Y0. Z-60. R2. F400."),
    shop: [
      [
        "T: 4, family: solid-carbide, DC: 8, SIG: 140, LU: 80, NOF: 2, coolant: external",
        "T: 4, family: gun, DC: 8, LU: 80, coolant: through",
      ],
    ],
    expect: [
      {
        severity: "info",
        line: 5,
        word: "M88",
        says: ["20.0 bar (290 psi)", "69.0 bar (1001 psi)", "by tradition"],
        measured: 20,
        limit: 69,
      },
    ],
  },
  {
    check: "coolant-supply",
    name: "no pressure is published for solid carbide",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450."),
    shop: [["M88: { kind: through, pressure: 20,", "M88: { kind: through, pressure: 1,"]],
    expect: [],
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
  {
    check: "reach",
    name: "going on in a hole already drilled counts from the top",
    text: program(
      ...approach(8, 200, "M8"),
      "G83 X0. Y0. Z-50. R3. Q20. F60.",
      "G80 M9",
      ...T3,
      "G81 X0. Y0. Z-70. R2. F450.",
    ),
    expect: [{ severity: "error", line: 13, word: "Z-70.", measured: 70, limit: 55 }],
  },
  { check: "reach", name: "to the end", text: program(...T3, "G81 X0. Y0. Z-55. R2. F450."), expect: [] },
  {
    check: "through-depth",
    name: "the tip comes out, the corner does not",
    text: program(...T3, "G81 X0. Y0. Z-21. R2. F450.", "X20."),
    shop: [["z: [-200, 0]", "z: [-20, 0]"]],
    expect: [
      {
        severity: "warning",
        line: 7,
        word: "Z-21.",
        count: 2,
        says: [
          "-19.14 mm (-0.754 in)",
          "bottom at -20.00 mm (-0.787 in)",
          "Way out: Z -21.86 mm (-0.860 in) or deeper",
        ],
        measured: -19.144,
        limit: -20,
      },
    ],
  },
  {
    check: "through-depth",
    name: "an exit note sends it through",
    text: program(...T3, "G81 X0. Y0. Z-20. R2. F450. (CUT EXIT INCLINE 5 DEG)"),
    shop: [["z: [-200, 0]", "z: [-20, 0]"]],
    expect: [{ severity: "warning", line: 7, word: "Z-20." }],
  },
  ...(
    [
      ["the corner comes out", ["G81 X0. Y0. Z-21.9 R2. F450."]],
      ["a blind hole", ["G81 X0. Y0. Z-19.9 R2. F450."]],
      [
        "a later tool opens it",
        ["G81 X0. Y0. Z-21. R2. F450.", "G80", ...approach(5, 500, "M8"), "G81 X0. Y0. Z-24. R2. F90."],
      ],
    ] as const
  ).map(
    ([name, body]): Case => ({
      check: "through-depth",
      name,
      text: program(...T3, ...body),
      shop: [["z: [-200, 0]", "z: [-20, 0]"]],
      expect: [],
    }),
  ),
  {
    check: "peck-style",
    name: "insert drill pecked",
    text: program(...T7, "G83 X0. Y0. Z-40. R2. Q10. F200."),
    expect: [{ severity: "warning", line: 7, word: "G83", says: ["full retract", "T7"] }],
  },
  {
    check: "peck-style",
    name: "a change of feed on the way down is no peck",
    text: program(...T7, "G0 Z2.", "G1 Z-3. F150.", "G1 Z-40. F200.", "G0 Z50."),
    expect: [],
  },
  {
    check: "peck-style",
    name: "pecks written out",
    text: program(...T7, "G0 Z2.", "G1 Z-12. F200.", "G0 Z2.", "G0 Z-11.", "G1 Z-30.", "G0 Z50."),
    expect: [{ severity: "warning", line: 11, word: "Z-30.", says: ["2 pecks", "one stroke"] }],
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
    name: "a drill known from a comment only",
    text: program("(T5 12MM DRILL)", ...approach(5, 600, "M8"), "G81 X0. Y0. Z-60. R3. F108."),
    noSetup: true,
    expect: [{ severity: "info", line: 8, word: "G81", says: ["taken for an HSS drill"] }],
  },
  {
    check: "peck-style",
    name: "deep HSS with pecks",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q12. F108."),
    expect: [],
  },
  {
    check: "peck-style",
    name: "Q deeper than the hole",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-20. R3. Q30. F108."),
    expect: [{ severity: "info", line: 7, word: "Q30.", says: ["there is no peck"], measured: 30, limit: 23 }],
  },
  {
    check: "peck-style",
    name: "a Q beyond the hole is why there are no pecks: one finding",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q80. F108."),
    expect: [
      {
        severity: "warning",
        line: 7,
        word: "Q80.",
        says: ["there is no peck, and T5 drills 5 x D in one stroke", "Q of 24.00 mm (0.945 in)"],
        measured: 80,
        limit: 63,
      },
    ],
  },
  {
    check: "peck-style",
    name: "a Q out of all proportion is told with the cycle's numbers only",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q9000. F108."),
    expect: [],
  },
  {
    check: "peck-style",
    name: "more than a hundred pecks",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q.48 F108."),
    expect: [
      {
        severity: "warning",
        line: 7,
        word: "Q.48",
        says: ["0.48 mm (0.019 in) makes 126 pecks of 0.04 x D", "decimal point", "12.00 mm (0.472 in)"],
        measured: 126,
        limit: 100,
      },
    ],
  },
  {
    check: "peck-style",
    name: "pecks below a tenth of the diameter",
    text: program(...approach(5, 600, "M8"), "G73 X0. Y0. Z-60. R3. Q1.1 F108."),
    expect: [
      { severity: "info", line: 7, word: "Q1.1", says: ["0.09 x D", "stops more often"], measured: 1.1, limit: 1.2 },
    ],
  },
  {
    check: "peck-style",
    name: "pecks of a tenth of the diameter",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q1.2 F108."),
    expect: [],
  },
  {
    check: "cycle-depth-order",
    name: "so small a Q that the hole is not worked out",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-60. R3. Q.0005 F108."),
    expect: [{ severity: "error", line: 7, word: "G83", says: ["more than 10000 pecks", "Way out: a larger Q"] }],
  },
  {
    check: "cycle-depth-order",
    name: "Q in micrometres",
    text: program(...approach(5, 600, "M8"), "G83 X0. Y0. Z-20. R3. Q3000. F108."),
    expect: [{ severity: "warning", line: 7, word: "Q3000.", says: ["micrometres"] }],
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
        says: ["T1", "90°", "140°"],
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
    name: "a spindle that stands makes no turns to wait for",
    text: program("T3 M6", "G0 X0. Y0.", "G43 H3 Z50. M88", "G82 X0. Y0. Z-9. R2. P1 F450."),
    expect: [],
  },
  {
    check: "dwell-long",
    name: "a minute in each hole",
    text: program(...approach(5, 600, "M8"), "G82 X0. Y0. Z-20. R3. P60000 F108."),
    expect: [
      { severity: "warning", line: 7, word: "P60000", says: ["longer than the 10.0 s", "milliseconds"], measured: 60 },
    ],
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
];
