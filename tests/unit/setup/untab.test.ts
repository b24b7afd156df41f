import { describe, expect, test } from "vitest";
import { untab } from "../../../server/setup/read/untab.ts";

describe("lines indented by tabs", () => {
  test.each([
    ["a sibling", "a:\n    b: 1\n\tc: 2\n    d: 3\n", "a:\n    b: 1\n    c: 2\n    d: 3\n"],
    ["a first child, as its siblings stand", "a:\n\tb: 1\n    c: 2\n", "a:\n    b: 1\n    c: 2\n"],
    [
      "tabs all through",
      "a:\n\tb:\n\t\tc: 1\n\t\td: 2\n\te: 3\nf: 4\n",
      "a:\n  b:\n    c: 1\n    d: 2\n  e: 3\nf: 4\n",
    ],
    ["inside an item of a list", "t:\n  - a: 1\n\tb: 2\n", "t:\n  - a: 1\n    b: 2\n"],
    ["other line ends and comments", "a: # x\r\n\t# y\r\n\tb: 1\r\n", "a: # x\r\n\t# y\r\n  b: 1\r\n"],
  ])("%s", (_, text, expected) => {
    expect(untab(text).text).toBe(expected);
  });

  test("every place of the new text is one of the old", () => {
    const text = "a:\n\tb:\n\t\tc: 1\n\t\tdd: 2\r\nf: 4";
    const read = untab(text);
    for (const word of ["a:", "b:", "c:", "dd:", "2", "f: 4"])
      expect(read.back(read.text.indexOf(word))).toBe(text.indexOf(word));
    expect(read.back(read.text.length)).toBe(text.length);
  });
});
