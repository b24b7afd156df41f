/** What is wrong with a key of the setup stands on the key, what is wrong with a value on the value. */
import { expect, test } from "vitest";
import { swarfline } from "./swarfline.ts";

const PROGRAM = "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S900 M3\nG43 H3 Z50.\nG81 Z-5. R2. F90.\nG80\nM30\n%\n";

// Each row: the setup, where «» mark what must be underlined.
test.each([
  ["severity: { «wlak»: off }\n", /There is no check "wlak"/],
  ["severity:\n  walk: «never»\n", /expected one of error, warning, info, off, got "never"/],
  ["«severty»: { walk: off }\n", /"severty" is no key of a setup; severity\?/],
  [
    "programs:\n  - { files: a.nc, workpiece: b }\nworkpieces:\n  b:\n    entries:\n      - «{ program: a.nc, tool: 9, entry: SKIN }»\n",
    /This entry finds no hole/,
  ],
])("%j", async (marked, message) => {
  const setup = marked.replace(/[«»]/g, "");
  const files = { "/shop/a.nc": PROGRAM, "/shop/swarfline.yaml": setup };
  const { out } = await swarfline(["check", "--format", "json", "a.nc"], { files });
  const report = JSON.parse(out) as {
    files: { findings: { file: string; line: number; column: number; endColumn: number; message: string }[] }[];
  };
  const [finding, ...more] = report.files[0]?.findings.filter(({ file }) => file === "swarfline.yaml") ?? [];
  expect(more).toEqual([]);
  expect(finding?.message).toMatch(message);
  const lines = marked.split("\n");
  const line = lines.findIndex((each) => each.includes("«"));
  const column = lines[line]?.indexOf("«") ?? 0;
  expect(finding).toMatchObject({
    line: line + 1,
    column: column + 1,
    endColumn: (lines[line]?.indexOf("»") ?? 0) - 1 + 1,
  });
});
