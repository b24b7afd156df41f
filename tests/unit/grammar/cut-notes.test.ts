import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCutNote, readEntry, writeEntry } from "../../../grammar/cut-notes.ts";
import type { EntryForm } from "../../../grammar/entry.ts";
import { show } from "./show.ts";

describe("entry forms", () => {
  test.each<[string, EntryForm]>([
    ["FLAT", { kind: "flat" }],
    ["SKIN", { kind: "skin" }],
    ["INCLINE 30 DEG", { kind: "incline", angleDeg: 30 }],
    ["incline 12.5deg", { kind: "incline", angleDeg: 12.5 }],
    ["  INCLINE   30. ", { kind: "incline", angleDeg: 30 }],
    ["EDGE AREA 30 PCT", { kind: "edge-area", areaShare: 0.3 }],
    ["EDGE AREA 30PCT", { kind: "edge-area", areaShare: 0.3 }],
    ["EDGE AXIS IN 3.5", { kind: "edge-axis", insideMm: 3.5 }],
    ["EDGE AXIS OUT 4.", { kind: "edge-axis", insideMm: -4 }],
    ["RIDGE FLANK 30 DEG OFFSET 2.", { kind: "ridge", flankDeg: 30, offsetMm: 2 }],
    ["RIDGE FLANK 30 DEG", { kind: "ridge", flankDeg: 30, offsetMm: 0 }],
    ["RIDGE FLANK 30 DEG OFFSET -2.", { kind: "ridge", flankDeg: 30, offsetMm: 2 }],
    ["CYLINDER D120 CONVEX", { kind: "cylinder", diameterMm: 120, shape: "convex", offsetMm: 0 }],
    ["CYLINDER D 120. CONCAVE OFFSET 4.", { kind: "cylinder", diameterMm: 120, shape: "concave", offsetMm: 4 }],
    ["CHAIN PITCH 15.", { kind: "chain", pitchMm: 15, sides: 1 }],
    ["WEB PITCH 15.", { kind: "chain", pitchMm: 15, sides: 2 }],
  ])("%s", (text, form) => {
    expect(readEntry(text, 1)).toEqual(form);
  });

  test("lengths are in the unit of the text, angles and shares are not", () => {
    expect(readEntry("EDGE AXIS IN .5", 25.4)).toEqual({ kind: "edge-axis", insideMm: 12.7 });
    expect(readEntry("CYLINDER D2 CONVEX OFFSET .25", 25.4)).toMatchObject({ diameterMm: 50.8, offsetMm: 6.35 });
    expect(readEntry("CHAIN PITCH 1.", 25.4)).toMatchObject({ pitchMm: 25.4 });
    expect(readEntry("INCLINE 30 DEG", 25.4)).toEqual({ kind: "incline", angleDeg: 30 });
    expect(readEntry("EDGE AREA 30 PCT", 25.4)).toEqual({ kind: "edge-area", areaShare: 0.3 });
  });

  test.each([
    ["", "nothing is no entry form; expected INCLINE 30 DEG"],
    ["SLOPE 30", "SLOPE is no entry form; expected INCLINE 30 DEG"],
    ["INCLINE", "expected INCLINE 30 DEG"],
    ["INCLINE 90 DEG", "over 0 and under 90"],
    ["INCLINE 0 DEG", "over 0 and under 90"],
    ["INCLINE -5 DEG", "over 0 and under 90"],
    ["INCLINE 30 PCT", "PCT is too much after INCLINE"],
    ["EDGE 30", "EDGE needs AREA or AXIS"],
    ["EDGE AREA 100 PCT", "under 100 PCT"],
    ["EDGE AREA 0.3", "30 PCT or 0.3 PCT"],
    ["EDGE AXIS 3", "needs IN or OUT"],
    ["EDGE AXIS IN -3", "without a sign"],
    ["RIDGE 30", "RIDGE needs FLANK"],
    ["RIDGE FLANK 30 DEG OFFSET", "OFFSET needs a length"],
    ["CYLINDER 120 CONVEX", "CYLINDER needs D"],
    ["CYLINDER D0 CONVEX", "over 0"],
    ["CYLINDER D120", "CONVEX or CONCAVE"],
    ["CYLINDER D120 CONVEX OFFSET", "OFFSET needs a length"],
    ["CHAIN 15", "CHAIN needs PITCH"],
    ["WEB PITCH 0", "over 0"],
    ["SKIN 5", "5 is too much after SKIN"],
  ])("%j is refused with what is expected", (text, part) => {
    expect(readEntry(text, 1)).toEqual(expect.stringContaining(part));
  });

  const rounded = (max: number) => fc.integer({ min: 1, max: max * 100 - 1 }).map((n) => n / 100);
  const anyForm: fc.Arbitrary<EntryForm> = fc.oneof(
    fc.constantFrom<EntryForm>({ kind: "flat" }, { kind: "skin" }),
    rounded(90).map((angleDeg): EntryForm => ({ kind: "incline", angleDeg })),
    fc.integer({ min: 1, max: 99 }).map((n): EntryForm => ({ kind: "edge-area", areaShare: n / 100 })),
    fc.integer({ min: -5000, max: 5000 }).map((n): EntryForm => ({ kind: "edge-axis", insideMm: n / 100 })),
    fc
      .tuple(rounded(90), rounded(20))
      .map(([flankDeg, offsetMm]): EntryForm => ({ kind: "ridge", flankDeg, offsetMm })),
    fc
      .tuple(rounded(300), rounded(20), fc.constantFrom<"convex" | "concave">("convex", "concave"))
      .map(([diameterMm, offsetMm, shape]): EntryForm => ({ kind: "cylinder", diameterMm, shape, offsetMm })),
    fc
      .tuple(rounded(50), fc.constantFrom<1 | 2>(1, 2))
      .map(([pitchMm, sides]): EntryForm => ({ kind: "chain", pitchMm, sides })),
  );

  test("what is written is read back, in mm and in inch", () => {
    fc.assert(
      fc.property(anyForm, fc.constantFrom(1, 25.4), (form, mmPerUnit) => {
        const back = readEntry(writeEntry(form, mmPerUnit), mmPerUnit);
        expect(typeof back).toBe("object");
        const entries = Object.entries(form);
        for (const [key, value] of entries) {
          const got = (back as Record<string, unknown>)[key];
          // Four decimals of an inch are 0.0013 mm.
          if (typeof value === "number") expect(got).toBeCloseTo(value, 2);
          else expect(got).toBe(value);
        }
        expect(Object.keys(back).sort()).toEqual(entries.map(([key]) => key).sort());
      }),
    );
  });

  test("never throws and answers with one sentence or a form", () => {
    const words = fc.constantFrom(
      "INCLINE",
      "EDGE",
      "AREA",
      "AXIS",
      "IN",
      "OUT",
      "RIDGE",
      "FLANK",
      "OFFSET",
      "CYLINDER",
      "D",
      "D120",
      "CONVEX",
      "30",
      "-2.",
      "DEG",
      "PCT",
      ".",
      "é",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(words).map((w) => w.join(" ")),
        ),
        (text) => {
          const read = readEntry(text, 1);
          if (typeof read === "string") expect(read).not.toMatch(/undefined|NaN|\.$/);
          else for (const v of Object.values(read)) if (typeof v === "number") expect(Number.isFinite(v)).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("cut notes", () => {
  test.each<[string, unknown]>([
    ["CUT ENTRY INCLINE 30 DEG", { kind: "entry", form: { kind: "incline", angleDeg: 30 } }],
    [" cut  exit  incline 15 deg ", { kind: "exit", form: { kind: "incline", angleDeg: 15 } }],
    ["CUT MATERIAL 42CRMO4 HB 290", { kind: "material", name: "42CRMO4", hardness: "290 HB" }],
    ["CUT MATERIAL 42CRMO4 290 HB", { kind: "material", name: "42CRMO4", hardness: "290 HB" }],
    ["CUT MATERIAL AISI 4140 HRC 28", { kind: "material", name: "AISI 4140", hardness: "28 HRC" }],
    ["CUT MATERIAL S275JR", { kind: "material", name: "S275JR", hardness: null }],
    ["CUT MATERIAL X MPA 900", { kind: "material", name: "X", hardness: "900 MPa" }],
    [
      "CUT ALLOW power UP TO 12.5 kW BY AB BECAUSE short cut, tried by hand",
      { kind: "allow", check: "power", upTo: "12.5 kW", by: "AB", because: "short cut, tried by hand" },
    ],
  ])("%s", (comment, note) => {
    expect(readCutNote(comment, 1)).toEqual(note);
  });

  test.each(["", "CENTRE DRILL", "CUTTER 5", "CUT=42 PCT", "CUT = 42", "CUT-OFF TOOL", "UNDERCUT", "NO CUT HERE"])(
    "%j is no cut note",
    (comment) => {
      expect(readCutNote(comment, 1)).toBeNull();
    },
  );

  test.each([
    ["CUT", "CUT alone"],
    ["CUT POCKET", "not CUT POCKET"],
    ["CUT ENTRY", "no entry form"],
    ["CUT ENTRY INCLINE", "INCLINE 30 DEG"],
    ["CUT MATERIAL", "needs a name"],
    ["CUT MATERIAL HB 290 X Y", "needs a name"],
    ["CUT MATERIAL X HB", "hardness with its scale"],
    ["CUT ALLOW power UP TO 12", "initials and a reason"],
    ["CUT ALLOW UP TO 12 BY AB BECAUSE x", "needs a check"],
  ])("%j is refused", (comment, part) => {
    expect(readCutNote(comment, 1)).toEqual({ problem: expect.stringContaining(part) });
  });

  test("an unreadable note is a problem at its comment, a readable one is not", () => {
    expect(show("G1 (CUT ENTRY SLOPE 5) X1")).toEqual({
      items: ["G=1", "(CUT ENTRY SLOPE 5)", "X=1"],
      problems: ["cut-note«(CUT ENTRY SLOPE 5)»"],
    });
    expect(show("(CUT ENTRY INCLINE 30 DEG)").problems).toEqual([]);
    expect(show("(CUT=42)").problems).toEqual([]);
  });
});
