import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { classify, harder, reducedStretch } from "../../../server/mechanics/engagement/classify.ts";
import {
  chainCut,
  concaveEntryLength,
  convexEntryLength,
  crossHoleLength,
  edgeAreaShare,
  inclineEntry,
  inclineShare,
  lensArea,
} from "../../../server/mechanics/engagement/closed-forms.ts";
import { drillFront } from "../../../server/mechanics/engagement/drill.ts";
import { type EngagementCurve, engage } from "../../../server/mechanics/engagement/engage.ts";
import { measure } from "../../../server/mechanics/engagement/measures.ts";
import {
  below,
  contains,
  EVERYWHERE,
  intersectionOf,
  lifted,
  type Solid,
  unionOf,
} from "../../../server/mechanics/engagement/solids.ts";
import {
  edgeDistance,
  entrySurface,
  exitSurface,
  type SurfaceForm,
  withCrossHole,
  withPilot,
} from "../../../server/mechanics/engagement/surfaces.ts";

const thousandths = (min: number, max: number) => fc.integer({ min: min * 1000, max: max * 1000 }).map((n) => n / 1000);
const DC = thousandths(3, 60);
const SIG = fc.constantFrom(90, 118, 130, 140, 160, 180);
const near = (a: number | null, b: number, room = 2e-3): void => {
  expect(a).not.toBeNull();
  expect(Math.abs((a ?? Number.NaN) - b)).toBeLessThanOrEqual(room);
};
const lips = (D: number, sig: number) => drillFront("two-lip", D, sig);

describe("first contact and full engagement against the closed forms", () => {
  it("incline", () => {
    fc.assert(
      fc.property(DC, SIG, thousandths(0.5, 60), (D, sig, angle) => {
        const curve = engage(entrySurface({ kind: "incline", angleDeg: angle }, D), lips(D, sig), -4 * D);
        const closed = inclineEntry(D, sig, angle);
        near(curve.firstContact, -closed.first);
        near(curve.full, -closed.full);
        near(curve.rimLength, D * Math.tan((angle * Math.PI) / 180), 4e-3);
        const t = (closed.first + closed.full) / 2;
        near(curve.at(-t).rim, inclineShare(sig, angle, D / 2, t), 1e-6);
      }),
      { numRuns: 30 },
    );
  });

  it("shaft and bore met in the middle", () => {
    fc.assert(
      fc.property(DC, SIG, thousandths(1.05, 8), (D, sig, ratio) => {
        const Rs = (ratio * D) / 2;
        const shaft = engage(
          entrySurface({ kind: "cylinder", diameterMm: 2 * Rs, shape: "convex", offsetMm: 0 }, D),
          lips(D, sig),
          -4 * D,
        );
        near((shaft.firstContact ?? 0) - (shaft.full ?? 0), convexEntryLength(D, sig, Rs));
        const bore = engage(
          entrySurface({ kind: "cylinder", diameterMm: 2 * Rs, shape: "concave", offsetMm: 0 }, D),
          lips(D, sig),
          -4 * D,
        );
        near((bore.firstContact ?? 0) - (bore.full ?? 0), concaveEntryLength(D, sig, Rs));
      }),
      { numRuns: 40 },
    );
  });

  it("shaft met beside its crown: the edge touches as a tangent where the tip does not touch first", () => {
    // R·cot κ + z(e) - z(e + R cos φ) over φ, and the least of ρ·cot κ - (z(e - ρ) - z(e)) over ρ, by a fine look.
    fc.assert(
      fc.property(thousandths(10, 30), SIG, thousandths(0, 0.9), (D, sig, share) => {
        const Rs = 1.6 * D;
        const offset = share * (Rs - D / 2);
        const front = lips(D, sig);
        const curve = engage(
          entrySurface({ kind: "cylinder", diameterMm: 2 * Rs, shape: "convex", offsetMm: offset }, D),
          front,
          -6 * D,
        );
        const z = (y: number): number => Math.sqrt(Rs * Rs - y * y);
        let first = 0;
        let full = 0;
        for (let i = 0; i <= 4000; i++) {
          const r = (i / 4000) * front.R;
          first = Math.min(first, r * front.slope - (z(offset - r) - z(offset)));
          full = Math.max(
            full,
            front.R * front.slope + z(offset) - z(offset + front.R * Math.cos((i / 4000) * Math.PI)),
          );
        }
        near(curve.firstContact, -first);
        near(curve.full, -full);
      }),
      { numRuns: 40 },
    );
  });

  it("ridge: the crest or the tip touches first, the corner is all in where the flank falls lowest", () => {
    fc.assert(
      fc.property(
        thousandths(6, 40),
        SIG,
        thousandths(2, 50),
        thousandths(0, 0.9),
        fc.boolean(),
        (D, sig, flank, share, left) => {
          const front = lips(D, sig);
          const offset = share * front.R * (left ? -1 : 1);
          const tan = Math.tan((flank * Math.PI) / 180);
          const curve = engage(entrySurface({ kind: "ridge", flankDeg: flank, offsetMm: offset }, D), front, -6 * D);
          const crest = Math.abs(offset) * (tan - front.slope);
          near(curve.firstContact, Math.max(0, crest));
          near(curve.full, -front.R * (tan + front.slope));
        },
      ),
      { numRuns: 40 },
    );
  });

  it("cross hole", () => {
    fc.assert(
      fc.property(thousandths(8, 40), SIG, thousandths(0.1, 0.9), (D, sig, share) => {
        const d = share * D;
        const curve = engage(withCrossHole(below(0), d, 3 * D), lips(D, sig), -6 * D);
        const zone = curve.zones.at(-1);
        near(zone?.from ?? null, -3 * D + d / 2, 0.01);
        near((zone?.from ?? 0) - (zone?.to ?? 0), crossHoleLength(D, sig, d), 0.01);
        // The entry itself was full long before.
        near(curve.full, -(D / 2) * lips(D, sig).slope);
      }),
      { numRuns: 20 },
    );
  });
});

describe("edges and chains", () => {
  it("an area share gives the axis distance that has that share", () => {
    fc.assert(
      fc.property(DC, thousandths(0.01, 0.99), (D, share) => {
        const inside = edgeDistance(share, D);
        near(edgeAreaShare(inside, D), share, 1e-9);
        near(
          measure(entrySurface({ kind: "edge-area", areaShare: share }, D), drillFront("two-insert", D, 180), -1).area,
          share,
          5e-4,
        );
      }),
      { numRuns: 100 },
    );
    expect(edgeDistance(0.5, 20)).toBeCloseTo(0, 9);
    expect(edgeDistance(0.3, 20)).toBeLessThan(0);
  });

  it("a neighbour takes the lens", () => {
    fc.assert(
      fc.property(DC, thousandths(0.2, 1.2), fc.constantFrom(1 as const, 2 as const), (D, share, sides) => {
        const pitch = share * D;
        // Beyond half a diameter the two neighbours do not meet.
        fc.pre(sides === 1 || share >= 0.5);
        const at = measure(
          entrySurface({ kind: "chain", pitchMm: pitch, sides }, D),
          drillFront("two-insert", D, 180),
          -1,
        );
        near(at.area, 1 - (sides * lensArea(D / 2, D / 2, pitch)) / (Math.PI * (D / 2) ** 2), 5e-4);
        near(at.rim, 1 - sides * (1 - chainCut(D, pitch).rim), 1e-6);
      }),
      { numRuns: 100 },
    );
  });

  it("stands clear where the edge is farther away than the radius, on either side", () => {
    const far = engage(entrySurface({ kind: "edge-axis", insideMm: 12 }, 20), lips(20, 140), -60);
    expect(classify("two-lip", far, { DC: 20, depthRatio: 3 }).class).toBe("none");
    const air = engage(entrySurface({ kind: "edge-axis", insideMm: -12 }, 20), lips(20, 140), -60);
    expect(air).toMatchObject({ firstContact: null, full: null, lastContact: null, zones: [], rimLength: 0 });
  });
});

const forms: fc.Arbitrary<SurfaceForm> = fc.oneof(
  fc.constant<SurfaceForm>({ kind: "flat" }),
  fc.constant<SurfaceForm>({ kind: "skin" }),
  thousandths(0.5, 45).map((angleDeg): SurfaceForm => ({ kind: "incline", angleDeg })),
  thousandths(0.1, 0.9).map((areaShare): SurfaceForm => ({ kind: "edge-area", areaShare })),
  thousandths(-9, 9).map((insideMm): SurfaceForm => ({ kind: "edge-axis", insideMm })),
  fc
    .tuple(thousandths(2, 45), thousandths(-8, 8))
    .map(([flankDeg, offsetMm]): SurfaceForm => ({ kind: "ridge", flankDeg, offsetMm })),
  fc
    .tuple(thousandths(50, 200), fc.constantFrom("convex" as const, "concave" as const), thousandths(-10, 10))
    .map(([diameterMm, shape, offsetMm]): SurfaceForm => ({ kind: "cylinder", diameterMm, shape, offsetMm })),
  fc
    .tuple(thousandths(4, 22), fc.constantFrom(1 as const, 2 as const))
    .map(([pitchMm, sides]): SurfaceForm => ({ kind: "chain", pitchMm, sides })),
);
const drills = fc
  .tuple(fc.constantFrom("two-insert" as const, "two-lip" as const), SIG)
  .map(([kind, sig]) => drillFront(kind, 20, kind === "two-insert" ? 180 : sig));

describe("every curve", () => {
  it("is in order, within its bounds, and the same as a look at one height", () => {
    fc.assert(
      fc.property(forms, drills, (form, front) => {
        const curve = engage(entrySurface(form, 20), front, -50);
        const shares = ["area", "rim", "voidArc", "core", "imbalance", "side"] as const;
        for (const [i, s] of curve.samples.entries()) {
          for (const at of shares) {
            expect(s[at]).toBeGreaterThanOrEqual(0);
            expect(s[at]).toBeLessThanOrEqual(1);
          }
          if (i > 0) expect(s.z).toBeLessThan((curve.samples[i - 1] as { z: number }).z);
          expect(curve.at(s.z)).toEqual(s);
        }
        for (const zone of curve.zones) {
          expect(zone.from).toBeGreaterThan(zone.to);
          expect(zone.rimLength).toBeLessThanOrEqual(zone.from - zone.to + 1e-3);
          expect(zone.rimBelowHalf).toBeLessThanOrEqual(zone.rimLength + 1e-3);
        }
        expect(curve.samples.at(-1)?.z).toBe(-50);
        return true;
      }),
      { numRuns: 30 },
    );
  });

  it("shows the same looks again after another one has been made", () => {
    fc.assert(
      fc.property(forms, drills, (form, front) => {
        const curve = engage(entrySurface(form, 20), front, -50);
        const before = curve.samples.map(({ z, area, side }) => ({ z, area, side }));
        engage(EVERYWHERE, front, -50);
        expect(curve.samples.map(({ z, area, side }) => ({ z, area, side }))).toEqual(before);
        expect(curve.mostArea).toBeGreaterThanOrEqual(Math.max(...before.map(({ area }) => area)));
        expect(curve.mostArea).toBeLessThanOrEqual(1);
      }),
      { numRuns: 30 },
    );
  });

  it("cuts more the deeper it goes: entries only lose air", () => {
    fc.assert(
      fc.property(forms, drills, (form, front) => {
        const curve = engage(entrySurface(form, 20), front, -50);
        for (const [i, s] of curve.samples.entries()) {
          const above = curve.samples[i - 1];
          if (above !== undefined) expect(s.area).toBeGreaterThanOrEqual(above.area - 1e-3);
        }
      }),
      { numRuns: 30 },
    );
  });

  it("has its reference where the axis pierces the surface", () => {
    fc.assert(
      fc.property(forms, (form) => {
        // Beside an edge or in a neighbour's void the axis runs in air: the height of the face is the reference then.
        fc.pre(form.kind !== "edge-area" && form.kind !== "edge-axis" && form.kind !== "chain");
        const solid = entrySurface(form, 20);
        return contains(solid, 0, 0, -1e-6) && !contains(solid, 0, 0, 1e-6);
      }),
    );
  });

  it("moves with the surface", () => {
    fc.assert(
      fc.property(forms, drills, thousandths(-20, 20), thousandths(-12, 6), (form, front, dz, z) => {
        const solid = entrySurface(form, 20);
        const here = measure(solid, front, z);
        const there = measure(lifted(solid, dz), front, z + dz);
        // A share below a millionth counts as none: on one side of that the rounding of the move may decide.
        return Math.abs(here.area - there.area) < 2e-6 && Math.abs(here.side - there.side) < 2e-6;
      }),
      { numRuns: 30 },
    );
  });
});

describe("absurd sizes", () => {
  const anySize = fc.double({ min: -9, max: 6, noNaN: true }).map((power) => 10 ** power);

  it("end, and give finite numbers", () => {
    const absurd: fc.Arbitrary<SurfaceForm> = fc.oneof(
      fc
        .double({ min: 0, max: 89.9999999, noNaN: true })
        .map((angleDeg): SurfaceForm => ({ kind: "incline", angleDeg })),
      fc.constant<SurfaceForm>({ kind: "incline", angleDeg: 89.9999999 }),
      anySize.map((insideMm): SurfaceForm => ({ kind: "edge-axis", insideMm })),
      fc
        .tuple(fc.double({ min: 0, max: 89, noNaN: true }), anySize)
        .map(([flankDeg, offsetMm]): SurfaceForm => ({ kind: "ridge", flankDeg, offsetMm })),
      fc
        .tuple(anySize, fc.constantFrom("convex" as const, "concave" as const), anySize)
        .map(([diameterMm, shape, offsetMm]): SurfaceForm => ({ kind: "cylinder", diameterMm, shape, offsetMm })),
      anySize.map((pitchMm): SurfaceForm => ({ kind: "chain", pitchMm, sides: 2 })),
    );
    fc.assert(
      fc.property(absurd, anySize, SIG, anySize, (form, D, sig, depth) => {
        const curve = engage(entrySurface(form, D), lips(D, sig), -depth);
        for (const sample of curve.samples) {
          for (const value of Object.values(sample))
            if (typeof value === "number") expect(value).toSatisfy(Number.isFinite);
        }
        expect(curve.samples.length).toBeLessThan(2000);
      }),
      { numRuns: 200 },
    );
  });
});

describe("exits", () => {
  it("leave what the entry would have met: a flat front loses metal as it would gain it", () => {
    fc.assert(
      fc.property(thousandths(1, 45), thousandths(-10, 10), (angleDeg, z) => {
        const front = drillFront("two-insert", 20, 180);
        const form: SurfaceForm = { kind: "incline", angleDeg };
        near(measure(exitSurface(form, 20), front, z).area, 1 - measure(entrySurface(form, 20), front, z).area, 1e-4);
      }),
    );
  });

  it("have the length of the entry, and end in air", () => {
    const front = lips(20, 140);
    const curve = engage(exitSurface({ kind: "incline", angleDeg: 10 }, 20), front, -30, 30);
    const closed = inclineEntry(20, 140, 10);
    expect(curve.zones).toHaveLength(1);
    near((curve.zones[0]?.from ?? 0) - (curve.zones[0]?.to ?? 0), closed.length);
    near(curve.lastContact, -closed.full);
    near(curve.firstContact, 30);
    expect(curve.at(-20).area).toBe(0);
  });

  it("a flat exit is no interruption", () => {
    expect(engage(exitSurface({ kind: "flat" }, 20), lips(20, 118), -30, 30).zones).toEqual([]);
  });
});

describe("what is no interruption", () => {
  it.each([
    ["a point running into a flat face", below(0)],
    ["opening a concentric pilot", withPilot(below(0), 8)],
    ["a pilot as wide as the drill", withPilot(below(0), 20)],
    ["metal everywhere", EVERYWHERE],
  ] as const)("%s", (_name, solid: Solid) => {
    for (const sig of [118, 140, 180]) {
      const curve = engage(solid, lips(20, sig), -60, 5);
      expect(curve.zones).toEqual([]);
      expect(classify("two-lip", curve, { DC: 20, depthRatio: 3 })).toEqual({ class: "none", zones: [], worst: null });
      expect(curve.samples.every((s) => !s.interrupted && s.side < 1e-9)).toBe(true);
    }
  });

  it("a pilot opened off its axis is one", () => {
    const solid: Solid = {
      kind: "intersection",
      parts: [below(0), { kind: "not", part: { kind: "along", x: 1, y: 0, radius: 4 } }],
    };
    expect(engage(solid, lips(20, 140), -60).zones.length).toBe(1);
  });
});

const class3 = (curve: EngagementCurve, depthRatio: number) =>
  classify("two-insert", curve, { DC: 20, depthRatio }).class;

describe("classes", () => {
  const insert = drillFront("two-insert", 20, 180);
  const incline = (angleDeg: number) => engage(entrySurface({ kind: "incline", angleDeg }, 20), insert, -60);

  it("of an incline rise with its angle for an insert drill", () => {
    // 0.05 D and 0.1 D of rim length lie at 2.9 and 5.7 degrees.
    expect([2, 4, 8, 30].map((angle) => class3(incline(angle), 3))).toEqual(["light", "medium", "heavy", "heavy"]);
  });

  it("a wide gap without the imbalance is medium: the web between two holes at 0.6 D", () => {
    const web = engage(entrySurface({ kind: "chain", pitchMm: 12, sides: 2 }, 20), insert, -60);
    expect(web.zones[0]?.voidArc).toBeGreaterThan(0.15);
    expect(web.zones[0]?.imbalance).toBeCloseTo(0.88, 2);
    expect(class3(web, 3)).toBe("medium");
  });

  it("of two lips follow the side force where more than half of the turn is cut", () => {
    const beside = (areaShare: number) =>
      classify("two-lip", engage(entrySurface({ kind: "edge-area", areaShare }, 20), lips(20, 140), -60), {
        DC: 20,
        depthRatio: 3,
      });
    expect([0.7, 0.8, 0.85, 0.9, 0.99].map((share) => beside(share).class)).toEqual([
      "heavy",
      "heavy",
      "medium",
      "medium",
      "light",
    ]);
    expect(beside(0.8).worst?.rimBelowHalf).toBe(0);
    expect(beside(0.85).worst?.side).toBeLessThan(0.35);
  });

  it("heavy becomes extreme beyond 3xD", () => {
    expect(class3(incline(30), 3)).toBe("heavy");
    expect(class3(incline(30), 3.01)).toBe("extreme");
    expect(class3(incline(4), 5)).toBe("medium");
  });

  it("the axis in air counts only over more than 0.6 D", () => {
    const shallow = engage(entrySurface({ kind: "edge-area", areaShare: 0.3 }, 20), insert, -11.5);
    const deep = engage(entrySurface({ kind: "edge-area", areaShare: 0.3 }, 20), insert, -12.5);
    expect([class3(shallow, 0.6), class3(deep, 0.6)]).toEqual(["heavy", "extreme"]);
  });

  it("each zone has its own, and the hardest rules", () => {
    const solid = withCrossHole(entrySurface({ kind: "incline", angleDeg: 30 }, 20), 3, 40);
    const found = classify("two-insert", engage(solid, insert, -60), { DC: 20, depthRatio: 3 });
    expect(found.zones.map((z) => z.class)).toEqual(["heavy", "light"]);
    expect(found.class).toBe("heavy");
    expect(found.worst?.from).toBeCloseTo(10 * Math.tan(Math.PI / 6), 3);
  });

  it("order", () => {
    expect(harder("light", "heavy")).toBe("heavy");
    expect(harder("extreme", "none")).toBe("extreme");
    expect(harder("none", "none")).toBe("none");
  });

  it("the reduced stretch begins 1 mm above and ends 1 mm below, 2 mm in castings", () => {
    expect(reducedStretch(5, -5, false)).toEqual({ from: 6, to: -6 });
    expect(reducedStretch(5, -5, true)).toEqual({ from: 7, to: -7 });
  });
});

describe("front of a drill", () => {
  it("takes PL before SIG, and common practice where nothing is declared", () => {
    expect(drillFront("two-insert", 20, null).slope).toBe(0);
    expect(drillFront("two-insert", 20, 180, 0.5).slope).toBeCloseTo(0.05, 12);
    expect(drillFront("two-lip", 20, null).slope).toBeCloseTo(1 / Math.tan((59 * Math.PI) / 180), 12);
    expect(drillFront("two-insert", 20, 180, null, 4).centre).toBe(4);
    expect(drillFront("two-insert", 20, 180, null, 40).centre).toBe(5);
    expect(drillFront("two-lip", 20, 140, null, 4).centre).toBe(5);
  });
});

it("both sides of a step stay among the samples: what is drawn through them is the curve", () => {
  const over = (z: number): Solid => ({ kind: "half-space", nx: 0, ny: 0, nz: -1, d: -z });
  const plates = unionOf(intersectionOf(below(0), over(-8)), intersectionOf(below(-17), over(-30)));
  const curve = engage(plates, drillFront("two-insert", 26, 180), -32);
  const { samples } = curve;
  for (let z = -31.5; z < 0; z += 0.5) {
    const i = samples.findIndex((sample) => sample.z <= z);
    const [above, under] = [samples[i - 1], samples[i]];
    if (above === undefined || under === undefined) throw new Error(`no samples around ${z}`);
    const share = (above.z - z) / (above.z - under.z);
    const drawn = above.area + (under.area - above.area) * share;
    if (above.z - under.z > 1e-3) expect(Math.abs(drawn - curve.at(z).area), `at ${z}`).toBeLessThan(1e-9);
  }
});
