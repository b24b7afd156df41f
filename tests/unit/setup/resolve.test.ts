import { describe, expect, test } from "vitest";
import { genericMill, nist } from "../../../server/setup/dialects/index.ts";
import { resolveSetup } from "../../../server/setup/resolve.ts";
import { complete, resolve } from "./complete.ts";

describe("the complete example", () => {
  const { setup, missing } = resolve({ "swarfline.yaml": complete });

  test("has no problem and needs no other file", () => {
    expect(setup.problems).toEqual([]);
    expect([...setup.unknown]).toEqual([]);
    expect(missing).toEqual([]);
  });

  test("gives the machine in base units", () => {
    expect(setup.machine).toMatchObject({
      name: "vmc",
      kind: "mill",
      axis: { maxFeed: 12000, rapid: 30000, thrust: 8000 },
      toolChange: 4,
      rate: 95,
      path: "machines.vmc",
      spindle: { maxRpm: 10000, efficiency: 0.87, drive: "belt" },
    });
    expect(setup.machine?.spindle?.continuous).toEqual([
      { rpm: 0, torque: 95, power: null },
      { rpm: 1500, torque: 95, power: null },
      { rpm: 6000, torque: null, power: 15 },
    ]);
    expect(setup.machine?.spindle?.shortTime?.minutes).toBe(30);
    expect(setup.machine?.coolant.get("M88")).toEqual({ kind: "through", pressure: 20, flow: 20 });
    expect(setup.machine?.coolant.get("M8")).toEqual({ kind: "flood", pressure: 2, flow: null });
    expect(setup.dialect.coolantOn.get("M88")).toBe("through");
  });

  test("gives the tools by number", () => {
    expect([...setup.tools.keys()]).toEqual([3, 7]);
    expect(setup.hasToolTable).toBe(true);
    expect(setup.tools.get(3)).toMatchObject({
      DC: 10.2,
      SIG: 140,
      LU: 55,
      NOF: 2,
      coolant: "through",
      path: "tools.crib.T3",
    });
    expect(setup.tools.get(3)?.windows).toEqual([
      { group: "P", material: null, vc: [70, 90, 110], f: [0.15, 0.2, 0.25] },
    ]);
    expect(setup.tools.get(7)?.entry).toMatchObject({ maxIncline: 30, heavy: 0.5, light: null });
    expect(setup.tools.get(7)).toMatchObject({ ZEFP: 1, edge: "general", price: 24, edges: 4, holesPerEdge: 60 });
  });

  test("gives the workpiece with its stock, offsets and the entries of this program", () => {
    expect(setup.workpiece?.workOffsets.get("G55")).toEqual([200, 0, 0]);
    expect(setup.workpiece?.stock?.solids).toEqual([
      {
        kind: "box",
        x: [0, 120],
        y: [0, 80],
        z: [-40, 0],
        cut: [{ through: [60, 0, 0], normal: [0.5, 0, 0.866], path: "workpieces.bracket.stock.solids[0].cut[0]" }],
        path: "workpieces.bracket.stock.solids[0].box",
      },
      {
        kind: "cylinder",
        axis: "z",
        through: [60, 40, 0],
        diameter: 50,
        span: [-40, 10],
        cut: [],
        path: "workpieces.bracket.stock.solids[1].cylinder",
      },
    ]);
    expect(setup.workpiece?.stock?.voids).toHaveLength(1);
    expect(setup.workpiece?.entries).toMatchObject([
      { tool: 7, wcs: "G54", at: [30, 40], form: { kind: "incline", angleDeg: 30 }, exit: null },
    ]);
    expect(setup.material).toMatchObject({ key: "42CrMo4", group: "P", hardnessHB: 290 });
    expect(setup.severity.get("walk")).toBe("off");
  });

  test.each([
    ["tools.crib.T3.DC", "swarfline.yaml line 27"],
    ["tools.crib.T7.windows.P.f", "swarfline.yaml line 34"],
    ["machines.vmc.spindle.maxRpm", "swarfline.yaml line 13"],
    ["machines.vmc.axis.thrust", "swarfline.yaml line 17"],
    ["machines.vmc.spindle.efficiency", "default, common practice: drive belt, 0.87"],
    ["workpieces.bracket.material", "swarfline.yaml line 39"],
    ["workpieces.bracket.entries[0]", "swarfline.yaml line 50"],
    ["built-in.42CrMo4", "built-in table of work materials"],
    ["practice.heavy.spade", "default, common practice"],
    ["dialect", "swarfline.yaml line 11"],
    ["units", "swarfline.yaml line 1"],
  ])("knows where %s comes from", (path, text) => {
    expect(setup.origins.get(path)?.text).toBe(text);
  });

  test("readings and entries belong to the program they name", () => {
    expect(setup.tools.get(7)?.observed).toEqual([]);
    const other = resolve({ "swarfline.yaml": complete }, "parts/bracket-2.nc").setup;
    expect(other.tools.get(7)?.observed).toMatchObject([
      { operation: 2, load: 42, idle: 6, meter: "continuous", wear: "new" },
    ]);
    expect(other.workpiece?.entries).toEqual([]);
  });

  test("unchanged texts give the same object, a change gives another", () => {
    const first = resolve({ "swarfline.yaml": complete }).setup;
    expect(resolve({ "swarfline.yaml": complete }).setup).toBe(first);
    expect(resolve({ "swarfline.yaml": `${complete}# more\n` }).setup).not.toBe(first);
  });
});

describe("which rule holds", () => {
  const two = [
    "programs:",
    "  - { files: [a.nc, 'b/**/*.{nc,tap}'], machine: one }",
    "  - { files: '**/*.nc', machine: two }",
    "machines:",
    "  one: { rate: 1 }",
    "  two: { rate: 2, dialect: nist }",
  ].join("\n");
  test.each([
    ["a.nc", "one"],
    ["b/c/d/x.tap", "one"],
    ["b/x.nc", "one"],
    ["c/a.nc", "two"],
    ["a.tap", undefined],
  ])("%s runs on %s", (program, machine) => {
    const { setup } = resolve({ "swarfline.yaml": two }, program);
    expect(setup.machine?.name).toBe(machine);
    expect(setup.unknown.get("machine")).toBe(
      machine === undefined ? `no rule under programs: is for ${program}` : undefined,
    );
    expect(setup.problems).toEqual([]);
  });

  test("uris and Windows paths are matched too", () => {
    const at = (setupFile: string, program: string): string | undefined =>
      resolveSetup({ program, setupFile, sources: new Map([[setupFile, two]]) }).setup.machine?.name;
    expect(at("file:///c%3A/My%20Shop/swarfline.yaml", "file:///c%3A/My%20Shop/b/x.nc")).toBe("one");
    expect(at("C:\\Shop\\swarfline.yaml", "c:\\shop\\b\\x.NC")).toBe("one");
    expect(at("vfs://host/shop/swarfline.yaml", "vfs://host/shop/c/a.nc")).toBe("two");
    expect(at("untitled:/swarfline.yaml", "a.nc")).toBe("one");
  });
});

describe("what is not there", () => {
  test("no setup: the default dialect and nothing else", () => {
    const { setup, missing } = resolveSetup({ program: "a.nc", setupFile: null, sources: new Map() });
    expect(setup).toMatchObject({
      file: null,
      machine: null,
      workpiece: null,
      material: null,
      hasToolTable: false,
      problems: [],
    });
    expect(setup.dialect).toBe(genericMill);
    expect(missing).toEqual([]);
  });

  test("a setup that was not given is missing", () => {
    const { missing } = resolveSetup({ program: "a.nc", setupFile: "/x/swarfline.yaml", sources: new Map() });
    expect(missing).toEqual(["/x/swarfline.yaml"]);
  });

  test("a tool table in a file is asked for, then read", () => {
    const text = 'programs: [{ files: "*.nc", tools: tools/crib.csv }]\n';
    const first = resolve({ "swarfline.yaml": text }, "a.nc");
    expect(first.missing).toEqual(["/shop/tools/crib.csv"]);
    expect(first.setup.hasToolTable).toBe(false);
    expect(first.setup.problems.map((p) => p.message)).toEqual([
      "programs[0].tools: tools/crib.csv cannot be read: it is looked for beside this setup file",
    ]);
    const csv = "T,family,DC [in],windows.P.f.min,windows.P.f.nominal,windows.P.f.max\n5,spade,1.5,0.1,0.2,0.3\n";
    const second = resolve({ "swarfline.yaml": text, "tools/crib.csv": csv }, "a.nc");
    expect(second.missing).toEqual([]);
    expect(second.setup.problems).toEqual([]);
    expect(second.setup.tools.get(5)).toMatchObject({ DC: 38.1, path: "tools.tools/crib.csv.T5" });
    expect(second.setup.tools.get(5)?.windows).toEqual([{ group: "P", material: null, vc: null, f: [0.1, 0.2, 0.3] }]);
    expect(second.setup.origins.get("tools.tools/crib.csv.T5.DC")).toMatchObject({
      file: "/shop/tools/crib.csv",
      line: 1,
      column: 8,
    });
  });

  test("a table named under tools: may stand in a YAML file with units of its own", () => {
    const text = "programs: [{ files: '*.nc', tools: crib }]\ntools: { crib: crib.yaml }\n";
    const table = "units: inch\ntools:\n  - { T: 1, family: spade, DC: 1.5 }\n";
    const { setup } = resolve({ "swarfline.yaml": text, "crib.yaml": table }, "a.nc");
    expect(setup.problems).toEqual([]);
    expect(setup.tools.get(1)?.DC).toBeCloseTo(38.1, 9);
  });
});

describe("a broken value costs only itself", () => {
  const broken = complete
    .replace("maxRpm: 10000", "maxRpm: fast")
    .replace("DC: 10.2", "DC: thick")
    .replace("vc: [140, 180, 220]", "vc: [140, x, 220]")
    .replace("rpm: 1500, power: 18.5", "rpm: 1500, power: much")
    .replace("290 HB", "290")
    .replace("through: [0, 40, -20]", "through: [0, 40]");
  const { setup } = resolve({ "swarfline.yaml": broken });

  test("each has one problem", () => {
    expect(setup.problems.map((p) => p.message.split(":")[0])).toEqual([
      "machines.vmc.spindle.maxRpm",
      "machines.vmc.spindle.shortTime.points[1].power",
      "tools.crib.T3.DC",
      "tools.crib.T7.windows.P.vc.nominal",
      "workpieces.bracket.hardness",
      "workpieces.bracket.stock.voids[0].cylinder.through",
    ]);
  });

  test("what hangs on it is unknown, with the reason", () => {
    expect(setup.machine?.spindle?.maxRpm).toBeNull();
    expect(setup.machine?.spindle?.shortTime).toBeNull();
    expect(setup.tools.has(3)).toBe(false);
    expect(setup.unknown.get("tools.crib.T3")).toMatch(/thick/);
    expect(setup.brokenTools?.get(3)).toMatch(/thick/);
    expect(setup.tools.get(7)?.windows[0]).toMatchObject({ vc: null, f: [0.06, 0.1, 0.14] });
    expect(setup.workpiece?.stock).toBeNull();
    expect(setup.unknown.has("workpieces.bracket.stock")).toBe(true);
  });

  test("the rest stands", () => {
    expect(setup.machine?.spindle?.continuous).toHaveLength(3);
    expect(setup.machine?.axis.thrust).toBe(8000);
    expect(setup.material?.hardnessHB).toBe(265);
    expect(setup.workpiece?.entries).toHaveLength(1);
  });
});

describe("a broken value that others hang on", () => {
  const changed = (from: string, to: string) => resolve({ "swarfline.yaml": complete.replace(from, to) }).setup;

  test("units: bare lengths and forces become unknown, turns and written units stay", () => {
    const setup = changed("units: mm", "units: metre");
    expect(setup.problems.map((p) => p.message)).toContain('units: expected one of mm, inch, got "metre"');
    expect(setup.machine?.spindle).toMatchObject({ maxRpm: 10000, continuous: [] });
    expect(setup.machine?.axis).toEqual({ maxFeed: null, rapid: null, thrust: 8000 });
    expect(setup.tools.size).toBe(0);
    expect(setup.brokenTools?.get(3)).toMatch(/units could not be read, so 10\.2 has no unit/);
    expect(setup.workpiece?.stock).toBeNull();
    expect(setup.workpiece?.entries).toEqual([]);
    expect(setup.material?.hardnessHB).toBe(290);
  });

  test.each([
    ["efficiency", "drive: belt  ", "drive: belt, efficiency: high  "],
    ["drive", "drive: belt  ", "drive: betl  "],
  ])("%s: no limit at the cutter", (_what, from, to) => {
    const setup = changed(`      ${from}`, `      ${to.replace(", ", "\n      ")}`);
    expect(setup.problems).toHaveLength(1);
    expect(setup.machine?.spindle).toMatchObject({ maxRpm: 10000, continuous: [], shortTime: null });
    expect(setup.unknown.get("machines.vmc.spindle.continuous")).toMatch(/efficiency could not be read/);
  });

  test("the stock's WCS: no stock", () => {
    expect(changed("      wcs: G54", "      wcs: G4").workpiece?.stock).toBeNull();
  });

  test("the place of an entry: no entry, rather than one on other holes", () => {
    expect(changed("at: [30, 40]", "at: [30, x]").workpiece?.entries).toEqual([]);
  });
});

describe("units", () => {
  const inch = [
    "units: inch",
    "programs: [{ files: '*.nc', machine: m, tools: t, workpiece: w }]",
    "machines:",
    "  m:",
    "    spindle: { maxRpm: 4000, continuous: [{ rpm: 0, torque: 100 }, { rpm: 4000, power: 20 }] }",
    "    axis: { maxFeed: 200, thrust: 8 kN }",
    "    coolant: { M8: { kind: flood, pressure: 300, flow: 5 } }",
    "tools:",
    "  t: [{ T: 1, family: indexable, DC: 1.0, LU: 76.2 mm, windows: [{ group: P, vc: [400, 500, 600], f: [0.002, 0.004, 0.006] }] }]",
    "workpieces:",
    "  w: { material: AISI 4140, hardness: 32 HRC, stock: { solids: [{ box: { x: [0, 1], y: [0, 1], z: [-1, 0] } }] }, entries: [{ program: a.nc, entry: EDGE AXIS IN 0.25 }] }",
  ].join("\n");
  const { setup } = resolve({ "swarfline.yaml": inch }, "a.nc");
  test.each([
    ["torque", setup.machine?.spindle?.continuous[0]?.torque, 135.5818],
    ["power", setup.machine?.spindle?.continuous[1]?.power, 14.913998],
    ["feed", setup.machine?.axis.maxFeed, 5080],
    ["a written unit", setup.machine?.axis.thrust, 8000],
    ["pressure", setup.machine?.coolant.get("M8")?.pressure, 20.68427],
    ["flow", setup.machine?.coolant.get("M8")?.flow, 18.92706],
    ["length", setup.tools.get(1)?.DC, 25.4],
    ["a written length", setup.tools.get(1)?.LU, 76.2],
    ["speed", setup.tools.get(1)?.windows[0]?.vc?.[1], 152.4],
    ["feed per turn", setup.tools.get(1)?.windows[0]?.f?.[0], 0.0508],
    ["hardness", setup.material?.hardnessHB, 302],
    [
      "a coordinate",
      setup.workpiece?.stock?.solids[0]?.kind === "box" ? setup.workpiece.stock.solids[0].z[0] : null,
      -25.4,
    ],
  ])("bare %s", (_what, value, wanted) => {
    expect(setup.problems).toEqual([]);
    expect(value).toBeCloseTo(wanted, 5);
  });
  test("entries speak the file's units", () => {
    expect(setup.workpiece?.entries[0]?.form).toEqual({ kind: "edge-axis", insideMm: 6.35 });
  });
});

test("a hardness converted for another metal than steel says so", () => {
  const text =
    "programs: [{ files: '*.nc', workpiece: w }]\nworkpieces: { w: { material: GJL-250, hardness: 20 HRC } }\n";
  const { setup } = resolve({ "swarfline.yaml": text }, "a.nc");
  expect(setup.origins.get("workpieces.w.hardness")?.text).toMatch(
    /line 2, from HRC, .*ASTM E140.*; for group K an estimate$/,
  );
});

describe("dialects", () => {
  test("--dialect replaces the dialect only", () => {
    const { setup } = resolve({ "swarfline.yaml": complete }, "parts/bracket-1.nc", "nist");
    expect(setup.dialect).toMatchObject({ name: "nist", repeatWord: nist.repeatWord });
    expect(setup.dialect.coolantOn.get("M88")).toBe("through");
    expect(setup.machine?.name).toBe("vmc");
    expect(setup.origins.get("dialect")?.kind).toBe("option");
    expect(resolve({ "swarfline.yaml": complete }, "parts/bracket-1.nc", "nits").setup.problems[0]?.message).toMatch(
      /no dialect nits.*nist\?/,
    );
  });

  test("inherits and changes keys", () => {
    const text = complete.replace(
      "dialect: generic-mill",
      "dialect: { inherit: nist, dwellP: ms, peckClearance: 0.05 in, cycles: { G83: chip-break, G73: chip-break, G84: none }, coolantOn: { M07: air, M51: through }, coolantOff: [M09, M59], spindleCoolant: { M13: { direction: ccw, coolant: M8 } } }",
    );
    const { setup } = resolve({ "swarfline.yaml": text });
    expect(setup.problems).toEqual([]);
    expect(setup.dialect).toMatchObject({ name: "nist, changed", dwellP: "ms", assign: nist.assign });
    expect(setup.dialect.peckClearance).toBeCloseTo(1.27, 9);
    expect(setup.dialect.cycles.get(830)).toBe("chip-break");
    expect(setup.dialect.cycles.get(730)).toBe("chip-break");
    expect(setup.dialect.cycles.has(840)).toBe(false);
    expect(setup.dialect.cycles.get(810)).toBe("drill");
    expect([...setup.dialect.coolantOn]).toEqual(
      expect.arrayContaining([
        ["M7", "air"],
        ["M51", "through"],
        ["M88", "through"],
      ]),
    );
    expect(setup.dialect.coolantOff).toEqual(new Set(["M9", "M59"]));
    expect(setup.dialect.spindleCoolant.get("M13")).toEqual({ direction: "ccw", coolant: "M8" });
  });
});

describe("practice and materials of the shop's own", () => {
  const text = [
    "programs: [{ files: '*.nc', workpiece: w, tools: t }]",
    "workpieces: { w: { material: house bronze } }",
    "tools: { t: [{ T: 1, family: spade, DC: 30, windows: [{ material: AISI 4140, f: [0.1, 0.2, 0.3] }] }] }",
    "materials:",
    "  house bronze: { group: N, kc11: 100 ksi, mc: 0.2, hardness: 180 HV }",
    "  4140 bar: { like: 42CrMo4, hardness: 140 ksi, designations: [B7] }",
    "practice: { heavy: { solid-carbide: 35 %, indexable: no } }",
  ].join("\n");
  const { setup } = resolve({ "swarfline.yaml": text }, "a.nc");
  test("are read", () => {
    expect(setup.problems).toEqual([]);
    expect(setup.material?.kienzle[0]?.kc11).toBeCloseTo(689.4757, 3);
    expect(setup.material).toMatchObject({ key: "house bronze", hardnessHB: 171, handbookKind: null });
    expect(setup.materials?.[1]).toMatchObject({ key: "4140 bar", group: "P", handbookKind: "steel" });
    expect(setup.materials?.[1]?.kienzle[0]?.kc11).toBe(2500);
    expect(setup.practice.share.heavy).toEqual({
      indexable: null,
      "solid-carbide": 0.35,
      "twist-hss": 0.5,
      spade: null,
    });
    expect(setup.origins.get("practice.heavy.solid-carbide")?.text).toBe("swarfline.yaml line 7");
  });
  test("a window names its material by the table's own key", () => {
    expect(setup.tools.get(1)?.windows[0]?.material).toBe("42CrMo4");
    expect(setup.origins.get("tools.t.T1.windows.42CrMo4.f")?.text).toBe("swarfline.yaml line 3");
  });
});
