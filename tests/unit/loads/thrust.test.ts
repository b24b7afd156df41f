import { describe, expect, test } from "vitest";
import { createLoads } from "../../../server/loads/loads.ts";
import type { HoleShape } from "../../../server/program/types.ts";
import type { Tool, WorkMaterial } from "../../../server/setup/types.ts";
import { C45E, execution, material, setup, shape, tool } from "./fixtures.ts";

function thrustOf(of: HoleShape, t: Tool, m: WorkMaterial = C45E) {
  const inForce = setup({ tools: [t], material: m });
  const loads = createLoads(execution({ setup: inForce }), inForce)(of);
  return { band: loads.thrust, derivation: loads.derive("thrust") };
}

const HSS = tool({ family: "twist-hss", DC: 22, SIG: 118, edge: null });

describe("thrust", () => {
  // SI set, 22 mm, 0.20 mm/rev, steel 200 HB: 10 090 N at W 1.30 with table values (J rounded up), derived on read tables.
  test("HSS by the handbook", () => {
    expect(thrustOf(shape({ f: 0.2 }), HSS).band?.nominal).toBeGreaterThan(10_090 * 0.98);
    expect(thrustOf(shape({ f: 0.2 }), HSS).band?.nominal).toBeLessThan(10_090 * 1.03);
  });

  // T = 0.55 · kc(0.1) · 0.1 · R · (f/0.1)^0.6: common practice, no source. kc(0.1) of C45E is 3064.
  test("two-insert drill by its own rule, at f = 0.1", () => {
    const { band } = thrustOf(shape({ f: 0.1 }), tool({ DC: 25 }));
    expect(band?.nominal).toBeCloseTo(0.55 * 306.4 * 12.5 * 1.3, -1);
    expect(band?.low).toBeLessThanOrEqual(0.4 * 306.5 * 12.5);
    expect(band?.high).toBeGreaterThanOrEqual(0.7 * 306.4 * 12.5 * 1.8 - 1);
  });

  test("a two-insert drill needs less than an HSS drill of the same size and feed", () => {
    const insert = thrustOf(shape({ f: 0.1 }), tool({ DC: 22 })).band?.nominal ?? 0;
    const hss = thrustOf(shape({ f: 0.1 }), HSS).band?.nominal ?? 1;
    expect(insert / hss).toBeLessThan(0.7);
  });

  test("a core takes the chisel edge", () => {
    const solid = thrustOf(shape(), HSS).band?.nominal ?? 1;
    const cored = thrustOf(shape({ bored: [{ diameter: 6, toZ: -60, tool: 1 }] }), HSS);
    expect((cored.band?.nominal ?? 0) / solid).toBeLessThan(0.45);
    expect(cored.derivation?.formula).toBe("handbook-thrust-core");
  });

  test("a core thinner than the chisel edge spares nothing", () => {
    const solid = thrustOf(shape(), HSS).band;
    expect(thrustOf(shape({ bored: [{ diameter: 3, toZ: -60, tool: 1 }] }), HSS).band).toEqual(solid);
  });

  test("solid carbide says that the form was made for HSS", () => {
    const { derivation } = thrustOf(shape(), tool({ family: "solid-carbide", DC: 12, SIG: 140, edge: null }));
    expect(derivation?.notes.join()).toContain("HSS");
  });

  test("gun drills by the lips alone", () => {
    const { derivation, band } = thrustOf(shape(), tool({ family: "gun", DC: 12, SIG: null, edge: null }));
    expect(derivation?.formula).toBe("lip-thrust");
    expect(band?.nominal).toBeGreaterThan(0);
  });

  test("stainless has a Kd of its own for thrust", () => {
    const stainless = material({ group: "M", handbookKind: "austenitic-stainless" });
    const ratio = (thrustOf(shape(), HSS, stainless).band?.nominal ?? 0) / (thrustOf(shape(), HSS).band?.nominal ?? 1);
    expect(ratio).toBeCloseTo(35 / 24, 9);
  });

  test("band is at least as wide as the methods lie apart", () => {
    const { band } = thrustOf(shape(), HSS);
    expect((band?.low ?? 0) / (band?.nominal ?? 1)).toBeLessThanOrEqual(0.5);
    expect((band?.high ?? 0) / (band?.nominal ?? 1)).toBeGreaterThanOrEqual(1.6);
  });
});
