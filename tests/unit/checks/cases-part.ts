/** What the declared part and the holes drilled before make of a hole, and what the checks say about it. */
import type { Case, Expected } from "./cases.ts";
import { approach, program } from "./shop.ts";

const T3 = approach(3, 2500);
const T7 = approach(7, 2000);

const BLOCK = "solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }]";
const box = (more = "", z = "[-200, 0]"): string => `{ box: { x: [-500, 500], y: [-500, 500], z: ${z} }${more} }`;
/** The shop with another part. */
const part = (solids: string, voids = ""): Case["shop"] => [
  [BLOCK, `solids: [${solids}]${voids === "" ? "" : `, voids: [${voids}]`}`],
];
const ramp = (angle: number): Case["shop"] =>
  part(box(`, face: { incline: ${angle}, towards: x+, through: [0, 0, 0] }`, "[-200, 400]"));
const cross = (d: number): Case["shop"] =>
  part(box(), `{ crossHole: { along: y, through: [0, 0, -25], diameter: ${d} } }`);
const bottom = (angle: number): Case["shop"] =>
  part(box(`, face: { incline: ${angle}, towards: x+, through: [0, 0, -30], side: z- }`));
const plates = part(`${box("", "[-20, 0]")}, ${box("", "[-45, -25]")}`);
const stack = part("{ plates: { x: [-500, 500], y: [-500, 500], top: 0, layers: [{ plate: 20 }, { plate: 40 }] } }");

interface Row {
  readonly name: string;
  readonly body: readonly string[];
  readonly shop?: Case["shop"];
  readonly expect?: Expected;
}

const rows = (check: string, ...all: readonly Row[]): Case[] =>
  all.map(({ name, body, shop, expect }) => ({
    check,
    name,
    text: program(...body),
    expect: expect === undefined ? [] : [expect],
    ...(shop === undefined ? {} : { shop }),
  }));

const SAFE = "Z-40. R20.";

export const PART_CASES: readonly Case[] = [
  ...rows(
    "interrupted-feed",
    {
      name: "a face of 30 degrees in the stock",
      body: [...T7, `G81 X0. Y0. ${SAFE} F200.`],
      shop: ramp(30),
      expect: {
        severity: "error",
        line: 7,
        word: "F200.",
        says: ["an incline of 30°, by the stock", "class heavy", "allowed is 0.050 mm/rev", "Way out: F100"],
        measured: 0.1,
        limit: 0.05,
      },
    },
    { name: "the same at half the feed", body: [...T7, `G81 X0. Y0. ${SAFE} F100.`], shop: ramp(30) },
    {
      name: "a sloped edge of the part, where its face is flat",
      body: [...T7, `G81 X-60. Y0. ${SAFE} F200.`],
      shop: part(box(", face: { incline: 30, towards: x+, through: [0, 0, 0] }")),
    },
    {
      name: "the second hole of a chain; the first is whole",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X19.5"],
      expect: {
        severity: "error",
        line: 7,
        word: "F200.",
        count: 1,
        says: ["an equal hole beside it at pitch 19.50 mm (0.768 in), by the stock", "1 hole, line 8."],
      },
    },
    { name: "a chain at half the feed", body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X19.5 F100."] },
    {
      name: "the chain and the pass that takes the web are told apart",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X19.5", "X58.5", "X39."],
      expect: {
        severity: "error",
        line: 7,
        word: "F200.",
        count: 2,
        says: ["an equal hole beside it", "Also: ", "a web between two equal holes"],
      },
    },
    { name: "circles that only touch", body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X26."] },
    { name: "the same hole again", body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X0."] },
    { name: "beside a hole where nothing is cut", body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X19.5 Z1."] },
    {
      name: "beside a hole whose depth does not reach it",
      body: [...T7, "G81 X0. Y0. Z-20. R2. F200.", "G80", "G52 Z-40.", "G81 X19.5 Y0. Z-20. R2. F200."],
    },
    {
      name: "a cross bore of half the diameter",
      body: [...T7, "G81 X0. Y0. Z-60. R2. F200."],
      shop: cross(13),
      expect: {
        severity: "error",
        line: 7,
        word: "F200.",
        says: ["inside the hole", "class heavy", "full feed from there"],
      },
    },
    { name: "a cross bore below the hole", body: [...T7, "G81 X0. Y0. Z-15. R2. F200."], shop: cross(13) },
    {
      name: "a small cross bore is a light cut",
      body: [...T3, "G81 X0. Y0. Z-45. R2. F450."],
      shop: cross(1.5),
    },
  ),
  {
    check: "interrupted-feed",
    name: "an inch chain is told in inches",
    text: program(...T7.map((line) => line.replace("Z50.", "Z2.")), "G81 X0. Y0. Z-1.5 R.1 F8.", "X.75").replace(
      "G21",
      "G20",
    ),
    expect: [
      { severity: "error", line: 7, word: "F8.", says: ["0.750 in (19.05 mm)", "0.0020 in/rev (0.050 mm/rev)"] },
    ],
  },
  ...rows(
    "interrupted-feed",
    {
      name: "a cast skin on top",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200."],
      shop: [[BLOCK, `${BLOCK}, skin: { thickness: 2, on: top }`]],
      expect: { severity: "warning", line: 7, word: "F200.", says: ["for the skin", "0.080 mm/rev"] },
    },
    {
      name: "a cast skin that a note says is faced",
      body: [...T7, "(CUT ENTRY FLAT)", "G81 X0. Y0. Z-40. R2. F200."],
      shop: [[BLOCK, `${BLOCK}, skin: { thickness: 2, on: top }`]],
    },
  ),
  ...rows(
    "entry-not-allowed",
    ...([T3, approach(5, 500, "M8")] as const).flatMap((lines): Row[] => [
      {
        name: "a point that comes out beside a neighbour",
        body: [...lines, "G81 X0. Y0. Z-44. R2. F150.", "X8. F80."],
        shop: part(box("", "[-40, 0]")),
      },
      {
        name: "a point that comes out of an underside of 2 degrees",
        body: [...lines, "G81 X0. Y0. Z-44. R2. F150."],
        shop: bottom(2),
      },
    ]),
    {
      name: "an incline whose normal has three digits, at the tool's own limit",
      body: [...T7, `G81 X0. Y0. ${SAFE} F90.`],
      shop: [
        ["minPressure: 8,", "minPressure: 8, entry: { maxIncline: 30 },"],
        ...(part(box(", cut: [{ through: [0, 0, 0], normal: [0.5, 0, 0.866] }]", "[-200, 400]")) ?? []),
      ],
    },
    {
      name: "an incline a degree over the tool's own limit",
      body: [...T7, `G81 X0. Y0. ${SAFE} F90.`],
      shop: [["minPressure: 8,", "minPressure: 8, entry: { maxIncline: 30 },"], ...(ramp(31) ?? [])],
      expect: { severity: "error", line: 7, word: "G81", says: ["its own data allows 30"] },
    },
  ),
  ...rows(
    "hole-in-air",
    {
      name: "a hole beside the part",
      body: [...T7, "G81 X600. Y0. Z-40. R2. F200."],
      expect: { severity: "warning", line: 7, word: "Z-40.", says: ["Nothing of the declared part is where T7 goes"] },
    },
    {
      name: "a drill within a bore of the blank",
      body: [...T3, "G81 X0. Y0. Z-30. R2. F450."],
      shop: part(box(), "{ hole: { at: [0, 0], diameter: 20, floor: none } }"),
      expect: { severity: "warning", line: 7, word: "Z-30." },
    },
  ),
  ...rows(
    "interrupted-exit",
    {
      name: "an underside of 30 degrees",
      body: [...T7, "G81 X0. Y0. Z-50. R2. F200."],
      shop: bottom(30),
      expect: {
        severity: "error",
        line: 7,
        word: "F200.",
        says: ["comes out on one side first (class heavy)", "0.050 mm/rev", "to the end"],
      },
    },
    { name: "the same at half the feed", body: [...T7, "G81 X0. Y0. Z-50. R2. F100."], shop: bottom(30) },
    { name: "a hole that ends above it", body: [...T7, "G81 X0. Y0. Z-15. R2. F200."], shop: bottom(30) },
    {
      name: "a note tells it",
      body: [...T7, "(CUT EXIT INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R2. F200."],
      expect: { severity: "error", line: 8, word: "F200.", says: ["an incline of 30°, class heavy"] },
    },
    {
      name: "a note, and the feed reduced for the last stretch alone",
      body: [...T7, "(CUT EXIT INCLINE 30 DEG)", "G0 Z2.", "G1 Z-22. F200.", "Z-40. F100.", "G0 Z50."],
    },
  ),
  ...rows(
    "entry-contradicts",
    {
      name: "an incline told where the stock is flat",
      body: [...T7, "(CUT ENTRY INCLINE 30 DEG)", "G81 X0. Y0. Z-40. R12. F90."],
      expect: {
        severity: "warning",
        line: 8,
        word: "G81",
        says: ["an incline of 30° (class heavy)", "an entry that is not interrupted", "costs time"],
      },
    },
    {
      name: "a flat face told where the stock is inclined",
      body: [...T7, "(CUT ENTRY FLAT)", `G81 X0. Y0. ${SAFE} F90.`],
      shop: ramp(30),
      expect: {
        severity: "warning",
        line: 8,
        word: "G81",
        says: ["a flat face (class none)", "class heavy", "too high"],
      },
    },
    {
      name: "a chain told once for its run",
      body: [...T7, "(CUT ENTRY CHAIN PITCH 19.5)", "G81 X0. Y0. Z-40. R2. F90.", "X19.5"],
    },
    {
      name: "both tell the same",
      body: [...T7, "(CUT ENTRY INCLINE 30 DEG)", `G81 X0. Y0. ${SAFE} F90.`],
      shop: ramp(30),
    },
  ),
  ...rows(
    "centre-insert-free",
    {
      name: "a cross bore through the middle",
      body: [...T7, "G81 X0. Y0. Z-60. R2. F90."],
      shop: cross(13),
      expect: { severity: "warning", line: 7, word: "Z-60.", says: ["T7", "in air over", "more than 0.1 D, 2.60 mm"] },
    },
    { name: "a cross bore beside the middle", body: [...T7, "G81 X12. Y0. Z-60. R2. F90."], shop: cross(6) },
    { name: "another kind of drill", body: [...T3, "G81 X0. Y0. Z-45. R2. F200."], shop: cross(6) },
  ),
  ...rows(
    "predrilled-large",
    {
      name: "an insert drill opens a drilled hole",
      body: [...T3, "G81 X0. Y0. Z-40. R2. F450.", "G80", ...T7, "G81 X0. Y0. Z-40. R2. F200."],
      expect: {
        severity: "warning",
        line: 13,
        word: "G81",
        says: ["10.20 mm (0.402 in)", "6.50 mm (0.256 in)"],
        measured: 10.2,
        limit: 6.5,
        unit: "mm",
      },
    },
    {
      name: "an insert drill opens a bore of the blank",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200."],
      shop: part(box(), "{ hole: { at: [0, 0.002], diameter: 12, floor: none } }"),
      expect: { severity: "warning", line: 7, word: "G81", says: ["12.00 mm (0.472 in)"], measured: 12 },
    },
    {
      name: "only spotted",
      body: [...approach(2, 1330, "M8"), "G81 X0. Y0. Z-2. R2. F133.", "G80", ...T7, "G81 X0. Y0. Z-40. R2. F200."],
    },
    {
      name: "a twist drill opens it",
      body: [...T3, "G81 X0. Y0. Z-40. R2. F450.", "G80", ...approach(8, 160, "M8"), "G81 X0. Y0. Z-40. R2. F40."],
    },
  ),
  ...rows(
    "thin-web",
    {
      name: "a web of 1.2 mm between holes of 26",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X27.2"],
      expect: {
        severity: "warning",
        line: 8,
        word: "X27.2",
        says: ["1.20 mm (0.047 in)", "less than 2.60 mm (0.102 in)", "line 7"],
        measured: 1.2,
        limit: 2.6,
      },
    },
    {
      name: "holes that graze",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F200.", "X25.5 F100."],
      expect: { severity: "warning", line: 8, word: "X25.5 F100.", says: ["fin", "25.50 mm"] },
    },
    { name: "a perforated plate", body: [...T3, "G81 X0. Y0. Z-20. R2. F450.", "X12.", "X24."] },
    { name: "a chain", body: [...T7, "G81 X0. Y0. Z-40. R2. F100.", "X19.5"] },
    {
      name: "a thin web between depths that do not meet",
      body: [...T7, "G81 X0. Y0. Z-20. R2. F200.", "G80", "G52 Z-40.", "G81 X27. Y0. Z-20. R2. F200."],
    },
  ),
  ...rows(
    "plate-gap",
    {
      name: "an insert drill through two plates",
      body: [...T7, "G81 X0. Y0. Z-46. R2. F200."],
      shop: plates,
      expect: { severity: "error", line: 7, word: "Z-46.", says: ["Z -20.00 mm", "Z -25.00 mm", "frees a disc"] },
    },
    {
      name: "a solid drill through two plates",
      body: [...T3, "G81 X0. Y0. Z-48. R2. F450."],
      shop: plates,
      expect: { severity: "warning", line: 7, word: "Z-48.", says: ["hooks in"] },
    },
    {
      name: "a chamber inside the block, wider than the drill",
      body: [...T7, "G81 X0. Y0. Z-46. R2. F200."],
      shop: part(box(), "{ cylinder: { axis: z, through: [0, 0, 0], diameter: 60, span: [-25, -20] } }"),
      expect: { severity: "error", line: 7, word: "Z-46.", says: ["Z -20.00 mm", "Z -25.00 mm", "frees a disc"] },
    },
    { name: "through the upper plate alone", body: [...T7, "G81 X0. Y0. Z-22. R2. F200."], shop: plates },
    {
      name: "plates that touch",
      body: [...T7, "G81 X0. Y0. Z-46. R2. F200."],
      shop: part(`${box("", "[-20, 0]")}, ${box("", "[-45, -20]")}`),
    },
  ),
  // Clamped plates that touch, and air between them: half feed across, an HSS drill 0.7 (common practice, no source).
  ...(
    [
      ["T7", T7, "F200.", "0.050"],
      ["T3", T3, "F450.", "0.100"],
      ["T5", approach(5, 500, "M8"), "F90.", "0.126"],
    ] as const
  ).flatMap(([tool, lines, feed, allowed]) =>
    rows(
      "interrupted-feed",
      {
        name: `${tool} across the joint of plates that touch`,
        body: [...lines, `G81 X0. Y0. Z-40. R2. ${feed}`],
        shop: stack,
        expect: {
          severity: "warning",
          line: 7,
          word: feed,
          says: ["across the joint of two plates", `allowed is ${allowed} mm/rev`, "full feed from there"],
        },
      },
      {
        name: `${tool} through boxes of one casting`,
        body: [...lines, `G81 X0. Y0. Z-40. R2. ${feed}`],
        shop: part(`${box("", "[-20, 0]")}, ${box("", "[-60, -20]")}`),
      },
      {
        name: `${tool} across air between plates`,
        body: [...lines, `G81 X0. Y0. Z-40. R2. ${feed}`],
        shop: plates,
        ...(tool === "T7"
          ? {}
          : { expect: { severity: "warning", line: 7, word: feed, says: ["across the air inside the hole"] } }),
      },
      {
        name: `${tool} within the upper plate`,
        body: [...lines, `G81 X0. Y0. Z-15. R2. ${feed}`],
        shop: stack,
      },
    ),
  ),
  ...rows(
    "feed-stays-low",
    {
      name: "half the feed to the bottom",
      body: [...T7, `G81 X0. Y0. Z-60. R20. F100.`],
      shop: ramp(30),
      expect: {
        severity: "info",
        line: 7,
        word: "F100.",
        says: ["0.050 mm/rev (0.0020 in/rev)", "nominal", "lost in each hole", "F200"],
      },
    },
    {
      name: "full feed below the entry",
      body: [...T7, "G0 Z20.", "G1 Z-10. F100.", "Z-60. F200.", "G0 Z50."],
      shop: ramp(30),
    },
    { name: "a hole that ends soon after", body: [...T7, "G81 X0. Y0. Z-30. R20. F100."], shop: ramp(30) },
  ),
  ...rows(
    "r-plane-low",
    {
      name: "below the high side of an inclined face",
      body: [...T7, "G81 X0. Y0. Z-40. R2. F100."],
      shop: ramp(30),
      expect: {
        severity: "error",
        line: 7,
        word: "R2.",
        says: ["first contact at 7.51 mm (0.295 in)", "an incline of 30°"],
        measured: 2,
      },
    },
    { name: "above its high side", body: [...T7, "G81 X0. Y0. Z-40. R9. F100."], shop: ramp(30) },
    {
      name: "a boss beside the axis stands higher",
      body: [...T7, "G81 X36. Y0. Z-40. R5. F100."],
      shop: part(`${box()}, { cylinder: { axis: z, through: [0, 0, 0], diameter: 50, span: [-10, 10] } }`),
      expect: { severity: "error", line: 7, word: "R5.", says: ["first contact at 10.00 mm"] },
    },
  ),
  ...rows(
    "r-plane-high",
    {
      name: "25 mm above the high side, not above the axis",
      body: [...T7, "G81 X0. Y0. Z-40. R30. F100."],
      shop: ramp(30),
    },
    {
      name: "far above the high side",
      body: [...T7, "G81 X0. Y0. Z-40. R40. F100."],
      shop: ramp(30),
      expect: { severity: "info", line: 7, word: "R40.", says: ["32.49 mm", "Way out: R 9.51 mm"] },
    },
  ),
  ...rows("cannot-check", {
    name: "a work system that does not tell where it lies to the stock",
    body: [...T7, "G55 G81 X0. Y0. Z-40. R2. F200."],
    expect: { severity: "info", line: 7, word: "G81", says: ["how G55 lies to the stock is not known", "workOffsets"] },
  }),
];
