/** The built command as a process: what only a process shows. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const cli = join(import.meta.dirname, "../../dist/cli.js");
const GOOD = "%\nO1\nG21 G17 G90 G94\nM30\n%\n";
const BAD = "%\nO1\nG21 G17 G90 G94 X1.2.3\nM30\n%\n";
let folder = "";

beforeAll(() => {
  if (!existsSync(cli)) throw new Error("dist/cli.js is not built: run `npm run build` first");
  folder = mkdtempSync(join(tmpdir(), "swarfline-cli-"));
  writeFileSync(join(folder, "good.nc"), GOOD);
  writeFileSync(join(folder, "bad.nc"), BAD);
  writeFileSync(
    join(folder, "binary.nc"),
    Uint8Array.from({ length: 4096 }, (_, i) => (i * 37) % 256),
  );
  writeFileSync(join(folder, "utf16.nc"), Buffer.from(`\ufeff${GOOD}`, "utf16le"));
  writeFileSync(join(folder, "empty.nc"), "");
  mkdirSync(join(folder, "none"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function swarfline(args: readonly string[], options: { input?: string; env?: NodeJS.ProcessEnv } = {}) {
  const done = spawnSync(process.execPath, [cli, ...args], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1 << 28,
    ...options,
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

test("is an executable script for Node 20", () => {
  expect(readFileSync(cli, "utf8").split("\n", 1)[0]).toBe("#!/usr/bin/env node");
  if (process.platform !== "win32") expect(statSync(cli).mode & 0o777).toBe(0o755);
});

describe("exit codes", () => {
  test.each<readonly [number, readonly string[], RegExp]>([
    [0, ["check", "good.nc"], /^No findings/],
    [1, ["check", "bad.nc"], /bad\.nc/],
    [0, ["check", "--fail-on", "never", "bad.nc"], /bad\.nc/],
    [1, ["check", "binary.nc"], /binary\.nc\n\n {2}1:1 {2}error {2}unreadable-file\n {4}This is no text/],
    [0, ["check", "utf16.nc"], /^No findings/],
    [0, ["explain", "bad.nc"], /No holes/],
    [0, ["trace", "bad.nc"], /^ {2}line {2}motion/m],
    [0, ["checks", "spindle-power"], /^spindle-power\n/],
    [0, ["--version"], /^\d+\.\d+\.\d+\n$/],
    [0, ["help", "check"], /^Usage: swarfline check/],
    [0, ["explain", "--help"], /--svg <file> +write the interrupted cut as a picture/],
    [2, ["check", "gone.nc"], /^swarfline: There is no file gone\.nc\.\n$/],
    [2, ["check", "none"], /^swarfline: none holds no program/],
    [2, ["check", "*.xyz"], /^swarfline: Nothing matches \*\.xyz\.\n$/],
    [
      2,
      ["check", "--setup", "gone.yaml", "good.nc"],
      /^swarfline: The setup gone\.yaml cannot be read: it is not there\.\n$/,
    ],
    [2, ["check", "--setup", "none", "good.nc"], /^swarfline: The setup none cannot be read: it is a folder/],
    [
      2,
      ["check", "--dialect", "martian", "good.nc"],
      /^swarfline: There is no dialect martian\. Known: nist, generic-mill, generic-turn\.\n$/,
    ],
    [2, ["check", "--format", "xml", "good.nc"], /^swarfline: --format takes text, json, sarif; got xml\.\n$/],
    [
      2,
      ["check", "--fail-on", "often", "good.nc"],
      /^swarfline: --fail-on takes error, warning, info, never; got often\.\n$/,
    ],
    [2, ["check", "--from", "1,2", "good.nc"], /^swarfline: --from takes three numbers, as 0,0,50; got 1,2\.\n$/],
    [2, ["check", "--fix", "good.nc"], /^swarfline: There is no option --fix\./],
    [2, ["explain", "--step", "0", "good.nc"], /^swarfline: --step takes a length in mm, 0\.001 or more; got 0\.\n$/],
    [2, ["explain", "good.nc:99"], /^swarfline: good\.nc has 6 lines; there is no line 99\.\n$/],
    [2, ["explain"], /^swarfline: Expected file\[:line\], got nothing\.\n$/],
    [2, ["explain", "binary.nc"], /^swarfline: binary\.nc:1:1: This is no text/],
    [2, ["trace", "*.nc"], /^swarfline: Expected one program, \*\.nc names 5\.\n$/],
    [2, ["dance"], /^swarfline: There is no command dance\.\n$/],
    [
      2,
      ["explain", "--step", "1", "good.nc"],
      /^swarfline: --step sets samples, which --format json shows: add it\.\n$/,
    ],
    [
      2,
      ["check", "--print-setup", "--format", "sarif", "good.nc"],
      /^swarfline: --print-setup takes --format text, json; got sarif/,
    ],
    [2, ["chek"], /^swarfline: There is no command chek\. Did you mean check\?\n$/],
    [2, ["check", "--formt", "json"], /^swarfline: There is no option --formt\. Did you mean --format\?\n$/],
    [2, ["check", "--setup"], /^swarfline: Expected a value after --setup <file>, got none\.\n$/],
    [2, ["explain", "a.nc", "b.nc"], /^swarfline: explain takes 1 argument, got 2\.\n$/],
    [2, ["checks", "spindle-powr"], /^swarfline: There is no check spindle-powr\. Did you mean spindle-power\? /],
    [2, ["checks", "dance"], /^swarfline: There is no check dance\./],
    [2, [], /^Usage: swarfline/],
  ])("%i for %j", (code, args, text) => {
    const ran = swarfline(args);
    expect(ran.code === 2 ? ran.err : ran.out).toMatch(text);
    expect(ran.code).toBe(code);
    expect(ran.out + ran.err).not.toMatch(/^\s+at /m);
  });
});

test("colours are off when piped, whatever the environment wishes", () => {
  const env = { ...process.env, FORCE_COLOR: "1", COLORTERM: "truecolor", CI: "true" };
  const { out } = swarfline(["check", "bad.nc"], { env });
  expect(out).toContain("bad.nc");
  expect(out).not.toContain("\u001b");
});

test("explain --svg writes the file, and replaces only an SVG", () => {
  const chain =
    "%\nG21 G17 G90 G94 G54\n(T5 10. DRILL)\nT5 M6\nG0 X0. Y0. S900 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 Z-20. R2. F150.\nX8.\nG80\nM30\n%\n";
  writeFileSync(join(folder, "chain.nc"), chain);
  const ran = swarfline(["explain", "chain.nc", "--svg", "chain.svg"]);
  expect([ran.code, ran.err]).toEqual([0, ""]);
  expect(ran.out).toMatch(/^ +tip Z mm +in +area +rim +void arc +core +side$/m);
  expect(ran.out).toMatch(/^Wrote chain\.svg: Hole X8\.00 Y0\.00, line 9, class \w+\.$/m);
  expect(readFileSync(join(folder, "chain.svg"), "utf8")).toMatch(/^<svg .*id="engaged".*<\/svg>\n$/s);
  const again = swarfline(["explain", "--format", "json", "chain.nc:9", "--svg", "chain.svg"]);
  expect(again.code).toBe(0);
  expect(JSON.parse(again.out).holes[0].engagement).toMatchObject({ source: "stock", zones: [{ where: "entry" }] });
  writeFileSync(join(folder, "mine.svg"), "not a picture");
  for (const [target, file, why] of [
    ["chain.nc", "mine.svg", /is no SVG: it is not overwritten/],
    ["chain.nc", "none", /none is a folder/],
    ["chain.nc", "chain.nc", /ends in \.svg; got chain\.nc/],
    ["chain.nc:8", "first.svg", /in chain\.nc:8 there is none: every hole enters whole/],
  ] as const) {
    const refused = swarfline(["explain", target, "--svg", file]);
    expect([refused.code, refused.out]).toEqual([2, ""]);
    expect(refused.err).toMatch(why);
  }
  expect(readFileSync(join(folder, "mine.svg"), "utf8")).toBe("not a picture");
  expect(readFileSync(join(folder, "chain.nc"), "utf8")).toBe(chain);
  expect(existsSync(join(folder, "first.svg"))).toBe(false);
});

test("reads standard input", () => {
  const { code, out } = swarfline(["check", "--format", "json", "-"], { input: BAD });
  expect(code).toBe(1);
  const report = JSON.parse(out);
  expect(report.files[0].program).toBe("<stdin>");
  expect(report.files[0].findings[0]).toMatchObject({ file: "<stdin>", line: 3, column: 17 });
});

test("a reader that has seen enough ends it quietly", async () => {
  const long = join(folder, "long.nc");
  writeFileSync(long, `%\nG21 G90 G94\n${"G1 X0. F100.\nX1.\n".repeat(40_000)}M30\n%\n`);
  const child = spawn(process.execPath, [cli, "trace", long], { stdio: ["ignore", "pipe", "pipe"] });
  let err = "";
  child.stderr.setEncoding("utf8").on("data", (text) => {
    err += text;
  });
  child.stdout.once("data", () => child.stdout.destroy());
  const code = await new Promise((resolve) => child.once("close", resolve));
  expect(err).toBe("");
  expect(code).toBe(0);
});

test("large output arrives whole through a pipe", () => {
  const { code, out } = swarfline(["trace", "--format", "json", "-"], {
    input: `%\nG21 G90 G94\n${"G1 X0. F100.\nX1.\n".repeat(5_000)}M30\n%\n`,
  });
  expect(code).toBe(0);
  expect(JSON.parse(out).motions.length).toBeGreaterThan(9_000);
});

test("an internal error is one sentence and exit code 3", () => {
  const broken = join(folder, "broken.cjs");
  writeFileSync(broken, 'JSON.stringify = () => { throw new Error("it broke"); };');
  const args = ["--require", broken, cli, "check", "--format", "json", "good.nc"];
  const done = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
  expect(done.stderr).toMatch(/^swarfline: internal error: it broke\. Please report it.*\n$/);
  expect(done.status).toBe(3);
});

test("an empty file is a program without blocks, not a crash", () => {
  const { code, err } = swarfline(["check", "empty.nc"]);
  expect([0, 1]).toContain(code);
  expect(err).toBe("");
});
