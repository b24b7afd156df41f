// Drives the packed extension as its user would, with mouse and keyboard, and takes the pictures of the README.
import { cpSync, mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { startEditor } from "./editor.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..");

/** @returns {Promise<{passed: number, failed: number, failures: string[]}>} */
export async function takePictures(vsix) {
  const out = join(here, "out");
  mkdirSync(out, { recursive: true });
  const failures = [];
  let passed = 0;
  const editor = await startEditor({ folder: join(root, "examples"), vsix, trust: true, width: 1280, height: 800 });
  const { page } = editor;
  const step = async (name, run) => {
    try {
      await run();
      passed++;
      console.log(`ok   ${name}`);
    } catch (error) {
      failures.push(`${name}: ${error.message}`);
      console.log(`FAIL ${name}: ${error.message}`);
      await page.screenshot({ path: join(out, `failed-${passed + failures.length}.png`) });
    }
  };
  const openFile = async (name) => {
    await page.keyboard.press("Control+p");
    await page.waitForSelector(".quick-input-widget input");
    await page.keyboard.type(name);
    await page.waitForSelector(`.quick-input-list .monaco-list-row:has-text("${name}")`);
    await page.keyboard.press("Enter");
    await page.waitForSelector(`.tab.active:has-text("${name}")`);
  };
  const word = (text) => page.locator(".view-line span", { hasText: text }).last();

  await page.waitForSelector(".explorer-folders-view .monaco-list-row");
  await step("an untrusted workspace is refused nothing: the packed extension finds over-power", async () => {
    const restricted = page.locator(".monaco-dialog-box .monaco-button", { hasText: /No, I don't trust|Browse/ });
    await restricted.first().click({ timeout: 15_000 });
    await openFile("manifold-bore.nc");
    await page.waitForSelector(".squiggly-error");
  });
  await step("the problems panel names value and limit in both systems", async () => {
    await page.keyboard.press("Control+Shift+m");
    await page.waitForSelector(".markers-panel .monaco-list-row");
    const text = await page.locator(".markers-panel").textContent();
    for (const needed of ["kW", "hp", "spindle-power"]) {
      if (!text.includes(needed)) throw new Error(`the panel does not say ${needed}: ${text}`);
    }
    await page.screenshot({ path: join(out, "problems.png") });
    await page.keyboard.press("Control+j");
  });
  await step("the hover of S shows arithmetic and the spindle's envelope", async () => {
    await word("S1500").hover();
    const hover = page.locator(".monaco-hover:visible");
    await hover.locator("img").first().waitFor();
    const text = await hover.textContent();
    for (const needed of ["m/min", "ft/min"]) {
      if (!text.includes(needed)) throw new Error(`the hover does not say ${needed}: ${text}`);
    }
    await page.screenshot({ path: join(out, "hover-speed.png") });
    await page.keyboard.press("Escape");
  });
  await step("the hover of F on an inclined entry tells the allowed feed", async () => {
    await openFile("bracket-incline.nc");
    await page.waitForSelector(".squiggly-error");
    await word("F202").hover();
    const hover = page.locator(".monaco-hover:visible");
    await hover.waitFor();
    const text = await hover.textContent();
    for (const needed of ["mm/rev", "in/rev"]) {
      if (!text.includes(needed)) throw new Error(`the hover does not say ${needed}: ${text}`);
    }
    await page.screenshot({ path: join(out, "hover-entry.png") });
  });
  await editor.close();
  if (process.argv.includes("--keep")) {
    mkdirSync(join(root, "examples", "pictures"), { recursive: true });
    for (const name of ["problems", "hover-speed", "hover-entry"]) {
      cpSync(join(out, `${name}.png`), join(root, "examples", "pictures", `${name}.png`));
    }
  }
  return { passed, failed: failures.length, failures };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const result = await takePictures(join(root, "dist", "swarfline.vsix"));
  process.exit(result.failed === 0 ? 0 : 1);
}
