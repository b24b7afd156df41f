/** Arbitrary text and mutations of the good example: nothing throws, nothing hangs, every range lies in the text. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { completeSetup } from "../../../server/setup/assist/complete.ts";
import { hoverSetup } from "../../../server/setup/assist/hover.ts";
import { printSetup } from "../../../server/setup/print.ts";
import { complete, resolve } from "./complete.ts";

// Many runs each: on a busy machine they take a while.
vi.setConfig({ testTimeout: 60_000 });

function linesOf(text: string): string[] {
  return text.split(/\r\n|\r|\n/);
}

function check(text: string, name = "swarfline.yaml"): void {
  const texts =
    name === "swarfline.yaml"
      ? { [name]: text }
      : { "swarfline.yaml": "programs: [{ files: '**', tools: crib.csv }]", [name]: text };
  const { setup } = resolve(texts);
  const lines = linesOf(text);
  for (const { file, range, message } of setup.problems) {
    if (!file.endsWith(name)) continue;
    expect(message).not.toMatch(/undefined|NaN|\[object/);
    expect(range.line).toBeGreaterThanOrEqual(0);
    expect(range.endLine).toBeLessThan(lines.length);
    expect(range.column).toBeLessThanOrEqual(lines[range.line]?.length ?? -1);
    expect(range.endColumn).toBeLessThanOrEqual(lines[range.endLine]?.length ?? -1);
    expect(range.endLine * 1e6 + range.endColumn).toBeGreaterThanOrEqual(range.line * 1e6 + range.column);
  }
  expect(printSetup(setup)).not.toMatch(/undefined|NaN|\[object/);
}

const syntax = fc.string({
  unit: fc.constantFrom(
    "a",
    "T",
    "3",
    ":",
    " ",
    "  ",
    "\n",
    "- ",
    "{",
    "}",
    "[",
    "]",
    ",",
    '"',
    "'",
    "#",
    "&a",
    "*a",
    "|",
    ">",
    "\t",
    "\r\n",
    "\r",
    "<<",
    "!t",
    "?",
    "%",
    "---\n",
    "\uFEFF",
    "é",
    "machines:\n",
    "tools:",
    "units: inch\n",
  ),
  maxLength: 60,
});

/** The good example with pieces cut out, doubled or overwritten. */
const mutated = fc
  .array(
    fc.record({
      at: fc.nat({ max: complete.length }),
      cut: fc.nat({ max: 30 }),
      put: fc.oneof(fc.constant(""), syntax),
    }),
    { minLength: 1, maxLength: 4 },
  )
  .map((edits) => edits.reduce((text, { at, cut, put }) => text.slice(0, at) + put + text.slice(at + cut), complete));

/** A part in all its forms, with numbers and words of it exchanged. */
const PIECE = /(?<=[ [])-?\d+|(?<=: )[a-z]+[+-]?(?=[ ,])/g;
const part = readFileSync(new URL("./part.txt", import.meta.url), "utf8");
const exchanged = fc
  .array(
    fc.tuple(
      fc.nat({ max: (part.match(PIECE) ?? []).length - 1 }),
      fc.constantFrom(
        "0",
        "-1",
        "90",
        "1e300",
        "-1e300",
        "1e-300",
        ".inf",
        ".nan",
        "1e400",
        "x",
        "z-",
        "none",
        "[]",
        "{}",
        "[0, 0, 1]",
      ),
    ),
    { minLength: 1, maxLength: 3 },
  )
  .map((changes) => {
    const by = new Map(changes);
    let i = 0;
    return part.replace(PIECE, (piece) => by.get(i++) ?? piece);
  });

describe("whatever the text", () => {
  test("parts with other numbers and words", () => {
    expect(resolve({ "swarfline.yaml": part }).setup.problems).toEqual([]);
    fc.assert(
      fc.property(exchanged, (text) => check(text)),
      { numRuns: 300 },
    );
  });
  test("arbitrary strings", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => check(text)),
      { numRuns: 150 },
    );
  });
  test("strings of YAML's own signs", () => {
    fc.assert(
      fc.property(syntax, (text) => check(text)),
      { numRuns: 200 },
    );
  });
  test("mutations of the good example", () => {
    fc.assert(
      fc.property(mutated, (text) => check(text)),
      { numRuns: 200 },
    );
  });
  test("every beginning of the good example", () => {
    for (let end = 0; end < complete.length; end += 41) check(complete.slice(0, end));
  });
  test("tool tables", () => {
    const sheet = fc.string({
      unit: fc.constantFrom(
        "T",
        "DC",
        "windows.P.vc.min",
        "windows",
        "H",
        ".",
        ",",
        ";",
        '"',
        "\n",
        "\r",
        " ",
        "3",
        "x",
        "[in]",
        "\uFEFF",
      ),
      maxLength: 40,
    });
    fc.assert(
      fc.property(sheet, (text) => check(text, "crib.csv")),
      { numRuns: 200 },
    );
  });

  test("line ends make no difference", () => {
    const plain = resolve({ "swarfline.yaml": complete.replace("8 kN", "8 kW") }).setup;
    for (const end of ["\r\n", "\r"]) {
      const other = resolve({ "swarfline.yaml": complete.replace("8 kN", "8 kW").replaceAll("\n", end) }).setup;
      if (end === "\r\n") expect(other.problems).toEqual(plain.problems);
      check(complete.replaceAll("\n", end));
    }
  });

  test.each([
    ["open brackets", "[".repeat(100_000)],
    ["open braces with keys", "{a: ".repeat(50_000)],
    ["dashes", "- ".repeat(50_000)],
    ["question marks", "? ".repeat(50_000)],
    ["a staircase", Array.from({ length: 2000 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
    [
      "aliases of aliases",
      `a: &a0 [x, x]\n${Array.from({ length: 60 }, (_, i) => `b${i}: &a${i + 1} [*a${i}, *a${i}]`).join("\n")}\nmachines: *a60`,
    ],
    ["anchors", "&a ".repeat(20_000)],
    ["quotes", '"'.repeat(30_001)],
    ["one long line", "x".repeat(500_000)],
    ["many keys", Array.from({ length: 5000 }, (_, i) => `k${i}: ${i}`).join("\n")],
    ["many tools", `tools:\n  t:\n${Array.from({ length: 1000 }, (_, i) => `    - { T: ${i}, DC: x }`).join("\n")}`],
    ["merge of itself", "machines: &m\n  <<: *m\n  vmc: {}\n"],
    ["too large", `# ${"x".repeat(2_000_001)}`],
  ])("hostile: %s", (_what, text) => {
    const start = performance.now();
    check(text);
    expect(performance.now() - start).toBeLessThan(15_000);
  });
});

describe("the cursor anywhere", () => {
  test("in arbitrary text and in mutations", () => {
    fc.assert(
      fc.property(fc.oneof(syntax, mutated), fc.nat({ max: 60 }), fc.nat({ max: 90 }), (text, line, column) => {
        const lines = linesOf(text);
        for (const item of completeSetup(text, line, column)) {
          expect(item.label.length).toBeGreaterThan(0);
          expect(item.replace.start).toBeLessThanOrEqual(item.replace.end);
          expect(item.replace.end).toBeLessThanOrEqual(lines[line]?.length ?? -1);
        }
        const hover = hoverSetup(text, line, column);
        if (hover === null) return;
        expect(hover.range.line).toBe(line);
        expect(hover.range.end).toBeLessThanOrEqual(lines[line]?.length ?? -1);
        expect(hover.markdown).not.toMatch(/undefined|NaN|\[object/);
      }),
      { numRuns: 500 },
    );
  });
});
