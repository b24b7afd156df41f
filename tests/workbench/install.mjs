// The editor and the browser of the workbench, installed once per lock file and kept in the user's cache folder:
// about 700 MB, too large for the main install.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

/** @returns the folder that holds the workbench's node_modules */
export function ensureWorkbench(log = console.error) {
  const lock = readFileSync(join(here, "package-lock.json"));
  const key = createHash("sha256").update(lock).digest("hex").slice(0, 16);
  const cache = process.env.SWARFLINE_CACHE ?? join(homedir(), ".cache", "swarfline");
  const home = join(cache, `workbench-${key}`);
  if (existsSync(join(home, "complete"))) return home;
  log("workbench: installing the editor and the browser (once, about 700 MB) …");
  mkdirSync(cache, { recursive: true });
  const temporary = mkdtempSync(join(cache, "installing-"));
  try {
    for (const file of ["package.json", "package-lock.json"]) cpSync(join(here, file), join(temporary, file));
    const quiet = ["--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"];
    npm(["ci", ...quiet], temporary);
    // The editor's own dependencies are locked by its shrinkwrap. Its post-install is left out: it insists on one Node
    // version and compiles modules that nothing here needs.
    npm(["install", "--omit=dev", ...quiet], join(temporary, "node_modules", "code-server", "lib", "vscode"));
    writeFileSync(join(temporary, "complete"), key);
    rmSync(home, { recursive: true, force: true });
    renameSync(temporary, home);
  } catch (error) {
    rmSync(temporary, { recursive: true, force: true });
    throw error;
  }
  return home;
}

function npm(args, cwd) {
  execFileSync(process.platform === "win32" ? "npm.cmd" : "npm", args, { cwd, stdio: ["ignore", "ignore", "inherit"] });
}
