// Bundles the extension, the language server and the command line into dist/. `--minify` for the package.
import { chmodSync, existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { build } from "esbuild";

const URL_OF_BUNDLE = 'const bundleUrl = require("node:url").pathToFileURL(__filename).href;';

/** @type {import("esbuild").BuildOptions} */
const common = {
  bundle: true,
  platform: "node",
  // The oldest editor and the oldest Node that package.json promises.
  target: "node20",
  format: "cjs",
  minify: process.argv.includes("--minify"),
  sourcemap: false,
  legalComments: "none",
  // Modules that ask for their own place get the bundle's.
  define: { "import.meta.url": "bundleUrl" },
  banner: { js: URL_OF_BUNDLE },
  metafile: true,
  logLevel: "warning",
};

const bundles = [
  { entryPoints: ["client/extension.ts"], outfile: "dist/client.js", external: ["vscode"] },
  { entryPoints: ["server/editor/node.ts"], outfile: "dist/server.js" },
  {
    entryPoints: ["server/cli/main.ts"],
    outfile: "dist/cli.js",
    banner: { js: `#!/usr/bin/env node\n${URL_OF_BUNDLE}` },
  },
].filter((bundle) => existsSync(bundle.entryPoints[0]));

// esbuild has printed what is wrong by the time it rejects.
const built = await Promise.all(bundles.map((bundle) => build({ ...common, ...bundle }))).catch(() => process.exit(1));
chmodSync("dist/cli.js", 0o755);

// The licences of what went into the bundles travel with them.
const inputs = built.flatMap(({ metafile }) => Object.keys(metafile.inputs));
const packages = new Set(inputs.flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file) ?? []));
const notices = [...packages].sort().map((folder) => {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, "utf8"));
  const text = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
  return `${name} ${version} (${license})\n\n${text === undefined ? "" : readFileSync(`${folder}/${text}`, "utf8").trim()}`;
});
writeFileSync("dist/notices.txt", `${notices.join(`\n\n${"-".repeat(72)}\n\n`)}\n`);
