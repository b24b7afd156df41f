import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { expectedFindings, unlike } from "../../examples/expected.mjs";

const root = join(import.meta.dirname, "..", "..");
const programs = readdirSync(join(root, "examples")).filter((name) => name.endsWith(".nc"));

function check(program: string): { files: { findings: { check: string; severity: string; line: number }[] }[] } {
  const run = spawnSync(process.execPath, [join(root, "dist", "cli.js"), "check", "--format", "json", program], {
    cwd: join(root, "examples"),
    encoding: "utf8",
  });
  expect(run.stderr).toBe("");
  return JSON.parse(run.stdout);
}

describe("example programs", () => {
  it("are at least eight, some silent and some not", () => {
    expect(programs.length).toBeGreaterThanOrEqual(8);
    const marked = programs.filter((name) => expectedFindings(join(root, "examples", name)).length > 0);
    expect(marked.length).toBeGreaterThanOrEqual(4);
    expect(programs.length - marked.length).toBeGreaterThanOrEqual(2);
  });

  it.each(programs)("%s has exactly the findings marked in it", (name) => {
    const findings = check(name).files[0]?.findings ?? [];
    expect(unlike(expectedFindings(join(root, "examples", name)), findings)).toEqual([]);
  });

  it.each([
    ["cut-pad", 19],
    ["cut-rib", 25],
    ["cut-gallery", 35],
    ["cut-chain", 38],
  ])("the picture %s is what explain draws of line %i", (picture, line) => {
    const folder = mkdtempSync(join(tmpdir(), "swarfline-"));
    const file = join(folder, "cut.svg");
    const run = spawnSync(
      process.execPath,
      [join(root, "dist", "cli.js"), "explain", `housing-part.nc:${line}`, "--svg", file],
      { cwd: join(root, "examples"), encoding: "utf8" },
    );
    expect(run.status).toBe(0);
    expect(readFileSync(file, "utf8")).toBe(readFileSync(join(root, "examples", "pictures", `${picture}.svg`), "utf8"));
    rmSync(folder, { recursive: true });
  });

  it("say that they are invented", () => {
    for (const name of programs)
      expect(readFileSync(join(root, "examples", name), "latin1")).toContain("INVENTED PART");
    expect(readFileSync(join(root, "examples", "swarfline.yaml"), "utf8")).toContain("invented");
  });
});
