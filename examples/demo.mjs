// `npm run demo`: installs, builds, checks the example programs, prints the findings and the files it wrote. Exits 0
// when the findings are exactly the ones marked in the programs.
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { prepare, root, run } from "../tests/prepare.mjs";
import { expectedFindings, unlike } from "./expected.mjs";

const { node, env } = prepare();
if (run(node, ["esbuild.mjs"], { env }) !== 0) process.exit(1);

const cli = join(root, "dist", "cli.js");
const programs = readdirSync(join(root, "examples"))
  .filter((name) => name.endsWith(".nc"))
  .sort()
  .map((name) => `examples/${name}`);
const swarfline = (...args) =>
  spawnSync(node, [cli, ...args], { cwd: root, env, encoding: "utf8", maxBuffer: 1 << 28 });

console.log(`\n$ swarfline check examples/*.nc\n`);
spawnSync(node, [cli, "check", ...programs], { cwd: root, env, stdio: "inherit" });

const json = swarfline("check", "--format", "json", ...programs);
const sarif = swarfline("check", "--format", "sarif", ...programs);
if (json.status === null || json.status > 1 || sarif.status === null || sarif.status > 1) {
  console.error(json.stderr, sarif.stderr);
  process.exit(1);
}
const out = join(root, "dist", "demo");
mkdirSync(out, { recursive: true });
writeFileSync(join(out, "findings.json"), json.stdout);
writeFileSync(join(out, "findings.sarif"), sarif.stdout);

let wrong = 0;
for (const { program, findings } of JSON.parse(json.stdout).files) {
  for (const line of unlike(expectedFindings(join(root, program)), findings)) {
    console.error(`${program}: ${line}`);
    wrong++;
  }
}
console.log("\nWritten: dist/demo/findings.json and dist/demo/findings.sarif (for a code-scanning view).");
console.log("All parts, machines, tools and prices in examples/ are invented. Results are estimates with a band;");
console.log("the rules of the shop and the people licensed for the machine decide.");
if (wrong > 0) {
  console.error(`\n${wrong} findings are not as marked in the programs.`);
  process.exit(1);
}
console.log(`\nThe findings of ${programs.length} programs are exactly the ones marked in them.`);
