import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { materialByName } from "../../../server/setup/build/material.ts";
import { parseHardness, sayHardness } from "../../../server/setup/hardness.ts";
import {
  builtInMaterials,
  designationKey,
  findMaterial,
  nearestMaterial,
} from "../../../server/setup/materials/find.ts";
import { complete, resolve } from "./complete.ts";

describe("the built-in table", () => {
  test("has at least 45 materials with a published pair, each in two systems", () => {
    const published = builtInMaterials.filter((m) => m.kienzle.some((k) => k.line === "victor" || k.line === "koenig"));
    expect(published.length).toBeGreaterThanOrEqual(45);
    for (const material of published) expect(material.designations.length, material.key).toBeGreaterThanOrEqual(1);
  });

  test("names the source of every pair, and marks averages as estimates", () => {
    for (const material of builtInMaterials) {
      for (const pair of material.kienzle) {
        expect(pair.kc11).toBeGreaterThan(200);
        expect(pair.kc11).toBeLessThan(5000);
        expect(pair.mc).toBeGreaterThan(0.1);
        expect(pair.mc).toBeLessThan(0.5);
        if (pair.line === "group-average")
          expect(pair).toMatchObject({
            evidence: "practice",
            source: expect.stringMatching(/^estimate, common practice/),
          });
        else expect(pair.source).toMatch(/^(Kienzle\/Victor|König\/Essel) line, (read in|from memory of) /);
      }
    }
  });

  test("has no key twice", () => {
    const keys = builtInMaterials.map((m) => designationKey(m.key));
    expect(new Set(keys).size).toBe(keys.length);
  });

  // kc1.1; mc as the published lines have them, read or remembered as the row says.
  test.each([
    ["42CrMo4", 2500, 0.26, "victor", "read"],
    ["C45E", 2220, 0.14, "victor", "read-secondary"],
    ["C45E", 1659, 0.21, "koenig", "memory"],
    ["EN-GJL-300", 899, 0.41, "koenig", "memory"],
    ["CuZn40Pb2", 780, 0.18, "victor", "read"],
    ["TiAl6V4", 1370, 0.21, "victor", "memory"],
    ["18CrNi8", 1511, 0.2, "koenig", "memory"],
  ])("%s has %d and %d of line %s, %s", (name, kc11, mc, line, evidence) => {
    expect(findMaterial(name)?.kienzle).toContainEqual(expect.objectContaining({ kc11, mc, line, evidence }));
  });

  test.each([
    ["42CrMo4", "42CrMo4"],
    ["42crmo4", "42CrMo4"],
    ["1.7225", "42CrMo4"],
    ["4140", "42CrMo4"],
    ["AISI 4140", "42CrMo4"],
    ["aisi-4140", "42CrMo4"],
    ["SAE 4140", "42CrMo4"],
    ["UNS G41400", "42CrMo4"],
    ["42 CrMo 4", "42CrMo4"],
    ["42CrMo4+QT", "42CrMo4"],
    ["W.-Nr. 1.7225", "42CrMo4"],
    ["C45E+QT", "C45E+QT"],
    ["C45E+N", "C45E"],
    ["Ck45", "C45E"],
    ["GG 25", "EN-GJL-250"],
    ["GJL-250", "EN-GJL-250"],
    ["EN AW-6061", "EN AW-6061"],
    ["6061", "EN AW-6061"],
    ["AW 6061", "EN AW-6061"],
    ["Ti-6Al-4V", "TiAl6V4"],
    ["alloy 718", "NiCr19Fe19Nb5Mo3"],
    ["316L", "X2CrNiMo17-12-2"],
    ["VDI 3323 group 9", "VDI 9"],
    ["St 37-2", "S235JR"],
  ])("finds %s", (name, key) => {
    expect(findMaterial(name)?.key).toBe(key);
  });

  test.each([["40"], ["9"], ["steel"], [""], ["xyzzy"]])("does not find %s", (name) => {
    expect(findMaterial(name)).toBeNull();
  });

  test("every designation finds its own material, however it is spelt", () => {
    for (const material of builtInMaterials) {
      const found = findMaterial(material.key.toLowerCase().replaceAll("-", " "));
      expect(found?.key).toBe(material.key);
    }
  });

  test("offers the nearest", () => {
    expect(nearestMaterial("42CrMo")).toBe("42CrMo4");
    expect(nearestMaterial("1.4302")).toBe("1.4301");
  });

  test("burning chips are marked", () => {
    const marked = builtInMaterials.filter((m) => m.combustible !== null).map((m) => m.combustible);
    expect(new Set(marked)).toEqual(new Set(["magnesium", "titanium"]));
    expect(findMaterial("AZ91D")?.combustible).toBe("magnesium");
  });
});

describe("a cut note's material", () => {
  const { setup } = resolve({ "swarfline.yaml": complete });
  test("is found by designation, with the note's hardness", () => {
    expect(materialByName("42CRMO4", "HB 290", setup)).toMatchObject({ material: { key: "42CrMo4", hardnessHB: 290 } });
    expect(materialByName("SHOP-CAST", null, setup)).toMatchObject({ material: { key: "shop-cast", hardnessHB: 200 } });
    expect(materialByName("42CRMO", null, setup)).toBe("no material 42CRMO; 42CrMo4?");
    expect(materialByName("42CRMO4", "HB", setup)).toMatch(/^expected a hardness/);
  });
});

describe("hardness", () => {
  test.each([
    ["290 HB", 290],
    ["290HBW", 290],
    ["HRC 32", 302],
    ["40 HRC", 371],
    ["60 HRC", 654],
    ["302 HV", 286],
    ["238 HV", 226],
    ["141 ksi", 285],
    ["972 MPa", 285],
    ["60 ksi", 121],
    ["414 MPa", 121],
    ["285 ksi", 555],
  ])("%s is %d HB", (text, hb) => {
    expect(parseHardness(text)).toMatchObject({ hb });
  });
  test.each([["290"], ["HB"], ["12 HRC"], ["70 HRC"], ["1 HB"], ["5 MPa"], ["30 HRB"], ["soft"]])(
    "%s is refused",
    (text) => {
      expect(parseHardness(text)).toEqual(expect.any(String));
    },
  );
  test("harder stays harder in every scale", () => {
    for (const scale of ["HB", "HRC", "HV", "MPa", "ksi"]) {
      let last = 0;
      for (let n = 1; n < 2000; n++) {
        const parsed = parseHardness(`${n} ${scale}`);
        if (typeof parsed === "string") continue;
        expect(parsed.hb).toBeGreaterThanOrEqual(last);
        last = parsed.hb;
      }
      expect(last).toBeGreaterThan(500);
    }
  });
  test("is said in the other scales", () => {
    expect(sayHardness(286)).toBe("286 HB, about 30 HRC, 302 HV, 976 MPa, 142 ksi (steels)");
    expect(sayHardness(60)).toBe("60 HB");
  });
  test("never throws", () => {
    fc.assert(fc.property(fc.string(), (text) => ["string", "object"].includes(typeof parseHardness(text))));
  });
});
