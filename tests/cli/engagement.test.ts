/** An interrupted cut in `explain`: the table over depth, the json form and the picture as a file. */
import { describe, expect, test } from "vitest";
import { parseXml } from "../unit/pictures/xml.ts";
import type { World } from "./memory-io.ts";
import { swarfline } from "./swarfline.ts";

const SETUP = `units: mm
programs: [{ files: "*.nc", machine: vmc, tools: crib, workpiece: part }]
machines:
  vmc:
    dialect: generic-mill
    spindle: { maxRpm: 8000, continuous: [{ rpm: 0, torque: 95 }, { rpm: 1500, torque: 95 }, { rpm: 8000, power: 15 }] }
    coolant: { M88: { kind: through, pressure: 20, flow: 40 } }
tools:
  crib:
    - { T: 7, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, coolant: through,
        windows: [{ group: P, vc: [130, 165, 210], f: [0.06, 0.1, 0.14] }] }
    - { T: 3, family: solid-carbide, DC: 12, SIG: 140, LU: 60, NOF: 2, coolant: through,
        windows: [{ group: P, vc: [65, 85, 110], f: [0.12, 0.18, 0.24] }] }
workpieces:
  part:
    material: C45E
    stock:
      wcs: G54
      solids:
        - box: { x: [0, 300], y: [0, 200], z: [-80, 0] }
          face: { incline: 20, towards: x+, through: [200, 0, 0] }
      voids:
        - crossHole: { along: y, through: [60, 0, -25], diameter: 13 }
`;

/** Line 7 is whole, 8 runs through the cross hole, 9 beside 7, 10 is on the inclined face; 15 is carbide on that face. */
const PROGRAM = `%
G21 G17 G40 G49 G80 G90 G94
T7 M6
G54 G0 X20. Y50. S2020 M3
G43 H7 Z60. M88
G4 P3000
G99 G81 X20. Y50. Z-50. R2. F202.
X60. Y50.
X20. Y69.5
X240. Y50.
G80
T3 M6
G54 G0 X240. Y150. S2250 M3
G43 H3 Z60. M88
G99 G81 X240. Y150. Z-50. R2. F400.
G80 M9
M30
%
`;

const SHOP: World = { files: { "/shop/a.nc": PROGRAM, "/shop/swarfline.yaml": SETUP } };

async function text(target: string, world: Partial<World> = {}, ...more: readonly string[]): Promise<string> {
  const { code, out, err } = await swarfline(["explain", target, ...more], { ...SHOP, ...world });
  expect(err).toBe("");
  expect(code).toBe(0);
  return out;
}

/** Rows of the table over depth: height in the program's unit, the other unit, the rest. */
function rowsOf(out: string): { z: number; other: number; rest: string }[] {
  const lines = out.split("\n");
  const head = lines.findIndex((line) => /^ +tip Z (mm|in) +(mm|in) +area +rim +void arc +core +side$/.test(line));
  expect(head, "the table").toBeGreaterThan(0);
  const end = lines.indexOf("", head);
  return lines.slice(head + 1, end).map((line) => {
    const [, z, other, rest] = /^ +(-?[\d.]+) +(-?[\d.]+) +(.*)$/.exec(line) ?? [];
    return { z: Number(z), other: Number(other), rest: rest ?? "" };
  });
}

describe("the table", () => {
  test("of an inclined face holds contact, worst, whole and end within twelve falling rows", async () => {
    const rows = rowsOf(await text("a.nc:10"));
    expect(rows.length).toBeGreaterThan(6);
    expect(rows.length).toBeLessThanOrEqual(12);
    for (const [i, row] of rows.entries()) {
      if (i > 0) expect(row.z).toBeLessThan(rows[i - 1]?.z ?? 0);
      expect(row.other).toBeCloseTo(row.z / 25.4, 3);
    }
    // 40 mm down the fall of 20 degrees, and the radius of 13 mm to both sides.
    const tan = Math.tan(Math.PI / 9);
    const at = (mark: string) => rows.find(({ rest }) => rest.split(/ {2,}/).at(-1)?.split(", ").includes(mark));
    expect(at("first contact")?.z).toBeCloseTo(-27 * tan, 2);
    expect(at("whole")?.z).toBeCloseTo(-53 * tan, 2);
    expect(at("worst")?.z).toBeCloseTo(-40 * tan, 2);
    expect(at("worst")?.rest).toMatch(/^50 % +50 % +180° +50 % +1\.00 +worst$/);
    expect(at("zone begins")?.z).toBeCloseTo(-27 * tan + 1, 2);
    expect(at("zone ends")?.z).toBeCloseTo(-53 * tan - 1, 2);
    expect(at("end")?.rest).toMatch(/^100 % +100 % +0° +100 % +0\.00 +end$/);
  });

  test("of a hole beside another to its end says that it is never whole", async () => {
    const out = await text("a.nc:9");
    expect(out.replace(/\s+/g, " ")).toContain(
      "entry an equal hole beside it at pitch 19.50 mm (0.768 in) (by the stock and the holes drilled before); class heavy; metal from 0.00 mm (0.000 in), never whole in this hole;",
    );
    const rows = rowsOf(out);
    expect(rows.map(({ rest }) => rest.split(/ {2,}/).at(-1))).toEqual([
      "zone begins",
      "worst, first contact",
      "end, zone ends",
    ]);
    expect(rows[1]?.rest).toMatch(/^86 % +77 %/);
    expect(rows[2]?.rest).toMatch(/^86 % +77 %/);
  });

  test("zones say class, where and the feed", async () => {
    expect(await text("a.nc:8")).toMatch(
      / zone from Z +to Z +class +where +feed at most\n +-17\.50 mm \(-0\.689 in\) +-32\.50 mm \(-1\.280 in\) +heavy +inside +0\.050 mm\/rev \(0\.0020 in\/rev\)\n/,
    );
    expect((await text("a.nc:15")).replace(/\s+/g, " ")).toMatch(
      /extreme entry none: class extreme: a solid carbide drill must not/,
    );
  });

  test("is left out for a hole that is whole, and there for each group of a program", async () => {
    expect(await text("a.nc:7")).not.toContain("tip Z");
    expect((await text("a.nc")).split("tip Z").length - 1).toBe(4);
  });

  test("an inch program reads inches first", async () => {
    const inch = PROGRAM.replace("G21", "G20")
      .replace(/([XYZR])(-?[\d.]+)/g, (_, letter, value) => `${letter}${(Number(value) / 25.4).toFixed(5)}`)
      .replace(/F(\d+)\./g, (_, f) => `F${(Number(f) / 25.4).toFixed(3)}`);
    const rows = rowsOf(await text("a.nc:8", { files: { ...SHOP.files, "/shop/a.nc": inch } }));
    expect(rows.find(({ rest }) => rest.endsWith("worst"))).toMatchObject({ z: -0.984, other: -25 });
  });

  test("a narrow terminal gets sentences", async () => {
    const out = await text("a.nc:8", { width: 44 });
    expect(out).not.toContain("tip Z");
    expect(out.replace(/\s+/g, " ")).toMatch(
      /Z -25\.00 mm \(-0\.984 in\) \(worst\): area 39 %, rim 67 %, void arc 60°/,
    );
    expect(out.replace(/\s+/g, " ")).toContain(
      "zone from Z -17.50 mm (-0.689 in) to -32.50 mm (-1.280 in): heavy, inside",
    );
  });
});

test("a skin over a slope is said with the slope", async () => {
  const skinned = SETUP.replace("      voids:", "      skin: { thickness: 2, on: all }\n      voids:");
  const out = await text("a.nc:10", { files: { ...SHOP.files, "/shop/swarfline.yaml": skinned } });
  expect(out.replace(/\s+/g, " ")).toContain(
    "an incline of 20° (by the stock and the holes drilled before); through skin; class heavy",
  );
  expect(await text("a.nc:10")).not.toContain("skin");
});

test("the json has the form in words, and where, feed and reason of each zone", async () => {
  const { out } = await swarfline(["explain", "--format", "json", "a.nc"], SHOP);
  const { holes } = JSON.parse(out);
  const [whole, cross, chain, incline, carbide] = holes.map((hole: { engagement: unknown }) => hole.engagement);
  expect(whole).toMatchObject({ source: "flat", form: "a flat face", class: "none", zones: [], gaps: [] });
  expect(cross.zones).toEqual([
    {
      fromZ: -17.5,
      toZ: -32.5,
      class: "heavy",
      where: "inside",
      allowedFeed: 0.05,
      allowedWhy: expect.stringMatching(/50 %/),
    },
  ]);
  expect(chain).toMatchObject({
    source: "stock",
    form: expect.stringMatching(/^an equal hole beside it at pitch 19\.50 mm/),
  });
  expect(chain.zones).toEqual([
    expect.objectContaining({ where: "entry", class: "heavy", allowedFeed: 0.05, toZ: -50 }),
  ]);
  expect(incline.form).toBe("an incline of 20°");
  expect(carbide.zones).toEqual([
    expect.objectContaining({ class: "extreme", allowedFeed: null, allowedWhy: expect.stringMatching(/must not/) }),
  ]);
});

test("the json tells the gaps between plates", async () => {
  const stacked = SETUP.replace(
    /solids:[\s\S]*$/,
    "solids: [{ plates: { x: [0, 300], y: [0, 200], top: 0, layers: [{ plate: 12 }, { gap: 3 }, { plate: 40 }] } }]\n",
  );
  const files = { ...SHOP.files, "/shop/swarfline.yaml": stacked };
  const { out } = await swarfline(["explain", "--format", "json", "a.nc:7"], { files });
  expect(JSON.parse(out).holes[0].engagement.gaps).toEqual([
    { fromZ: expect.closeTo(-12, 3), toZ: expect.closeTo(-15, 3) },
  ]);
  expect((await text("a.nc:7", { files })).replace(/\s+/g, " ")).toContain(
    "no metal with the tip from Z -12.00 mm (-0.472 in) to -15.00 mm (-0.591 in)",
  );
});

describe("--svg", () => {
  const draw = async (target: string, file: string, world: World = SHOP, ...more: readonly string[]) => {
    const written = new Map<string, string>();
    const ran = await swarfline(["explain", target, "--svg", file, ...more], { ...world, written });
    return { ...ran, written };
  };

  test("writes plan and curve of the one hole of a line, and says so", async () => {
    const { code, out, err, written } = await draw("a.nc:8", "cross.svg");
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/\nWrote cross\.svg: Hole X60\.00 Y50\.00, line 8, class heavy\.\n$/);
    expect([...written.keys()]).toEqual(["/shop/cross.svg"]);
    const svg = written.get("/shop/cross.svg") ?? "";
    expect(parseXml(svg.trimEnd())[0]).toBe("svg");
    expect(svg).toContain("Hole X60.00 Y50.00 &#183; T7 indexable insert drill 26.00 mm &#183; a.nc line 8");
    expect(svg).toContain('id="engaged"');
    expect(svg).toContain('id="area-curve"');
  });

  test("draws the hardest of several", async () => {
    const { out } = await draw("a.nc", "all.svg");
    expect(out).toContain(
      "Wrote all.svg: Hole X240.00 Y150.00, line 15, class extreme, the hardest of 4 kinds of interrupted holes.",
    );
  });

  test("leaves standard output to the json", async () => {
    const { out, err, written } = await draw("a.nc:8", "b.svg", SHOP, "--format", "json");
    expect(JSON.parse(out).holes).toHaveLength(1);
    expect(err).toBe("Wrote b.svg: Hole X60.00 Y50.00, line 8, class heavy.\n");
    expect(written.size).toBe(1);
  });

  test.each<[string, string, string | RegExp, Record<string, string>]>([
    ["a.nc:7", "x.svg", "--svg draws an interrupted cut; in a.nc:7 there is none: every hole enters whole.", {}],
    ["a.nc:17", "x.svg", "--svg draws an interrupted cut; a.nc:17 makes no hole.", {}],
    ["a.nc", ".", /^--svg takes the name of a file; .* is a folder\.$/, {}],
    ["a.nc", "a.nc", "--svg takes a file name that ends in .svg; got a.nc.", {}],
    ["a.nc", "", /^--svg takes the name of a file; .* is a folder\.$/, {}],
    ["a.nc", "gone/x.svg", "gone/x.svg cannot be written: there is no folder gone.", {}],
    [
      "a.nc",
      "x.svg",
      "x.svg is there already and is no SVG: it is not overwritten. Give another name.",
      { "/shop/x.svg": "G21 G90\n" },
    ],
  ])("%s to %j is refused: %s", async (target, file, message, files) => {
    const { code, out, err, written } = await draw(target, file, { files: { ...SHOP.files, ...files } });
    expect([code, out, written.size]).toEqual([2, "", 0]);
    const said = err.replace(/^swarfline: /, "").trimEnd();
    if (typeof message === "string") expect(said).toBe(message);
    else expect(said).toMatch(message);
  });

  test.each([
    ["an SVG", '<svg xmlns="http://www.w3.org/2000/svg"/>'],
    ["one with a declaration", '<?xml version="1.0"?>\n<!-- drawn -->\n<svg/>'],
    ["an empty file", ""],
  ])("replaces %s", async (_, old) => {
    const { code, written } = await draw("a.nc:8", "x.SVG", { files: { ...SHOP.files, "/shop/x.SVG": old } });
    expect(code).toBe(0);
    expect(written.get("/shop/x.SVG")).toContain('id="area-curve"');
  });

  test("says why an entry is not known", async () => {
    const bare = PROGRAM.replace("G99 G81 X20. Y50. Z-50.", "G99 G81 X20. Y50. Z#500");
    const { err } = await draw("a.nc:7", "x.svg", { files: { ...SHOP.files, "/shop/a.nc": bare } });
    expect(err).toMatch(
      /^swarfline: --svg draws an interrupted cut; in a\.nc:7 none is known, and of some holes nothing is: .+\.\n$/,
    );
  });

  test("a disk that cannot be written is one sentence", async () => {
    const { code, out, err } = await swarfline(["explain", "a.nc:8", "--svg", "x.svg"], SHOP);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toBe("swarfline: x.svg cannot be written: the disk is read-only.\n");
  });

  test("does not go with --print-setup", async () => {
    const { code, err } = await draw("a.nc", "x.svg", SHOP, "--print-setup");
    expect(code).toBe(2);
    expect(err).toContain("leave out --svg");
  });
});
