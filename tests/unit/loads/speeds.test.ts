import { describe, expect, test } from "vitest";
import { createLoads } from "../../../server/loads/loads.ts";
import type { HoleShape } from "../../../server/program/types.ts";
import type { Tool } from "../../../server/setup/types.ts";
import { execution, setup, shape, tool } from "./fixtures.ts";

function loadsOf(of: HoleShape, t: Tool = tool()) {
  const inForce = setup({ tools: [t] });
  return createLoads(execution({ setup: inForce }), inForce)(of);
}

const TWO_LIP = { family: "solid-carbide", NOF: 2, SIG: 140, edge: null } as const;

describe("kinematics of the first stroke in metal", () => {
  // Reference case of the kinematics: D 20, vc 90, f 0.25; derived by hand.
  test("reference case", () => {
    const n = 90_000 / (Math.PI * 20);
    const loads = loadsOf(shape({ f: 0.25, n, endZ: -40 }), tool({ ...TWO_LIP, DC: 20 }));
    expect(loads.vc).toBeCloseTo(90, 9);
    expect(loads.vf).toBeCloseTo(358.1, 1);
    expect(loads.mrr).toBeCloseTo(112.5, 9);
    expect(loads.fz).toBeCloseTo(0.125, 12);
    expect(loads.depthRatio).toBe(2);
    expect(loads.pointLength).toBeCloseTo(3.64, 2);
  });

  // Common practice, no source: 31 mm at 600 ft/min is 183 m/min; 0.650 in at 2352 1/min is 400 ft/min.
  test.each([
    { DC: 31, n: (1000 * 183) / (Math.PI * 31), vc: 183 },
    { DC: 0.65 * 25.4, n: 2352, vc: 400 * 0.3048 },
  ])("vc of $DC mm", ({ DC, n, vc }) => {
    expect(loadsOf(shape({ n }), tool({ DC })).vc).toBeCloseTo(vc, 0);
  });

  test("n and f are those of the first stroke in metal, not of the first stroke", () => {
    const of = shape({
      strokes: [
        { fromZ: 2, toZ: -5, f: 0.3, n: 500, fRef: 0 },
        { fromZ: -5, toZ: -50, f: 0.1, n: 2000, fRef: 0 },
      ],
      firstCut: 1,
      surfaceZ: -5,
    });
    const loads = loadsOf(of);
    expect([loads.n, loads.f]).toEqual([2000, 0.1]);
  });

  test("feed time counts every stroke", () => {
    const of = shape({
      strokes: [
        { fromZ: 2, toZ: -8, f: 0.1, n: 1000, fRef: 0 },
        { fromZ: -7, toZ: -17, f: 0.2, n: 1000, fRef: 0 },
      ],
    });
    expect(loadsOf(of).feedTimeMin).toBeCloseTo(10 / 100 + 10 / 200, 12);
  });

  test("opening a core removes only the ring", () => {
    const solid = loadsOf(shape(), tool({ ...TWO_LIP, DC: 20 }));
    const ring = loadsOf(shape({ bored: [{ diameter: 10, toZ: -60, tool: 1 }] }), tool({ ...TWO_LIP, DC: 20 }));
    expect(ring.mrr).toBeCloseTo((solid.mrr ?? 0) * 0.75, 9);
  });
});

describe("effective edges", () => {
  test.each([
    { name: "two inserts are one edge", t: tool({ NOF: 2 }), fz: 0.1 },
    { name: "declared ZEFP wins", t: tool({ ZEFP: 2 }), fz: 0.05 },
    { name: "twist drill without NOF has two", t: tool({ family: "twist-hss" }), fz: 0.05 },
    { name: "three flutes", t: tool({ family: "solid-carbide", NOF: 3 }), fz: 0.1 / 3 },
  ])("$name", ({ t, fz }) => {
    expect(loadsOf(shape(), t).fz).toBeCloseTo(fz, 12);
  });

  test("a reamer without NOF has an unknown feed per edge", () => {
    const loads = loadsOf(shape(), tool({ family: "ream" }));
    expect(loads.fz).toBeNull();
    expect(loads.unknown.fz).toContain("NOF");
  });
});

describe("point length", () => {
  test.each([
    { name: "PL wins over SIG", t: tool({ PL: 1.2, SIG: 140 }), length: 1.2 },
    { name: "from SIG", t: tool({ family: "twist-hss", DC: 10, SIG: 118 }), length: 3.004 },
    { name: "HSS without SIG is 118 degrees", t: tool({ family: "twist-hss", DC: 10, SIG: null }), length: 3.004 },
    {
      name: "carbide without SIG is 140 degrees",
      t: tool({ family: "solid-carbide", DC: 10, SIG: null }),
      length: 1.82,
    },
    { name: "two-insert, nothing declared: nearly flat", t: tool({ DC: 25, SIG: null }), length: 0.5 },
    { name: "two-insert, declared flat", t: tool({ DC: 25, SIG: 180 }), length: 0 },
  ])("$name", ({ t, length }) => {
    expect(loadsOf(shape(), t).pointLength).toBeCloseTo(length, 3);
  });

  test("an estimate says that it is one", () => {
    const loads = loadsOf(shape(), tool({ SIG: null }));
    expect(loads.derive("pointLength")?.inputs[0]?.from).toContain("common practice");
  });
});

describe("what cannot be known has a reason", () => {
  test("no S", () => {
    const loads = loadsOf(shape({ n: null, unknown: { n: "S comes from a variable that only the machine knows" } }));
    expect([loads.n, loads.vc, loads.vf, loads.power]).toEqual([null, null, null, null]);
    expect(loads.unknown.n).toContain("variable");
    expect(loads.unknown.vc).toBe(loads.unknown.n);
  });

  test("no depth", () => {
    const loads = loadsOf(shape({ endZ: null, unknown: { endZ: "Z comes from a probe" } }));
    expect(loads.depthRatio).toBeNull();
    expect(loads.engagement).toBeNull();
    expect(loads.unknown.depthRatio).toBe("Z comes from a probe");
    expect(loads.unknown.engagement).toBe("Z comes from a probe");
  });

  test("no tool", () => {
    const loads = loadsOf(shape({ tool: 99 }));
    expect(loads.tool).toBeNull();
    expect(loads.n).toBe(2000);
    expect(loads.unknown.vc).toContain("T99");
    expect(loads.unknown.torque).toContain("T99");
  });

  test("no stroke in metal", () => {
    const loads = loadsOf(shape({ firstCut: -1 }));
    expect(loads.f).toBeNull();
    expect(loads.unknown.torque).toContain("no stroke of this hole cuts metal");
  });
});

test("a shape is worked out once", () => {
  const inForce = setup();
  const loads = createLoads(execution({ setup: inForce }), inForce);
  const of = shape();
  expect(loads(of)).toBe(loads(of));
});
