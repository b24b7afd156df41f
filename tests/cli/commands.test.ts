/** check, explain and trace in process, on the whole pipeline, in their public forms. */
import { describe, expect, test } from "vitest";
import type { World } from "./memory-io.ts";
import { validSarif } from "./sarif.ts";
import { nullsOf, swarfline } from "./swarfline.ts";

const PROGRAM = `%
O1
(T5 10. DRILL)
G21 G17 G90 G94
T5 M6
G54 G0 X10. Y20. S1000 M3
G43 H5 Z50. M8
G4 P3000
G99 G81 X10. Y20. Z-10. R2. F100.
X30.
G98 G83 X50. Z-20. Q8.
G80 M9
M30
%
`;

const SETUP = `units: mm
programs:
  - { files: "*.nc", machine: vmc, tools: crib, workpiece: plate }
machines:
  vmc:
    dialect: generic-mill
    spindle:
      maxRpm: 8000
      continuous: [{ rpm: 0, torque: 60 }, { rpm: 1500, torque: 60 }, { rpm: 8000, power: 9.4 }]
      efficiency: 1
    axis: { maxFeed: 10000, rapid: 20000, thrust: 6 kN }
    coolant: { M8: { kind: flood, pressure: 2, flow: 20 } }
tools:
  crib:
    - { T: 5, family: twist-hss, DC: 10, SIG: 118, LU: 90, NOF: 2, coolant: external }
workpieces:
  plate: { material: C45E, hardness: 200 HB }
`;

const world = (files: World["files"], rest: Partial<World> = {}): World => ({ files, ...rest });
const SHOP = world({ "/shop/a.nc": PROGRAM, "/shop/swarfline.yaml": SETUP });
const BARE = world({ "/shop/a.nc": PROGRAM });

interface Explained {
  readonly units: string;
  readonly setup: Readonly<Record<string, string | null>>;
  readonly variant: string;
  readonly holes: readonly Hole[];
  readonly findings: readonly { readonly line: number }[];
}
interface Hole extends Readonly<Record<string, unknown>> {
  readonly line: number;
  readonly strokes: readonly Readonly<Record<string, number>>[];
  readonly engagement: { readonly samples: readonly { readonly z: number }[] } & Readonly<Record<string, unknown>>;
  readonly unknown: Readonly<Record<string, string>>;
}
interface Traced {
  readonly motions: readonly (Readonly<Record<string, unknown>> & { readonly line: number; readonly kind: string })[];
}

async function explain(args: readonly string[], where: World): Promise<Explained> {
  const { code, out, err } = await swarfline(["explain", "--format", "json", ...args], where);
  expect(err).toBe("");
  expect(code).toBe(0);
  return JSON.parse(out);
}

async function trace(args: readonly string[], where: World): Promise<Traced> {
  const { code, out, err } = await swarfline(["trace", "--format", "json", ...args], where);
  expect(err).toBe("");
  expect(code).toBe(0);
  return JSON.parse(out);
}

const HOLE_KEYS = [
  "index",
  "operation",
  "file",
  "line",
  "calls",
  "tool",
  "wcs",
  "axis",
  "at",
  "kind",
  "startZ",
  "endZ",
  "strokes",
  "dwell",
  "n",
  "direction",
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
  "limits",
  "coolant",
  "engagement",
  "unknown",
];

describe("explain", () => {
  test("has every key, and a reason for every null and for nothing else", async () => {
    for (const where of [SHOP, BARE]) {
      const { holes } = await explain(["a.nc"], where);
      expect(holes).toHaveLength(3);
      for (const hole of holes) {
        expect(Object.keys(hole)).toEqual(HOLE_KEYS);
        expect(nullsOf(hole).sort()).toEqual(Object.keys(hole.unknown).sort());
        for (const why of Object.values(hole.unknown)) expect(why).toMatch(/\w+ \w+/);
      }
    }
  });

  test("gives the numbers of a hole in base units", async () => {
    const { holes, units, setup, variant } = await explain(["a.nc"], SHOP);
    expect(units).toBe("mm");
    expect(setup).toEqual({ file: "swarfline.yaml", dialect: "generic-mill", machine: "vmc", material: "C45E" });
    expect(variant).toBe("delete-off");
    const [first, second, third] = holes;
    expect(first).toMatchObject({ index: 0, operation: 0, file: "a.nc", line: 9, tool: 5, wcs: "G54", axis: "z" });
    expect(first).toMatchObject({
      at: { x: 10, y: 20 },
      kind: "drill",
      startZ: 2,
      endZ: -10,
      dwell: 0,
      direction: "cw",
    });
    expect(first?.strokes).toEqual([{ fromZ: 2, toZ: -10, f: 0.1, n: 1000 }]);
    // vc = pi · 10 · 1000 / 1000, Q = pi · 10² / 4 · 100 / 1000, 12 mm at 100 mm/min.
    expect(first).toMatchObject({ n: 1000, f: 0.1, fz: 0.05, vf: 100, feedTimeMin: 0.12, depthRatio: 1 });
    expect(first?.vc).toBeCloseTo(31.4159, 3);
    expect(first?.mrr).toBeCloseTo(7.85398, 4);
    expect(first?.limits).toMatchObject({ torque: { continuous: 60 }, thrust: 6000, rpm: 8000 });
    expect(first?.coolant).toEqual({ kinds: ["flood"], pressure: 2, flow: 20 });
    expect(second).toMatchObject({ line: 10, at: { x: 30, y: 20 }, endZ: -10 });
    expect(third).toMatchObject({ line: 11, kind: "peck", endZ: -20, depthRatio: 2 });
    expect(third?.strokes).toHaveLength(3);
    for (const hole of holes) {
      const torque = hole.torque as { low: number; nominal: number; high: number };
      expect(torque.low).toBeGreaterThan(0);
      expect(torque.low).toBeLessThan(torque.nominal);
      expect(torque.nominal).toBeLessThan(torque.high);
    }
  });

  test("an inch program gives the same holes in the same units", async () => {
    const inch = PROGRAM.replace("(T5 10. DRILL)", "(T5 DIA .5)")
      .replace("G21", "G20")
      .replace("X10. Y20. Z-10. R2. F100.", "X1. Y2. Z-.5 R.1 F4.");
    const { holes, units } = await explain(["a.nc"], world({ "/shop/a.nc": inch }));
    expect(units).toBe("inch");
    expect(holes[0]).toMatchObject({ at: { x: 25.4, y: 50.8 }, startZ: 2.54, endZ: -12.7, vf: 101.6, f: 0.1016 });
  });

  test("--step sets the heights of the samples", async () => {
    const { holes } = await explain(["--step", "2.5", "a.nc"], SHOP);
    expect(holes[0]?.engagement.samples.map((sample) => sample.z)).toEqual([2, -0.5, -3, -5.5, -8]);
    expect(Object.keys(holes[0]?.engagement ?? {})).toEqual([
      "source",
      "form",
      "class",
      "allowedFeed",
      "firstContactZ",
      "fullZ",
      "zones",
      "gaps",
      "worst",
      "samples",
    ]);
    expect(Object.keys(holes[0]?.engagement.samples[0] ?? {})).toEqual([
      "z",
      "area",
      "rim",
      "voidArc",
      "core",
      "imbalance",
      "side",
      "entries",
    ]);
  });

  test("a line gives its holes; a word that rules holes gives those", async () => {
    const lines = async (target: string) => (await explain([target], SHOP)).holes.map((hole) => hole.line);
    expect(await lines("a.nc:10")).toEqual([10]);
    expect(await lines("a.nc:6")).toEqual([9, 10, 11]);
    expect(await lines("a.nc:13")).toEqual([]);
  });

  test("text prints the arithmetic of a line, in both systems, and fits the width", async () => {
    for (const width of [60, 80, 120]) {
      const { out } = await swarfline(["explain", "a.nc:9"], { ...SHOP, width });
      expect(out).toMatch(/vc = π · DC · n \/ 1000/);
      expect(out).toMatch(/31 m\/min \(103 ft\/min\)/);
      expect(out).toMatch(/swarfline\.yaml line 15/);
      for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(width);
    }
    expect((await swarfline(["explain", "a.nc"], SHOP)).out).not.toContain("π");
  });

  test("names what an assumed diameter was read from", async () => {
    const { out } = await swarfline(["explain", "a.nc"], BARE);
    expect(out).toMatch(/Operation 1 · T5 .* 10\.00 mm \(0\.394 in\), assumed from a comment/);
  });
});

describe("trace", () => {
  const places = (traced: Traced, line: number) =>
    traced.motions.filter((motion) => motion.line === line).map(({ kind, x, y, z }) => [kind, x, y, z]);

  test("gives a cycle motion by motion", async () => {
    const traced = await trace(["a.nc"], SHOP);
    // The spindle stands over the hole already: no rapid to it.
    expect(places(traced, 9)).toEqual([
      ["rapid", 10, 20, 2],
      ["feed", 10, 20, -10],
      ["rapid", 10, 20, 2],
    ]);
    expect(places(traced, 10)).toEqual([
      ["rapid", 30, 20, 2],
      ["feed", 30, 20, -10],
      ["rapid", 30, 20, 2],
    ]);
    // G98: back to the initial level at last.
    expect(places(traced, 11).at(-1)).toEqual(["rapid", 50, 20, 50]);
    expect(places(traced, 11).filter(([kind]) => kind === "feed")).toEqual([
      ["feed", 50, 20, -6],
      ["feed", 50, 20, -14],
      ["feed", 50, 20, -20],
    ]);
  });

  test("tells state, units and times", async () => {
    const traced = await trace(["a.nc"], SHOP);
    const feed = traced.motions.find((motion) => motion.kind === "feed");
    expect(feed).toEqual({
      file: "a.nc",
      line: 9,
      calls: [],
      kind: "feed",
      x: 10,
      y: 20,
      z: -10,
      units: "mm",
      f: 100,
      n: 1000,
      coolant: ["M8"],
      seconds: 7.2,
    });
    expect(traced.motions.map((motion) => motion.kind)).toContain("dwell");
    expect(traced.motions.at(-1)?.kind).toBe("end");
    expect(traced.motions.filter((motion) => motion.kind === "spindle").at(-1)?.n).toBe(1000);
  });

  test("positions and feeds are in the units in force", async () => {
    const mixed = "%\nG20 G90 G94\nG0 X1. Y0. Z2.\nG1 Z.5 F4.\nG21\nG1 Z10. F100.\nM30\n%\n";
    const traced = await trace(["-"], world({}, { stdin: mixed }));
    const seen = traced.motions.filter(({ kind }) => kind === "rapid" || kind === "feed");
    expect(seen.map(({ x, z, units, f }) => ({ x, z, units, f }))).toEqual([
      { x: 1, z: 2, units: "inch", f: null },
      { x: 1, z: 0.5, units: "inch", f: 4 },
      { x: 25.4, z: 10, units: "mm", f: 100 },
    ]);
  });

  test("--before and --from give a start; without them it is not known", async () => {
    const where = world({}, { stdin: "G1 Z-5." });
    const bare = await trace(["-"], where);
    expect(bare.motions.filter((motion) => motion.kind === "feed")).toMatchObject([
      { x: null, y: null, z: -5, f: null },
    ]);
    const given = await trace(["--before", "G21 G90 G94 S800 M3 F200.", "--from", "3,4,10", "-"], where);
    expect(given.motions.filter((motion) => motion.kind === "feed")).toMatchObject([
      { line: 1, x: 3, y: 4, z: -5, f: 200, n: 800, seconds: 4.5 },
    ]);
  });

  test("text is a table with a line for every motion", async () => {
    const { out } = await swarfline(["trace", "a.nc"], SHOP);
    const [name, setup, legend, blank, head, ...lines] = out.trimEnd().split("\n");
    expect([name, setup?.slice(0, 11), legend?.slice(0, 7), blank]).toEqual([
      "a.nc  mm program",
      "machine vmc",
      "X, Y, Z",
      "",
    ]);
    expect(head).toMatch(/^ {2}line {2}motion +X +Y +Z +F +n +s {2}coolant +called from$/);
    expect(lines).toHaveLength((await trace(["a.nc"], SHOP)).motions.length);
    expect(lines).toContain("     9  feed          10.000      20.000     -10.000        100     1000      7.20  M8");
  });
});

describe("check", () => {
  interface Report {
    readonly schema: number;
    readonly files: readonly {
      readonly program: string;
      readonly findings: readonly {
        check: string;
        severity: string;
        file: string;
        line: number;
        column: number;
        message: string;
      }[];
    }[];
    readonly summary: Readonly<Record<string, number>>;
  }
  const check = async (args: readonly string[], where: World) => {
    const { code, out, err } = await swarfline(["check", "--format", "json", ...args], where);
    expect(err).toBe("");
    const report: Report = JSON.parse(out);
    return { code, report };
  };
  const FAULT = PROGRAM.replace("X30.", "X3.0.0");

  test("text is a page for a person", async () => {
    const text = "%\nO1\nG21 G17 G90 G94\nG0 X3.0.0 (START)\nM30\n%\n";
    const { code, out } = await swarfline(["check", "a.nc"], { ...SHOP, files: { ...SHOP.files, "/shop/a.nc": text } });
    expect(code).toBe(1);
    expect(out).toBe(`a.nc
machine vmc · dialect generic-mill · C45E 200 HB · swarfline.yaml

  4:4  error  syntax
    X3.0.0 holds no readable number; write X with one number such as X1.5.
    │ G0 X3.0.0 (START)
    │    ^^^^^^

1 error in 1 program
No hole is drilled in a.nc: nothing was checked at the drill.
Estimates with a band. Not checked: collisions, fixtures, clamping, the machine's own state. The
shop's rules decide.
`);
  });

  test("the summary is the sum of the files", async () => {
    const { report } = await check(["."], world({ "/shop/a.nc": FAULT, "/shop/sub/b.nc": PROGRAM }));
    expect(report.files.map((file) => file.program)).toEqual(["a.nc", "sub/b.nc"]);
    const all = report.files.flatMap((file) => file.findings);
    const count = (severity: string) => all.filter((finding) => finding.severity === severity).length;
    expect(report.summary).toEqual({
      errors: count("error"),
      warnings: count("warning"),
      infos: count("info"),
      programs: 2,
    });
    expect(all.length).toBeGreaterThan(0);
  });

  test.each([
    ["LF", "\n"],
    ["CR LF", "\r\n"],
    ["CR", "\r"],
  ])("places are right with %s line ends and non-ASCII comments", async (_, end) => {
    const text = FAULT.replace("(T5 10. DRILL)", "(T5 10. DRILL für 𝄞)").replaceAll("\n", end);
    const { code, report } = await check(["a.nc"], world({ "/shop/a.nc": text }));
    expect(code).toBe(1);
    const found = report.files[0]?.findings.find((finding) => finding.severity === "error");
    expect(found).toMatchObject({ file: "a.nc", line: 10, column: 1 });
  });

  test("Latin-1 programs are read", async () => {
    const bytes = Uint8Array.from(FAULT.replace("DRILL", "BOHRER Ü"), (character) => character.charCodeAt(0));
    expect((await check(["a.nc"], world({ "/shop/a.nc": bytes }))).code).toBe(1);
  });

  test("a Windows shop sees its own files with forward slashes", async () => {
    const where = world(
      {
        "C:/Shop/Parts/A.NC": FAULT.replaceAll("\n", "\r\n"),
        "C:/Shop/swarfline.yaml": SETUP.replace("*.nc", "parts/*.nc"),
      },
      { windows: true, cwd: "C:/Shop" },
    );
    const { report } = await check([".\\Parts\\A.NC"], where);
    expect(report.files[0]?.program).toBe("Parts/A.NC");
    for (const finding of report.files[0]?.findings ?? []) expect(finding.file).toBe("Parts/A.NC");
    const { setup } = await explain(["PARTS\\a.nc"], where);
    expect(setup).toMatchObject({ file: "swarfline.yaml", machine: "vmc", material: "C45E" });
  });

  test.each([
    ["error", 1],
    ["never", 0],
  ])("--fail-on %s gives %i for an error", async (level, code) => {
    expect((await check(["--fail-on", level, "a.nc"], world({ "/shop/a.nc": FAULT }))).code).toBe(code);
  });

  test("--fail-on goes by the lowest severity that fails", async () => {
    const quiet = "%\nO1\nG21 G17 G90 G94\nM30\n%\n";
    const setup = (severity: string) => `severity: { unknown-code: ${severity} }\n`;
    const files = (severity: string) =>
      world({ "/shop/a.nc": quiet.replace("M30", "G987\nM30"), "/shop/swarfline.yaml": setup(severity) });
    const code = async (severity: string, level: string) =>
      (await check(["--fail-on", level, "a.nc"], files(severity))).code;
    expect(await code("warning", "error")).toBe(0);
    expect(await code("warning", "warning")).toBe(1);
    expect(await code("info", "warning")).toBe(0);
    expect(await code("info", "info")).toBe(1);
    expect(await code("off", "info")).toBe(0);
  });

  test("a broken setup that was found is a finding at its place, told once for all programs", async () => {
    const where = world({
      "/shop/a.nc": PROGRAM,
      "/shop/b.nc": PROGRAM,
      "/shop/swarfline.yaml": SETUP.replace("maxRpm: 8000", "maxRpm: plenty"),
    });
    const { code, report } = await check(["a.nc", "b.nc"], where);
    const about = report.files.flatMap((file) => file.findings).filter((finding) => finding.file === "swarfline.yaml");
    expect(about).toMatchObject([{ check: "setup", line: 8, column: 15 }]);
    expect(code).not.toBe(2);
    expect(report.files[0]?.findings[0]).toEqual(about[0]);
    const { out } = await swarfline(["check", "a.nc"], where);
    expect(out).toMatch(/swarfline\.yaml:8:15 {2}\w+ {2}setup\n[\s\S]*│ {7}maxRpm: plenty\n {4}│ {15}\^{6}/);
  });

  test("a setup that was asked for and is no YAML stops the command", async () => {
    const where = world({ "/shop/a.nc": PROGRAM, "/shop/other.yaml": "machines: { a: [ }\n: : [\n" });
    for (const command of ["check", "explain", "trace"]) {
      const { code, err, out } = await swarfline([command, "a.nc", "--setup", "other.yaml"], where);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toMatch(/The setup other\.yaml cannot be read: line 1, column \d+: /);
    }
    const wrong = world({ "/shop/a.nc": PROGRAM, "/shop/other.yaml": SETUP.replace("maxRpm: 8000", "maxRpm: plenty") });
    expect((await swarfline(["check", "a.nc", "--setup", "other.yaml"], wrong)).code).not.toBe(2);
  });

  test("backslashes name files and setups on every system", async () => {
    const where = world({ "/shop/parts/a.nc": PROGRAM, "/shop/parts/swarfline.yaml": SETUP });
    for (const args of [["parts\\a.nc"], ["parts\\*.nc"], ["parts/a.nc", "--setup", ".\\parts\\swarfline.yaml"]]) {
      const { code, report } = await check(args, where);
      expect(code).not.toBe(2);
      expect(report.files.map((file) => file.program)).toEqual(["parts/a.nc"]);
    }
  });

  test("the json names the dialect, not that a machine changes it", async () => {
    const where = world({
      "/shop/a.nc": PROGRAM,
      "/shop/swarfline.yaml": SETUP.replace("dialect: generic-mill", "dialect: { inherit: generic-mill, dwellP: s }"),
    });
    const { out } = await swarfline(["explain", "--format", "json", "a.nc"], where);
    expect(JSON.parse(out).setup.dialect).toBe("generic-mill");
  });

  test("a move back to a number that G92 gave a new meaning is a move", async () => {
    const where = world({ "/shop/a.nc": "G21 G90\nG0 X0 Y0 Z5\nG0 X4\nG92 X7\nG0 X4\nM30\n" });
    const { out } = await swarfline(["trace", "--format", "json", "a.nc"], where);
    const moves = JSON.parse(out).motions.filter((motion: { kind: string }) => motion.kind === "rapid");
    expect(moves.map((motion: { line: number; x: number }) => [motion.line, motion.x]).slice(-2)).toEqual([
      [3, 4],
      [5, 4],
    ]);
  });

  test("sarif is valid, and its fingerprints stay when lines move", async () => {
    const fingerprints = async (text: string) => {
      const where = { ...SHOP, files: { ...SHOP.files, "/shop/a.nc": text } };
      const { out } = await swarfline(["check", "--format", "sarif", "a.nc"], where);
      const results = validSarif(out).runs[0]?.results ?? [];
      return results.map((result) => `${result.ruleId} ${result.partialFingerprints["swarfline/v1"]}`).sort();
    };
    const before = await fingerprints(FAULT);
    expect(before.length).toBeGreaterThan(1);
    expect(new Set(before).size).toBe(before.length);
    expect(await fingerprints(FAULT.replace("O1\n", "O1\n(ONE LINE MORE)\n\n"))).toEqual(before);
  });

  test("standard input finds its setup by the name it is given", async () => {
    const where = { ...SHOP, stdin: FAULT };
    const { report } = await check(["--stdin-name", "sub/a.nc", "-"], where);
    expect(report.files[0]?.program).toBe("sub/a.nc");
    expect((await explain(["--stdin-name", "b.nc", "-"], where)).setup).toMatchObject({ machine: "vmc" });
    expect((await explain(["-"], where)).setup).toMatchObject({ machine: null });
  });

  test("--setup goes before the one that would be found; a tool table is read beside it", async () => {
    const other = SETUP.replaceAll("vmc", "other").replace("tools: crib", "tools: crib.csv");
    const where = world({
      "/shop/a.nc": PROGRAM,
      "/shop/swarfline.yaml": SETUP,
      "/else/o.yaml": other.replace('"*.nc"', '"**/*.nc"'),
      "/else/crib.csv": "T;family;DC\n5;twist-hss;12\n",
    });
    const { setup, holes } = await explain(["--setup", "../else/o.yaml", "a.nc"], where);
    expect(setup).toMatchObject({ file: "../else/o.yaml", machine: "other" });
    // vc = pi · 12 · 1000 / 1000
    expect(holes[0]?.vc).toBeCloseTo(37.699, 2);
  });

  test("--dialect replaces the dialect only", async () => {
    const { setup } = await explain(["--dialect", "nist", "a.nc"], SHOP);
    expect(setup).toMatchObject({ dialect: "nist", machine: "vmc", material: "C45E" });
  });

  test("--print-setup says each value and where it comes from", async () => {
    const { code, out } = await swarfline(["check", "--print-setup", "a.nc"], SHOP);
    expect(code).toBe(0);
    expect(out).toMatch(/^a\.nc\nsetup swarfline\.yaml\n/);
    expect(out).toMatch(/machines\.vmc\.spindle\.maxRpm +8000 1\/min +swarfline\.yaml line 8\n/);
    const json = await swarfline(["check", "--print-setup", "--format", "json", "a.nc"], SHOP);
    const values: { path: string; value: unknown }[] = JSON.parse(json.out).programs[0].values;
    expect(values.find((value) => value.path === "machines.vmc.axis.thrust")).toMatchObject({ value: 6000, unit: "N" });
  });
});
