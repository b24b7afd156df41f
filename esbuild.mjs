// Bundles the extension, the language server and the command line into dist/. `--minify` for the package.
import { chmodSync, existsSync } from "node:fs";
import { build } from "esbuild";

const minify = process.argv.includes("--minify");

/** @type {import("esbuild").BuildOptions} */
const common = {
  bundle: true,
  platform: "node",
  // The oldest editor and the oldest Node that package.json promises.
  target: "node20",
  format: "cjs",
  minify,
  sourcemap: false,
  legalComments: "none",
  logLevel: "warning",
};

const bundles = [
  { entryPoints: ["client/extension.ts"], outfile: "dist/client.js", external: ["vscode"] },
  { entryPoints: ["server/editor/node.ts"], outfile: "dist/server.js" },
  { entryPoints: ["server/cli/main.ts"], outfile: "dist/cli.js", banner: { js: "#!/usr/bin/env node" } },
].filter((bundle) => existsSync(bundle.entryPoints[0]));

await Promise.all(bundles.map((bundle) => build({ ...common, ...bundle })));
if (existsSync("dist/cli.js")) chmodSync("dist/cli.js", 0o755);
