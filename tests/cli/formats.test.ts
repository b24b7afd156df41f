/** The output formats of `check`, on findings that are given. */
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/checks/registry.ts";
import { checkJson } from "../../server/cli/formats/json.ts";
import { checkSarif } from "../../server/cli/formats/sarif.ts";
import { checkText } from "../../server/cli/formats/text.ts";
import type { Placed, PublicFinding } from "../../server/cli/public.ts";
import type { CheckResult } from "../../server/cli/result.ts";
import { memoryIo } from "./memory-io.ts";
import { sarifProblems, validSarif } from "./sarif.ts";

const io = memoryIo({ files: { "/shop/.git/HEAD": "" }, cwd: "/shop", width: 72 }, [], []);

const FINDING: PublicFinding = {
  check: "spindle-power",
  severity: "error",
  file: "parts/a b.nc",
  line: 7,
  column: 26,
  endLine: 7,
  endColumn: 31,
  message:
    "The cut takes 18.4 kW (24.7 hp) at 2600 1/min, the spindle gives 13.1 kW (17.6 hp). Feed at most 0.10 mm/rev (0.0039 in/rev).",
  count: 12,
  related: [{ file: "parts/a b.nc", line: 4, column: 13, message: "S2600 is set here" }],
  data: { measured: 18.4, limit: 13.1, unit: "kW" },
};

function placed(change: Partial<PublicFinding> = {}, text = "N70 G81 X30. Y40. Z-30. F600."): Placed {
  return { finding: { ...FINDING, ...change }, text, context: "T7" };
}

function results(...findings: Placed[]): CheckResult[] {
  return [
    {
      program: "parts/a b.nc",
      path: "/shop/parts/a b.nc",
      findings,
      setup: "machine vmc · dialect generic-mill",
      withoutHoles: false,
    },
  ];
}

describe("text", () => {
  test("reads as a page", () => {
    expect(
      checkText(
        [...results(placed()), { program: "b.nc", path: "/shop/b.nc", findings: [], setup: "", withoutHoles: true }],
        io,
      ),
    ).toBe(
      `parts/a b.nc
machine vmc · dialect generic-mill

  7:26  error  spindle-power  ×12
    The cut takes 18.4 kW (24.7 hp) at 2600 1/min, the spindle gives
    13.1 kW (17.6 hp). Feed at most 0.10 mm/rev (0.0039 in/rev).
    │ N70 G81 X30. Y40. Z-30. F600.
    │                          ^^^^
    4:13  S2600 is set here

1 error in 1 of 2 programs
No hole is drilled in b.nc: nothing was checked at the drill.
Estimates with a band. Not checked: collisions, fixtures, clamping, the
machine's own state. The shop's rules decide.
`,
    );
  });

  test("says when there is nothing to say, and still what was not checked", () => {
    expect(checkText(results(), io)).toMatch(/^No findings in 1 program\nEstimates with a band\. Not checked:/);
  });

  test("names the file of a finding in the setup", () => {
    const text = checkText(results(placed({ file: "swarfline.yaml", related: [] }, "  maxRpm: lots")), io);
    expect(text).toContain("  swarfline.yaml:7:26  error  spindle-power");
  });

  test("uses colour only where it is wanted, and the same words", () => {
    const painted = checkText(results(placed()), { ...io, colours: true });
    expect(painted).toContain("\u001b[31m");
    const bare = painted.replaceAll(new RegExp(`${String.fromCharCode(27)}\\[\\d+m`, "g"), "");
    expect(bare).toBe(checkText(results(placed()), io));
  });

  test("a program cannot steer the terminal", () => {
    const evil = placed({ message: "x\u001b[2Jy", column: 1, endColumn: 2 }, "(\u001b]0;owned\u0007)");
    expect(checkText(results(evil), io)).not.toMatch(/[^\P{Cc}\n]/u);
  });
});

test("json is the public form", () => {
  const info = placed({ severity: "info", check: "walk", count: 1, related: [], data: null });
  expect(JSON.parse(checkJson(results(placed(), info)))).toEqual({
    schema: 1,
    files: [{ program: "parts/a b.nc", findings: [FINDING, info.finding] }],
    summary: { errors: 1, warnings: 0, infos: 1, programs: 1 },
  });
});

describe("sarif", () => {
  const sarif = (list: readonly CheckResult[], world = io) => {
    const [run] = validSarif(checkSarif(list, world)).runs;
    if (run === undefined) throw new Error("no run");
    return run;
  };
  const prints = (list: readonly CheckResult[]) =>
    sarif(list).results.map((result) => result.partialFingerprints["swarfline/v1"] ?? "");

  test("the schema is the strict one", () => {
    expect(sarifProblems({ version: "2.1.0", runs: [] })).toEqual([]);
    expect(sarifProblems({ version: "2.1.0", runs: [{ tool: { driver: {} } }] })).not.toEqual([]);
    expect(sarifProblems({ version: "2.1.0", runs: [], surplus: 1 })).not.toEqual([]);
  });

  test("carries place, level, rule and related places", () => {
    const run = sarif(results(placed(), placed({ severity: "info" }), placed({ severity: "warning" })));
    expect(run.columnKind).toBe("utf16CodeUnits");
    expect(run.results.map((result) => result.level)).toEqual(["error", "note", "warning"]);
    const [first] = run.results;
    expect(first?.locations[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: "parts/a%20b.nc", uriBaseId: "%SRCROOT%" },
      region: { startLine: 7, startColumn: 26, endLine: 7, endColumn: 31 },
    });
    expect(first?.relatedLocations).toHaveLength(1);
    for (const result of run.results) expect(run.tool.driver.rules[result.ruleIndex]?.id).toBe(result.ruleId);
  });

  test("every check is a rule with its documentation", () => {
    const ids = sarif(results()).tool.driver.rules.map((rule) => rule.id);
    for (const check of CHECKS) expect(ids).toContain(check.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("addresses are those of the repository wherever the command runs, and absolute outside it", () => {
    const parts = memoryIo({ files: { "/shop/.git/HEAD": "" }, cwd: "/shop/parts" }, [], []);
    const uri = (file: string, world = parts) =>
      sarif(results(placed({ file })), world).results[0]?.locations[0]?.physicalLocation.artifactLocation.uri;
    expect(uri("a b.nc")).toBe("parts/a%20b.nc");
    expect(uri("../ü#1?.nc")).toBe("%C3%BC%231%3F.nc");
    expect(uri("../../else where/x.nc")).toBe("file:///else%20where/x.nc");
    const windows = memoryIo({ files: { "C:/shop/.git/HEAD": "" }, cwd: "C:/shop", windows: true }, [], []);
    expect(uri("parts/a.nc", windows)).toBe("parts/a.nc");
    expect(uri("D:/x y.nc", windows)).toBe("file:///D:/x%20y.nc");
  });

  test("a fingerprint survives moved, renumbered and respaced lines, and nothing else shares it", () => {
    const [print] = prints(results(placed()));
    expect(prints(results(placed({ line: 90, endLine: 90, message: "x" })))).toEqual([print]);
    expect(prints(results(placed({}, "n7g81 x30. y40.z-30. f600. (deep)")))).toEqual([print]);
    const others = prints(
      results(
        placed(),
        placed(),
        placed({ check: "walk" }),
        placed({}, "N70 G81 X30. Y40. Z-30. F500."),
        placed({ file: "b.nc" }),
        { ...placed(), context: "T8" },
        placed({}, "(ONE NOTE)"),
        placed({}, "(OTHER NOTE)"),
      ),
    );
    expect(others[0]).toBe(print);
    expect(new Set(others).size).toBe(others.length);
  });
});
