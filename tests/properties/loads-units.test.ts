/** A program in inches and the same program in millimetres give the same loads. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { createLoads } from "../../server/loads/loads.ts";
import type { HoleLoads } from "../../server/loads/types.ts";
import { execute } from "../../server/program/execute.ts";
import { resolveSetup } from "../../server/setup/resolve.ts";
import { LineStore } from "../../server/text/lines.ts";

const SETUP = `units: mm
programs: [{ files: "*.nc", machine: vmc, tools: crib, workpiece: part }]
machines:
  vmc:
    kind: mill
    dialect: generic-mill
    spindle: { maxRpm: 10000, continuous: [{ rpm: 0, torque: 95 }, { rpm: 1500, torque: 95 }, { rpm: 6000, power: 15 }], drive: belt }
    axis: { maxFeed: 12000, rapid: 30000, thrust: 8 kN }
    coolant: { M8: { kind: flood, pressure: 2 }, M88: { kind: through, pressure: 20, flow: 20 } }
tools:
  crib:
    - { T: 1, family: twist-hss, DC: 12, SIG: 118, LU: 100, windows: [{ group: P, vc: [10, 20, 28], f: [0.1, 0.18, 0.25] }] }
    - { T: 2, family: solid-carbide, DC: 10.2, SIG: 140, LU: 55, coolant: through, windows: [{ group: P, vc: [70, 90, 110], f: [0.15, 0.2, 0.25] }] }
    - { T: 3, family: indexable, DC: 26, SIG: 180, LU: 78, coolant: through, windows: [{ group: P, vc: [120, 165, 220], f: [0.06, 0.1, 0.14] }] }
workpieces:
  part: { material: 42CrMo4, hardness: 290 HB }
`;

const { setup } = resolveSetup({
  program: "a.nc",
  setupFile: "swarfline.yaml",
  sources: new Map([["swarfline.yaml", SETUP]]),
});

function loadsOf(text: string): HoleLoads[] {
  const execution = execute(readBlocks(LineStore.from(text)), setup, { program: "a.nc" });
  const loads = createLoads(execution, setup, { program: "a.nc" });
  return execution.shapes.map(loads);
}

/** Four decimals of an inch: in millimetres that is exact in six. */
interface Scene {
  readonly tool: 1 | 2 | 3;
  readonly n: number;
  readonly rateInch: number;
  readonly perRev: boolean;
  readonly depthInch: number;
  readonly peckInch: number | null;
  readonly entry: "" | "INCLINE 12 DEG" | "EDGE AREA 50 PCT" | "CHAIN" | "SKIN";
  readonly longHand: boolean;
}

const inch = (min: number, max: number) => fc.integer({ min: min * 10_000, max: max * 10_000 }).map((n) => n / 10_000);

const scene: fc.Arbitrary<Scene> = fc.record({
  tool: fc.constantFrom(1, 2, 3),
  n: fc.integer({ min: 100, max: 9000 }),
  rateInch: inch(0.001, 0.03),
  perRev: fc.boolean(),
  depthInch: inch(0.2, 3),
  peckInch: fc.option(inch(0.05, 1), { nil: null }),
  entry: fc.constantFrom("", "INCLINE 12 DEG", "EDGE AREA 50 PCT", "CHAIN", "SKIN"),
  longHand: fc.boolean(),
});

function programOf(of: Scene, system: "mm" | "inch"): string {
  const scale = system === "mm" ? 25.4 : 1;
  const length = (value: number): string => {
    const text = (value * scale).toFixed(6);
    return text.replace(/0+$/, "");
  };
  const f = of.perRev ? length(of.rateInch) : length(of.rateInch * of.n);
  const entry =
    of.entry === "CHAIN" ? `(CUT ENTRY CHAIN PITCH ${length(0.75)})` : of.entry === "" ? "" : `(CUT ENTRY ${of.entry})`;
  const drill = of.longHand
    ? [`G0 Z${length(0.1)}`, `G1 Z${length(-of.depthInch)} F${f}`, `G0 Z${length(1)}`]
    : of.peckInch === null
      ? [`G99 G81 Z${length(-of.depthInch)} R${length(0.1)} F${f}`, "G80"]
      : [`G99 G83 Z${length(-of.depthInch)} R${length(0.1)} Q${length(of.peckInch)} F${f}`, "G80"];
  return [
    "%",
    `${system === "mm" ? "G21" : "G20"} G17 G40 G49 G80 G90 G94 G54`,
    `T${of.tool} M6`,
    `G0 X0. Y0. S${of.n} M3`,
    `G43 H${of.tool} Z${length(2)} M88`,
    ...(of.perRev ? ["G95"] : []),
    ...(entry === "" ? [] : [entry]),
    ...drill,
    "M30",
    "%",
  ].join("\n");
}

const FIELDS = ["n", "f", "fz", "vf", "vc", "mrr", "feedTimeMin", "depthRatio", "pointLength", "walk"] as const;

function expectNear(a: number | null | undefined, b: number | null | undefined, what: string): void {
  if (a == null || b == null) {
    expect(a, what).toBe(b);
    return;
  }
  expect(Math.abs(a - b), `${what}: ${a} and ${b}`).toBeLessThanOrEqual(
    1e-4 * Math.max(Math.abs(a), Math.abs(b), 1e-3),
  );
}

describe("inch and metric", () => {
  test("the same program, the same loads", () => {
    fc.assert(
      fc.property(scene, (of) => {
        const metric = loadsOf(programOf(of, "mm"));
        const inches = loadsOf(programOf(of, "inch"));
        expect(metric).toHaveLength(1);
        expect(inches).toHaveLength(1);
        const [a] = metric;
        const [b] = inches;
        if (a === undefined || b === undefined) return;
        for (const field of FIELDS) expectNear(a[field], b[field], field);
        for (const load of ["torque", "power", "thrust", "peakTorque"] as const) {
          for (const part of ["low", "nominal", "high"] as const)
            expectNear(a[load]?.[part], b[load]?.[part], `${load}.${part}`);
        }
        expect(b.engagement?.class).toBe(a.engagement?.class);
        expectNear(b.engagement?.allowedFeed, a.engagement?.allowedFeed, "allowedFeed");
        expect(Object.keys(b.unknown)).toEqual(Object.keys(a.unknown));
        expect(a.torque).not.toBeNull();
      }),
      { numRuns: 150 },
    );
  });
});

describe("a program as it is written", () => {
  // Common practice, no source: 400 1/min at 0.010 in/rev is 4 in/min; 0.0025 in/rev is about 0.06 mm/rev.
  test("feed per revolution of an inch program", () => {
    const [loads] = loadsOf(
      "%\nG20 G90 G94 G54\nT1 M6\nG0 X0. Y0. S400 M3\nG43 H1 Z2. M8\nG99 G81 Z-1. R.1 F4.\nG80\nM30\n%",
    );
    expect(loads?.f).toBeCloseTo(0.254, 9);
    expect(loads?.vf).toBeCloseTo(101.6, 9);
  });

  test("provenance of words and setup lines", () => {
    const [loads] = loadsOf(
      "%\nG21 G90 G94 G54\nN20 T2 M6\nN30 G0 X0. Y0. S2800 M3\nG43 H2 Z50. M88\nN50 G99 G81 Z-30. R2. F560.\nG80\nM30\n%",
    );
    const from = (what: "vc" | "f" | "limits", symbol: string) =>
      loads?.derive(what)?.inputs.find((i) => i.symbol === symbol)?.from;
    expect(from("vc", "n")).toBe("S2800 in block N30");
    expect(from("f", "F")).toBe("F560. in block N50");
    expect(from("vc", "DC")).toBe("swarfline.yaml line 13");
    expect(from("limits", "η")).toContain("drive belt");
    expect(loads?.window?.origin).toBe("swarfline.yaml line 13");
  });

  test("a pilot and the drill that opens it", () => {
    const text = (pilot: string) =>
      `%\nG21 G90 G94 G54\n${pilot}T3 M6\nG0 X0. Y0. S2000 M3\nG43 H3 Z50. M88\nG99 G81 Z-30. R2. F200.\nG80\nM30\n%`;
    const pilot = "T2 M6\nG0 X0. Y0. S2800 M3\nG43 H2 Z50. M88\nG99 G81 Z-32. R2. F560.\nG80\n";
    const solid = loadsOf(text(""))[0];
    const opened = loadsOf(text(pilot)).find((loads) => loads.tool?.T === 3);
    expect((opened?.torque?.nominal ?? 0) / (solid?.torque?.nominal ?? 1)).toBeCloseTo(1 - (10.2 / 26) ** 2, 6);
  });

  test("coolant switched on just before the hole: the time to contact is short and known", () => {
    const [loads] = loadsOf(
      "%\nG21 G90 G94 G54\nT2 M6\nG0 X0. Y0. S2800 M3\nG43 H2 Z50.\nM88\nG99 G81 Z-30. R2. F560.\nG80\nM30\n%",
    );
    expect(loads?.coolant.leadSeconds).toBeGreaterThan(0.2);
    expect(loads?.coolant.leadSeconds).toBeLessThan(1);
  });
});
