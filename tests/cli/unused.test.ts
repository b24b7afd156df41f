/** A fault in a part of the setup weighs on the programs that use the part, and on no other. */
import { expect, test } from "vitest";
import { setupProblems } from "../../server/setup/assist/problems.ts";
import { swarfline } from "./swarfline.ts";

const program = (tool: number) => `%
G21 G17 G90 G94 G54
T${tool} M6
G0 X10. Y20. S1000 M3
G43 H${tool} Z50. M8
G4 P3000
G99 G81 X10. Y20. Z-10. R2. F100.
G80 M9
M30
%
`;

const SETUP = `programs:
  - { files: "mill/*.nc", machine: vmc, tools: crib, workpiece: plate }
  - { files: "big/*.nc", machine: hmc, tools: heavy, workpiece: block }
machines:
  vmc: { spindle: { maxRpm: 8000 }, coolant: { M8: { kind: flood } } }
  hmc: { spindle: { maxRpm: 8000 }, coolant: { M8: { kind: flood } } }
tools:
  crib:
    - { T: 5, family: twist-hss, DC: 10, LU: 90 }
    - { T: 6, family: twist-hss, DC: 12, LU: 90 }
  heavy:
    - { T: 5, family: twist-hss, DC: 10, LU: 90 }
workpieces:
  plate: { material: C45E, hardness: 200 HB }
  block: { material: cast, hardness: 200 HB }
materials:
  cast: { group: K, kc11: 1100, mc: 0.25, hardness: 200 HB, source: "own trial" }
  other: { group: K, kc11: 1100, mc: 0.25, hardness: 200 HB, source: "own trial" }
`;

interface Found {
  readonly check: string;
  readonly severity: string;
  readonly message: string;
}

async function setupFindings(setup: string, ...files: string[]) {
  const world = {
    files: {
      "/shop/.git/HEAD": "",
      "/shop/swarfline.yaml": setup,
      "/shop/mill/a.nc": program(5),
      "/shop/mill/b.nc": program(6),
      "/shop/big/c.nc": program(5),
    },
  };
  const { code, out } = await swarfline(["check", "--format", "json", ...files], world);
  const report = JSON.parse(out) as { files: { program: string; findings: Found[] }[] };
  const found = report.files.flatMap(({ program: name, findings }) =>
    findings
      .filter(({ check }) => check === "setup")
      .map(({ severity, message }) => `${name} ${severity}${message.endsWith("does not use it.") ? " unused" : ""}`),
  );
  return { code, found };
}

// Each row: what is broken, and how it weighs on a program with T5, one with T6, and one on the other machine.
test.each([
  ["  vmc: { spindle: { maxRpm: 8000 }", "  vmc: { spindle: { maxRpm: fast }", "error", "error", "warning unused"],
  [
    "  hmc: { spindle: { maxRpm: 8000 }",
    "  hmc: { spindle: { maxRpm: fast }",
    "warning unused",
    "warning unused",
    "error",
  ],
  ["  hmc: { spindle: { maxRpm: 8000 }", "  hmc: { spindel: {}", "info unused", "info unused", "warning"],
  ["  vmc: {", "  vmc: { axis: {}, axis: {},", "error", "error", "warning unused"],
  ["T: 6, family: twist-hss, DC: 12", "T: 6, family: twist-hss, DC: wide", "warning unused", "error", "warning unused"],
  ["    - { T: 6,", "    - { T: 5, DC: 9, family: spade }\n    - { T: 6,", "error", "warning unused", "warning unused"],
  ["    - { T: 6,", "    - { TT: 6,", "error", "error", "warning unused"],
  [
    "  block: { material: cast, hardness: 200 HB }",
    "  block: { hardness: 200 }",
    "warning unused",
    "warning unused",
    "error",
  ],
  ["  other: { group: K", "  other: { group: Q", "warning unused", "warning unused", "error"],
  ["machine: hmc", "machine: xyz", "warning unused", "warning unused", "error"],
  ["programs:\n", "programs:\n  - 5\n", "error", "error", "error"],
  ['files: "big/*.nc"', "files: { a: 1 }", "error", "error", "error"],
  ["programs:", "units: furlong\nprograms:", "error", "error", "error"],
])("%s → %s", async (from, to, a, b, c) => {
  const setup = SETUP.replace(from, to);
  expect(setup).not.toBe(SETUP);
  for (const [file, wanted] of [
    ["mill/a.nc", a],
    ["mill/b.nc", b],
    ["big/c.nc", c],
  ] as const) {
    const { code, found } = await setupFindings(setup, file);
    expect(found[0]).toBe(`${file} ${wanted}`);
    expect(code).toBe(wanted === "error" ? 1 : 0);
  }
});

test("a rule that cannot be read does not shift the others", async () => {
  const setup = SETUP.replace("programs:\n", "programs:\n  - 5\n").replace("machine: hmc", "machine: xyz");
  expect((await setupFindings(setup, "mill/a.nc")).found).toEqual(["mill/a.nc error", "mill/a.nc warning unused"]);
  expect((await setupFindings(setup, "big/c.nc")).found).toEqual(["big/c.nc error", "big/c.nc error"]);
});

test("a fault that two programs see is told with the one that it stops", async () => {
  const setup = SETUP.replace("  hmc: { spindle: { maxRpm: 8000 }", "  hmc: { spindle: { maxRpm: fast }");
  expect(await setupFindings(setup, "mill/a.nc", "mill/b.nc", "big/c.nc")).toEqual({
    code: 1,
    found: ["big/c.nc error"],
  });
  expect(await setupFindings(setup, "mill")).toEqual({ code: 0, found: ["mill/a.nc warning unused"] });
});

test("the setup file by itself keeps every fault at its weight", () => {
  const setup = SETUP.replace("  hmc: { spindle: { maxRpm: 8000 }", "  hmc: { spindle: { maxRpm: fast }");
  expect(setupProblems("swarfline.yaml", setup).map(({ severity, unused }) => ({ severity, unused }))).toEqual([
    { severity: "error", unused: undefined },
  ]);
});
