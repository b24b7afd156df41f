import {
  chainCut,
  concaveEntryLength,
  convexEntryLength,
  crossHoleLength,
  crossHoleShare,
  edgeAreaShare,
  edgeRimShare,
  inclineEllipseShare,
  inclineEntry,
  inclineFlatShare,
  inclineShare,
  lensArea,
  sagitta,
  tipFirstLimit,
} from "../../server/mechanics/engagement/closed-forms.ts";
import { type DrillFront, drillFront } from "../../server/mechanics/engagement/drill.ts";
import { engage } from "../../server/mechanics/engagement/engage.ts";
import { measure } from "../../server/mechanics/engagement/measures.ts";
import { below, type Solid } from "../../server/mechanics/engagement/solids.ts";
import { entrySurface, type SurfaceForm, withCrossHole } from "../../server/mechanics/engagement/surfaces.ts";
import { holds, type Row } from "./rows.ts";

const p = (percent: number) => ({ percent });
const abs = (absolute: number) => ({ absolute });
const derived = "derived, checked by brute force";
const mathworld = "form read in MathWorld, circle-circle intersection";

const cone = (DC: number, SIG: number): DrillFront => drillFront("two-lip", DC, SIG);
const flat = (DC: number): DrillFront => drillFront("two-insert", DC, 180);
const incline = (angleDeg: number): Solid => entrySurface({ kind: "incline", angleDeg }, 20);
const form = (shape: SurfaceForm, DC = 20): Solid => entrySurface(shape, DC);

/** Axial travel from first contact to full engagement, from the kernel. */
function travel(solid: Solid, front: DrillFront): number {
  const curve = engage(solid, front, -60);
  return (curve.firstContact ?? Number.NaN) - (curve.full ?? Number.NaN);
}

/** One published number held by the closed form and by the kernel. */
function both(
  id: string,
  what: string,
  closed: () => number,
  kernel: () => number,
  expected: number,
  within: Row["within"],
): Row[] {
  return [
    { id, what: `${what}, closed form`, got: closed, expected, within, source: derived },
    { id, what: `${what}, kernel`, got: kernel, expected, within, source: derived },
  ];
}

holds("engagement, check values", [
  ...both(
    "C067",
    "L mm, D 20, 140 degrees, incline 5",
    () => inclineEntry(20, 140, 5).length,
    () => travel(incline(5), cone(20, 140)),
    4.515,
    p(0.1),
  ),
  ...both(
    "C068",
    "L mm, D 20, 140 degrees, incline 10",
    () => inclineEntry(20, 140, 10).length,
    () => travel(incline(10), cone(20, 140)),
    5.403,
    p(0.1),
  ),
  ...both(
    "C073",
    "rim share, D 20, 140 degrees, incline 10, t 2.5",
    () => inclineShare(140, 10, 10, 2.5),
    () => measure(incline(10), cone(20, 140), -2.5).rim,
    0.2763,
    abs(0.001),
  ),
  ...both(
    "C075",
    "area share, D 25 flat, incline 5, t 0.5",
    () => inclineFlatShare(25, 5, 0.5),
    () => measure(incline(5), flat(25), -0.5).area,
    0.7806,
    abs(0.001),
  ),
  ...both(
    "C076",
    "L mm, crown of a shaft Rs 50, D 20, 140 degrees",
    () => convexEntryLength(20, 140, 50),
    () => travel(form({ kind: "cylinder", diameterMm: 100, shape: "convex", offsetMm: 0 }), cone(20, 140)),
    4.65,
    p(0.1),
  ),
  {
    id: "C080",
    what: "lens area mm², R r 10, d 15",
    got: () => lensArea(10, 10, 15),
    expected: 45.33,
    within: p(0.1),
    source: mathworld,
  },
  {
    id: "C080",
    what: "area the neighbour took, mm², kernel",
    got: () => (1 - measure(form({ kind: "chain", pitchMm: 15, sides: 1 }), flat(20), -5).area) * 100 * Math.PI,
    expected: 45.33,
    within: p(0.1),
    source: mathworld,
  },
  {
    id: "C082",
    what: "lens area, unit circles, d 1",
    got: () => lensArea(1, 1, 1),
    expected: 1.228,
    within: p(0.1),
    source: mathworld,
  },
  {
    id: "C083",
    what: "lens area over π/2, unit circles, d 0.8079455",
    got: () => lensArea(1, 1, 0.8079455) / (Math.PI / 2),
    expected: 1,
    within: abs(0.0001),
    source: `${mathworld}, 0.8079`,
  },
  {
    id: "C083",
    what: "half overlap, kernel",
    got: () => measure(form({ kind: "chain", pitchMm: 8.079455, sides: 1 }), flat(20), -5).area,
    expected: 0.5,
    within: abs(0.0001),
    source: `${mathworld}, 0.8079`,
  },
  ...both(
    "C084",
    "rim share, equal holes D 20, pitch 15",
    () => chainCut(20, 15).rim,
    () => measure(form({ kind: "chain", pitchMm: 15, sides: 1 }), flat(20), -5).rim,
    0.7699,
    abs(0.001),
  ),
  {
    id: "C085",
    what: "cusp mm, same",
    got: () => chainCut(20, 15).cusp,
    expected: 3.386,
    within: p(0.1),
    source: derived,
  },
]);

const offset: SurfaceForm = { kind: "cylinder", diameterMm: 100, shape: "convex", offsetMm: 15 };
const crossed = withCrossHole(below(0), 12, 30);

holds("engagement, worked examples", [
  ...both(
    "6.1",
    "L mm, 140 degrees, incline 20",
    () => inclineEntry(20, 140, 20).length,
    () => travel(incline(20), cone(20, 140)),
    7.279,
    p(0.1),
  ),
  ...both(
    "6.1",
    "L mm, 118 degrees, incline 30",
    () => inclineEntry(20, 118, 30).length,
    () => travel(incline(30), cone(20, 118)),
    11.78,
    p(0.1),
  ),
  ...both(
    "6.1",
    "L mm, D 25 flat, incline 5",
    () => inclineEntry(25, 180, 5).length,
    () => travel(incline(5), flat(25)),
    2.187,
    p(0.1),
  ),
  {
    id: "6.1",
    what: "t mm at which the corner first cuts, 140 degrees, incline 10",
    got: () => -(engage(incline(10), cone(20, 140), -20).samples.find((s) => s.rim > 0)?.z ?? Number.NaN),
    expected: 1.876,
    within: abs(0.002),
    source: derived,
  },
  {
    id: "6.1",
    what: "t mm at which the corner cuts all around",
    got: () => -(engage(incline(10), cone(20, 140), -20).full ?? Number.NaN),
    expected: 5.403,
    within: abs(0.001),
    source: derived,
  },
  ...both(
    "6.1",
    "rim share at t 3.0",
    () => inclineShare(140, 10, 10, 3),
    () => measure(incline(10), cone(20, 140), -3).rim,
    0.3818,
    abs(0.0001),
  ),
  ...both(
    "6.1",
    "rim share at t 4.5",
    () => inclineShare(140, 10, 10, 4.5),
    () => measure(incline(10), cone(20, 140), -4.5).rim,
    0.6622,
    abs(0.0001),
  ),
  {
    id: "6.1",
    what: "area share at t 2.5, kernel",
    got: () => measure(incline(10), cone(20, 140), -2.5).area,
    expected: 0.5764,
    within: abs(0.0002),
    source: derived,
  },
  {
    id: "6.1",
    what: "area share at t 3.64, kernel",
    got: () => measure(incline(10), cone(20, 140), -3.64).area,
    expected: 0.8049,
    within: abs(0.0002),
    source: derived,
  },
  {
    id: "6.1",
    what: "area share at t 1.5, ellipse inside the hole, kernel beside the closed form",
    got: () => measure(incline(10), cone(20, 140), -1.5).area,
    expected: inclineEllipseShare(20, 140, 10, 1.5),
    within: abs(0.0001),
    source: derived,
  },
  ...both(
    "6.1",
    "area share, D 25 flat, incline 5, t -0.5",
    () => inclineFlatShare(25, 5, -0.5),
    () => measure(incline(5), flat(25), 0.5).area,
    0.2194,
    abs(0.0001),
  ),
  ...both(
    "6.1",
    "area share, D 25 flat, incline 5, t 0",
    () => inclineFlatShare(25, 5, 0),
    () => measure(incline(5), flat(25), 0).area,
    0.5,
    abs(0.0001),
  ),
  {
    id: "6.2",
    what: "sagitta mm, Rs 50, y 10",
    got: () => sagitta(50, 10),
    expected: 1.01,
    within: p(0.05),
    source: derived,
  },
  {
    id: "6.2",
    what: "full t mm, shaft Rs 50 offset 15, kernel",
    got: () => -(engage(form(offset), cone(20, 140), -20).full ?? Number.NaN),
    expected: 8.035,
    within: abs(0.001),
    source: derived,
  },
  {
    id: "6.2",
    what: "first contact mm, tip first, kernel",
    got: () => engage(form(offset), cone(20, 140), -20).firstContact ?? Number.NaN,
    expected: 0,
    within: abs(0.001),
    source: derived,
  },
  {
    id: "6.2",
    what: "highest point under the rim mm, flat front",
    got: () => engage(form(offset), flat(20), -20).firstContact ?? Number.NaN,
    expected: 2.052,
    within: abs(0.001),
    source: derived,
  },
  {
    id: "6.2",
    what: "lowest point under the rim mm, flat front",
    got: () => engage(form(offset), flat(20), -20).full ?? Number.NaN,
    expected: -4.396,
    within: abs(0.001),
    source: derived,
  },
  {
    id: "6.2",
    what: "L mm, bore Rs 50, kernel",
    got: () => travel(form({ kind: "cylinder", diameterMm: 100, shape: "concave", offsetMm: 0 }), cone(20, 140)),
    expected: concaveEntryLength(20, 140, 50),
    within: abs(0.001),
    source: derived,
  },
  {
    id: "6.2",
    what: "L mm, bore Rs 12, the corner hits first, kernel",
    got: () => travel(form({ kind: "cylinder", diameterMm: 24, shape: "concave", offsetMm: 0 }), cone(20, 140)),
    expected: concaveEntryLength(20, 140, 12),
    within: abs(0.001),
    source: derived,
  },
  ...both(
    "6.3",
    "rim share 3 mm from the axis of a cross hole of 12",
    () => crossHoleShare(12, 10, 3),
    () => measure(crossed, flat(20), -27).rim,
    0.6522,
    abs(0.0001),
  ),
  ...both(
    "6.3",
    "rim share 5 mm from the axis",
    () => crossHoleShare(12, 10, 5),
    () => measure(crossed, flat(20), -35).rim,
    0.7848,
    abs(0.0001),
  ),
  ...both(
    "6.3",
    "interrupted depth mm, 140 degrees",
    () => crossHoleLength(20, 140, 12),
    () => {
      const zone = engage(crossed, cone(20, 140), -60).zones.find((z) => z.from < -20);
      return zone === undefined ? Number.NaN : zone.from - zone.to;
    },
    15.64,
    p(0.1),
  ),
  ...both(
    "6.4",
    "rim share, axis over the edge",
    () => edgeRimShare(0, 20),
    () => measure(form({ kind: "edge-axis", insideMm: 0 }), flat(20), -5).rim,
    0.5,
    abs(0.0001),
  ),
  ...both(
    "6.4",
    "area share, axis 2.5 mm inside",
    () => edgeAreaShare(2.5, 20),
    () => measure(form({ kind: "edge-axis", insideMm: 2.5 }), flat(20), -5).area,
    0.6575,
    abs(0.0001),
  ),
  ...both(
    "6.4",
    "rim share, axis 2.5 mm inside",
    () => edgeRimShare(2.5, 20),
    () => measure(form({ kind: "edge-axis", insideMm: 2.5 }), flat(20), -5).rim,
    0.5804,
    abs(0.0001),
  ),
  {
    id: "6.5",
    what: "share removed before, pitch 15",
    got: () => chainCut(20, 15).removedShare,
    expected: 0.1443,
    within: abs(0.0001),
    source: derived,
  },
  {
    id: "6.5",
    what: "void arc degrees",
    got: () => chainCut(20, 15).voidArcDeg,
    expected: 82.82,
    within: abs(0.01),
    source: derived,
  },
  {
    id: "6.5",
    what: "void arc degrees, kernel",
    got: () => measure(form({ kind: "chain", pitchMm: 15, sides: 1 }), flat(20), -5).voidArc * 360,
    expected: 82.82,
    within: abs(0.01),
    source: derived,
  },
  { id: "6.5", what: "chord mm", got: () => chainCut(20, 15).chord, expected: 13.23, within: p(0.05), source: derived },
]);

const limits: readonly (readonly [number, number])[] = [
  [118, 31],
  [120, 30],
  [130, 25],
  [135, 22.5],
  [140, 20],
  [150, 15],
  [160, 10],
  [170, 5],
  [180, 0],
];

holds(
  "steepest incline that the tip meets first",
  limits.map(([SIG, expected]) => ({
    id: `${SIG}`,
    what: "degrees",
    got: () => tipFirstLimit(SIG),
    expected,
    within: abs(1e-9),
    source: derived,
  })),
);

const side =
  (shape: SurfaceForm): (() => number) =>
  () =>
    measure(form(shape), flat(20), -5).side;

holds("normalised side force s, flat front", [
  {
    id: "edge 30 %",
    what: "s",
    got: side({ kind: "edge-area", areaShare: 0.3 }),
    expected: 0.55,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "edge 50 %",
    what: "s",
    got: side({ kind: "edge-area", areaShare: 0.5 }),
    expected: 1,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "edge 70 %",
    what: "s",
    got: side({ kind: "edge-area", areaShare: 0.7 }),
    expected: 0.55,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "edge 80 %",
    what: "s",
    got: side({ kind: "edge-area", areaShare: 0.8 }),
    expected: 0.35,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "chain 0.6 D",
    what: "s",
    got: side({ kind: "chain", pitchMm: 12, sides: 1 }),
    expected: 0.62,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "chain 0.75 D",
    what: "s",
    got: side({ kind: "chain", pitchMm: 15, sides: 1 }),
    expected: 0.27,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "chain 0.9 D",
    what: "s",
    got: side({ kind: "chain", pitchMm: 18, sides: 1 }),
    expected: 0.06,
    within: abs(0.005),
    source: "brute force",
  },
  {
    id: "web 0.6 D",
    what: "s",
    got: side({ kind: "chain", pitchMm: 12, sides: 2 }),
    expected: 0,
    within: abs(1e-6),
    source: "brute force",
  },
  {
    id: "web 0.6 D",
    what: "rim",
    got: () => measure(form({ kind: "chain", pitchMm: 12, sides: 2 }), flat(20), -5).rim,
    expected: 0.41,
    within: abs(0.005),
    source: "brute force",
  },
]);
