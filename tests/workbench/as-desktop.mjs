#!/usr/bin/env node
// Takes a desktop editor's arguments and serves them with the workbench, so that the same suite runs through
// @vscode/test-electron here and in a downloaded desktop editor where there is a network.
import { startEditor } from "./editor.mjs";

const option = (name) => process.argv.find((a) => a.startsWith(`--${name}=`))?.slice(name.length + 3);
const folder = process.argv.slice(2).find((a) => !a.startsWith("-"));
const editor = await startEditor({
  folder,
  development: option("extensionDevelopmentPath"),
  tests: option("extensionTestsPath"),
});
const timeout = setTimeout(() => {
  console.error("workbench: no end after 240 s");
  process.exit(1);
}, 240_000);
const code = await editor.exit;
clearTimeout(timeout);
await editor.close();
process.exit(code);
