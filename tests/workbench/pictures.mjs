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
  /** Rests the mouse on a word of the open program. */
  const pointAt = async (text) => {
    await page.locator(".view-line", { hasText: text }).first().waitFor();
    const at = await page.evaluate((wanted) => {
      for (const line of document.querySelectorAll(".view-line")) {
        const walk = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
        const nodes = [];
        while (walk.nextNode()) nodes.push(walk.currentNode);
        const index = nodes
          .map((n) => n.data)
          .join("")
          .indexOf(wanted);
        if (index < 0) continue;
        let before = 0;
        for (const node of nodes) {
          if (index + 1 < before + node.data.length) {
            const range = document.createRange();
            range.setStart(node, Math.max(0, index - before));
            range.setEnd(node, Math.max(0, index - before) + 1);
            const box = range.getBoundingClientRect();
            return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
          }
          before += node.data.length;
        }
      }
      return null;
    }, text);
    if (at === null) throw new Error(`${text} is not to be seen`);
    await page.mouse.move(at.x - 40, at.y + 60);
    await page.mouse.move(at.x, at.y, { steps: 4 });
  };
  /** The editor and, when it is open, the panel below it, without the frame of the window around them. */
  const picture = async (name, height) => {
    const box = await page.locator(".part.editor").boundingBox();
    await page.screenshot({ path: join(out, `${name}.png`), clip: { x: box.x, y: box.y, width: box.width, height } });
  };
  const hoverText = async () => {
    const hover = page.locator(".monaco-hover:visible .hover-contents").first();
    await hover.waitFor();
    return (await page.locator(".monaco-hover:visible").allTextContents()).join("\n");
  };

  await page.waitForSelector(".explorer-folders-view .monaco-list-row");
  await step("an untrusted workspace is refused nothing: the packed extension finds over-power", async () => {
    await page.waitForSelector('.statusbar-item:has-text("Restricted Mode")');
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
    await picture("problems", 560);
    await page.keyboard.press("Control+j");
  });
  await step("the hover of S shows arithmetic and the spindle's envelope", async () => {
    await pointAt("S1500");
    await page.locator(".monaco-hover:visible img").first().waitFor();
    const text = await hoverText();
    for (const needed of ["m/min", "ft/min"]) {
      if (!text.includes(needed)) throw new Error(`the hover does not say ${needed}: ${text}`);
    }
    await picture("hover-speed", 440);
    await page.keyboard.press("Escape");
  });
  await step("the hover of F on an inclined entry tells the allowed feed", async () => {
    await openFile("bracket-incline.nc");
    await page.waitForSelector(".squiggly-error");
    await pointAt("F202");
    const text = await hoverText();
    for (const needed of ["mm/rev", "in/rev", "allowed"]) {
      if (!text.includes(needed)) throw new Error(`the hover does not say ${needed}: ${text}`);
    }
    await picture("hover-entry", 380);
  });
  await step("the hover of a cycle shows the drill in the metal and the curve over depth", async () => {
    await page.keyboard.press("Escape");
    await openFile("housing-part.nc");
    await page.waitForSelector(".squiggly-error");
    await page.keyboard.press("Control+g");
    await page.waitForSelector(".quick-input-widget input");
    await page.keyboard.type("35:6");
    await page.keyboard.press("Enter");
    // By the keyboard: the mouse would have to find one of many G81.
    await page.keyboard.press("Control+k");
    await page.keyboard.press("Control+i");
    await page.locator(".monaco-hover:visible img").first().waitFor();
    const images = await page.locator(".monaco-hover:visible img").count();
    if (images < 2) throw new Error(`the hover shows ${images} pictures, not the cut and the envelope`);
    const text = await hoverText();
    for (const needed of ["class medium", "inside"]) {
      if (!text.includes(needed)) throw new Error(`the hover does not say ${needed}: ${text}`);
    }
    await page.locator(".monaco-hover:visible img").first().scrollIntoViewIfNeeded();
    await picture("hover-cut", 560);
    await page.keyboard.press("Escape");
  });
  await step("the split feed is offered at its finding and opens as a preview, the program unchanged", async () => {
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+g");
    await page.waitForSelector(".quick-input-widget input");
    await page.keyboard.type("19:32");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Control+.");
    const entry = page.locator(".action-widget .monaco-list-row", { hasText: "long hand" }).first();
    await entry.waitFor();
    await entry.click();
    await page.locator(".part.panel, .part.editor").getByText("Refactor Preview").first().waitFor();
    await page.screenshot({ path: join(out, "split-preview.png") });
  });
  await editor.close();
  if (process.argv.includes("--keep")) {
    mkdirSync(join(root, "examples", "pictures"), { recursive: true });
    for (const name of ["problems", "hover-speed", "hover-entry", "hover-cut"]) {
      cpSync(join(out, `${name}.png`), join(root, "examples", "pictures", `${name}.png`));
    }
  }
  return { passed, failed: failures.length, failures };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const result = await takePictures(join(root, "dist", "swarfline.vsix"));
  process.exit(result.failed === 0 ? 0 : 1);
}
