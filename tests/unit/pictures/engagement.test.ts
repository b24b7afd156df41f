import fc from "fast-check";
import { expect, test } from "vitest";
import { type EngagementInput, engagementSvg } from "../../../server/pictures/engagement.ts";
import { engagementCurveSvg } from "../../../server/pictures/engagement-curve.ts";
import { engagementPlanSvg } from "../../../server/pictures/engagement-plan.ts";
import { parseXml } from "./xml.ts";

const input: EngagementInput = {
  hole: "Hole X25. Y40.",
  tool: "T7 D20 two-insert drill",
  line: "line 34",
  plan: {
    radiusMm: 10,
    centreMm: 5,
    kind: "two-insert",
    rings: [
      { fromR: 0, toR: 5, arcs: [1, 4] },
      { fromR: 5, toR: 10, arcs: [1.2, 4] },
    ],
    directionKnown: true,
    axes: ["X", "Y"],
    zMm: -3,
    area: 0.46,
    rim: 0.45,
    system: "mm",
  },
  curve: {
    samples: [
      { z: 0, area: 0, rim: 0, side: 0 },
      { z: -3, area: 0.46, rim: 0.45, side: 0.5 },
    ],
    zones: [
      { fromZ: 0, toZ: -3, class: "medium" },
      { fromZ: -4, toZ: -6, class: "extreme" },
    ],
    firstContactZ: 0,
    fullZ: null,
    startZ: 2,
    endZ: -30,
    worstZ: -3,
    axis: "z",
    system: "mm",
  },
};

/** Body of a picture without its outer tag. */
const inside = (svg: string): string => svg.slice(svg.indexOf(">") + 1);

test("both pictures stand whole side by side under one heading", () => {
  const svg = engagementSvg(input);
  expect(parseXml(svg).filter((name) => name === "svg")).toHaveLength(3);
  expect(svg).toContain(">Hole X25. Y40. &#183; T7 D20 two-insert drill &#183; line 34</text>");
  expect(svg).toContain(inside(engagementPlanSvg(input.plan)));
  expect(svg).toContain(inside(engagementCurveSvg(input.curve)));
  const [outer, left, right] = [...svg.matchAll(/<svg [^>]*>/g)].map(([tag]) => {
    const number = (name: string): number => Number(new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? 0);
    return { x: number("x"), y: number("y"), width: number("width"), height: number("height") };
  });
  expect(left?.y).toBeGreaterThan(20);
  expect((left?.x ?? 0) + (left?.width ?? 0)).toBeLessThanOrEqual(right?.x ?? 0);
  expect((right?.x ?? 0) + (right?.width ?? 0)).toBeLessThanOrEqual(outer?.width ?? 0);
  expect((right?.y ?? 0) + (right?.height ?? 0)).toBeLessThanOrEqual(outer?.height ?? 0);
});

test("ids are there once, and whatever is referred to is there", () => {
  const svg = engagementSvg(input);
  const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map((found) => found[1]);
  expect(new Set(ids).size).toBe(ids.length);
  const named = [...svg.matchAll(/aria-labelledby="([^"]+)"/g)].flatMap((found) => (found[1] ?? "").split(" "));
  const filled = [...svg.matchAll(/url\(#([^)]+)\)/g)].map((found) => found[1]);
  expect(named).toHaveLength(6);
  expect(filled.length).toBeGreaterThan(3);
  for (const id of [...named, ...filled]) expect(ids).toContain(id);
});

test("nothing in it runs, and nothing is fetched", () => {
  const svg = engagementSvg(input);
  expect(svg).not.toMatch(/<script|<style|<foreignObject|<image|href|\son\w+=/i);
});

test("a long heading is cut to the picture and kept whole in the title", () => {
  const tool = `T7 ${"LONG ".repeat(60)}END`;
  const svg = engagementSvg({ ...input, tool });
  const shown = />(Hole X25[^<]*)<\/text>/.exec(svg)?.[1] ?? "";
  expect(shown).toMatch(/&#8230;$/);
  expect(shown.length).toBeLessThan(120);
  expect(/<title id="engagement-title">([^<]*)/.exec(svg)?.[1]).toContain(`${tool} &#183; line 34`);
});

test("any words are escaped", () => {
  const svg = engagementSvg({ ...input, hole: '<b a="1">&amp;', tool: "\u00d820 \u0001\u2028", line: "" });
  expect(svg).toContain(">&lt;b a=&quot;1&quot;&gt;&amp;amp; &#183; &#216;20  &#8232;</text>");
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), fc.string(), fc.string(), (hole, tool, line) => {
      const any = engagementSvg({ ...input, hole, tool, line });
      parseXml(any);
      expect(any).toMatch(/^[\x20-\x7e]*$/);
      expect(engagementSvg({ ...input, hole, tool, line })).toBe(any);
    }),
    { numRuns: 30 },
  );
});
