import { describe, expect, it } from "vitest";
import { CARVILL_KD, carvillTorque, powerLaw, THRUST_LAWS, TORQUE_LAWS } from "../../server/mechanics/cross-checks.ts";
import { handbookThrust, handbookTorque } from "../../server/mechanics/handbook.ts";
import { chipThickness, kcPlain, torqueFromSolid } from "../../server/mechanics/kienzle.ts";
import { METHOD_SPREAD } from "../../server/mechanics/peaks.ts";
import { lipThrust } from "../../server/mechanics/thrust.ts";
import { UNIT_POWER_SI, unitPower, unitPowerFeedFactor } from "../../server/mechanics/unit-power.ts";
import { holds } from "./rows.ts";

const p = (percent: number) => ({ percent });
const KGF = 9.80665;
const MH = "read in Machinery's Handbook, 31st ed., p. 1147";
const MEMORY = "from memory of Machinery's Handbook";

holds("unit power and power laws, check values", [
  {
    id: "C057",
    what: "M kgf·m, D 20, s 0.4, steel Rm 750",
    got: () => powerLaw(TORQUE_LAWS["steel-750"], 20, 0.4),
    expected: 6.63,
    within: p(0.1),
    source: TORQUE_LAWS["steel-750"].source,
  },
  {
    id: "3.5",
    what: "same in N·m",
    got: () => powerLaw(TORQUE_LAWS["steel-750"], 20, 0.4) * KGF,
    expected: 65.02,
    within: p(0.05),
    source: TORQUE_LAWS["steel-750"].source,
  },
  {
    id: "C060",
    what: "1 hp·min/in³ in W·s/mm³",
    got: () => UNIT_POWER_SI,
    expected: 2.73,
    within: p(0.05),
    source: `${MH}, 1.00 beside 2.73`,
  },
  {
    id: "C061",
    what: "Pc hp, Kp .62, C .94, Q 6.72, W 1.3",
    got: () => unitPower(0.62, 0.94, 6.72, 1.3),
    expected: 5.091,
    within: p(1),
    source: `Kp ${MH}; printed 5 ${MEMORY}`,
  },
  {
    id: "C062",
    what: "Pc kW, Kp 1.69, C .94, Q 1.812, W 1.3",
    got: () => unitPower(1.69, 0.94, 1.812, 1.3),
    expected: 3.742,
    within: p(0.5),
    source: `Kp ${MH}; printed 3.74 ${MEMORY}`,
  },
  {
    id: "4.1",
    what: "motor hp, E 0.80",
    got: () => unitPower(0.62, 0.94, 6.72, 1.3) / 0.8,
    expected: 6.364,
    within: p(0.05),
    source: `${MEMORY}; Kp read`,
  },
  {
    id: "4.1",
    what: "motor kW, E 0.80",
    got: () => unitPower(1.69, 0.94, 1.812, 1.3) / 0.8,
    expected: 4.677,
    within: p(0.05),
    source: `${MEMORY}; Kp read`,
  },
  {
    id: "4.3",
    what: "Pc hp of the 7/8 in hole by unit power",
    got: () => unitPower(0.82, 1.08, 1.684, 1.3),
    expected: 1.938,
    within: p(0.1),
    source: "derived",
  },
]);

/** in/rev, C. */
const feedTable: readonly (readonly [number, number])[] = [
  [0.001, 1.6],
  [0.002, 1.4],
  [0.004, 1.25],
  [0.006, 1.15],
  [0.008, 1.08],
  [0.01, 1.04],
  [0.012, 1],
  [0.015, 0.96],
  [0.02, 0.9],
  [0.03, 0.83],
  [0.04, 0.78],
  [0.06, 0.72],
];

holds(
  "unit power, feed factor",
  feedTable.map(([f, C]) => ({
    id: `${f}`,
    what: "in/rev, C",
    got: () => unitPowerFeedFactor(f * 25.4),
    expected: C,
    within: p(2.5),
    source: `${MEMORY}, Table 2`,
  })),
);

const kc118 = kcPlain(2220, 0.14, chipThickness(0.25, 2, 59));
const kcMo = kcPlain(2500, 0.26, chipThickness(0.25, 2, 59));

holds("one hole by every method: D 20, f 0.25, medium-carbon steel 200 HB, sharp", [
  {
    id: "Kosilova",
    what: "torque N·m",
    got: () => powerLaw(TORQUE_LAWS["steel-750"], 20, 0.25) * KGF,
    expected: 45.52,
    within: p(2),
    source: TORQUE_LAWS["steel-750"].source,
  },
  {
    id: "Kosilova",
    what: "thrust N",
    got: () => powerLaw(THRUST_LAWS["steel-750"], 20, 0.25) * KGF,
    expected: 5153,
    within: p(2),
    source: THRUST_LAWS["steel-750"].source,
  },
  {
    id: "Kienzle",
    what: "torque N·m, 42CrMo4 at 118 degrees",
    got: () => torqueFromSolid(20, 0.25, kcMo),
    expected: 55.85,
    within: p(0.1),
    source: 'kc1.1 read in German Wikipedia, "Spezifische Schnittkraft"',
  },
  {
    id: "Carvill",
    what: "torque N·m, mild steel",
    got: () => carvillTorque(CARVILL_KD["mild-steel"], 20, 0.25),
    expected: 27.96,
    within: p(0.1),
    source: "constant read in Carvill, p. 192; exponents from memory",
  },
]);

describe("spread between the methods", () => {
  const cut = { DC: 20, f: 0.25, chiselRatio: 0.18, wear: 1 };
  it("torque of all practical methods lies within the band of 42 N·m", () => {
    const all = [
      handbookTorque(24_000, cut),
      powerLaw(TORQUE_LAWS["steel-750"], 20, 0.25) * KGF,
      torqueFromSolid(20, 0.25, kc118),
      torqueFromSolid(20, 0.25, kcMo),
      carvillTorque(CARVILL_KD["mild-steel"], 20, 0.25),
    ];
    for (const torque of all) {
      expect(torque).toBeGreaterThan(42 * METHOD_SPREAD.torque.low);
      expect(torque).toBeLessThan(42 * METHOD_SPREAD.torque.high);
    }
  });
  it("thrust of the handbook form and of the bare lips lie within the band of the power law", () => {
    const middle = powerLaw(THRUST_LAWS["steel-750"], 20, 0.25) * KGF;
    expect(handbookThrust(24_000, cut)).toBeLessThan(middle * METHOD_SPREAD.thrust.high);
    expect(lipThrust(0.5, kc118, 20, 0.25, 59)).toBeGreaterThan(middle * METHOD_SPREAD.thrust.low);
  });
});
