import fc from "fast-check";
import { expect, test } from "vitest";
import { type EngagementCurveInput, engagementCurveSvg } from "../../../server/pictures/engagement-curve.ts";
import { leastContrast, loopsOf } from "./engagement-area.ts";
import { attributes, parseXml } from "./xml.ts";

const base: EngagementCurveInput = {
  samples: [
    { z: 6, area: 0, rim: 0, side: 0 },
    { z: 0, area: 0.5, rim: 0.25, side: 0.9 },
    { z: -6, area: 1, rim: 1, side: 0 },
    { z: -40, area: 1, rim: 1, side: 0 },
  ],
  zones: [{ fromZ: 6, toZ: -6, class: "heavy" }],
  firstContactZ: 6,
  fullZ: -6,
  startZ: 8,
  endZ: -40,
  worstZ: 0,
  axis: "z",
  system: "mm",
};

/** All texts of a picture with their places. */
function textsOf(svg: string): { x: number; y: number; content: string }[] {
  return [...svg.matchAll(/<text x="([^"]+)" y="([^"]+)"[^>]*>([^<]*)<\/text>/g)].map(([, x, y, content]) => ({
    x: Number(x),
    y: Number(y),
    content: content ?? "",
  }));
}

const contents = (svg: string): string[] => textsOf(svg).map(({ content }) => content);

/** Place of the text in the picture. */
function placeOf(svg: string, content: string): { x: number; y: number } {
  const found = textsOf(svg).find((text) => text.content === content);
  if (found === undefined) throw new Error(`no text ${content}`);
  return found;
}

/** Place of a depth on the axis: it ends where the axis' own name does. */
function tickOf(svg: string, content: string): { x: number; y: number } {
  const axis = textsOf(svg).find((text) => /^[XYZ] (mm|in)$/.test(text.content));
  const found = textsOf(svg).find((text) => text.content === content && text.x === axis?.x);
  if (found === undefined) throw new Error(`no tick ${content}`);
  return found;
}

const pointsOf = (svg: string, id: string): (readonly [number, number])[] =>
  loopsOf(attributes(svg, id)?.d ?? "").flat();

const zoneRects = (svg: string): { y: number; height: number }[] =>
  [...svg.matchAll(/<rect x="[^"]+" y="([^"]+)" width="[^"]+" height="([^"]+)"[^>]* class="zone"\/>/g)].map(
    ([, y, height]) => ({ y: Number(y), height: Number(height) }),
  );

test("the curves pass where ticks and percents say", () => {
  const svg = engagementCurveSvg(base);
  const area = pointsOf(svg, "area-curve");
  const rim = pointsOf(svg, "rim-curve");
  expect(area).toHaveLength(4);
  // A tick's text stands 4 pixels under its line.
  expect(area[1]?.[1]).toBeCloseTo(tickOf(svg, "0").y - 4, 1);
  expect(area[3]?.[1]).toBeCloseTo(tickOf(svg, "-40").y - 4, 1);
  expect(area[1]?.[0]).toBeCloseTo(placeOf(svg, "50").x, 1);
  expect(area[2]?.[0]).toBeCloseTo(placeOf(svg, "100").x, 1);
  const none = area[0]?.[0] ?? Number.NaN;
  expect(rim[1]?.[0]).toBeCloseTo(none + (placeOf(svg, "100").x - none) / 4, 1);
  for (let i = 1; i < area.length; i++) expect(area[i]?.[1]).toBeGreaterThan(area[i - 1]?.[1] ?? 0);
});

test("area and rim differ in form, and so does every class", () => {
  const svg = engagementCurveSvg(base);
  expect(attributes(svg, "area-curve")?.["stroke-dasharray"]).toBeUndefined();
  expect(attributes(svg, "rim-curve")?.["stroke-dasharray"]).toMatch(/\d/);
  const classes = ["light", "medium", "heavy", "extreme"] as const;
  const zones = classes.map((name, i) => ({ fromZ: -8 * i, toZ: -8 * i - 5, class: name }));
  const all = engagementCurveSvg({ ...base, zones });
  const patterns = [...all.matchAll(/<pattern id="hatch-(\w+)"(.*?)<\/pattern>/g)];
  expect(patterns.map((found) => found[1])).toEqual([...classes]);
  const forms = patterns.map((found) => (found[2] ?? "").replaceAll(/#\w+/g, ""));
  expect(new Set(forms).size).toBe(4);
  expect(leastContrast(all)).toBeGreaterThan(3);
});

test("a zone stands over its depths and is named", () => {
  const svg = engagementCurveSvg({
    ...base,
    zones: [
      { fromZ: 6, toZ: -6, class: "heavy" },
      { fromZ: -10, toZ: -34, class: "light" },
    ],
  });
  const [first, second] = zoneRects(svg);
  const area = pointsOf(svg, "area-curve");
  expect(first?.y).toBeCloseTo(area[0]?.[1] ?? 0, 1);
  expect((first?.y ?? 0) + (first?.height ?? 0)).toBeCloseTo(area[2]?.[1] ?? 0, 1);
  expect((second?.height ?? 0) / (first?.height ?? 1)).toBeCloseTo(2, 2);
  // Beside the zone and in the legend.
  expect(contents(svg).filter((content) => content === "heavy")).toHaveLength(2);
  expect(contents(engagementCurveSvg({ ...base, zones: [] }))).not.toContain("heavy");
});

test("marks name their heights in both unit systems, those of one height together", () => {
  const svg = engagementCurveSvg(base);
  for (const label of [
    "first contact 6.00 mm (0.236 in)",
    "full engagement -6.00 mm (-0.236 in)",
    "worst 0.00 mm (0.000 in)",
    "end -40.00 mm (-1.575 in)",
  ]) {
    expect(contents(svg)).toContain(label);
  }
  const flat = engagementCurveSvg({ ...base, firstContactZ: 0, fullZ: 1e-5, worstZ: null });
  expect(contents(flat)).toContain("first contact, full engagement 0.00 mm (0.000 in)");
  expect(flat).not.toContain("worst");
});

test("ticks are round in the program's unit", () => {
  const svg = engagementCurveSvg({ ...base, axis: "x", system: "inch" });
  expect(contents(svg)).toContain("X in");
  expect(contents(svg)).toContain("-1.5");
  expect(contents(svg)).toContain("end -1.575 in (-40.00 mm)");
  const zero = placeOf(svg, "0.0").y;
  const area = pointsOf(svg, "area-curve");
  const perInch = (((area[3]?.[1] ?? 0) - (area[1]?.[1] ?? 0)) / 40) * 25.4;
  expect(placeOf(svg, "-1.5").y - zero).toBeCloseTo(1.5 * perInch, 1);
});

test("a reader that sees nothing hears the same", () => {
  const desc = /<desc id="curve-desc">([^<]*)<\/desc>/.exec(engagementCurveSvg(base))?.[1] ?? "";
  expect(desc).toContain("first contact 6.00 mm (0.236 in)");
  expect(desc).toContain("At the worst: area 50 %, rim 25 % in metal, normalised side force 0.90.");
  expect(desc).toContain("Interrupted, heavy, from Z 6.00 mm (0.236 in) to Z -6.00 mm (-0.236 in).");
});

test("one sample is a point for each share; no samples and no marks still make a picture", () => {
  const one = engagementCurveSvg({ ...base, samples: base.samples.slice(1, 2), zones: [] });
  const point = attributes(one, "area-curve");
  const square = attributes(one, "rim-curve");
  expect(Number(point?.cx)).toBeCloseTo(placeOf(one, "50").x, 1);
  expect(Number(square?.y) + 3).toBeCloseTo(Number(point?.cy), 1);
  const bare = { ...base, samples: [], zones: [], firstContactZ: null, fullZ: null, worstZ: null };
  parseXml(engagementCurveSvg({ ...bare, startZ: Number.NaN, endZ: Number.NaN }));
  expect(attributes(engagementCurveSvg(bare), "area-curve")).toBeNull();
});

test("tiny, huge and far depths keep ticks and marks apart", () => {
  for (const [top, bottom] of [
    [0.002, -0.004],
    [0, -1e5],
    [-99_999, -100_000],
    [3, 3],
  ] as const) {
    const samples = [
      { z: top, area: 0.1, rim: 0, side: 0 },
      { z: bottom, area: 1, rim: 1, side: 0 },
    ];
    const svg = engagementCurveSvg({
      ...base,
      samples,
      zones: [],
      startZ: top,
      endZ: bottom,
      firstContactZ: top,
      fullZ: null,
      worstZ: null,
    });
    const left = placeOf(svg, "Z mm").x;
    const ticks = textsOf(svg).filter(({ x, content }) => x === left && content !== "Z mm");
    expect(ticks.length, `${top} to ${bottom}`).toBeGreaterThanOrEqual(4);
    expect(new Set(ticks.map(({ content }) => content)).size).toBe(ticks.length);
    // Right-aligned at `left`; a letter is at most 7 pixels wide.
    for (const { content } of ticks) expect(content.length * 6.3).toBeLessThan(left);
  }
});

test("no two labels stand on each other, however many zones there are", () => {
  const zones = Array.from({ length: 40 }, (_, i) => ({ fromZ: -i, toZ: -i - 0.5, class: "medium" as const }));
  const svg = engagementCurveSvg({ ...base, zones, firstContactZ: -39.7, worstZ: -39.9, fullZ: -39.8 });
  const right = placeOf(svg, "end -40.00 mm (-1.575 in)").x;
  const labels = textsOf(svg).filter(({ x }) => x === right);
  expect(labels.length).toBeGreaterThan(6);
  const heights = labels.map(({ y }) => y).sort((a, b) => a - b);
  for (let i = 1; i < heights.length; i++) expect((heights[i] ?? 0) - (heights[i - 1] ?? 0)).toBeGreaterThan(12);
  // No lower than the percents under the plot.
  expect(heights.at(-1)).toBeLessThan(placeOf(svg, "100").y);
});

test("a hundred thousand samples make a picture of a hover's size that keeps the extremes", () => {
  const samples = Array.from({ length: 100_000 }, (_, i) => ({
    z: 6 - (46 * i) / 99_999,
    area: i === 50_001 ? 0.125 : 1,
    rim: 1,
    side: 0,
  }));
  const svg = engagementCurveSvg({ ...base, samples });
  expect(svg.length).toBeLessThan(40_000);
  const none = pointsOf(engagementCurveSvg(base), "area-curve")[0]?.[0] ?? 0;
  const least = Math.min(...pointsOf(svg, "area-curve").map(([x]) => x));
  expect(least).toBeCloseTo(none + (placeOf(svg, "100").x - none) / 8, 1);
});

const wild = fc.oneof(fc.double(), fc.double({ min: -200, max: 50, noNaN: true }));
const wildOrNull = fc.option(wild);
const share = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.double());
const any: fc.Arbitrary<EngagementCurveInput> = fc.record({
  samples: fc.array(fc.record({ z: wild, area: share, rim: share, side: share }), { maxLength: 30 }),
  zones: fc.array(
    fc.record({
      fromZ: wild,
      toZ: wild,
      class: fc.constantFrom(
        "none" as const,
        "light" as const,
        "medium" as const,
        "heavy" as const,
        "extreme" as const,
      ),
    }),
    { maxLength: 20 },
  ),
  firstContactZ: wildOrNull,
  fullZ: wildOrNull,
  startZ: wild,
  endZ: wild,
  worstZ: wildOrNull,
  axis: fc.constantFrom("x" as const, "y" as const, "z" as const),
  system: fc.constantFrom("mm" as const, "inch" as const),
});

test("any samples, zones and marks make one well-formed picture with its curves inside the frame", () => {
  fc.assert(
    fc.property(any, (input) => {
      const svg = engagementCurveSvg(input);
      parseXml(svg);
      expect(svg).toMatch(/^[\x20-\x7e]*$/);
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      expect(engagementCurveSvg(structuredClone(input))).toBe(svg);
      const none = placeOf(svg, "% in metal").x - 77;
      for (const [x, y] of [...pointsOf(svg, "area-curve"), ...pointsOf(svg, "rim-curve")]) {
        expect(x).toBeGreaterThanOrEqual(none);
        expect(x).toBeLessThanOrEqual(none + 154);
        expect(y).toBeGreaterThanOrEqual(34);
        expect(y).toBeLessThanOrEqual(182);
      }
    }),
    { numRuns: 300 },
  );
});
