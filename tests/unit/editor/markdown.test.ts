import fc from "fast-check";
import { expect, test } from "vitest";
import { code, plain, soft, table, withoutMarkup } from "../../../server/editor/hover/markdown.ts";

test.each([
  ["T5 31MM DRILL", "T5 31MM DRILL"],
  ["a|b", "a\\|b"],
  ["<b>&", "&lt;b&gt;&amp;"],
  ["[x](http://y)", "\\[x\\]\\(http\\:\\/\\/y\\)"],
  ["one\r\ntwo", "one two"],
  ["`**_", "\\`\\*\\*\\_"],
])("text from a program is escaped: %s", (given, expected) => {
  expect(plain(given)).toBe(expected);
});

test("no text from outside can open markup, end a table cell or break a line", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 40 }), (text) => {
      for (const escaped of [plain(text), soft(text)]) {
        expect(escaped).not.toMatch(/[\r\n\u2028\u2029]/);
        expect(escaped.replace(/\\[\s\S]/g, "")).not.toMatch(/[`*_[\]|<>]/);
      }
    }),
  );
});

test("a code span holds any backticks", () => {
  expect(code("M = D²")).toBe("`M = D²`");
  expect(code("a``b")).toBe("``` a``b ```");
});

test("a table has as many cells in every row as in its head", () => {
  const text = table(
    ["a", "b"],
    [
      ["1", "2"],
      [plain("x|y"), "3"],
    ],
    "lr",
  );
  for (const line of text.split("\n")) expect(line.replace(/\\\|/g, "").split("|")).toHaveLength(4);
  expect(table(["a"], [], "l")).toBe("");
});

test("a client without Markdown reads the same words", () => {
  const markdown =
    "**Feed 0\\.060 mm/rev**\n\n| load | share |\n|:--|--:|\n| Power | **35 %** |\n\n![Envelope](data:image/svg+xml;base64,AAAA)";
  expect(withoutMarkup(markdown)).toBe("Feed 0.060 mm/rev\n\nload | share\n\nPower | 35 %\n\n[Envelope]");
  expect(withoutMarkup(plain("A_B* <x> & (y)"))).toBe("A_B* <x> & (y)");
});
