import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  handbookThrust,
  handbookThrustFromCore,
  handbookTorque,
  handbookTorqueFromCore,
  isHandbookKind,
} from "../../../server/mechanics/handbook.ts";
import {
  chipThickness,
  edgeRake,
  insertPairLoad,
  jointKc,
  kc,
  kcPlain,
  processFactor,
  rakeFactorAt,
  torqueFromCore,
  torqueFromSolid,
} from "../../../server/mechanics/kienzle.ts";
import { insertThrust, lipThrust } from "../../../server/mechanics/thrust.ts";

const kc11 = fc.double({ min: 300, max: 4700, noNaN: true });
const mc = fc.double({ min: 0.05, max: 0.41, noNaN: true });
const feed = fc.double({ min: 0.001, max: 1, noNaN: true });
const diameter = fc.double({ min: 1, max: 130, noNaN: true });
const angle = fc.constantFrom(45, 59, 65, 70, 90);
const rake = fc.double({ min: -10, max: 25, noNaN: true });
const edges = fc.constantFrom(1, 2);
/** Feed pairs close enough to step over each threshold, and far apart. */
const rising = fc
  .tuple(feed, fc.oneof(fc.double({ min: 0, max: 0.5, noNaN: true }), fc.double({ min: 0, max: 1e-4, noNaN: true })))
  .map(([f, step]) => [f, f + step] as const);
const notLess = (more: number, less: number): boolean => more >= less * (1 - 1e-12);

describe("kc of thin chips", () => {
  it("holds the value of 0.05 mm and says so", () => {
    const thin = kc(2220, 0.14, 0.02);
    expect(thin.nominal).toBe(kcPlain(2220, 0.14, 0.05));
    expect(thin.high).toBeCloseTo(thin.nominal * (1 + 0.03 / 0.02), 9);
    expect(thin.belowRange).toBe(true);
  });

  it("is the power law alone in the model's range", () => {
    const k = kc(2220, 0.14, 0.2);
    expect(k).toEqual({
      low: kcPlain(2220, 0.14, 0.2),
      nominal: kcPlain(2220, 0.14, 0.2),
      high: kcPlain(2220, 0.14, 0.2),
      belowRange: false,
    });
  });

  it("never jumps", () => {
    fc.assert(
      fc.property(kc11, mc, fc.double({ min: 0.002, max: 0.5, noNaN: true }), (a, m, h) => {
        const here = kc(a, m, h);
        const next = kc(a, m, h * (1 + 1e-7));
        return (["low", "nominal", "high"] as const).every((at) => Math.abs(next[at] / here[at] - 1) < 1e-5);
      }),
    );
    for (const at of ["low", "nominal", "high"] as const) {
      expect(kc(2500, 0.26, 0.05 + 1e-12)[at]).toBeCloseTo(kc(2500, 0.26, 0.05 - 1e-12)[at], 4);
    }
  });

  it("keeps low, nominal and high in order", () => {
    fc.assert(
      fc.property(kc11, mc, fc.double({ min: 1e-4, max: 2, noNaN: true }), (a, m, h) => {
        const k = kc(a, m, h);
        return k.low > 0 && k.low <= k.nominal && k.nominal <= k.high && Number.isFinite(k.high);
      }),
    );
  });
});

describe("two lines of one material", () => {
  const victor = { kc11: 2220, mc: 0.14, line: "victor" } as const;
  const koenig = { kc11: 1659, mc: 0.21, line: "koenig" } as const;

  it("gives the geometric mean, the process factor once and on the König line alone", () => {
    const k = jointKc([victor, koenig], 0.1);
    const v = kcPlain(2220, 0.14, 0.1);
    const o = kcPlain(1659, 0.21, 0.1) * 1.2;
    expect(k.nominal).toBeCloseTo(Math.sqrt(v * o), 6);
    expect(k.high).toBe(Math.max(v, o));
    expect(k.low).toBe(Math.min(v, o));
  });

  it("is the line itself where there is one", () => {
    expect(jointKc([victor], 0.3).nominal).toBeCloseTo(kcPlain(2220, 0.14, 0.3), 9);
    expect(processFactor("victor") * processFactor("own")).toBe(1);
    expect(processFactor("koenig")).toBe(1.2);
  });
});

describe("rake factor", () => {
  it("is kept within 0.85 to 1.15 below 0.1 mm and free from 0.24 mm", () => {
    expect(rakeFactorAt(20, 2, 0.08)).toBe(0.85);
    expect(rakeFactorAt(-8, 6, 0.08)).toBe(1.15);
    expect(rakeFactorAt(20, 2, 0.24)).toBeCloseTo(0.73, 9);
    expect(rakeFactorAt(edgeRake("light"), 6, 0.05)).toBeCloseTo(0.91, 9);
    expect([edgeRake("light"), edgeRake("general"), edgeRake("strong")]).toEqual([12, 6, 0]);
  });
});

describe("torque never falls when the feed rises", () => {
  it("two lips and insert pairs, low, nominal and high, rake factor in, thin chips and all", () => {
    fc.assert(
      fc.property(kc11, mc, rising, diameter, edges, angle, rake, (a, m, [f, more], D, z, k, gamma) => {
        const torque = (feedPerRev: number, at: "low" | "nominal" | "high"): number => {
          const h = chipThickness(feedPerRev, z, k);
          return torqueFromSolid(D, feedPerRev, kc(a, m, h)[at] * rakeFactorAt(gamma, 6, h));
        };
        return (["low", "nominal", "high"] as const).every((at) => notLess(torque(more, at), torque(f, at)));
      }),
      { numRuns: 2000 },
    );
  });

  it("not at the thresholds of the chip thickness either, step by step", () => {
    for (const [a, m, gamma] of [
      [2500, 0.26, 25],
      [899, 0.41, 20],
      [2220, 0.14, -10],
    ] as const) {
      for (const at of ["low", "nominal", "high"] as const) {
        let before = 0;
        for (let h = 0.02; h < 0.4; h += 1e-4) {
          const torque = torqueFromSolid(20, h, kc(a, m, h)[at] * rakeFactorAt(gamma, 6, h));
          expect(torque, `${at}, rake ${gamma}, h ${h}`).toBeGreaterThanOrEqual(before * (1 - 1e-12));
          before = torque;
        }
      }
    }
  });

  it("joint lines", () => {
    const lines = [
      { kc11: 2220, mc: 0.14, line: "victor" },
      { kc11: 1659, mc: 0.21, line: "koenig" },
    ] as const;
    fc.assert(
      fc.property(rising, diameter, ([f, more], D) =>
        (["low", "nominal", "high"] as const).every((at) =>
          notLess(
            torqueFromSolid(D, more, jointKc(lines, chipThickness(more, 2, 59))[at]),
            torqueFromSolid(D, f, jointKc(lines, chipThickness(f, 2, 59))[at]),
          ),
        ),
      ),
    );
  });

  it("handbook form, from solid and from a core", () => {
    fc.assert(
      fc.property(rising, diameter, fc.double({ min: 0, max: 1, noNaN: true }), ([f, more], D, share) => {
        const cut = (feedPerRev: number) => ({ DC: D, f: feedPerRev, chiselRatio: 0.18, wear: 1.3 });
        return (
          notLess(handbookTorque(24_000, cut(more)), handbookTorque(24_000, cut(f))) &&
          notLess(
            handbookTorqueFromCore(24_000, cut(more), D * share),
            handbookTorqueFromCore(24_000, cut(f), D * share),
          )
        );
      }),
    );
  });
});

describe("thrust never falls when the feed rises", () => {
  it("lips, insert pairs and the handbook form", () => {
    fc.assert(
      fc.property(
        kc11,
        mc,
        rising,
        diameter,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, m, [f, more], D, share) => {
          const core = D * share;
          const lips = (x: number, at: "nominal" | "high"): number =>
            lipThrust(0.6, kc(a, m, chipThickness(x, 2, 70))[at], D, x, 70, core);
          const insert = (x: number): number => insertThrust(0.55, kcPlain(a, m, 0.1), D, x, core);
          const book = (x: number): number => handbookThrust(24_000, { DC: D, f: x, chiselRatio: 0.18, wear: 1.3 });
          const bored = (x: number): number =>
            handbookThrustFromCore(24_000, { DC: D, f: x, chiselRatio: 0.18, wear: 1.3 }, core);
          return (
            notLess(lips(more, "nominal"), lips(f, "nominal")) &&
            notLess(lips(more, "high"), lips(f, "high")) &&
            notLess(insert(more), insert(f)) &&
            notLess(book(more), book(f)) &&
            notLess(bored(more), bored(f))
          );
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe("opening a core", () => {
  it("runs from the whole torque to none", () => {
    expect(torqueFromCore(20, 0, 0.25, 3000)).toBe(torqueFromSolid(20, 0.25, 3000));
    expect(torqueFromCore(20, 20, 0.25, 3000)).toBe(0);
    expect(handbookTorqueFromCore(24_000, { DC: 20, f: 0.25, chiselRatio: 0.18, wear: 1 }, 20)).toBe(0);
  });

  it("takes the chisel's thrust away", () => {
    const cut = { DC: 20, f: 0.25, chiselRatio: 0.18, wear: 1 };
    expect(handbookThrustFromCore(24_000, cut, 4)).toBeLessThan(0.5 * handbookThrust(24_000, cut));
    expect(handbookThrustFromCore(24_000, cut, 20)).toBe(0);
    expect(insertThrust(0.55, 3000, 20, 0.1, 20)).toBe(0);
  });
});

describe("insert pair", () => {
  it("with equal kc has the torque of one edge, whatever the split and the core", () => {
    fc.assert(
      fc.property(
        diameter,
        feed,
        kc11,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (D, f, k, split, open) => {
          const core = D * open;
          const load = insertPairLoad({ DC: D, r1: (D / 2) * split, core, f, kcCentre: k, kcPeripheral: k });
          return Math.abs(load.torque - torqueFromCore(D, core, f, k)) < 1e-9 * (1 + torqueFromSolid(D, f, k));
        },
      ),
    );
  });

  it("splits torque 25/75 at half the radius", () => {
    const load = insertPairLoad({ DC: 25, r1: 6.25, core: 0, f: 0.12, kcCentre: 3000, kcPeripheral: 3000 });
    expect(load.centreTorque / load.torque).toBeCloseTo(0.25, 12);
    expect(load.netForce).toBeCloseTo(0, 9);
  });

  it("loses the centre insert when a pilot reaches past it", () => {
    const load = insertPairLoad({ DC: 25, r1: 6.25, core: 14, f: 0.12, kcCentre: 3000, kcPeripheral: 3000 });
    expect(load.centreForce).toBe(0);
    expect(load.netForce).toBe(load.peripheralForce);
  });
});

describe("insert drill thrust (common practice, no source)", () => {
  it("is c · kc(0.1) · 0.1 · R · (f / 0.1)^0.6", () => {
    expect(insertThrust(0.55, 3064, 25, 0.1)).toBeCloseTo(0.55 * 3064 * 0.1 * 12.5, 9);
    expect(insertThrust(0.55, 3064, 25, 0.2) / insertThrust(0.55, 3064, 25, 0.1)).toBeCloseTo(2 ** 0.6, 12);
  });
});

describe("names of handbook materials", () => {
  it("are known or not", () => {
    expect(["steel", "cast-iron", "nickel-alloy"].every(isHandbookKind)).toBe(true);
    expect(["wood", "toString", ""].some(isHandbookKind)).toBe(false);
  });
});
