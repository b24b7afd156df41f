/** The import table: the linter must enforce it, and the sources must keep it. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, posix } from "node:path";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");

/** Room → [imports that are right, imports that are wrong]. */
const PROBES: Record<string, readonly [readonly string[], readonly string[]]> = {
  "server/text/a.ts": [["./lines.ts"], ["../units/wording.ts", "node:fs", "yaml"]],
  "server/units/a.ts": [["./wording.ts"], ["../text/lines.ts", "node:path"]],
  "server/protocol.ts": [[], ["./text/lines.ts", "vscode-languageserver"]],
  "grammar/a.ts": [
    ["./blocks.ts", "../server/text/lines.ts", "chevrotain"],
    ["../server/units/wording.ts", "../server/setup/types.ts", "node:fs"],
  ],
  "server/setup/a.ts": [
    ["./types.ts", "../text/lines.ts", "../units/wording.ts", "../../grammar/entry.ts", "yaml", "papaparse"],
    ["../../grammar/blocks.ts", "../program/types.ts", "../protocol.ts", "node:fs", "zod"],
  ],
  "server/setup/dialects/a.ts": [["../dialect.ts", "../../units/wording.ts"], ["../../program/types.ts"]],
  "server/program/a.ts": [
    ["../setup/types.ts", "../setup/dialects/nist.ts", "../../grammar/blocks.ts", "../text/place.ts"],
    ["../setup/load.ts", "../loads/types.ts", "../mechanics/a.ts", "vscode-uri"],
  ],
  "server/mechanics/a.ts": [
    ["./kinematics.ts", "../units/quantities.ts"],
    ["../setup/types.ts", "../program/types.ts", "../text/lines.ts", "node:os"],
  ],
  "server/loads/a.ts": [
    ["../program/types.ts", "../mechanics/kinematics.ts", "../setup/types.ts", "../../grammar/entry.ts"],
    ["../checks/types.ts", "../review/types.ts", "../setup/load.ts", "../../grammar/blocks.ts"],
  ],
  "server/checks/a.ts": [
    ["../loads/types.ts", "../program/types.ts", "../setup/types.ts", "../units/wording.ts", "../text/place.ts"],
    ["../review/types.ts", "../mechanics/kinematics.ts", "../../grammar/read.ts", "vscode-languageserver"],
  ],
  "server/review/a.ts": [
    ["../checks/registry.ts", "../loads/loads.ts", "../../grammar/read.ts", "../setup/resolve.ts"],
    ["../pictures/envelope.ts", "../editor/server.ts", "../cli/run.ts", "node:fs"],
  ],
  "server/pictures/a.ts": [
    ["../review/types.ts", "../units/wording.ts"],
    ["../review/review.ts", "../checks/registry.ts", "node:fs"],
  ],
  "server/editor/a.ts": [
    ["../review/review.ts", "../pictures/envelope.ts", "../protocol.ts", "vscode-languageserver/node", "node:fs"],
    ["../cli/run.ts", "../mechanics/kinematics.ts", "../program/execute.ts", "vscode"],
  ],
  "server/cli/a.ts": [
    ["../review/review.ts", "../checks/registry.ts", "../report/cautions.ts", "commander", "node:fs"],
    ["../editor/server.ts", "../protocol.ts", "../mechanics/kinematics.ts", "vscode-languageserver"],
  ],
  "server/report/a.ts": [["../review/types.ts"], ["../editor/server.ts", "../protocol.ts"]],
  "client/a.ts": [
    ["../server/protocol.ts", "vscode", "vscode-languageclient/node", "./panels.ts"],
    ["../server/review/types.ts", "../server/units/wording.ts", "../grammar/blocks.ts"],
  ],
};

test("the linter refuses imports outside the table and no others", () => {
  const folder = mkdtempSync(join(tmpdir(), "swarfline-rooms-"));
  try {
    const config = JSON.parse(readFileSync(join(root, "biome.json"), "utf8"));
    writeFileSync(join(folder, "biome.json"), JSON.stringify({ ...config, vcs: { enabled: false } }));
    for (const [file, [right, wrong]] of Object.entries(PROBES)) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), [...right, ...wrong].map((from) => `import "${from}";\n`).join(""));
    }
    const biome = join(root, "node_modules/@biomejs/biome/bin/biome");
    const args = [biome, "lint", "--only=style/noRestrictedImports", "--reporter=json", "--max-diagnostics=none", "."];
    const done = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
    const report = JSON.parse(done.stdout) as {
      diagnostics: { location: { path: string; start: { line: number } } }[];
    };
    const refused = report.diagnostics.map(({ location }) => `${location.path}:${location.start.line}`).sort();
    const expected = Object.entries(PROBES)
      .flatMap(([file, [right, wrong]]) => wrong.map((_, i) => `${file}:${right.length + i + 1}`))
      .sort();
    expect(refused).toEqual(expected);
    expect(done.status).toBe(1);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("every room has a rule", () => {
  const config = JSON.parse(readFileSync(join(root, "biome.json"), "utf8")) as { overrides: { includes: string[] }[] };
  const ruled = config.overrides.flatMap((override) => override.includes);
  const rooms = readdirSync(join(root, "server"), { withFileTypes: true }).map((entry) =>
    entry.isDirectory() ? `server/${entry.name}/**` : `server/${entry.name}`,
  );
  expect([...rooms, "client/**", "grammar/**"].filter((room) => !ruled.includes(room))).toEqual([]);
});

/** The order in which rooms stand: each may look only towards the front of the list. */
const ORDER = ["text", "units", "grammar", "setup", "mechanics", "program", "loads", "checks", "review", "pictures"];

test("no source looks forward in the house, and the core does no I/O", () => {
  const bad: string[] = [];
  for (const top of ["server", "grammar"]) {
    for (const entry of readdirSync(join(root, top), { recursive: true, withFileTypes: true })) {
      if (!entry.name.endsWith(".ts")) continue;
      const file = join(entry.parentPath, entry.name).slice(root.length).replaceAll("\\", "/").replace(/^\//, "");
      const own = ORDER.indexOf(roomOf(file));
      if (own < 0) continue;
      for (const [, from = ""] of readFileSync(join(root, file), "utf8").matchAll(
        /(?:from|import)\s*\(?\s*"([^"]+)"/g,
      )) {
        const target = from.startsWith(".") ? roomOf(posix.join(posix.dirname(file), from)) : from;
        const place = ORDER.indexOf(target);
        if (from.startsWith(".") ? place < 0 || place > own : /^(node:|vscode)/.test(from))
          bad.push(`${file}: ${from}`);
      }
    }
  }
  expect(bad).toEqual([]);
});

function roomOf(file: string): string {
  const [top = "", second = ""] = file.split("/");
  return top === "server" ? second : top;
}
