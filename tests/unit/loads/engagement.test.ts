import { describe, expect, test } from "vitest";
import type { EntryForm } from "../../../grammar/entry.ts";
import { createLoads } from "../../../server/loads/loads.ts";
import type { HoleLoads } from "../../../server/loads/types.ts";
import type { ResolvedSetup, Tool, WorkMaterial } from "../../../server/setup/types.ts";
import { C45E, execution, material, PRACTICE, type ShapeCase, setup, shape, tool } from "./fixtures.ts";

const DRILLS = {
  indexable: tool({ windows: window(0.1) }),
  "solid-carbide": tool({ family: "solid-carbide", DC: 12, SIG: 140, LU: 60, edge: null, windows: window(0.2) }),
  "twist-hss": tool({ family: "twist-hss", DC: 20, SIG: 118, LU: 120, edge: null, windows: window(0.3) }),
  spade: tool({ family: "spade", DC: 40, SIG: 130, LU: 160, edge: null, windows: window(0.3) }),
} as const satisfies Record<string, Tool>;
type Family = keyof typeof DRILLS;

function window(f: number): Tool["windows"] {
  return [{ group: "P", material: null, vc: null, f: [f * 0.6, f, f * 1.4] }];
}

function loadsOf(t: Tool, of: ShapeCase, m: WorkMaterial = C45E, over: Partial<ResolvedSetup> = {}): HoleLoads {
  const inForce = { ...setup({ tools: [t], material: m }), ...over };
  return createLoads(execution({ setup: inForce }), inForce)(shape({ endZ: -2.5 * t.DC, ...of }));
}

const entryOf = (t: Tool, form: EntryForm, over: ShapeCase = {}) => {
  const { engagement } = loadsOf(t, { form, ...over });
  if (engagement === null) throw new Error("no engagement");
  return engagement;
};

const FORMS: { readonly [name: string]: (D: number) => EntryForm } = {
  "edge, 30 % of the area": () => ({ kind: "edge-area", areaShare: 0.3 }),
  "edge, 50 % of the area": () => ({ kind: "edge-area", areaShare: 0.5 }),
  "chain at 0.75 D": (D) => ({ kind: "chain", pitchMm: 0.75 * D, sides: 1 }),
  "web at 0.75 D": (D) => ({ kind: "chain", pitchMm: 0.75 * D, sides: 2 }),
  "ridge, 30 degree flanks": () => ({ kind: "ridge", flankDeg: 30, offsetMm: 0 }),
  "incline 30 degrees": () => ({ kind: "incline", angleDeg: 30 }),
};

// What the cases come to: common practice, no source.
type Case = readonly [form: string, family: Family, class_: string, share: number | null, forbidden: string];
const CASES: readonly Case[] = [
  ["edge, 30 % of the area", "indexable", "extreme", 0.5, "warning"],
  ["edge, 30 % of the area", "solid-carbide", "extreme", null, "error"],
  ["edge, 30 % of the area", "twist-hss", "extreme", null, "error"],
  ["edge, 30 % of the area", "spade", "extreme", null, "error"],
  ["edge, 50 % of the area", "indexable", "heavy", 0.5, "no"],
  ["edge, 50 % of the area", "solid-carbide", "extreme", null, "error"],
  ["edge, 50 % of the area", "twist-hss", "extreme", null, "error"],
  ["edge, 50 % of the area", "spade", "extreme", null, "error"],
  ["chain at 0.75 D", "indexable", "heavy", 0.5, "no"],
  ["chain at 0.75 D", "solid-carbide", "medium", 0.5, "no"],
  ["chain at 0.75 D", "twist-hss", "medium", 0.7, "no"],
  ["chain at 0.75 D", "spade", "medium", 0.6, "no"],
  ["web at 0.75 D", "indexable", "heavy", 0.5, "no"],
  ["web at 0.75 D", "solid-carbide", "medium", 0.5, "no"],
  ["web at 0.75 D", "twist-hss", "medium", 0.7, "no"],
  ["web at 0.75 D", "spade", "medium", 0.6, "no"],
  ["ridge, 30 degree flanks", "indexable", "heavy", 0.5, "no"],
  ["ridge, 30 degree flanks", "solid-carbide", "heavy", null, "warning"],
  ["ridge, 30 degree flanks", "twist-hss", "heavy", 0.5, "no"],
  ["ridge, 30 degree flanks", "spade", "heavy", null, "warning"],
  ["incline 30 degrees", "indexable", "heavy", 0.5, "no"],
  ["incline 30 degrees", "solid-carbide", "extreme", null, "error"],
  ["incline 30 degrees", "twist-hss", "extreme", null, "error"],
  ["incline 30 degrees", "spade", "extreme", null, "error"],
];

describe("cases of shop practice", () => {
  test.each(CASES)("%s, %s", (name, family, class_, share, forbidden) => {
    const drill = DRILLS[family];
    const form = FORMS[name];
    if (form === undefined) throw new Error(`no form ${name}`);
    const found = entryOf(drill, form(drill.DC));
    expect(found.class).toBe(class_);
    expect(found.share).toBe(share);
    expect(found.forbidden).toBe(forbidden);
    const nominal = drill.windows[0]?.f?.[1] ?? 0;
    if (share === null) expect(found.allowedFeed).toBeNull();
    else expect(found.allowedFeed).toBeCloseTo(share * nominal, 12);
    if (forbidden !== "no" || found.class === "heavy") expect(found.advice).not.toBe("");
  });

  test("short two-insert drills run at half the nominal feed in every hard case", () => {
    for (const form of Object.values(FORMS))
      expect(entryOf(DRILLS.indexable, form(25)).allowedFeed).toBeCloseTo(0.05, 12);
  });
});

test("the worst of a ridge is not the first hair of its crest", () => {
  const { worst, firstContactZ, fullZ } = entryOf(DRILLS.indexable, { kind: "ridge", flankDeg: 30, offsetMm: 0 });
  expect(worst.area).toBeGreaterThan(0.1);
  expect(worst.z).toBeLessThan(firstContactZ - 0.1);
  expect(worst.z).toBeGreaterThan(fullZ);
});

describe("the feed allowed", () => {
  const incline: EntryForm = { kind: "incline", angleDeg: 30 };

  test("does not depend on the programmed feed", () => {
    const at = (f: number) => entryOf(DRILLS.indexable, incline, { f }).allowedFeed;
    expect(at(0.02)).toBe(at(0.2));
  });

  test.each([
    { name: "two-insert", t: { ...DRILLS.indexable, windows: window(0.06) }, floor: 0.04 },
    { name: "two-insert, tool's own", t: tool({ windows: window(0.06), entry: { fMin: 0.035 } }), floor: 0.035 },
  ])("never falls below the floor: $name", ({ t, floor }) => {
    const found = entryOf(t, incline);
    expect(found.allowedFeed).toBeCloseTo(floor, 12);
    expect(found.allowedWhy).toContain("no feed fits: change drill, edge or entry");
  });

  test.each([
    { family: "indexable", group: "M", floor: 0.05 },
    { family: "indexable", group: "S", floor: 0.05 },
    { family: "solid-carbide", group: "P", floor: 0.036 },
    { family: "twist-hss", group: "P", floor: 0.08 },
  ] as const)("floor of $family in group $group", ({ family, group, floor }) => {
    const drill = DRILLS[family];
    const thin = { ...drill, windows: [{ group, material: null, vc: null, f: [0.001, 0.002, 0.003] as const }] };
    const chain: EntryForm = { kind: "chain", pitchMm: 0.75 * drill.DC, sides: 1 };
    const { engagement } = loadsOf(thin, { form: chain }, material({ group }));
    expect(engagement?.allowedFeed).toBeCloseTo(floor, 12);
  });

  test("no window: cannot check, and why", () => {
    const loads = loadsOf({ ...DRILLS.indexable, windows: [] }, { form: incline });
    expect(loads.engagement?.allowedFeed).toBeNull();
    expect(loads.engagement?.allowedWhy).toMatch(/^cannot check, because no .*window is declared for T7$/);
    expect(loads.unknown["engagement.allowedFeed"]).toBe(loads.engagement?.allowedWhy);
  });

  test("window for another group: cannot check, and for what", () => {
    const loads = loadsOf(
      { ...DRILLS.indexable, windows: [{ ...window(0.1)[0], group: "N" } as Tool["windows"][0]] },
      { form: incline },
    );
    expect(loads.engagement?.allowedWhy).toContain("C45E (group P) is declared for T7");
  });

  test("light costs nothing in steel and a fifth in stainless", () => {
    const light: EntryForm = { kind: "incline", angleDeg: 1 };
    const drill = tool({ windows: [{ group: null, material: "C45E", vc: null, f: [0.05, 0.1, 0.15] }] });
    expect(loadsOf(drill, { form: light }).engagement).toMatchObject({ class: "light", share: 1 });
    expect(loadsOf(drill, { form: light }, material({ group: "M" })).engagement).toMatchObject({
      class: "light",
      share: 0.8,
    });
  });

  test("the shop's own table goes before common practice", () => {
    const share = { ...PRACTICE.share, heavy: { ...PRACTICE.share.heavy, indexable: 0.4 } };
    const origin = { kind: "file", file: "swarfline.yaml", line: 3, column: 4, text: "swarfline.yaml line 4" } as const;
    const loads = loadsOf(DRILLS.indexable, { form: incline }, C45E, {
      practice: { share },
      origins: new Map([["practice.heavy.indexable", origin]]),
    });
    expect(loads.engagement?.allowedFeed).toBeCloseTo(0.04, 12);
    const inputs = loads.derive("allowedFeed")?.inputs ?? [];
    expect(inputs.find((i) => i.symbol === "share")?.from).toBe("swarfline.yaml line 4");
  });
});

describe("the tool's own data wins", () => {
  const incline = (angleDeg: number): EntryForm => ({ kind: "incline", angleDeg });

  test("steeper than it may: error, with both angles", () => {
    const found = entryOf(tool({ entry: { maxIncline: 20 } }), incline(25));
    expect(found.forbidden).toBe("error");
    expect(found.allowedWhy).toContain("20°");
    expect(found.allowedWhy).toContain("25°");
  });

  test("up to its limit a solid carbide drill may, at the declared share", () => {
    const drill = {
      ...DRILLS["solid-carbide"],
      entry: { ...DRILLS["solid-carbide"].entry, maxIncline: 30, extreme: 0.3 },
    };
    expect(entryOf(drill, incline(30))).toMatchObject({
      forbidden: "no",
      share: 0.3,
      allowedFeed: expect.closeTo(0.06, 9),
    });
  });

  test("up to its limit without a share: 0.35", () => {
    const drill = { ...DRILLS["solid-carbide"], entry: { ...DRILLS["solid-carbide"].entry, maxIncline: 30 } };
    expect(entryOf(drill, incline(30))).toMatchObject({ forbidden: "no", share: 0.35 });
  });

  test("a share declared for heavy makes a ridge possible", () => {
    const drill = { ...DRILLS["solid-carbide"], entry: { ...DRILLS["solid-carbide"].entry, heavy: 0.35 } };
    expect(entryOf(drill, { kind: "ridge", flankDeg: 30, offsetMm: 0 })).toMatchObject({
      forbidden: "no",
      share: 0.35,
    });
  });

  test("HSS guided by a bush declares a share for extreme", () => {
    const drill = { ...DRILLS["twist-hss"], entry: { ...DRILLS["twist-hss"].entry, extreme: 0.5 } };
    expect(entryOf(drill, { kind: "edge-area", areaShare: 0.5 })).toMatchObject({ forbidden: "no", share: 0.5 });
  });
});

describe("long two-insert bodies", () => {
  const half: EntryForm = { kind: "edge-area", areaShare: 0.5 };

  test("longer than 3xD without a declared share: error", () => {
    const found = entryOf(tool({ LU: 125 }), half);
    expect(found).toMatchObject({ class: "extreme", share: null, allowedFeed: null, forbidden: "error" });
    expect(found.allowedWhy).toContain("5.0xD");
  });

  test("with a declared share", () => {
    expect(entryOf(tool({ LU: 125, entry: { extreme: 0.35 } }), half)).toMatchObject({ share: 0.35, forbidden: "no" });
  });

  test("3xD and a little for the point is still short", () => {
    expect(entryOf(tool({ LU: 76 }), half).class).toBe("heavy");
  });

  test("a ridge more than 0.1 D beside the axis warns, whatever share the tool declares", () => {
    const declared = tool();
    const own = { ...declared, entry: { ...declared.entry, heavy: 0.5 } };
    for (const drill of [declared, own]) {
      const at = (offsetMm: number) => entryOf(drill, { kind: "ridge", flankDeg: 30, offsetMm }).forbidden;
      expect([at(0.099 * drill.DC), at(0.101 * drill.DC), at(5)]).toEqual(["no", "warning", "warning"]);
    }
  });
});

describe("heights in the work system", () => {
  test("an incline with a flat front: contact and full engagement D·tan θ apart, around the surface at the axis", () => {
    const found = entryOf(tool(), { kind: "incline", angleDeg: 30 }, { surfaceZ: 10 });
    const rise = 12.5 * Math.tan(Math.PI / 6);
    expect(found.firstContactZ).toBeCloseTo(10 + rise, 2);
    expect(found.fullZ).toBeCloseTo(10 - rise, 2);
    expect(found.zones).toHaveLength(1);
    // The reduced zone has 1 mm on both sides.
    expect(found.zones[0]?.fromZ).toBeCloseTo(11 + rise, 2);
    expect(found.zones[0]?.toZ).toBeCloseTo(9 - rise, 2);
    expect(found.at(10).rim).toBeCloseTo(0.5, 3);
  });

  test("cast iron has 2 mm", () => {
    const loads = loadsOf(tool(), { form: { kind: "incline", angleDeg: 30 } }, material({ group: "K" }));
    expect(loads.engagement?.zones[0]?.fromZ).toBeCloseTo(2 + 12.5 * Math.tan(Math.PI / 6), 2);
  });

  test("an edge runs to the bottom", () => {
    const found = entryOf(tool(), { kind: "edge-area", areaShare: 0.5 });
    expect(found.zones[0]?.toZ).toBe(-62.5);
    expect(found.fullZ).toBe(-62.5);
  });

  test("skin: reduced until the corner is 2 mm below", () => {
    const drill = DRILLS["solid-carbide"];
    const found = entryOf(drill, { kind: "skin" });
    expect(found).toMatchObject({ class: "none", skin: true, share: 0.8 });
    expect(found.zones[0]?.fromZ).toBe(2);
    expect(found.zones[0]?.toZ).toBeCloseTo(-2 - 6 / Math.tan((70 * Math.PI) / 180), 9);
  });
});

describe("a flat entry", () => {
  test("asks nothing", () => {
    const loads = loadsOf(DRILLS["solid-carbide"], {});
    expect(loads.engagement).toMatchObject({
      source: "flat",
      class: "none",
      allowedFeed: null,
      forbidden: "no",
      zones: [],
    });
    expect(loads.unknown).not.toHaveProperty("engagement.allowedFeed");
    expect(loads.engagement?.worst).toMatchObject({ area: expect.closeTo(1, 6), rim: 1, entries: 0 });
  });

  test("a concentric pilot is no interruption", () => {
    const loads = loadsOf(DRILLS["solid-carbide"], { bored: [{ diameter: 5, toZ: -40, tool: 1 }] });
    expect(loads.engagement?.class).toBe("none");
    expect(loads.engagement?.at(-20).area).toBeCloseTo(1 - 25 / 144, 6);
    expect(loads.peakTorque).toEqual(loads.torque);
  });
});

describe("mean and peak load", () => {
  test("half the area in metal: half the mean, 1.3 times the full torque at the peak", () => {
    const full = loadsOf(tool(), {});
    const half = loadsOf(tool(), { form: { kind: "edge-area", areaShare: 0.5 } });
    expect(half.torque?.nominal).toBeCloseTo((full.torque?.nominal ?? 0) / 2, 3);
    expect(half.peakTorque?.nominal).toBeCloseTo((full.torque?.nominal ?? 0) * 1.3, 3);
    expect(half.peakTorque?.high).toBeCloseTo((full.torque?.high ?? 0) * 1.5, 3);
  });

  test("an entry that ends in full metal has the full mean", () => {
    const full = loadsOf(tool(), {});
    const incline = loadsOf(tool(), { form: { kind: "incline", angleDeg: 30 } });
    expect(incline.torque?.nominal).toBeCloseTo(full.torque?.nominal ?? 0, 9);
    expect(incline.peakTorque?.nominal).toBeCloseTo((full.torque?.nominal ?? 0) * 1.3, 9);
  });
});

describe("walk", () => {
  // s = 1 at half engagement: S = kc · f · R / π; steel body, k 0.3 (common practice).
  test("of a two-insert drill in a half cut", () => {
    const loads = loadsOf(tool(), { form: { kind: "edge-area", areaShare: 0.5 } });
    const side = (2220 * 0.1 ** -0.14 * 0.1 * 12.5) / Math.PI;
    const walk = (side * 75 ** 3) / (3 * 210_000 * 0.3 * Math.PI * (25 ** 4 / 64));
    expect(loads.walk).toBeCloseTo(walk, 4);
  });

  test("none where both sides balance or nothing is interrupted", () => {
    expect(loadsOf(tool(), { form: { kind: "chain", pitchMm: 18.75, sides: 2 } }).walk).toBeCloseTo(0, 6);
    expect(loadsOf(tool(), {}).walk).toBeNull();
  });
});

describe("deep holes share one curve", () => {
  test.each(Object.entries(FORMS))("%s: class, share and first heights do not hang on the depth", (_, form) => {
    const at = (depth: number) => entryOf(tool({ LU: 75 }), form(25), { endZ: -depth });
    const short = at(72);
    const long = at(74.5);
    expect(long.class).toBe(short.class);
    expect(long.firstContactZ).toBe(short.firstContactZ);
    expect(long.worst).toEqual(short.worst);
    expect(long.samples.at(-1)?.z).toBeCloseTo(-74.5, 9);
    const zone = long.zones.at(-1);
    if (long.fullZ === -74.5) expect(zone?.toZ).toBe(-74.5);
    else expect(zone?.toZ).toBeCloseTo(long.fullZ - 1, 2);
  });
});

describe("forms that mean nothing have a reason", () => {
  test.each([
    { form: { kind: "cylinder", diameterMm: 20, shape: "concave", offsetMm: 0 } },
    { form: { kind: "incline", angleDeg: 90 } },
    { form: { kind: "edge-area", areaShare: 1.5 } },
    { form: { kind: "chain", pitchMm: -3, sides: 1 } },
    { form: { kind: "edge-axis", insideMm: -30 } },
  ] as const)("$form", ({ form }) => {
    const loads = loadsOf(tool(), { form });
    expect(loads.engagement).toBeNull();
    expect(loads.unknown.engagement).toBeTruthy();
  });
});
