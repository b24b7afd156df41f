// `node tests/run.mjs [unit|workbench|bench]`: prepares, runs the parts asked for (all when none is named) and ends with
// the true totals on one line. Plain Node 20 until the pinned Node is there; everything else runs on that one.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { prepare, root, run } from "./prepare.mjs";

const PARTS = ["unit", "workbench", "bench"];
const part = process.argv[2];
const totals = { passed: 0, failed: 0 };

if (part !== undefined && !PARTS.includes(part)) {
  console.error(`Unknown part "${part}": expected ${PARTS.join(", ")}, or nothing for the whole suite.`);
  process.exit(2);
}

const { node, env } = prepare(() => finish(1));

if (part === "bench") {
  if (run(node, ["esbuild.mjs", "--minify"], { env }) !== 0) process.exit(1);
  process.exit(
    run(
      node,
      [
        "--expose-gc",
        "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON",
        "tests/bench/main.ts",
        ...process.argv.slice(3),
      ],
      { env },
    ),
  );
}

if (part !== "workbench") {
  step("types", ["node_modules/typescript/bin/tsc", "--noEmit"]);
  step("lint", ["node_modules/@biomejs/biome/bin/biome", "check", "--error-on-warnings", "."]);
}
step("build", ["esbuild.mjs"]);
if (part !== "workbench") unit();
if (part !== "unit") await workbench();
finish(totals.failed > 0 ? 1 : 0);

/** One tool run, counted as one test. */
function step(name, args) {
  console.log(`\n== ${name}`);
  const failed = run(node, args, { env }) !== 0;
  totals[failed ? "failed" : "passed"]++;
  console.log(failed ? `${name} failed` : `${name} passed`);
}

/** vitest, counted from its own report. A test that did not run has not passed; a file that did not load has failed. */
function unit() {
  console.log("\n== unit");
  const folder = mkdtempSync(join(tmpdir(), "swarfline-"));
  const report = join(folder, "vitest.json");
  const args = ["node_modules/vitest/vitest.mjs", "run", "--reporter=default", "--reporter=json"];
  const code = run(node, [...args, `--outputFile.json=${report}`], { env });
  let counted = 0;
  try {
    const result = JSON.parse(readFileSync(report, "utf8"));
    const broken = result.testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0);
    const failed = result.numTotalTests - result.numPassedTests + broken.length;
    totals.passed += result.numPassedTests;
    totals.failed += failed;
    counted = failed;
  } catch (error) {
    console.error(`vitest left no report: ${error.message}`);
  }
  // vitest also fails for what belongs to no test, such as an unhandled rejection.
  if (code !== 0 && counted === 0) totals.failed++;
  rmSync(folder, { recursive: true, force: true });
}

/** The suite in the real editor prints its result as a last line of JSON: {"passed": n, "failed": n}. */
async function workbench() {
  console.log("\n== workbench");
  let last = "";
  let rest = "";
  const child = spawn(node, ["tests/workbench/run.mjs"], { cwd: root, env, stdio: ["ignore", "pipe", "inherit"] });
  child.stdout.setEncoding("utf8").on("data", (text) => {
    process.stdout.write(text);
    const lines = (rest + text).split(/\r?\n/);
    rest = lines.pop();
    last = lines.findLast((line) => line.startsWith("{")) ?? last;
  });
  const code = await new Promise((resolve) => child.once("close", resolve));
  try {
    const result = JSON.parse(rest.startsWith("{") ? rest : last);
    totals.passed += result.passed;
    totals.failed += result.failed;
    if (code !== 0 && result.failed === 0) totals.failed++;
  } catch {
    console.error(`tests/workbench/run.mjs ended with ${code} and printed no result`);
    totals.failed++;
  }
}

function finish(code) {
  if (code !== 0 && totals.failed === 0) totals.failed = 1;
  console.log(`swarfline: ${totals.passed} passed, ${totals.failed} failed`);
  process.exit(code);
}
