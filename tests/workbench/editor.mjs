// A real editor: its server with a web workbench and a Node extension host, and a headless browser on its page.
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ensureWorkbench } from "./install.mjs";

const SETTINGS = {
  "chat.disableAIFeatures": true,
  "workbench.startupEditor": "none",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.tips.enabled": false,
  "files.autoSave": "off",
  "update.mode": "none",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "telemetry.telemetryLevel": "off",
  "window.commandCenter": false,
  "editor.minimap.enabled": false,
  "editor.fontSize": 15,
  "editor.hover.delay": 100,
};

const BROWSER = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * @param {{ folder: string, development?: string, tests?: string, vsix?: string, trust?: boolean,
 *           settings?: Record<string, unknown>, width?: number, height?: number }} options
 *   development: folder of the extension under development; vsix: packed extension to install; tests: test module for
 *   the extension host
 */
export async function startEditor(options) {
  const home = ensureWorkbench();
  const require = createRequire(join(home, "package.json"));
  const editor = join(home, "node_modules", "code-server", "lib", "vscode");
  const data = mkdtempSync(join(tmpdir(), "swarfline-workbench-"));
  for (const scope of ["User", "Machine"]) {
    mkdirSync(join(data, "user", scope), { recursive: true });
    writeFileSync(join(data, "user", scope, "settings.json"), JSON.stringify({ ...SETTINGS, ...options.settings }));
  }
  const main = join(editor, "out", "server-main.js");
  if (options.vsix !== undefined) {
    await finished(
      spawn(
        process.execPath,
        [
          main,
          "--install-extension",
          options.vsix,
          "--force",
          "--server-data-dir",
          data,
          "--extensions-dir",
          join(data, "extensions"),
          "--accept-server-license-terms",
        ],
        { stdio: ["ignore", "pipe", "pipe"] },
      ),
      "installing the packed extension",
    );
  }
  const port = await freePort();
  const server = spawn(
    process.execPath,
    [
      main,
      "--host",
      "127.0.0.1",
      "--port",
      String(port),
      "--without-connection-token",
      "--accept-server-license-terms",
      "--server-data-dir",
      data,
      "--user-data-dir",
      join(data, "user"),
      "--extensions-dir",
      join(data, "extensions"),
      "--telemetry-level",
      "off",
      "--enable-smoke-test-driver",
      ...(options.trust ? [] : ["--disable-workspace-trust"]),
    ],
    { stdio: ["ignore", "pipe", "pipe"] },
  );
  let printed = "";
  await new Promise((resolve, reject) => {
    const watch = (chunk) => {
      printed += chunk;
      if (printed.includes("Extension host agent started")) resolve(undefined);
    };
    server.stdout.on("data", watch);
    server.stderr.on("data", watch);
    server.once("exit", (code) => reject(new Error(`the editor's server ended with ${code}:\n${printed}`)));
  });

  const chromium = (await import(require.resolve("@sparticuz/chromium"))).default;
  const { chromium: driver } = require("playwright-core");
  const browser = await driver.launch({
    executablePath: await chromium.executablePath(),
    args: BROWSER,
    headless: true,
  });
  const page = await browser.newPage({
    viewport: { width: options.width ?? 1400, height: options.height ?? 900 },
    deviceScaleFactor: 1,
  });
  const log = [];
  let exited;
  const exit = new Promise((resolve) => {
    exited = resolve;
  });
  await page.exposeFunction("codeAutomationLog", (type, args) => {
    log.push([type, args]);
    if (options.tests !== undefined) console.log(...(Array.isArray(args) ? args : [args]));
  });
  await page.exposeFunction("codeAutomationExit", (code) => exited(code));

  const remote = (path) => `vscode-remote://127.0.0.1:${port}${path}`;
  const payload = [];
  if (options.development !== undefined) payload.push(["extensionDevelopmentPath", remote(options.development)]);
  if (options.tests !== undefined) payload.push(["extensionTestsPath", remote(options.tests)]);
  const query = `?folder=${encodeURIComponent(options.folder)}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
  await page.goto(`http://127.0.0.1:${port}/${query}`);

  return {
    page,
    exit,
    log,
    data,
    async close() {
      await browser.close();
      server.removeAllListeners("exit");
      server.kill("SIGTERM");
      await new Promise((resolve) => {
        server.once("exit", resolve);
        setTimeout(() => server.kill("SIGKILL"), 5000).unref();
      });
      rmSync(data, { recursive: true, force: true });
    },
  };
}

function finished(child, what) {
  return new Promise((resolve, reject) => {
    let text = "";
    child.stdout.on("data", (chunk) => (text += chunk));
    child.stderr.on("data", (chunk) => (text += chunk));
    child.once("exit", (code) =>
      code === 0 ? resolve(text) : reject(new Error(`${what} ended with ${code}:\n${text}`)),
    );
  });
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}
