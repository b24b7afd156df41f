/** What goes wrong in Swarfline itself is told and never looks like a pass. */
import { expect, test, vi } from "vitest";
import { swarfline } from "./swarfline.ts";

vi.mock("../../server/checks/run.ts", () => ({
  runChecks: () => {
    throw new Error("broken");
  },
}));

test("a check that breaks down gives a finding and exit code 3", async () => {
  const { code, out, err } = await swarfline(["check", "a.nc"], { files: { "/shop/a.nc": "%\nM30\n%\n" } });
  expect(out).toMatch(/error {2}internal\n {4}Checking failed through a fault in Swarfline/);
  expect(err).toBe("");
  expect(code).toBe(3);
});
