/** Every cell of the table of cases that shop practice gives (common practice, no source) is told to somebody. */
import { describe, expect, test } from "vitest";
import { explainText, type Group } from "../../../server/cli/formats/explain-text.ts";
import type { CliIo } from "../../../server/cli/io.ts";
import { approach, program, type ReviewedText, reviewText, SHOP, seen } from "./shop.ts";

const P = (f: number) => `windows: [{ group: P, vc: [10, 20, 300], f: [${f * 0.5}, ${f}, ${f * 1.4}] }]`;
const TOOLS = `
    - { T: 21, family: indexable, DC: 25, SIG: 180, LU: 75, ZEFP: 1, edge: general, coolant: through, ${P(0.1)} }
    - { T: 22, family: solid-carbide, DC: 12, SIG: 140, LU: 60, NOF: 2, coolant: through, ${P(0.2)} }
    - { T: 23, family: twist-hss, DC: 20, SIG: 118, LU: 120, NOF: 2, point: split, coolant: external, ${P(0.3)} }
    - { T: 24, family: spade, DC: 40, SIG: 130, LU: 160, coolant: through, ${P(0.3)} }
    - { T: 25, family: twist-hss, DC: 20, SIG: 118, LU: 60, NOF: 2, point: split, coolant: external, ${P(0.3)} }
`;
const FAMILIES = {
  "two-insert": { T: 21, DC: 25, nominal: 0.1 },
  carbide: { T: 22, DC: 12, nominal: 0.2 },
  HSS: { T: 23, DC: 20, nominal: 0.3 },
  spade: { T: 24, DC: 40, nominal: 0.3 },
} as const;
type Family = keyof typeof FAMILIES;

const NOTES: { readonly [name: string]: (D: number) => string } = {
  "edge, 30 % of the area": () => "EDGE AREA 30 PCT",
  "edge, 50 % of the area": () => "EDGE AREA 50 PCT",
  "chain at 0.75 D": (D) => `CHAIN PITCH ${0.75 * D}`,
  "web at 0.75 D": (D) => `WEB PITCH ${0.75 * D}`,
  "ridge, 30 degree flanks": () => "RIDGE FLANK 30 DEG",
  "incline 30 degrees": () => "INCLINE 30 DEG",
};

interface Told {
  /** Of the nominal feed; null: none fits. */
  readonly share: number | null;
  /** Findings where the feed is right. */
  readonly finds: readonly string[];
  /** What `explain` says of the entry. */
  readonly explains: readonly string[];
  /** What the finding says. */
  readonly says?: string;
}

const error = ["error entry-not-allowed"];
const warning = ["warning entry-not-allowed"];
const none: readonly string[] = [];
const EDGE = "stronger edge; coolant on before contact";
const BODY = "short body, stronger (lower-rake) edge";

const CASES: readonly (readonly [string, Family, Told])[] = [
  [
    "edge, 30 % of the area",
    "two-insert",
    { share: 0.5, finds: warning, explains: ["extreme", "entry data"], says: "check the tool's own entry data" },
  ],
  ["edge, 30 % of the area", "carbide", { share: null, finds: error, explains: ["extreme"], says: "two-insert drill" }],
  ["edge, 30 % of the area", "HSS", { share: null, finds: error, explains: ["extreme"], says: "guide it by a bush;" }],
  ["edge, 30 % of the area", "spade", { share: null, finds: error, explains: ["extreme"], says: "plunge mill it" }],
  ["edge, 50 % of the area", "two-insert", { share: 0.5, finds: none, explains: ["heavy", BODY] }],
  ["edge, 50 % of the area", "carbide", { share: null, finds: error, explains: ["extreme"], says: "plunge mill it" }],
  ["edge, 50 % of the area", "HSS", { share: null, finds: error, explains: ["extreme"], says: "guide it by a bush;" }],
  ["edge, 50 % of the area", "spade", { share: null, finds: error, explains: ["extreme"], says: "two-insert drill" }],
  ["chain at 0.75 D", "two-insert", { share: 0.5, finds: none, explains: ["heavy", BODY] }],
  ["chain at 0.75 D", "carbide", { share: 0.5, finds: none, explains: ["medium", EDGE] }],
  ["chain at 0.75 D", "HSS", { share: 0.7, finds: none, explains: ["medium", EDGE] }],
  ["chain at 0.75 D", "spade", { share: 0.6, finds: none, explains: ["medium", EDGE] }],
  ["web at 0.75 D", "two-insert", { share: 0.5, finds: none, explains: ["heavy", BODY] }],
  ["web at 0.75 D", "carbide", { share: 0.5, finds: none, explains: ["medium", EDGE] }],
  ["web at 0.75 D", "HSS", { share: 0.7, finds: none, explains: ["medium", EDGE] }],
  ["web at 0.75 D", "spade", { share: 0.6, finds: none, explains: ["medium", EDGE] }],
  ["ridge, 30 degree flanks", "two-insert", { share: 0.5, finds: none, explains: ["heavy", BODY] }],
  ["ridge, 30 degree flanks", "carbide", { share: null, finds: warning, explains: ["heavy"], says: "face first" }],
  [
    "ridge, 30 degree flanks",
    "HSS",
    { share: 0.5, finds: ["info entry-advice"], explains: ["heavy", "spot first"], says: "stub drill or a bush" },
  ],
  [
    "ridge, 30 degree flanks",
    "spade",
    { share: null, finds: warning, explains: ["heavy"], says: "not made for a ridge" },
  ],
  ["incline 30 degrees", "two-insert", { share: 0.5, finds: none, explains: ["heavy", BODY] }],
  ["incline 30 degrees", "carbide", { share: null, finds: error, explains: ["extreme"], says: "mill flat first" }],
  ["incline 30 degrees", "HSS", { share: null, finds: error, explains: ["extreme"], says: "bush, or mill flat first" }],
  ["incline 30 degrees", "spade", { share: null, finds: error, explains: ["extreme"], says: "mill flat first" }],
];

const ENTRY = new Set(["entry-not-allowed", "entry-advice", "interrupted-feed"]);
const entryFindings = (reviewed: ReviewedText) => seen(reviewed).filter((one) => ENTRY.has(one.check));
const brief = (reviewed: ReviewedText) => entryFindings(reviewed).map(({ severity, check }) => `${severity} ${check}`);

/** Classes at 0.15, 0.25 and 0.5 D across the hole, and the shares of the nominal feed. */
const CROSS: readonly (readonly [Family, number, string, number])[] = [
  ["two-insert", 0.15, "light", 1],
  ["two-insert", 0.25, "medium", 0.7],
  ["two-insert", 0.5, "heavy", 0.5],
  ["carbide", 0.15, "light", 1],
  ["carbide", 0.25, "light", 1],
  ["carbide", 0.5, "medium", 0.5],
  ["HSS", 0.15, "light", 1],
  ["HSS", 0.25, "light", 1],
  ["HSS", 0.5, "medium", 0.7],
  ["spade", 0.15, "light", 0.8],
  ["spade", 0.25, "light", 0.8],
  ["spade", 0.5, "medium", 0.6],
];

/** The same drill across a hole in the stock, of a share of its diameter. */
function crossed(family: Family, share: number, feed: number): ReviewedText {
  const { T, DC, nominal } = FAMILIES[family];
  const void_ = `voids: [{ cylinder: { axis: y, through: [0, 0, ${-1.2 * DC}], diameter: ${share * DC}, span: [-500, 500] } }]`;
  const shop = SHOP.replace("\n    - { T: 1,", `${TOOLS}    - { T: 1,`).replace(
    "z: [-200, 0] } }] }",
    `z: [-200, 0] } }], ${void_} }`,
  );
  const f = (1000 * feed * nominal).toFixed(3);
  return reviewText(program(...approach(T, 1000), `G81 X0. Y0. Z-${(2.5 * DC).toFixed(1)} R5. F${f}`), shop);
}

/** The program of one case. 1000 1/min: F is a thousand times the feed. */
function drilled(family: Family, note: string, share: number, T: number = FAMILIES[family].T): ReviewedText {
  const { DC, nominal } = FAMILIES[family];
  const f = (1000 * share * nominal).toFixed(3);
  const z = (2.5 * DC).toFixed(1);
  const text = program(...approach(T, 1000), `(CUT ENTRY ${note})`, `G81 X0. Y0. Z-${z} R25. F${f}`);
  return reviewText(text, SHOP.replace("\n    - { T: 1,", `${TOOLS}    - { T: 1,`));
}

function explained({ review }: ReviewedText): string {
  const operation = review.execution.operations[0];
  if (operation === undefined) throw new Error("no operation");
  const groups: Group[] = operation.shapes.map(({ shape, firstHole }) => ({
    operation,
    shape,
    holes: [review.execution.hole(firstHole)],
  }));
  const io = { cwd: "/shop", width: 2000, colour: false } as unknown as CliIo;
  return explainText("part.nc", groups, review, null, io).replace(/\s+/g, " ");
}

describe("the table of cases", () => {
  test.each(CASES)("%s, %s", (name, family, told) => {
    const note = NOTES[name]?.(FAMILIES[family].DC) ?? "";
    const reviewed = drilled(family, note, told.share ?? 0.5);
    expect(brief(reviewed)).toEqual(told.finds);
    if (told.says !== undefined) expect(entryFindings(reviewed)[0]?.message).toContain(told.says);
    const text = explained(reviewed);
    for (const part of told.explains) expect(text).toContain(part);
    if (told.share === null) return;
    expect(text).toContain(`${Math.round(told.share * 100)} % of the nominal`);
    expect(brief(drilled(family, note, told.share * 1.2))).toContain("warning interrupted-feed");
  });

  test("is whole: every case with every family", () => {
    const cells = CASES.map(([name, family]) => `${name}|${family}`);
    const all = Object.keys(NOTES).flatMap((name) => Object.keys(FAMILIES).map((family) => `${name}|${family}`));
    expect(cells).toEqual(all);
  });

  test.each(CROSS)("%s across a hole of %f D is %s", (family, size, class_, share) => {
    const right = crossed(family, size, share);
    expect(brief(right)).toEqual([]);
    const text = explained(right);
    expect(text).toContain(class_);
    expect(text).toContain(`${Math.round(share * 100)} % of the nominal`);
    if (share < 1) expect(brief(crossed(family, size, share * 1.2))).toEqual(["warning interrupted-feed"]);
  });

  test("a two-insert drill runs straight through a web, and beside a ridge it is warned of", () => {
    const walk = (note: string) => seen(drilled("two-insert", note, 0.5)).filter((one) => one.check === "walk");
    expect(walk("WEB PITCH 18.75")).toEqual([]);
    expect(brief(drilled("two-insert", "RIDGE FLANK 30 DEG OFFSET 2.", 0.5))).toEqual([]);
    expect(brief(drilled("two-insert", "RIDGE FLANK 30 DEG OFFSET 3.", 0.5))).toEqual(warning);
  });

  test("a stub drill, or one that the shop says is guided, needs no advice", () => {
    expect(brief(drilled("HSS", "RIDGE FLANK 30 DEG", 0.5, 25))).toEqual([]);
    const guided = SHOP.replace("point: split,", "point: split, entry: { heavy: 0.5 },");
    const body = [...approach(5, 1000, "M8"), "(CUT ENTRY RIDGE FLANK 30 DEG)", "G81 X0. Y0. Z-30. R8. F90."];
    expect(brief(reviewText(program(...body)))).toEqual(["info entry-advice"]);
    expect(brief(reviewText(program(...body), guided))).toEqual([]);
  });
});
