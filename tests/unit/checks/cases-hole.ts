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
];
