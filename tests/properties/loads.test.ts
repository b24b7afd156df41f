/** What must hold for the loads of any hole, sane or absurd. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EntryForm } from "../../grammar/entry.ts";
import { createLoads } from "../../server/loads/loads.ts";
import type { Derivation, HoleLoads } from "../../server/loads/types.ts";
import type { HoleShape } from "../../server/program/types.ts";
import type { DrillFamily, IsoGroup, KienzleValues, Machine, Tool, WorkMaterial } from "../../server/setup/types.ts";
import { execution, machine, material, SPINDLE, setup, shape, state, tool } from "../unit/loads/fixtures.ts";

const FAMILIES: readonly DrillFamily[] = [
  "twist-hss",
  "solid-carbide",
  "indexable",
  "spade",
  "gun",
  "spot",
  "ream",
  "tap",
  "countersink",
  "bore",
];
const GROUPS: readonly IsoGroup[] = ["P", "M", "K", "N", "S", "H"];
const WHAT = [
  "vc",
  "n",
  "f",
  "vf",
  "mrr",
  "pointLength",
  "torque",
  "power",
  "thrust",
  "limits",
  "allowedFeed",
] as const;

interface Scene {
  readonly tool: Tool;
  readonly material: WorkMaterial | null;
  readonly machine: Machine | null;
  readonly shape: HoleShape;
}

function loadsOf(scene: Scene): HoleLoads {
  const inForce = setup({ tools: [scene.tool], material: scene.material, machine: scene.machine });
  return createLoads(execution({ setup: inForce }), inForce, { program: "a.nc" })(scene.shape);
}

const among = <T>(values: readonly T[]) => fc.constantFrom(...values);
const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: null });

const line: fc.Arbitrary<KienzleValues> = fc.record({
  kc11: size(300, 4000),
  mc: size(0, 0.45),
  line: among(["victor", "koenig", "group-average", "own"] as const),
  source: fc.constant("invented"),
  evidence: fc.constant("shop" as const),
});

const anyMaterial: fc.Arbitrary<WorkMaterial> = fc
  .record({
    group: among(GROUPS),
    kienzle: fc.array(line, { maxLength: 3 }),
    hardnessHB: maybe(size(60, 500)),
    handbookKind: maybe(
      among(["steel", "cast-iron", "aluminium", "leaded-brass", "austenitic-stainless", "no such kind"]),
    ),
  })
  .map((over) => material(over));

const window = fc
  .record({ group: among(GROUPS), low: size(0.02, 0.2), step: size(0.01, 0.2) })
  .map(({ group, low, step }) => ({ group, material: null, vc: null, f: [low, low + step, low + 2 * step] as const }));

const share = maybe(size(0.1, 1));

const sane: fc.Arbitrary<Tool> = fc
  .record({
    family: among(FAMILIES),
    DC: size(1, 80),
    SIG: maybe(size(80, 180)),
    PL: maybe(size(0, 5)),
    LU: maybe(size(5, 400)),
    ZEFP: maybe(among([1, 2, 3])),
    edge: maybe(among(["light", "general", "strong"] as const)),
    point: maybe(among(["standard", "split"] as const)),
    r1: maybe(size(0.1, 20)),
    windows: fc.array(window, { maxLength: 3 }),
    entry: fc.record({
      maxIncline: maybe(size(0, 45)),
      medium: share,
      heavy: share,
      extreme: share,
      fMin: maybe(size(0.01, 0.2)),
    }),
  })
  .map((over) => tool(over));

const form: fc.Arbitrary<EntryForm> = fc.oneof(
  fc.constant({ kind: "flat" } as const),
  fc.constant({ kind: "skin" } as const),
  fc.record({ kind: fc.constant("incline" as const), angleDeg: size(0, 80) }),
  fc.record({ kind: fc.constant("edge-area" as const), areaShare: size(0.01, 0.99) }),
  fc.record({ kind: fc.constant("edge-axis" as const), insideMm: size(-40, 40) }),
  fc.record({ kind: fc.constant("ridge" as const), flankDeg: size(0, 80), offsetMm: size(-20, 20) }),
  fc.record({
    kind: fc.constant("cylinder" as const),
    diameterMm: size(5, 300),
    shape: among(["convex", "concave"] as const),
    offsetMm: size(-20, 20),
  }),
  fc.record({ kind: fc.constant("chain" as const), pitchMm: size(1, 100), sides: among([1, 2] as const) }),
);

const hole = fc.record({
  f: size(0.005, 1),
  n: size(20, 20_000),
  depth: size(0.5, 300),
  top: size(-20, 20),
  form: maybe(form),
  core: maybe(size(0.5, 70)),
});

const scene: fc.Arbitrary<Scene> = fc
  .record({
    tool: sane,
    material: maybe(anyMaterial),
    machine: fc.constant(machine()),
    hole,
    on: among(["M8", "M88", ""]),
  })
  .map(({ tool: t, material: m, machine: v, hole: h, on }) => ({
    tool: t,
    material: m,
    machine: v,
    shape: shape({
      f: h.f,
      n: h.n,
      startZ: h.top + 2,
      surfaceZ: h.top,
      endZ: h.top - h.depth,
      bored: h.core === null ? [] : [{ diameter: h.core, toZ: h.top - h.depth - 1, tool: 1 }],
      state: state({ coolant: on === "" ? [] : [on] }),
      ...(h.form === null ? {} : { form: h.form }),
    }),
  }));

/** Numbers that a slip of the keyboard or a broken import can bring. */
const absurd = among([0, -1, 1e-300, 1e300, -1e300, Number.MAX_VALUE, Number.MIN_VALUE, 1e9, 0.1, 12]);

const absurdScene: fc.Arbitrary<Scene> = fc
  .record({
    family: among(FAMILIES),
    numbers: fc.array(absurd, { minLength: 24, maxLength: 24 }),
    form: maybe(
      fc.oneof(
        fc.record({ kind: fc.constant("incline" as const), angleDeg: absurd }),
        fc.record({ kind: fc.constant("edge-area" as const), areaShare: absurd }),
        fc.record({ kind: fc.constant("edge-axis" as const), insideMm: absurd }),
        fc.record({ kind: fc.constant("ridge" as const), flankDeg: absurd, offsetMm: absurd }),
        fc.record({
          kind: fc.constant("cylinder" as const),
          diameterMm: absurd,
          shape: fc.constant("concave" as const),
          offsetMm: absurd,
        }),
        fc.record({ kind: fc.constant("chain" as const), pitchMm: absurd, sides: fc.constant(2 as const) }),
        fc.constant({ kind: "skin" } as const),
      ),
    ),
  })
  .map(({ family, numbers, form: f }) => {
    const at = (i: number): number => numbers[i] ?? 0;
    const points = [
      { rpm: at(0), torque: at(1), power: null },
      { rpm: at(2), torque: null, power: at(3) },
    ];
    return {
      tool: tool({
        family,
        DC: at(4),
        SIG: at(5),
        PL: at(6),
        LU: at(7),
        ZEFP: at(8),
        r1: at(9),
        RPMX: at(10),
        windows: [{ group: "P", material: null, vc: [at(11), at(12), at(13)], f: [at(14), at(15), at(16)] }],
        entry: { maxIncline: at(17), fMin: at(18), heavy: at(19) },
        observed: [
          { program: "a.nc", operation: 1, load: at(20), idle: at(21), meter: "continuous", wear: "worn", path: "o" },
        ],
      }),
      material: material({
        kienzle: [{ kc11: at(22), mc: 0.2, line: "own", source: "s", evidence: "shop" }],
        hardnessHB: at(23),
      }),
      machine: machine({ spindle: { ...SPINDLE, continuous: points, efficiency: at(1) } }),
      shape: shape({
        f: at(0),
        n: at(2),
        startZ: at(4),
        endZ: at(6),
        surfaceZ: at(8),
        bored: [{ diameter: at(10), toZ: at(12), tool: 3 }],
        ...(f === null ? {} : { form: f }),
      }),
    };
  });

/** Every number in what is handed out, with its path. */
function* numbersIn(value: unknown, path = ""): Generator<readonly [string, number]> {
  if (typeof value === "number") yield [path, value];
  else if (Array.isArray(value)) for (const [i, item] of value.entries()) yield* numbersIn(item, `${path}[${i}]`);
  else if (value !== null && typeof value === "object") {
    for (const [key, item] of Object.entries(value)) yield* numbersIn(item, `${path}.${key}`);
  }
}

/** What the loads made; shape, tool and material are handed through as they came. */
function made(loads: HoleLoads): unknown {
  const { shape: _shape, tool: _tool, material: _material, ...own } = loads;
  return own;
}

const TOP = [
  "n",
  "f",
  "fz",
  "vf",
  "vc",
  "mrr",
  "feedTimeMin",
  "depthRatio",
  "torque",
  "power",
  "thrust",
  "peakTorque",
  "engagement",
  "window",
  "pointLength",
  "tool",
  "material",
] as const;

function expectReasons(loads: HoleLoads): void {
  for (const field of TOP) if (loads[field] === null) expect(loads.unknown[field], field).toBeTruthy();
  const { limits, coolant } = loads;
  if (limits.torque === null) expect(loads.unknown["limits.torque"]).toBeTruthy();
  if (limits.thrust === null) expect(loads.unknown["limits.thrust"]).toBeTruthy();
  if (limits.rpm === null) expect(loads.unknown["limits.rpm"]).toBeTruthy();
  if (coolant.pressure === null) expect(loads.unknown["coolant.pressure"]).toBeTruthy();
  for (const why of Object.values(loads.unknown)) expect(why).not.toMatch(/NaN|Infinity|undefined/);
}

function expectFinite(loads: HoleLoads): void {
  for (const [path, value] of numbersIn(made(loads))) expect(Number.isFinite(value), path).toBe(true);
  for (const what of WHAT) {
    const derivation: Derivation | null = loads.derive(what);
    for (const [path, value] of numbersIn(derivation)) expect(Number.isFinite(value), `${what}${path}`).toBe(true);
    expect(JSON.stringify(derivation)).not.toMatch(/NaN|Infinity/);
  }
}

function expectOrdered(loads: HoleLoads): void {
  for (const band of [loads.torque, loads.power, loads.thrust, loads.peakTorque]) {
    if (band === null) continue;
    expect(band.low).toBeGreaterThanOrEqual(0);
    expect(band.low).toBeLessThanOrEqual(band.nominal);
    expect(band.nominal).toBeLessThanOrEqual(band.high);
  }
}

describe("any sane hole", () => {
  test("numbers are finite, bands ordered, every unknown has its reason", () => {
    fc.assert(
      fc.property(scene, (of) => {
        const loads = loadsOf(of);
        expectFinite(loads);
        expectOrdered(loads);
        expectReasons(loads);
      }),
      { numRuns: 300 },
    );
  });

  test("torque, power and thrust never fall when the feed rises", () => {
    fc.assert(
      fc.property(scene, size(1, 1.5), (of, factor) => {
        const f = of.shape.strokes[0]?.f ?? 0;
        const more = { ...of, shape: { ...of.shape, strokes: of.shape.strokes.map((s) => ({ ...s, f: f * factor })) } };
        const a = loadsOf(of);
        const b = loadsOf(more);
        for (const load of ["torque", "power", "thrust", "peakTorque"] as const) {
          for (const part of ["low", "nominal", "high"] as const) {
            const before = a[load]?.[part] ?? 0;
            expect(b[load]?.[part] ?? before, `${load}.${part}`).toBeGreaterThanOrEqual(before * (1 - 1e-9));
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  test("the feed allowed is not below the floor and no share of the programmed feed", () => {
    fc.assert(
      fc.property(scene, size(0.1, 10), (of, factor) => {
        const loads = loadsOf(of);
        const strokes = of.shape.strokes.map((s) => ({ ...s, f: (s.f ?? 0) * factor }));
        const other = loadsOf({ ...of, shape: { ...of.shape, strokes } });
        expect(other.engagement?.allowedFeed).toBe(loads.engagement?.allowedFeed);
        const allowed = loads.engagement?.allowedFeed ?? null;
        if (allowed === null) return;
        const floor = loads.derive("allowedFeed")?.inputs.find((i) => i.symbol === "fMin")?.value;
        expect(floor).toBeGreaterThan(0);
        expect(allowed).toBeGreaterThanOrEqual(floor ?? Number.POSITIVE_INFINITY);
        if (of.tool.entry.fMin !== null) expect(floor).toBe(of.tool.entry.fMin);
      }),
      { numRuns: 200 },
    );
  });

  test("an interrupted cut never peaks below its mean", () => {
    fc.assert(
      fc.property(scene, (of) => {
        const { torque, peakTorque } = loadsOf(of);
        if (torque === null || peakTorque === null) return;
        for (const part of ["low", "nominal", "high"] as const) {
          expect(peakTorque[part]).toBeGreaterThanOrEqual(torque[part] * (1 - 1e-9));
        }
      }),
      { numRuns: 200 },
    );
  });

  test("shifting the whole part shifts the heights and nothing else", () => {
    fc.assert(
      fc.property(scene, size(-100, 100), (of, dz) => {
        const { shape: s } = of;
        const moved: HoleShape = {
          ...s,
          startZ: (s.startZ ?? 0) + dz,
          endZ: (s.endZ ?? 0) + dz,
          surfaceZ: s.surfaceZ + dz,
          strokes: s.strokes.map((k) => ({ ...k, fromZ: k.fromZ + dz, toZ: k.toZ + dz })),
          bored: s.bored.map((b) => ({ ...b, toZ: b.toZ + dz })),
        };
        const a = loadsOf(of);
        const b = loadsOf({ ...of, shape: moved });
        expect(b.engagement?.class).toBe(a.engagement?.class);
        if (a.engagement !== null) expect(b.engagement?.firstContactZ).toBeCloseTo(a.engagement.firstContactZ + dz, 3);
        if (a.torque !== null) expect((b.torque?.nominal ?? 0) / a.torque.nominal).toBeCloseTo(1, 3);
      }),
      { numRuns: 100 },
    );
  });
});

describe("absurd numbers", () => {
  test("never come out as NaN or infinity, and never throw", () => {
    fc.assert(
      fc.property(absurdScene, (of) => {
        const loads = loadsOf(of);
        expectFinite(loads);
        expectOrdered(loads);
        expectReasons(loads);
      }),
      { numRuns: 1500 },
    );
  });
});
