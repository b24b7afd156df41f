import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { matches } from "../../../server/setup/glob.ts";
import { findSource, relativeTo, resolveBeside } from "../../../server/setup/paths.ts";

describe("file patterns", () => {
  test.each([
    ["*.nc", "a.nc", true],
    ["*.nc", "d/a.nc", false],
    ["d/*.nc", "d/a.nc", true],
    ["**/*.nc", "a.nc", true],
    ["**/*.nc", "d/e/a.nc", true],
    ["d/**", "d/e/a.nc", true],
    ["d/**", "e/a.nc", false],
    ["d/**/a.nc", "d/a.nc", true],
    ["d/**/a.nc", "d/e/f/a.nc", true],
    ["d/**/a.nc", "d/ba.nc", false],
    ["a?.nc", "ab.nc", true],
    ["a?.nc", "a/.nc", false],
    ["{a,b}-*.nc", "b-1.nc", true],
    ["{a,b}-*.nc", "c-1.nc", false],
    ["x.{nc,{tap,mpf}}", "x.mpf", true],
    ["./a.nc", "a.nc", true],
    ["d\\*.nc", "d/a.nc", true],
    ["a.nc", "axnc", false],
    ["[a].nc", "[a].nc", true],
    ["", "", true],
    ["", "a", false],
    ["**", "a/b", true],
    ["../p/*.nc", "../p/a.nc", true],
  ])("%s on %s: %s", (pattern, path, wanted) => {
    expect(matches(pattern, path)).toBe(wanted);
  });

  test("stay fast on patterns of stars", () => {
    const start = performance.now();
    expect(matches("*a".repeat(40), "a".repeat(3000))).toBe(true);
    expect(matches(`${"**/*a".repeat(30)}b`, "a/".repeat(1500))).toBe(false);
    expect(matches("{a,b}".repeat(40), "c")).toBe(false);
    expect(performance.now() - start).toBeLessThan(2000);
  });

  test("agree with the plain meaning of stars, spelt as a regular expression", () => {
    const part = fc.constantFrom("a", "b", "/", "*", "?", "**", "**/");
    fc.assert(
      fc.property(
        fc.array(part, { maxLength: 7 }),
        fc.string({ unit: fc.constantFrom("a", "b", "/"), maxLength: 8 }),
        (parts, path) => {
          const pattern = parts.join("");
          const source = pattern.replace(/\*{2,}\/?|\*|\?/g, (star, at: number) => {
            if (star === "?") return "[^/]";
            if (star === "*") return "[^/]*";
            const folders = star.endsWith("/") && (at === 0 || pattern[at - 1] === "/");
            return folders ? "(?:.*/)?" : `.*${star.endsWith("/") ? "/" : ""}`;
          });
          expect(matches(pattern, path)).toBe(new RegExp(`^(?:${source})$`).test(path));
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("files beside the setup", () => {
  test.each([
    ["/a/b/s.yaml", "t/c.csv", "/a/b/t/c.csv"],
    ["/a/b/s.yaml", "../c.csv", "/a/c.csv"],
    ["s.yaml", "t.csv", "t.csv"],
    ["C:\\x\\s.yaml", "t\\c.csv", "C:\\x\\t\\c.csv"],
    ["C:\\x\\s.yaml", "t/c d.csv", "C:\\x\\t\\c d.csv"],
    ["file:///c%3A/x%20y/s.yaml", "t/c d.csv", "file:///c%3A/x%20y/t/c%20d.csv"],
    ["vfs://gh/x/s.yaml", "../c.csv", "vfs://gh/c.csv"],
    ["file:///x/s.yaml", "/abs/c.csv", "file:///abs/c.csv"],
    ["C:/x/s.yaml", "D:/c.csv", "D:/c.csv"],
    ["untitled:/s.yaml", "c.csv", "untitled:/c.csv"],
  ])("%s names %s", (base, relative, wanted) => {
    expect(resolveBeside(base, relative)).toBe(wanted);
  });

  test("are found however the uri is spelt", () => {
    const sources = new Map([
      ["file:///c%3A/x/My%20crib.csv", "T"],
      ["./a.csv", "A"],
    ]);
    expect(findSource(sources, "file:///C:/x/My crib.csv")?.text).toBe("T");
    expect(findSource(sources, "c:\\x\\My crib.csv")?.text).toBe("T");
    expect(findSource(sources, "a.csv")?.text).toBe("A");
    expect(findSource(sources, "b.csv")).toBeNull();
  });

  test.each([
    ["/a/s.yaml", "/a/p/x.nc", "p/x.nc"],
    ["/a/b/s.yaml", "/a/p/x.nc", "../p/x.nc"],
    ["s.yaml", "p/x.nc", "p/x.nc"],
    ["/a/s.yaml", "-", "-"],
    ["d/s.yaml", "p/x.nc", "../p/x.nc"],
  ])("%s sees %s as %s", (setup, program, wanted) => {
    expect(relativeTo(setup, program).path).toBe(wanted);
  });
});
