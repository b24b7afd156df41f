/** What the hovers of a hole show of an interrupted cut: words, a plan view at the worst depth and a curve over depth. */
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { hoverProgram } from "../../../server/editor/hover/program-hover.ts";
import { review } from "../../../server/review/review.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { PROGRAM, SETUP, SETUP_URI } from "../../lsp/shop.ts";
import { parseXml } from "../pictures/xml.ts";

const part = (stock: string): string =>
  SETUP.replace("{ material: 42CrMo4, hardness: 290 HB }", `{ material: 42CrMo4, hardness: 290 HB, stock: ${stock} }`);
const BLOCK = "box: { x: [-50, 200], y: [-50, 60], z: [-60, 0] }";
const FLAT = part(`{ wcs: G54, solids: [{ ${BLOCK} }] }`);
const CROSS = part(
  `{ wcs: G54, solids: [{ ${BLOCK} }], voids: [{ crossHole: { along: y, through: [40, 0, -15], diameter: 10 } }] }`,
);
const INCLINE = part(
  `{ wcs: G54, solids: [{ box: { x: [-50, 200], y: [-50, 60], z: [-60, 90] }, face: { incline: 20, towards: x+, through: [40, 10, 0] } }] }`,
);

function hover(word: string, setup: string, text = PROGRAM): string {
  const lines = LineStore.from(text);
  const made = review({
    program: "file:///shop/parts/plate.nc",
    lines,
    blocks: readBlocks(lines),
    sources: new Map([[SETUP_URI, setup]]),
    setupFile: SETUP_URI,
  });
  const before = text.slice(0, text.indexOf(word)).split("\n");
  return hoverProgram(made, before.length - 1, (before.at(-1) ?? "").length)?.markdown ?? "";
}

interface Picture {
  readonly alt: string;
  readonly svg: string;
}

/** Plan and curve, which stand side by side in one picture; the spindle's envelope is another. */
function pictures(markdown: string): Picture[] {
  return [...markdown.matchAll(/!\[([^\]]*)\]\(data:image\/svg\+xml;base64,([^)]*)\)/g)]
    .map(([, alt, data]) => ({ alt: alt ?? "", svg: atob(data ?? "") }))
    .filter(({ alt }) => !alt.startsWith("Spindle"))
    .flatMap(({ alt, svg }) => alt.split(". Beside it the ").map((part) => ({ alt: part, svg })));
}

const chain = PROGRAM.replace("X40.", "X29.5");
const noted = (note: string): string => PROGRAM.replace("X40.", `X40. (CUT ${note})`);

describe("plan and curve stand in the hover", () => {
  test.each<[string, string, string, string, string]>([
    ["of a hole beside an earlier one", "X29.5", FLAT, chain, "a chain: one equal hole"],
    ["of a hole that a cross hole runs through", "X40.", CROSS, PROGRAM, "a flat face"],
    ["of a hole on a face of the stock", "X40.", INCLINE, PROGRAM, "a face inclined 20°"],
    ["of a hole that a note tells", "X40.", FLAT, noted("ENTRY EDGE AREA 30 PCT"), "told by a cut note"],
    ["of a depth", "Z-30.", INCLINE, PROGRAM, "by the stock and the holes drilled before"],
    ["of a cycle", "G81", INCLINE, PROGRAM, "by the stock and the holes drilled before"],
  ])("%s", (_, word, setup, text, words) => {
    const markdown = hover(word, setup, text);
    expect(markdown).toContain(words);
    const [plan, curve, ...more] = pictures(markdown);
    expect(more).toEqual([]);
    expect(parseXml(plan?.svg ?? "")[0]).toBe("svg");
    expect(plan?.svg).toContain('id="engaged"');
    expect(plan?.alt).toMatch(/^Drill seen along its axis, worst at Z .* of its area and .* of its rim in metal$/);
    expect(parseXml(curve?.svg ?? "")[0]).toBe("svg");
    expect(curve?.svg).toContain('id="area-curve"');
    expect(curve?.alt).toMatch(/^engagement over depth, first contact at Z .*: (light|medium|heavy|extreme) from Z /);
    expect(plan?.svg.length ?? 0).toBeLessThan(9500);
  });
});

test("holes that are whole in metal show neither, whatever their source", () => {
  const cases: [string, string, string][] = [
    ["X10.", SETUP, PROGRAM],
    ["X10.", FLAT, PROGRAM],
    ["X10.", FLAT, chain],
    ["G81", FLAT, PROGRAM],
    ["Z-30.", FLAT, PROGRAM],
    ["X40.", INCLINE, noted("ENTRY FLAT")],
    ["X40.", FLAT, noted("ENTRY SKIN")],
    ["X10.", CROSS, PROGRAM],
  ];
  for (const [word, setup, text] of cases) {
    const markdown = hover(word, setup, text);
    expect(markdown).not.toBe("");
    expect(pictures(markdown)).toEqual([]);
  }
});

test("the direction is drawn where the part tells it, and said to be unknown where a note tells the entry", () => {
  const [stock] = pictures(hover("X40.", INCLINE));
  expect(stock?.svg).toContain("X goes to the right, Y up.");
  const [note] = pictures(hover("X40.", FLAT, noted("ENTRY INCLINE 20 DEG")));
  expect(note?.svg).toContain("direction not told: may be turned");
});

test("metal stands on the side where it is", () => {
  // The face falls towards X+: at half depth the metal is at X-, left of the axis at 125.
  const [plan] = pictures(hover("X40.", INCLINE));
  const xs = [
    ...(/id="engaged" d="([^"]*)"/.exec(plan?.svg ?? "")?.[1] ?? "").matchAll(
      /(?:[ML]|A\S+ \S+ 0 0 [01] )(-?[\d.]+) /g,
    ),
  ].map((m) => Number(m[1]));
  expect(xs.length).toBeGreaterThan(4);
  expect(Math.max(...xs)).toBeLessThan(125.5);
  expect(Math.min(...xs)).toBeLessThan(100);
});

test("a cycle whose heaviest hole is a whole one also shows the hardest entry, and where", () => {
  const markdown = hover("G81", FLAT, chain);
  expect(markdown).toContain("Hardest entry of these holes, line 8:");
  expect(pictures(markdown)).toHaveLength(2);
});

test("the curve does not go up to the top of the part where the hole begins far below it", () => {
  const [, curve] = pictures(hover("X70.", INCLINE));
  expect(curve?.alt).toContain("first contact at Z -6.");
  const ticks = [...(curve?.svg ?? "").matchAll(/text-anchor="end">(-?\d+)</g)].map((m) => Number(m[1]));
  expect(Math.max(...ticks)).toBeLessThanOrEqual(0);
});

test("of a deep hole on a slope the slope is drawn, and how it goes on is said", () => {
  const labels = (depth: string): string[] => {
    const [, curve] = pictures(hover("X40.", INCLINE, PROGRAM.replace("Z-30.", depth)));
    return [...(curve?.svg ?? "").matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map((m) => m[1] ?? "");
  };
  const deep = labels("Z-55.");
  expect(deep).toContain("whole to the end -55.00 mm (-2.165 in)");
  expect(deep).not.toContain("-50");
  expect(deep).toContain("-5");
  const short = labels("Z-15.");
  expect(short).toContain("end -15.00 mm (-0.591 in)");
  expect(short.join()).not.toContain("whole to the end");
  // A cross hole far down is not left out.
  const [, crossed] = pictures(hover("X40.", CROSS, PROGRAM.replace("Z-30.", "Z-58.")));
  expect(crossed?.alt).toContain("from Z -9.00 mm");
  expect(crossed?.svg).toContain(">worst -15.00 mm (-0.591 in)<");
  expect(crossed?.svg).toContain(">whole to the end -58.00 mm (-2.283 in)<");
});

test("of an exit that only a note tells the words stand alone", () => {
  const markdown = hover("X40.", FLAT, noted("EXIT INCLINE 30 DEG"));
  expect(markdown).toMatch(
    /\*\*Exit interrupted\*\*: Zones by height of the tip: exit heavy from .*Leaves through a face inclined 30°/,
  );
  expect(pictures(markdown)).toEqual([]);
});

test("zones inside a hole say so", () => {
  expect(hover("X40.", CROSS)).toMatch(/Zones by height of the tip: inside (light|medium|heavy|extreme) from/);
});

test("without Markdown the pictures are their descriptions", async () => {
  const { withoutMarkup } = await import("../../../server/editor/hover/markdown.ts");
  const plain = withoutMarkup(hover("X40.", CROSS));
  expect(plain).toContain("[Drill seen along its axis, worst at Z -15.00 mm / -0.591 in");
  expect(plain).not.toContain("base64");
});

test("a hole along Y is told by X and Z, in their order", () => {
  const text = PROGRAM.replace("G17", "G18").replace("X10. Y10. Z-30.", "X10. Z11. Y-30.");
  expect(hover("Z11.", SETUP, text)).toContain("X 10.00, Z 11.00 in G54");
});
