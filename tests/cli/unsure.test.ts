import { expect, test } from "vitest";
import { swarfline } from "./swarfline.ts";

test("a trace tells no number of a mode that differs by the way taken", async () => {
  const program = "G21 G90 G54\nG0 X0 Y0 Z50. S1000 M3\nIF[#500EQ1]GOTO5\nM5\nG20\nN5 G0 X3.\nZ10.\nM3\nG21 X7.\nM30\n";
  const { out } = await swarfline(["trace", "--format", "json", "a.nc"], { files: { "/shop/a.nc": program } });
  const { motions } = JSON.parse(out) as { motions: Readonly<Record<string, unknown>>[] };
  expect(motions.find((m) => m.line === 8)).toMatchObject({ units: null, x: null, z: null });
  expect(motions.find((m) => m.line === 9)).toMatchObject({ units: "mm", x: 7, n: 1000 });
  expect(motions.filter((m) => m.line === 7)).toEqual([]);
});
