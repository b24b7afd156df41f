import { describe, expect, test } from "vitest";
import { contributes } from "../../package.json";
import { findSetup } from "../../server/cli/discover.ts";
import { EXTENSIONS, findInputs, oneInput, splitLine } from "../../server/cli/inputs.ts";
import { UsageError } from "../../server/cli/io.ts";
import { absolute, isInside, referred, shown } from "../../server/cli/paths.ts";
import { memoryIo, type World } from "./memory-io.ts";
import { swarfline } from "./swarfline.ts";

const io = (world: Partial<World> & Pick<World, "files">) => memoryIo(world, [], []);
const names = (inputs: readonly { shown: string }[]) => inputs.map((input) => input.shown);

const SHOP: World = {
  cwd: "/shop/parts",
  files: {
    "/shop/parts/b.nc": "",
    "/shop/parts/a.nc": "",
    "/shop/parts/a[1].nc": "",
    "/shop/parts/notes.txt": "",
    "/shop/parts/more/c.TAP": "",
    "/shop/parts/more/node_modules/x.nc": "",
    "/shop/old/d.min": "",
  },
};

describe("arguments", () => {
  test.each([
    [
      ["b.nc", "a.nc"],
      ["b.nc", "a.nc"],
    ],
    [
      ["b.nc", "*.nc"],
      ["b.nc", "a.nc", "a[1].nc"],
    ],
    [["a[1].nc"], ["a[1].nc"]],
    [["/shop/old/d.min"], ["../old/d.min"]],
    [["notes.txt"], ["notes.txt"]],
    [["../old"], ["../old/d.min"]],
    [
      ["-", "a.nc"],
      ["<stdin>", "a.nc"],
    ],
    [["**/*.nc"], ["a.nc", "a[1].nc", "b.nc"]],
  ])("%j names %j", (args, expected) => {
    expect(names(findInputs(args, io(SHOP)))).toEqual(expected);
  });

  test("none is the current folder: every program, no other file, nothing of node_modules", () => {
    const all = names(findInputs([], io({ ...SHOP, files: { ...SHOP.files, "/shop/parts/more/e.ngc": "" } })));
    expect(all).toEqual(["a.nc", "a[1].nc", "b.nc", "more/e.ngc"]);
  });

  test.each([
    [["gone.nc"], "There is no file gone.nc."],
    [["*.xyz"], "Nothing matches *.xyz."],
    [["a.nc", "gone.nc", "lost.nc"], "There is no file gone.nc.\nThere is no file lost.nc."],
    [[""], 'There is no file "".'],
  ])("%j is refused", (args, message) => {
    expect(() => findInputs(args, io(SHOP))).toThrow(new UsageError(message));
  });

  test("an empty folder is refused by name", () => {
    expect(() => findInputs(["."], io({ cwd: "/shop", files: { "/shop/x.txt": "" } }))).toThrow(
      /^The current folder holds no program \(\.nc /,
    );
  });

  test("Windows: backslashes, drives, case", () => {
    const windows = io({
      windows: true,
      cwd: "C:/shop/parts",
      files: { "C:/shop/parts/A.NC": "", "C:/shop/parts/sub/b.nc": "", "D:/old/c.nc": "" },
    });
    expect(names(findInputs(["a.nc"], windows))).toEqual(["a.nc"]);
    expect(names(findInputs([".\\sub\\b.nc"], windows))).toEqual(["sub/b.nc"]);
    expect(names(findInputs(["sub\\*.nc"], windows))).toEqual(["sub/b.nc"]);
    expect(names(findInputs(["D:\\old\\c.nc"], windows))).toEqual(["D:/old/c.nc"]);
  });

  test("FILE:LINE", () => {
    expect(splitLine("a.nc:12", io(SHOP))).toEqual({ file: "a.nc", line: 12 });
    expect(splitLine("a.nc", io(SHOP))).toEqual({ file: "a.nc", line: null });
    expect(splitLine("C:\\x.nc:7", io({ windows: true, cwd: "C:/", files: {} }))).toEqual({
      file: "C:\\x.nc",
      line: 7,
    });
    expect(splitLine("odd:3", io({ cwd: "/", files: { "/odd:3": "" } }))).toEqual({ file: "odd:3", line: null });
  });

  test("explain and trace take one program", () => {
    expect(() => oneInput("*.nc", io(SHOP))).toThrow("Expected one program, *.nc names 3.");
    expect(() => oneInput("more", io(SHOP))).toThrow(UsageError);
  });
});

test("a folder gives the files that the editor opens as programs", () => {
  expect(contributes.languages[0]?.extensions).toEqual(EXTENSIONS.map((extension) => `.${extension}`));
});

describe("discovery of swarfline.yaml", () => {
  const at = (files: readonly string[], program: string, args: readonly string[], cwd: string) => {
    const world = io({ cwd, files: Object.fromEntries([...files, program].map((file) => [file, ""])) });
    const input = findInputs(args, world).find((one) => one.path === program);
    if (input === undefined) throw new Error(`${program} was not found`);
    return findSetup(input, world);
  };

  test("the nearest one wins", () => {
    const files = ["/r/.git/HEAD", "/r/swarfline.yaml", "/r/parts/swarfline.yaml"];
    expect(at(files, "/r/parts/a/x.nc", ["parts/a/x.nc"], "/r")).toBe("/r/parts/swarfline.yaml");
  });

  test("no higher than the repository root", () => {
    const files = ["/r/.git/HEAD", "/swarfline.yaml"];
    expect(at(files, "/r/parts/x.nc", ["x.nc"], "/r/parts")).toBeNull();
    expect(at([...files, "/r/swarfline.yaml"], "/r/parts/x.nc", ["x.nc"], "/r/parts")).toBe("/r/swarfline.yaml");
  });

  test("outside a repository no higher than the given folder", () => {
    const files = ["/s/swarfline.yaml"];
    expect(at(files, "/s/parts/x.nc", ["parts"], "/s")).toBeNull();
    expect(at(files, "/s/parts/x.nc", ["parts/x.nc"], "/s")).toBe("/s/swarfline.yaml");
    expect(at(files, "/s/parts/x.nc", ["x.nc"], "/s/parts")).toBeNull();
  });

  test("a program elsewhere is looked up from its own folder", () => {
    expect(at(["/s/swarfline.yaml"], "/s/parts/x.nc", ["/s/parts/x.nc"], "/home/me")).toBe("/s/swarfline.yaml");
  });
});

test("paths keep forward slashes", () => {
  const windows = { cwd: "C:/shop", windows: true };
  expect(absolute("parts\\a.nc", windows)).toBe("C:/shop/parts/a.nc");
  expect(shown("C:/shop/parts/a.nc", windows)).toBe("parts/a.nc");
  expect(isInside("C:/SHOP/parts/a.nc", "c:/shop", windows)).toBe(true);
  expect(isInside("D:/a.nc", "C:/shop", windows)).toBe(false);
  expect(isInside("/shopping/a.nc", "/shop", { cwd: "/", windows: false })).toBe(false);
  expect(referred("file:///C:/crib%20a.csv", windows)).toBe("C:/crib a.csv");
  expect(referred("tools/crib.csv", windows)).toBe("C:/shop/tools/crib.csv");
});

describe("a file that is no program", () => {
  const files = { "/shop/b.nc": new Uint8Array([0x50, 0x4b, 0, 0, 1, 2, 3]), "/shop/.git/HEAD": "" };

  test("is a check like all others: listed, documented, a rule in SARIF", async () => {
    expect((await swarfline(["checks"], { files })).out).toMatch(
      /^unreadable-file +reading +error +A file that is no program$/m,
    );
    expect((await swarfline(["checks", "unreadable-file"], { files })).out).toContain("What it checks");
    const { out } = await swarfline(["check", "--format", "sarif", "b.nc"], { files });
    const [run] = (
      JSON.parse(out) as { runs: { tool: { driver: { rules: { id: string }[] } }; results: { ruleIndex: number }[] }[] }
    ).runs;
    expect(run?.tool.driver.rules[run.results[0]?.ruleIndex ?? -1]?.id).toBe("unreadable-file");
  });

  test.each([
    ["error", 1],
    ["warning", 0],
    ["off", 0],
  ])("weighs what the setup says: %s", async (level, code) => {
    const setup = `severity: { unreadable-file: ${level} }\n`;
    const world = { files: { ...files, "/shop/swarfline.yaml": setup } };
    const ran = await swarfline(["check", "--format", "json", "b.nc"], world);
    const report = JSON.parse(ran.out) as { files: { findings: { severity: string }[] }[] };
    expect(ran.code).toBe(code);
    expect(report.files[0]?.findings.map((one) => one.severity)).toEqual(level === "off" ? [] : [level]);
  });
});
