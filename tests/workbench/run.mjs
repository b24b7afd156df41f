// All tests in the real editor: the suite inside the extension host through @vscode/test-electron's runner, then the
// packed extension driven by mouse and keyboard. Expects a build in dist/. Prints the totals as one line of json last.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { runTests } from "@vscode/test-electron";
import { build } from "esbuild";
import { ensureWorkbench } from "./install.mjs";
import { takePictures } from "./pictures.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..");
const out = join(here, "out");
mkdirSync(out, { recursive: true });
ensureWorkbench();

const suite = join(out, "suite.cjs");
await build({
  entryPoints: [join(here, "suite", "index.ts")],
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["vscode"],
  outfile: suite,
});

// A copy: whatever a test does to a file, the examples stay as they are.
const workspace = join(out, "examples");
rmSync(workspace, { recursive: true, force: true });
cpSync(join(root, "examples"), workspace, { recursive: true });

const resultFile = join(out, "suite-result.json");
rmSync(resultFile, { force: true });
let host = { passed: 0, failed: 1, failures: ["the suite in the extension host did not run to its end"] };
try {
  await runTests({
    vscodeExecutablePath: join(here, "as-desktop.mjs"),
    extensionDevelopmentPath: root,
    extensionTestsPath: suite,
    launchArgs: [workspace],
    extensionTestsEnv: { SWARFLINE_WORKBENCH_RESULT: resultFile },
  });
} catch (error) {
  console.error(String(error));
}
try {
  host = JSON.parse(readFileSync(resultFile, "utf8"));
} catch {
  // The totals above already say that it did not run to its end.
}

const vsce = createRequire(import.meta.url).resolve("@vscode/vsce/vsce");
execFileSync(
  process.execPath,
  [
    vsce,
    "package",
    "--no-dependencies",
    "--no-rewrite-relative-links",
    "--allow-missing-repository",
    "--out",
    join(root, "dist", "swarfline.vsix"),
  ],
  {
    cwd: root,
    stdio: ["ignore", "ignore", "inherit"],
  },
);
const hand = await takePictures(join(root, "dist", "swarfline.vsix"));

const totals = {
  passed: host.passed + hand.passed,
  failed: host.failed + hand.failed,
  failures: [...host.failures, ...hand.failures],
};
console.log(JSON.stringify(totals));
process.exit(totals.failed === 0 ? 0 : 1);
