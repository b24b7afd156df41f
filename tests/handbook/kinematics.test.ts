import {
  blindTime,
  cuttingSpeed,
  feedPerRev,
  feedRate,
  helixAngle,
  peckTime,
  pointLength,
  removalRate,
  spindleSpeed,
  throughTime,
} from "../../server/mechanics/kinematics.ts";
import { EXACT, holds } from "./rows.ts";

const IN = 25.4;
const FT = 0.3048;
const IN3 = 16.387064;
const derived = "derived";
const practice = "common practice, no source";
const trade = 'derived from data read in Cutting Tool Engineering, "Economics of drilling" (2025)';
const textbook = "derived from data read in a German vocational textbook, turning exercise 19";
const p = (percent: number) => ({ percent });

/** Feed rate in in/min of an inch drill. */
const inchFeed = (D: number, sfm: number, ipr: number): number =>
  feedRate(ipr * IN, spindleSpeed(sfm * FT, D * IN)) / IN;

holds("kinematics, check values", [
  {
    id: "C010",
    what: "vf in/min, 5/16 in, 300 ft/min, 0.005 in/rev",
    got: () => inchFeed(5 / 16, 300, 0.005),
    expected: 18.33,
    within: p(0.1),
    source: `${trade}, printed "roughly 18"`,
  },
  {
    id: "C011",
    what: "vf in/min, same at 50 ft/min",
    got: () => inchFeed(5 / 16, 50, 0.005),
    expected: 3.056,
    within: p(0.1),
    source: trade,
  },
  {
    id: "C012",
    what: "vf mm/min, D 12, vc 20, f 0.2",
    got: () => feedRate(0.2, spindleSpeed(20, 12)),
    expected: 106.1,
    within: p(0.1),
    source: textbook,
  },
  {
    id: "C013",
    what: "A/D at 118 degrees",
    got: () => pointLength(1, 118),
    expected: 0.3004,
    within: { absolute: 0.0001 },
    source: derived,
  },
  {
    id: "C014",
    what: "A/D at 140 degrees",
    got: () => pointLength(1, 140),
    expected: 0.182,
    within: { absolute: 0.0001 },
    source: derived,
  },
  {
    id: "C015",
    what: "Q cm³/min, vc 90, f 0.25, D 20",
    got: () => removalRate(20, 0.25, spindleSpeed(90, 20)),
    expected: 112.5,
    within: EXACT,
    source: derived,
  },
  {
    id: "C016",
    what: "Q in³/min, V 295.2756 ft/min, f 0.0098425 in/rev, D 0.7874016 in",
    got: () => removalRate(0.7874016 * IN, 0.0098425 * IN, spindleSpeed(295.2756 * FT, 0.7874016 * IN)) / IN3,
    expected: 6.865,
    within: p(0.1),
    source: derived,
  },
]);

const pointTable: readonly (readonly [number, number])[] = [
  [90, 0.5],
  [118, 0.3004],
  [120, 0.2887],
  [130, 0.2332],
  [135, 0.2071],
  [140, 0.182],
  [150, 0.134],
  [160, 0.08816],
  [180, 0],
];

holds(
  "point allowance over diameter",
  pointTable.map(([SIG, expected]) => ({
    id: `${SIG}`,
    what: "degrees, A/D",
    got: () => pointLength(1, SIG),
    expected,
    within: { absolute: 0.00005 },
    source: "derived; same form from memory of Groover, chapter 21",
  })),
);

const n15 = spindleSpeed(90, 20);
const vf15 = feedRate(0.25, n15);

holds("kinematics, worked examples", [
  {
    id: "1.3",
    what: "1/min at 300 ft/min, 5/16 in",
    got: () => spindleSpeed(300 * FT, (5 / 16) * IN),
    expected: 3667,
    within: p(0.02),
    source: trade,
  },
  {
    id: "1.3",
    what: "1/min at 50 ft/min",
    got: () => spindleSpeed(50 * FT, (5 / 16) * IN),
    expected: 611.2,
    within: p(0.02),
    source: trade,
  },
  {
    id: "1.3",
    what: "min for 1/2 in at 300 ft/min",
    got: () => 0.5 / inchFeed(5 / 16, 300, 0.005),
    expected: 0.02727,
    within: p(0.05),
    source: trade,
  },
  {
    id: "1.3",
    what: "min for 1/2 in at 50 ft/min",
    got: () => 0.5 / inchFeed(5 / 16, 50, 0.005),
    expected: 0.1636,
    within: p(0.05),
    source: trade,
  },
  {
    id: "1.4",
    what: "1/min, D 12, vc 20",
    got: () => spindleSpeed(20, 12),
    expected: 530.5,
    within: p(0.01),
    source: textbook,
  },
  { id: "1.5", what: "1/min, D 20, vc 90", got: () => n15, expected: 1432, within: p(0.05), source: derived },
  { id: "1.5", what: "vf mm/min", got: () => vf15, expected: 358.1, within: p(0.02), source: derived },
  {
    id: "1.5",
    what: "A mm at 140 degrees",
    got: () => pointLength(20, 140),
    expected: 3.64,
    within: p(0.02),
    source: derived,
  },
  {
    id: "1.5",
    what: "through time min, plate 40, a 2, u 1",
    got: () => throughTime({ approach: 2, thickness: 40, point: pointLength(20, 140), overrun: 1, vf: vf15 }),
    expected: 0.1302,
    within: p(0.05),
    source: "derived; form from memory of Groover, eq. 21.11",
  },
  {
    id: "1.5",
    what: "path angle degrees",
    got: () => helixAngle(0.25, 20),
    expected: 0.228,
    within: p(0.05),
    source: derived,
  },
  {
    id: "1.5",
    what: "V ft/min",
    got: () => cuttingSpeed(20, n15) / FT,
    expected: 295.3,
    within: p(0.02),
    source: derived,
  },
  { id: "1.5", what: "vf in/min", got: () => vf15 / IN, expected: 14.1, within: p(0.05), source: derived },
  {
    id: "1.6",
    what: "peck cycle min, D 10, 140 degrees, depth 50, q 10, c 1, R 2, vf 200, rapid 20000",
    got: () =>
      peckTime({ length: 50 + pointLength(10, 140), peck: 10, clearance: 1, retract: 2, vf: 200, rapid: 20_000 }),
    expected: 0.3125,
    within: p(0.05),
    source: derived,
  },
  {
    id: "1.6",
    what: "same in one stroke with retract, min",
    got: () =>
      peckTime({
        length: 50 + pointLength(10, 140),
        peck: Number.POSITIVE_INFINITY,
        clearance: 1,
        retract: 2,
        vf: 200,
        rapid: 20_000,
      }),
    expected: 0.2718,
    within: p(0.05),
    source: derived,
  },
  {
    id: "8.6",
    what: "s saved per hole, carbide against HSS, 5/16 in by 1/2 in",
    got: () => 60 * (0.5 / inchFeed(5 / 16, 50, 0.005) - 0.5 / inchFeed(5 / 16, 300, 0.005)),
    expected: 8.181,
    within: p(0.05),
    source: trade,
  },
  {
    id: "blind",
    what: "min, full-diameter depth 50, a 2, D 10, 140 degrees, vf 200",
    got: () => blindTime({ approach: 2, depth: 50, point: pointLength(10, 140), vf: 200 }),
    expected: (2 + 50 + 1.8199) / 200,
    within: p(0.01),
    source: "derived; form from memory of Groover, eq. 21.12",
  },
]);

holds("kinematics, what shops say", [
  {
    id: "31 mm",
    what: "m/min at 600 ft/min",
    got: () => cuttingSpeed(31, spindleSpeed(600 * FT, 31)),
    expected: 183,
    within: p(1),
    source: practice,
  },
  {
    id: "31 mm",
    what: "ft/min of the speed that 183 m/min gives",
    got: () => cuttingSpeed(31, spindleSpeed(183, 31)) / FT,
    expected: 600,
    within: p(1),
    source: practice,
  },
  {
    id: "0.0025",
    what: "in/rev in mm/rev",
    got: () => feedPerRev(0.0025 * IN * 1000, 1000),
    expected: 0.06,
    within: { absolute: 0.005 },
    source: practice,
  },
  {
    id: "400",
    what: "1/min at 0.010 in/rev, in/min",
    got: () => feedRate(0.01 * IN, 400) / IN,
    expected: 4,
    within: EXACT,
    source: practice,
  },
  {
    id: "2352",
    what: "1/min at 0.0024 in/rev, in/min",
    got: () => feedRate(0.0024 * IN, 2352) / IN,
    expected: 5.6,
    within: p(1),
    source: practice,
  },
  {
    id: "0.650",
    what: "in at 2352 1/min, ft/min",
    got: () => cuttingSpeed(0.65 * IN, 2352) / FT,
    expected: 400,
    within: p(1),
    source: practice,
  },
]);
