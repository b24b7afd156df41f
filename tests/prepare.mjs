// Makes a fresh clone ready: dependencies as locked, and the pinned Node that the tool chain needs. Plain Node 20, no
// dependencies, because nothing is installed yet when it runs.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));

const windows = process.platform === "win32";
const read = (file) => JSON.parse(readFileSync(join(root, file), "utf8"));

/** Runs a command to its end with its output on our own; returns its exit code. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: root, stdio: "inherit", ...options });
  if (done.error !== undefined) console.error(`${command}: ${done.error.message}`);
  return done.status ?? 1;
}

/** True when node_modules holds what package-lock.json says (packages for other platforms may be missing). */
function installed() {
  if (!existsSync(join(root, "node_modules/.package-lock.json"))) return false;
  const held = read("node_modules/.package-lock.json").packages;
  return Object.entries(read("package-lock.json").packages).every(
    ([path, wanted]) => path === "" || wanted.optional === true || held[path]?.version === wanted.version,
  );
}

/**
 * @param {() => never} otherwise what to do when it cannot be made ready, after one sentence has said why
 * @returns {{ node: string, env: NodeJS.ProcessEnv }} the pinned Node, and an environment that finds it and the tools first
 */
export function prepare(otherwise = () => process.exit(1)) {
  if (!installed()) {
    console.log("Installing the locked dependencies (npm ci) ...");
    const npm = ["ci", "--no-audit", "--no-fund", "--loglevel=error"];
    if (run("npm", npm, { shell: windows }) !== 0) {
      console.error("npm ci failed; see its messages above.");
      return otherwise();
    }
  }
  const wanted = read("package.json").devDependencies.node;
  const node = join(root, "node_modules/node/bin", windows ? "node.exe" : "node");
  const found = existsSync(node)
    ? spawnSync(node, ["--version"], { encoding: "utf8" }).stdout?.trim() || "a file that does not run"
    : "nothing at node_modules/node/bin";
  if (found !== `v${wanted}`) {
    console.error(
      `The tool chain needs its own Node ${wanted}, found ${found}. The install script of the package \`node\` puts it ` +
        "there: was the install done with --ignore-scripts, or with ignore-scripts in an .npmrc? Run " +
        "`npm ci --ignore-scripts=false`.",
    );
    return otherwise();
  }
  const path = join(root, "node_modules/.bin") + delimiter + (process.env.PATH ?? "");
  return { node, env: { ...process.env, PATH: path } };
}
