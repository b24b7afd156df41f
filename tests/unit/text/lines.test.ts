import { describe, expect, test } from "vitest";
import { LineStore, type TextEdit } from "../../../server/text/lines.ts";

const at = (startLine: number, startColumn: number, endLine: number, endColumn: number, text: string): TextEdit => ({
  startLine,
  startColumn,
  endLine,
  endColumn,
  text,
});
const shown = (store: LineStore) =>
  Array.from({ length: store.count }, (_, i) => store.line(i) + JSON.stringify(store.eol(i)));

describe("splitting", () => {
  test.each([
    ["", ['""']],
    ["a", ['a""']],
    ["a\n", ['a"\\n"', '""']],
    ["a\r\nb\rc\n\nd", ['a"\\r\\n"', 'b"\\r"', 'c"\\n"', '"\\n"', 'd""']],
    ["\r\r\n\n\r", ['"\\r"', '"\\r\\n"', '"\\n"', '"\\r"', '""']],
    ["a\u2028b", ['a\u2028b""']],
  ])("%j", (text, lines) => {
    const store = LineStore.from(text);
    expect(shown(store)).toEqual(lines);
    expect(store.text()).toBe(text);
  });
});

describe("edits at line ends", () => {
  test.each<[string, string, TextEdit, string, [number, number, number]]>([
    ["an LF typed behind a lone CR joins it", "a\rb", at(1, 0, 1, 0, "\n"), "a\r\nb", [0, 2, 2]],
    ["deleting what stood between CR and LF joins them", "a\rb\nc", at(1, 0, 1, 1, ""), "a\r\nc", [0, 2, 1]],
    ["a CR typed before an LF joins it", "a\nb", at(0, 1, 0, 1, "\r"), "a\r\nb", [0, 1, 1]],
    ["a text between CR LF goes in front of both", "a\r\nb", at(0, 9, 0, 9, "x"), "ax\r\nb", [0, 1, 1]],
    ["a CR at the end of the last line", "a", at(0, 1, 0, 1, "\r"), "a\r", [0, 1, 2]],
    ["then an LF at the very end", "a\r", at(1, 0, 1, 0, "\n"), "a\r\n", [0, 2, 2]],
    ["lines deleted from start to start", "a\nb\nc\n", at(0, 0, 2, 0, ""), "c\n", [0, 3, 1]],
    ["all deleted", "a\r\nb", at(0, 0, 9, 0, ""), "", [0, 2, 1]],
    ["ends the wrong way round", "abc", at(0, 2, 0, 1, "X"), "aXc", [0, 1, 1]],
    ["places outside the text", "ab", at(7, 3, 9, 9, "c"), "abc", [0, 1, 1]],
    ["negative and broken numbers", "ab", at(-1, Number.NaN, 0, Number.NEGATIVE_INFINITY, "c"), "cab", [0, 1, 1]],
    [
      "a column without end",
      "ab\ncd",
      at(0, Number.POSITIVE_INFINITY, 0, Number.POSITIVE_INFINITY, "!"),
      "ab!\ncd",
      [0, 1, 1],
    ],
  ])("%s", (_, before, edit, after, [line, removed, inserted]) => {
    const store = LineStore.from(before);
    expect(store.edit(edit)).toEqual({ line, removed, inserted });
    expect(store.text()).toBe(after);
    expect(shown(store)).toEqual(shown(LineStore.from(after)));
  });

  test("a large paste and its removal", () => {
    const store = LineStore.from("a\nb");
    const paste = "x\n".repeat(30_000);
    expect(store.edit(at(1, 0, 1, 0, paste))).toEqual({ line: 1, removed: 1, inserted: 30_001 });
    expect(store.text()).toBe(`a\n${paste}b`);
    store.edit(at(1, 0, 30_001, 0, ""));
    expect(shown(store)).toEqual(shown(LineStore.from("a\nb")));
  });

  test("what is outside the text is empty", () => {
    const store = LineStore.from("a\n");
    expect([store.line(5), store.eol(5), store.line(-1), store.eol(-1)]).toEqual(["", "", "", ""]);
  });
});
