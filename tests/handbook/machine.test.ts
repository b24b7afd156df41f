import { describe, expect, it } from "vitest";
import { coolantGuide, hydraulicPower, recommendedFlow } from "../../server/mechanics/coolant.ts";
import { available, DRIVE_EFFICIENCY, dutyTorque } from "../../server/mechanics/envelope.ts";
import { handbookThrust, handbookTorque } from "../../server/mechanics/handbook.ts";
import { powerFromTorque, torqueFromPower } from "../../server/mechanics/kienzle.ts";
import { WEAR_THRUST, WEAR_TORQUE } from "../../server/mechanics/peaks.ts";
import { INSERT_THRUST } from "../../server/mechanics/thrust.ts";
import { EXACT, holds } from "./rows.ts";

const p = (percent: number) => ({ percent });
const derived = "derived";
const practice = "common practice, no source";
const FTLB = 1.355818;
const HP = 0.7456999;
/** 15 kW from 1500 1/min on, as power points alone. */
const drive = [
  { rpm: 1500, torque: null, power: 15 },
  { rpm: 6000, torque: null, power: 15 },
];
const at = (n: number) => available(drive, 1, n) ?? { torque: Number.NaN, power: Number.NaN };

holds("spindle and coolant, check values", [
  {
    id: "C086",
    what: "N·m, 15 kW at 1500 1/min",
    got: () => at(1500).torque,
    expected: 95.49,
    within: p(0.1),
    source: derived,
  },
  {
    id: "C087",
    what: "kW at 800 1/min, same drive",
    got: () => at(800).power,
    expected: 8,
    within: EXACT,
    source: derived,
  },
  {
    id: "C088",
    what: "ft·lb, 20 hp at 1500 1/min",
    got: () => torqueFromPower(20 * HP, 1500) / FTLB,
    expected: 70.03,
    within: p(0.1),
    source: derived,
  },
  {
    id: "C110",
    what: "hydraulic kW, 20 bar, 20 L/min",
    got: () => hydraulicPower(20, 20),
    expected: 0.6667,
    within: p(0.1),
    source: derived,
  },
]);

const metric = { DC: 22, f: 0.2, chiselRatio: 0.18, wear: 1.3 };

holds("spindle and coolant, worked examples", [
  {
    id: "7.1",
    what: "ft·lb, 15 kW at 1500 1/min",
    got: () => at(1500).torque / FTLB,
    expected: 70.43,
    within: p(0.05),
    source: derived,
  },
  {
    id: "7.1",
    what: "N·m at 3000 1/min",
    got: () => at(3000).torque,
    expected: 47.75,
    within: p(0.05),
    source: derived,
  },
  {
    id: "7.2",
    what: "N·m root mean square, 120 N·m for 3 of 10 min, else 10",
    got: () =>
      dutyTorque([
        { torque: 120, minutes: 3 },
        { torque: 10, minutes: 7 },
      ]),
    expected: 66.26,
    within: p(0.05),
    source: "derived; form from memory of IEC 60034-1",
  },
  {
    id: "7",
    what: "constant N·m of 9549 P / n",
    got: () => torqueFromPower(1, 1),
    expected: 9549,
    within: p(0.01),
    source: "from memory of trade handbooks",
  },
  {
    id: "7",
    what: "constant ft·lb of 5252 hp / n",
    got: () => torqueFromPower(HP, 1) / FTLB,
    expected: 5252,
    within: p(0.01),
    source: "from memory of trade handbooks",
  },
  {
    id: "7",
    what: "constant in·lb of 63 025 hp / n",
    got: () => torqueFromPower(HP, 1) / 0.1129848,
    expected: 63_025,
    within: p(0.01),
    source: "from memory of Machinery's Handbook",
  },
  {
    id: "5.6",
    what: "hydraulic hp, 300 psi, 5.3 gal/min",
    got: () => hydraulicPower(300 * 0.06894757, 5.3 * 3.785412) / HP,
    expected: 0.9277,
    within: p(0.1),
    source: derived,
  },
  {
    id: "flow",
    what: "L/min for a 20 mm two-insert drill at 3xD",
    got: () => recommendedFlow(20, 3),
    expected: 18,
    within: EXACT,
    source: practice,
  },
  {
    id: "flow",
    what: "gal/min per inch of diameter",
    got: () => recommendedFlow(25.4, 3) / 3.785412,
    expected: 6,
    within: p(1),
    source: practice,
  },
  {
    id: "flow",
    what: "L/min at 5xD over 3xD",
    got: () => recommendedFlow(20, 5) / recommendedFlow(20, 3),
    expected: 1.5,
    within: EXACT,
    source: practice,
  },
  {
    id: "drive",
    what: "efficiency, direct",
    got: () => DRIVE_EFFICIENCY.direct,
    expected: 0.92,
    within: EXACT,
    source: practice,
  },
  {
    id: "drive",
    what: "efficiency, belt",
    got: () => DRIVE_EFFICIENCY.belt,
    expected: 0.87,
    within: EXACT,
    source: practice,
  },
  {
    id: "drive",
    what: "efficiency, geared",
    got: () => DRIVE_EFFICIENCY.geared,
    expected: 0.77,
    within: EXACT,
    source: practice,
  },
  {
    id: "wear",
    what: "torque, nominal",
    got: () => WEAR_TORQUE.nominal,
    expected: 1.15,
    within: EXACT,
    source: practice,
  },
  {
    id: "wear",
    what: "thrust, nominal",
    got: () => WEAR_THRUST.nominal,
    expected: 1.3,
    within: EXACT,
    source: practice,
  },
  {
    id: "insert",
    what: "thrust coefficient, nominal",
    got: () => INSERT_THRUST.nominal,
    expected: 0.55,
    within: EXACT,
    source: practice,
  },
]);

describe("7.4: a 22 mm HSS drill on a 40-taper machine (derived)", () => {
  it("passes the spindle and exceeds an 8 kN axis: thrust, not power, is the limit", () => {
    const torque = handbookTorque(24_000, metric);
    expect(torque).toBeLessThan(at(350).torque);
    expect(powerFromTorque(torque, 350)).toBeLessThan(at(350).power);
    expect(handbookThrust(24_000, metric)).toBeGreaterThan(8000);
  });
});

/** D mm, pressure bar, flow L/min at 3xD. */
const guide: readonly (readonly [number, number, number, number, number])[] = [
  [15, 10, 15, 10, 10],
  [20, 8, 12, 15, 20],
  [30, 6, 10, 25, 30],
  [50, 4, 6, 40, 60],
];
const plain = { depthRatio: 3, verticalDown: false, stainless: false };

describe(`coolant guide for insert drills (${practice})`, () => {
  it.each(guide)("D %d mm", (DC, low, high, flowLow, flowHigh) => {
    expect(coolantGuide({ DC, ...plain })).toEqual({ pressure: { low, high }, flow: { low: flowLow, high: flowHigh } });
  });
  it("runs straight between the diameters and holds beyond them", () => {
    expect(coolantGuide({ DC: 25, ...plain }).pressure).toEqual({ low: 7, high: 11 });
    expect(coolantGuide({ DC: 12, ...plain }).pressure).toEqual({ low: 10, high: 15 });
    expect(coolantGuide({ DC: 60, ...plain }).flow).toEqual({ low: 40, high: 60 });
  });
  it("asks for half as much again deep or vertical, and twice as much in stainless", () => {
    expect(coolantGuide({ DC: 20, ...plain, depthRatio: 5 }).pressure.low).toBe(12);
    expect(coolantGuide({ DC: 20, ...plain, verticalDown: true }).pressure.low).toBe(12);
    expect(coolantGuide({ DC: 20, ...plain, stainless: true }).pressure.low).toBe(16);
  });
});
