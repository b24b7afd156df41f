import { describe, expect, it } from "vitest";
import { classify, type EntryClass } from "../../server/mechanics/engagement/classify.ts";
import { type DrillFront, drillFront } from "../../server/mechanics/engagement/drill.ts";
import { engage } from "../../server/mechanics/engagement/engage.ts";
import { below, type Solid } from "../../server/mechanics/engagement/solids.ts";
import {
  entrySurface,
  type SurfaceForm,
  withCrossHole,
  withPilot,
} from "../../server/mechanics/engagement/surfaces.ts";

const practice = "common practice, no source";
const cone = (DC: number, SIG: number): DrillFront => drillFront("two-lip", DC, SIG);
const flat = (DC: number): DrillFront => drillFront("two-insert", DC, 180);
const form = (shape: SurfaceForm): Solid => entrySurface(shape, 20);

const families = {
  "two-insert": flat(20),
  "solid carbide": cone(20, 140),
  "HSS twist": cone(20, 118),
  spade: cone(20, 130),
} as const;
type Family = keyof typeof families;

/** Class of each family to 3xD, as the table of cases gives it. Where it allows two, both stand. */
const cases: readonly {
  readonly name: string;
  readonly solid: Solid;
  readonly is: Partial<Record<Family, readonly EntryClass[]>>;
}[] = [
  {
    name: "flat",
    solid: form({ kind: "flat" }),
    is: { "two-insert": ["none"], "solid carbide": ["none"], "HSS twist": ["none"], spade: ["none"] },
  },
  {
    name: "flat with a concentric pilot",
    solid: withPilot(below(0), 8),
    is: { "two-insert": ["none"], "solid carbide": ["none"], "HSS twist": ["none"], spade: ["none"] },
  },
  {
    name: "edge, 30 % of the area",
    solid: form({ kind: "edge-area", areaShare: 0.3 }),
    is: { "two-insert": ["extreme"], "solid carbide": ["extreme"], "HSS twist": ["extreme"], spade: ["extreme"] },
  },
  {
    name: "edge, 50 % of the area",
    solid: form({ kind: "edge-area", areaShare: 0.5 }),
    is: {
      "two-insert": ["heavy", "extreme"],
      "solid carbide": ["extreme"],
      "HSS twist": ["extreme"],
      spade: ["extreme"],
    },
  },
  {
    name: "chain at 0.75 D, first side",
    solid: form({ kind: "chain", pitchMm: 15, sides: 1 }),
    is: { "two-insert": ["heavy"], "solid carbide": ["medium"], "HSS twist": ["medium"], spade: ["medium"] },
  },
  {
    name: "web between two holes at 0.75 D",
    solid: form({ kind: "chain", pitchMm: 15, sides: 2 }),
    is: { "two-insert": ["heavy"], "solid carbide": ["medium"], "HSS twist": ["medium"], spade: ["medium"] },
  },
  {
    name: "ridge, 30 degree flanks, centred",
    solid: form({ kind: "ridge", flankDeg: 30, offsetMm: 0 }),
    is: { "two-insert": ["heavy"], "solid carbide": ["heavy"], "HSS twist": ["heavy"] },
  },
  {
    name: "incline 30 degrees",
    solid: form({ kind: "incline", angleDeg: 30 }),
    is: { "two-insert": ["heavy"], "solid carbide": ["extreme"], "HSS twist": ["extreme"] },
  },
  {
    name: "cross hole 0.15 D",
    solid: withCrossHole(below(0), 3, 30),
    is: { "two-insert": ["light"], "solid carbide": ["light"], "HSS twist": ["light"], spade: ["light"] },
  },
  {
    name: "cross hole 0.25 D",
    solid: withCrossHole(below(0), 5, 30),
    is: { "two-insert": ["medium"], "solid carbide": ["light"], "HSS twist": ["light"], spade: ["light"] },
  },
  {
    name: "cross hole 0.5 D",
    solid: withCrossHole(below(0), 10, 30),
    is: { "two-insert": ["heavy"], "solid carbide": ["medium"], "HSS twist": ["medium"], spade: ["medium"] },
  },
];

describe(`what the cases come to, to 3xD (${practice})`, () => {
  const rows = cases.flatMap((c) =>
    Object.entries(c.is).map(([family, is]) => [c.name, family as Family, is, c.solid] as const),
  );
  it.each(rows)("%s, %s: %j", (_name, family, is, solid) => {
    const front = families[family];
    const found = classify(front.kind, engage(solid, front, -60), { DC: 20, depthRatio: 3 });
    expect(is).toContain(found.class);
  });
});
