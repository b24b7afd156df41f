/** Programs that call others, in files of their own or not, and programs with block deletes, as the commands show them. */
import { describe, expect, test } from "vitest";
import type { World } from "./memory-io.ts";
import { swarfline } from "./swarfline.ts";

const HEAD = "O1\nG21 G90 G54 G17\nT1 M6 (8.5 DRILL)\nS900 M3\nG43 H1 Z50. M8\nG99 G81 X10. Y10. Z-12. R2. F120.\n";
const SHOP: World = {
  files: {
    "/shop/swarfline.yaml": 'subprograms: "subs/O*.nc"\n',
    "/shop/a.nc": `${HEAD}M98 P77\nG80\nM9\nM30\n`,
    "/shop/subs/O0077.nc": "O77\nX20.\nM99\n",
    "/shop/b.nc": `${HEAD}/X30.\nG80\nM9\nM30\n`,
  },
  cwd: "/shop",
};

async function json(args: readonly string[]) {
  const { out, code } = await swarfline([...args, "--format", "json"], SHOP);
  return { code, said: JSON.parse(out) };
}

describe("a program in a file of its own", () => {
  test("explain and trace name its file and the calling line", async () => {
    const { said } = await json(["explain", "a.nc"]);
    expect(said.holes[1]).toMatchObject({ file: "subs/O0077.nc", line: 2, calls: [{ file: "a.nc", line: 7 }] });
    const trace = await json(["trace", "a.nc"]);
    const inside = trace.said.motions.filter((m: { calls: unknown[] }) => m.calls.length > 0);
    expect(inside.length).toBeGreaterThan(0);
    for (const motion of inside)
      expect(motion).toMatchObject({ file: "subs/O0077.nc", calls: [{ file: "a.nc", line: 7 }] });
  });

  test("the printed trace names the file of a line that is not the program's", async () => {
    const files = {
      ...SHOP.files,
      "/shop/subs/O0077.nc": "O77\nX20.\nM98 P78\nM99\n",
      "/shop/subs/O0078.nc": "O78\n\nX30.\nM99\n",
    };
    const { out } = await swarfline(["trace", "a.nc"], { ...SHOP, files });
    const rows = out.split("\n").filter((row) => / rapid /.test(row));
    const ends = (line: number) =>
      new Set(
        rows.filter((row) => row.trimStart().startsWith(`${line} `)).map((row) => row.split("M8").at(-1)?.trim()),
      );
    expect(ends(6)).toEqual(new Set([""]));
    expect(ends(2)).toEqual(new Set(["7  (line of subs/O0077.nc)"]));
    expect(ends(3)).toEqual(new Set(["7 > subs/O0077.nc:3  (line of subs/O0078.nc)"]));
  });
});

describe("block delete", () => {
  test("explain and trace list one of the two programs", async () => {
    const off = await json(["explain", "b.nc"]);
    expect([off.said.variant, off.said.holes.length]).toEqual(["delete-off", 2]);
    const on = await json(["explain", "b.nc", "--delete", "on"]);
    expect([on.said.variant, on.said.holes.length]).toEqual(["delete-on", 1]);
    const xs = async (...more: readonly string[]) =>
      (await json(["trace", "b.nc", ...more])).said.motions.map((m: { x: number | null }) => m.x);
    expect(await xs()).toContain(30);
    expect(await xs("--delete", "on")).not.toContain(30);
  });

  test("another word than on or off is refused", async () => {
    const { code, err } = await swarfline(["explain", "b.nc", "--delete", "maybe"], SHOP);
    expect(code).toBe(2);
    expect(err).toContain("--delete takes on, off; got maybe");
  });
});
