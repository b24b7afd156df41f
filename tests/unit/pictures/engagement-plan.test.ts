import fc from "fast-check";
import { expect, test } from "vitest";
import { type EngagementPlanInput, engagementPlanSvg } from "../../../server/pictures/engagement-plan.ts";
import { covered, leastContrast, lengthOf, loopsOf } from "./engagement-area.ts";
import { attributes, parseXml } from "./xml.ts";

const TURN = 2 * Math.PI;

/** Rings of a front of 10 mm from what is in metal at a radius. */
function ringsOf(count: number, arcsAt: (r: number) => number[]): EngagementPlanInput["rings"] {
  return Array.from({ length: count }, (_, i) => {
    const [fromR, toR] = [(10 * i) / count, (10 * (i + 1)) / count];
    return { fromR, toR, arcs: arcsAt((fromR + toR) / 2) };
  });
}

/** Metal from `middle - half` to `middle + half`, as a kernel writes it: rising, cut at 0. */
function arc(middle: number, half: number): number[] {
  if (half <= 0) return [];
  if (half >= Math.PI) return [0, TURN];
  const from = (((middle - half) % TURN) + TURN) % TURN;
  const to = from + 2 * half;
  return to <= TURN ? [from, to] : [0, to - TURN, from, TURN];
}

/** Metal up to a straight edge `inside` from the axis, which is met in the direction `towards`. */
const halfPlane =
  (towards: number, inside: number) =>
  (r: number): number[] =>
    arc(towards + Math.PI, Math.PI - Math.acos(Math.min(1, Math.max(-1, inside / r))));

/** Metal but for an equal hole whose axis lies `pitch` away. */
const besideHole =
  (towards: number, pitch: number) =>
  (r: number): number[] =>
    arc(
      towards + Math.PI,
      Math.PI - Math.acos(Math.min(1, Math.max(-1, (pitch ** 2 + r * r - 100) / (2 * pitch * r)))),
    );

/** Share of a circle of radius 10 on the near side of a chord `inside` from its middle. */
function halfPlaneShare(inside: number): number {
  const c = Math.min(1, Math.max(-1, inside / 10));
  return 1 - (Math.acos(c) - c * Math.sqrt(1 - c * c)) / Math.PI;
}

/** Share left beside an equal hole, from the lens of two circles. */
function besideHoleShare(pitch: number): number {
  const lens = 2 * 100 * Math.acos(pitch / 20) - (pitch / 2) * Math.sqrt(400 - pitch * pitch);
  return 1 - lens / (Math.PI * 100);
}

const base: EngagementPlanInput = {
  radiusMm: 10,
  centreMm: 5.4,
  kind: "two-insert",
  rings: ringsOf(24, halfPlane(0, 3)),
  directionKnown: true,
  axes: ["X", "Y"],
  zMm: -12.35,
  area: 0.6866,
  rim: 0.597,
  system: "mm",
};

/** Share of the outline that is drawn as metal, and of its circle as rim. */
function drawn(rings: EngagementPlanInput["rings"]): { area: number; rim: number } {
  const svg = engagementPlanSvg({ ...base, rings });
  const radius = Number(attributes(svg, "outline")?.r);
  const metal = attributes(svg, "engaged")?.d;
  const rim = attributes(svg, "rim")?.d;
  return {
    area: metal === undefined ? 0 : covered(metal).area / (Math.PI * radius ** 2),
    rim: rim === undefined ? 0 : lengthOf(rim) / (TURN * radius),
  };
}

test("the area drawn is the share in metal, for a straight edge and for a hole beside", () => {
  for (const inside of [-8, -3, -0.05, 0, 0.3, 3, 6.2, 9.5]) {
    const { area, rim } = drawn(ringsOf(24, halfPlane(1, inside)));
    const share = halfPlaneShare(inside);
    expect(Math.abs(area - share), `edge ${inside}: ${area} for ${share}`).toBeLessThan(0.005);
    const last = 10 - 10 / 48;
    expect(rim).toBeCloseTo(1 - Math.acos(Math.min(1, Math.max(-1, inside / last))) / Math.PI, 2);
  }
  for (const pitch of [12, 15, 18]) {
    const { area } = drawn(ringsOf(24, besideHole(2, pitch)));
    const share = besideHoleShare(pitch);
    expect(Math.abs(area - share), `pitch ${pitch}: ${area} for ${share}`).toBeLessThan(0.005);
  }
});

test("the area drawn follows the share in any direction and with any number of rings", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: TURN, noNaN: true }),
      fc.double({ min: -9.9, max: 9.9, noNaN: true }),
      fc.integer({ min: 12, max: 80 }),
      (towards, inside, count) => {
        const { area } = drawn(ringsOf(count, halfPlane(towards, inside)));
        expect(Math.abs(area - halfPlaneShare(inside))).toBeLessThan(0.02);
      },
    ),
  );
});

/** Arcs of a ring by asking at many angles, which knows nothing of how edges run. */
function asked(isMetal: (x: number, y: number) => boolean) {
  return (r: number): number[] => {
    const steps = 1000;
    const out: number[] = [];
    let before = false;
    for (let i = 0; i < steps; i++) {
      const angle = (TURN * (i + 0.5)) / steps;
      const metal = isMetal(r * Math.cos(angle), r * Math.sin(angle));
      if (metal !== before) out.push((TURN * i) / steps);
      before = metal;
    }
    if (before) out.push(TURN);
    return out;
  };
}

test("the area drawn follows the share in random scenes of edges and holes", () => {
  const at = fc.double({ min: -12, max: 12, noNaN: true });
  const edges = fc.array(fc.record({ towards: fc.double({ min: 0, max: TURN, noNaN: true }), inside: at }), {
    maxLength: 2,
  });
  const holes = fc.array(fc.record({ x: at, y: at, r: fc.double({ min: 0.8, max: 10, noNaN: true }) }), {
    maxLength: 3,
  });
  fc.assert(
    fc.property(edges, holes, (planes, voids) => {
      const isMetal = (x: number, y: number): boolean =>
        planes.every((p) => x * Math.cos(p.towards) + y * Math.sin(p.towards) <= p.inside) &&
        voids.every((v) => Math.hypot(x - v.x, y - v.y) >= v.r);
      const cells = 160;
      let [inMetal, all] = [0, 0];
      for (let i = 0; i < cells; i++) {
        for (let j = 0; j < cells; j++) {
          const [x, y] = [((i + 0.5) / cells) * 20 - 10, ((j + 0.5) / cells) * 20 - 10];
          if (Math.hypot(x, y) > 10) continue;
          all++;
          if (isMetal(x, y)) inMetal++;
        }
      }
      const off = Math.abs(drawn(ringsOf(64, asked(isMetal))).area - inMetal / all);
      expect(off).toBeLessThan(0.02);
    }),
    { numRuns: 60 },
  );
});

test("a hole in the middle, a slot, an island and nothing at all keep their areas", () => {
  const ring = drawn(ringsOf(20, (r) => (r < 4 ? [] : [0, TURN])));
  expect(ring.area).toBeCloseTo(0.84, 2);
  expect(ring.rim).toBeCloseTo(1, 2);
  // A slot of 6 mm along X: two pieces of metal, each what a chord 3 mm off cuts away.
  const slot = (r: number): number[] => {
    const free = Math.asin(Math.min(1, 3 / r));
    return free >= Math.PI / 2 ? [] : [free, Math.PI - free, Math.PI + free, TURN - free];
  };
  expect(drawn(ringsOf(30, slot)).area).toBeCloseTo(2 * (1 - halfPlaneShare(3)), 2);
  // A pin of 2 mm radius, 5 mm off: begins and ends within the front.
  const pin = (r: number): number[] => arc(0.1, Math.acos(Math.min(1, (25 + r * r - 4) / (10 * r))));
  expect(drawn(ringsOf(40, pin)).area).toBeCloseTo(0.04, 2);
  expect(drawn(ringsOf(40, pin)).rim).toBe(0);
  expect(drawn(ringsOf(24, () => []))).toEqual({ area: 0, rim: 0 });
  expect(drawn(ringsOf(24, () => [0, TURN])).area).toBeCloseTo(1, 2);
});

test("the first axis goes to the right and the second up", () => {
  const middle = (towardsMetal: number): { x: number; y: number } => {
    const svg = engagementPlanSvg({ ...base, rings: ringsOf(24, halfPlane(towardsMetal + Math.PI, 0)) });
    const outline = attributes(svg, "outline");
    const { x, y } = covered(attributes(svg, "engaged")?.d ?? "");
    return { x: x - Number(outline?.cx), y: y - Number(outline?.cy) };
  };
  expect(middle(0).x).toBeGreaterThan(20);
  expect(Math.abs(middle(0).y)).toBeLessThan(1);
  expect(middle(Math.PI / 2).y).toBeLessThan(-20);
  expect(Math.abs(middle(Math.PI / 2).x)).toBeLessThan(1);
});

test("the border of the inserts is dashed, at its radius, and only a two-insert drill has it", () => {
  const svg = engagementPlanSvg(base);
  expect(Number(attributes(svg, "centre")?.r)).toBeCloseTo(0.54 * Number(attributes(svg, "outline")?.r), 1);
  expect(attributes(svg, "centre")?.["stroke-dasharray"]).toMatch(/^\d+ \d+$/);
  expect(svg).toContain(">inserts meet</text>");
  const lip = engagementPlanSvg({ ...base, kind: "two-lip" });
  expect(attributes(lip, "centre")).toBeNull();
  expect(lip).not.toContain("inserts meet");
});

test("the caption holds the depth in both unit systems and both shares", () => {
  const svg = engagementPlanSvg(base);
  expect(svg).toContain(">worst at Z -12.35 mm (-0.486 in)</text>");
  expect(svg).toContain(">in metal: area 69 %, rim 60 %</text>");
  const inch = engagementPlanSvg({ ...base, axes: ["Y", "Z"], system: "inch", area: 0.9991, rim: 1 });
  expect(inch).toContain(">worst at X -0.486 in (-12.35 mm)</text>");
  expect(inch).toContain(">in metal: area over 99 %, rim 100 %</text>");
  expect(engagementPlanSvg({ ...base, area: 0.000004, rim: 0 })).toContain(">in metal: area under 1 %, rim 0 %</text>");
  expect(engagementPlanSvg({ ...base, zMm: 2.5e-5 })).toContain(">worst at Z 0.00 mm (0.000 in)</text>");
});

test("without a direction the axes have no names and the picture says why", () => {
  expect(engagementPlanSvg(base)).toContain(">Y</text>");
  const svg = engagementPlanSvg({ ...base, directionKnown: false });
  expect(svg).not.toMatch(/>[XY]<\/text>/);
  expect(svg).toContain(">direction not told: may be turned</text>");
  expect(svg).toMatch(/<desc [^>]*>[^<]*direction is not told[^<]*<\/desc>/);
});

test("metal differs from air by its hatching, and every colour reads on every ground", () => {
  const svg = engagementPlanSvg(base);
  const pattern = /fill="url\(#([\w-]+)\)"/.exec(svg)?.[1] ?? "";
  expect(svg).toContain(`<pattern id="${pattern}"`);
  expect(leastContrast(svg)).toBeGreaterThan(3);
});

test("any rings and numbers make one well-formed picture within its outline", () => {
  const wild = fc.oneof(fc.double(), fc.double({ min: -12, max: 12, noNaN: true }));
  const ring = fc.record({ fromR: wild, toR: wild, arcs: fc.array(wild, { maxLength: 10 }) });
  fc.assert(
    fc.property(
      fc.array(ring, { maxLength: 12 }),
      fc.array(wild, { minLength: 5, maxLength: 5 }),
      fc.string(),
      (rings, [radiusMm = 0, centreMm = 0, zMm = 0, area = 0, rim = 0], axis) => {
        const input = { ...base, rings, radiusMm, centreMm, zMm, area, rim, axes: [axis, "Y"] as const };
        const svg = engagementPlanSvg(input);
        parseXml(svg);
        expect(svg).toMatch(/^[\x20-\x7e]*$/);
        expect(svg.replaceAll(/>[^<]*</g, "><")).not.toMatch(/NaN|Infinity|undefined/);
        expect(engagementPlanSvg(structuredClone(input))).toBe(svg);
        const outline = attributes(svg, "outline");
        for (const [x, y] of loopsOf(attributes(svg, "engaged")?.d ?? "").flat()) {
          const far = Math.hypot(x - Number(outline?.cx), y - Number(outline?.cy));
          expect(far).toBeLessThan(Number(outline?.r) + 0.1);
        }
      },
    ),
    { numRuns: 300 },
  );
});
