import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { CAUTIONS } from "../../server/report/cautions.ts";
import { swarfline } from "./swarfline.ts";

const plain = (text: string) => text.replaceAll("**", "").replace(/\s+/g, " ");

test("README and help say what is not checked, in the same words", async () => {
  const readme = plain(readFileSync(join(import.meta.dirname, "../../README.md"), "utf8"));
  for (const caution of CAUTIONS) expect(readme).toContain(caution);
  for (const argv of [["--help"], ["check", "--help"], ["explain", "--help"], ["trace", "--help"]]) {
    const { code, out } = await swarfline(argv, { files: {} });
    expect(code).toBe(0);
    for (const caution of CAUTIONS) expect(plain(out)).toContain(caution);
  }
});
