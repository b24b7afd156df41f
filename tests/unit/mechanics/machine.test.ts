import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { recommendedFlow } from "../../../server/mechanics/coolant.ts";
import {
  available,
  dutyTorque,
  type EnvelopePoint,
  METER_BAND,
  powerFromMeter,
} from "../../../server/mechanics/envelope.ts";
import { powerFromTorque, torqueFromPower } from "../../../server/mechanics/kienzle.ts";
import { BODY_MODULUS, chipPacking, drillWalk, interruptedPeak } from "../../../server/mechanics/peaks.ts";

const point = (rpm: number, given: { torque?: number; power?: number }): EnvelopePoint => ({
  rpm,
  torque: given.torque ?? null,
  power: given.power ?? null,
});
const continuous = [point(0, { torque: 95 }), point(1500, { torque: 95 }), point(6000, { power: 15 })];
const shortTime = [point(0, { torque: 120 }), point(1500, { power: 18.5 }), point(6000, { power: 18.5 })];

describe("spindle envelope", () => {
  it("is constant torque between two points of equal torque", () => {
    for (const n of [0, 1, 400, 1500]) expect(available(continuous, 1, n)?.torque).toBeCloseTo(95, 9);
    expect(available(continuous, 1, 750)?.power).toBeCloseTo(powerFromTorque(95, 750), 9);
  });

  it("runs power straight over rpm between points and holds it beyond the last", () => {
    const corner = powerFromTorque(95, 1500);
    expect(available(continuous, 1, 3750)?.power).toBeCloseTo((corner + 15) / 2, 9);
    expect(available(continuous, 1, 9000)?.power).toBeCloseTo(15, 9);
    expect(available(continuous, 1, 9000)?.torque).toBeCloseTo(torqueFromPower(15, 9000), 9);
  });

  it("gives the cutter efficiency times what the motor has", () => {
    const motor = available(shortTime, 1, 1000);
    const cutter = available(shortTime, 0.87, 1000);
    expect(cutter?.torque).toBeCloseTo((motor?.torque ?? 0) * 0.87, 9);
    expect(cutter?.power).toBeCloseTo((motor?.power ?? 0) * 0.87, 9);
  });

  it("never exceeds the first torque point", () => {
    const steep = [point(0, { torque: 50 }), point(500, { power: 15 }), point(6000, { power: 15 })];
    expect(available(steep, 1, 500)?.torque).toBe(50);
    expect(available(steep, 1, 500)?.power).toBeCloseTo(powerFromTorque(50, 500), 9);
  });

  it("holds the torque of a first power point below it", () => {
    const power = [point(1500, { power: 15 }), point(6000, { power: 15 })];
    expect(available(power, 1, 0)?.torque).toBeCloseTo(torqueFromPower(15, 1500), 9);
    expect(available(power, 1, 750)?.power).toBeCloseTo(7.5, 9);
  });

  it("takes points in any order and one point alone", () => {
    expect(available([...continuous].reverse(), 1, 3000)).toEqual(available(continuous, 1, 3000));
    expect(available([point(2000, { power: 8 })], 1, 4000)?.power).toBeCloseTo(8, 9);
  });

  it("says nothing where there is nothing", () => {
    expect(available([], 1, 500)).toBeNull();
    expect(available([{ rpm: 0, torque: null, power: null }], 1, 500)).toBeNull();
    expect(available([point(0, { power: 8 })], 1, 0)).toBeNull();
    expect(available([point(0, { torque: 40 })], 1, 500)).toBeNull();
  });

  it("power equals torque times speed, torque never rises above the first point, both finite", () => {
    const envelope = fc
      .array(
        fc.tuple(fc.integer({ min: 1, max: 12_000 }), fc.double({ min: 0.1, max: 100, noNaN: true }), fc.boolean()),
        { minLength: 1, maxLength: 5 },
      )
      .map((rows) => [
        point(0, { torque: 200 }),
        ...rows.map(([rpm, v, isTorque]) => point(rpm, isTorque ? { torque: v } : { power: v })),
      ]);
    fc.assert(
      fc.property(envelope, fc.double({ min: 0, max: 20_000, noNaN: true }), (points, n) => {
        const at = available(points, 0.9, n);
        return (
          at !== null &&
          Number.isFinite(at.torque) &&
          at.torque >= 0 &&
          at.torque <= 180 + 1e-9 &&
          Math.abs(at.power - powerFromTorque(at.torque, n)) < 1e-9
        );
      }),
    );
  });
});

describe("duty", () => {
  it("is the torque itself when it never changes, and nothing for no time", () => {
    expect(
      dutyTorque([
        { torque: 40, minutes: 1 },
        { torque: 40, minutes: 9 },
      ]),
    ).toBeCloseTo(40, 9);
    expect(dutyTorque([])).toBe(0);
    expect(dutyTorque([{ torque: 40, minutes: 0 }])).toBe(0);
  });

  it("lies between mean and peak", () => {
    const span = fc.record({
      torque: fc.double({ min: 0, max: 500, noNaN: true }),
      minutes: fc.double({ min: 0.01, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(span, { minLength: 1 }), (spans) => {
        const minutes = spans.reduce((sum, s) => sum + s.minutes, 0);
        const mean = spans.reduce((sum, s) => sum + s.torque * s.minutes, 0) / minutes;
        const rms = dutyTorque(spans);
        return rms >= mean - 1e-9 && rms <= Math.max(...spans.map((s) => s.torque)) + 1e-9;
      }),
    );
  });
});

describe("load meter", () => {
  it("counts what is above idle, at the cutter", () => {
    expect(powerFromMeter(0.42, 0.06, 15, 0.87)).toBeCloseTo(0.36 * 15 * 0.87, 12);
    expect(powerFromMeter(0.05, 0.06, 15, 0.87)).toBe(0);
    expect([METER_BAND.low, METER_BAND.high]).toEqual([0.85, 1.15]);
  });
});

describe("coolant flow", () => {
  it("never falls with diameter or depth", () => {
    const d = fc.double({ min: 10, max: 60, noNaN: true });
    const ratio = fc.double({ min: 0.5, max: 8, noNaN: true });
    const more = fc.double({ min: 0, max: 5, noNaN: true });
    fc.assert(
      fc.property(
        d,
        ratio,
        more,
        (D, x, dx) =>
          recommendedFlow(D, x + dx) >= recommendedFlow(D, x) && recommendedFlow(D + dx, x) >= recommendedFlow(D, x),
      ),
    );
    expect(recommendedFlow(30, 2)).toBe(recommendedFlow(30, 3));
  });
});

describe("packed chips (common practice, no source)", () => {
  it.each([
    ["twist-hss", 5, false, 1.3],
    ["twist-hss", 5, true, 1],
    ["twist-hss", 2, false, 1],
    ["solid-carbide", 5, true, 1.15],
    ["solid-carbide", 5, false, 1.3],
    ["indexable", 5, true, 1.1],
    ["indexable", 3, true, 1],
  ] as const)("%s at %d D, through coolant %s: %d", (family, ratio, through, factor) => {
    expect(chipPacking(family, ratio, through)).toBeCloseTo(factor, 12);
  });
});

describe("peak within the turn (common practice, no source)", () => {
  it("is the full torque times 1.2, 1.3, 1.5", () => {
    const peak = interruptedPeak({ low: 10, nominal: 20, high: 30 });
    expect(peak.low).toBeCloseTo(12, 12);
    expect(peak.nominal).toBeCloseTo(26, 12);
    expect(peak.high).toBeCloseTo(45, 12);
  });
});

describe("walk of the drill", () => {
  it("is that of a cantilever of 0.3 of the full section", () => {
    // S 1000 N, L 100 mm, D 20 mm, steel: I = 0.3 · 7854 mm⁴.
    expect(drillWalk(1000, 100, 20, BODY_MODULUS.steel)).toBeCloseTo(1e9 / (3 * 210_000 * 0.3 * 7853.98), 4);
    expect(drillWalk(1000, 200, 20, BODY_MODULUS.steel) / drillWalk(1000, 100, 20, BODY_MODULUS.steel)).toBeCloseTo(
      8,
      12,
    );
    expect(drillWalk(0, 100, 20, BODY_MODULUS.carbide)).toBe(0);
  });
});
