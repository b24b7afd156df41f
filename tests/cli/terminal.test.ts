import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clean, columns, excerpt, table, wrap } from "../../server/cli/formats/terminal.ts";

test("nothing in a text can steer the terminal", () => {
  expect(clean("a\u001b[31mb\u0007\tc\u202ed\u009b")).toBe("a␛[31mb␇ c·d·");
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      expect(clean(text)).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
    }),
  );
});

describe("wrap", () => {
  test("keeps a number and its unit together", () => {
    expect(wrap("the spindle gives 13.1 kW (17.6 hp) here", 26)).toEqual([
      "the spindle gives 13.1 kW",
      "(17.6 hp) here",
    ]);
    expect(wrap("the spindle gives 13.1 kW", 24)).toEqual(["the spindle gives", "13.1 kW"]);
    expect(wrap("4 holes, first line 9.", 20)).toEqual(["4 holes, first", "line 9."]);
  });

  test("loses no word and keeps to the width, but for words that are longer", () => {
    const word = fc.stringMatching(/^[a-z0-9]{1,12}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1 }), fc.integer({ min: 12, max: 60 }), (words, width) => {
        const lines = wrap(words.join(" "), width);
        expect(lines.join(" ")).toBe(words.join(" "));
        for (const line of lines) if (!/\d \w/.test(line)) expect(columns(line)).toBeLessThanOrEqual(width);
      }),
    );
  });
});

describe("excerpt", () => {
  test("underlines the place", () => {
    expect(excerpt("N10 G81 Z-20. F300.", 14, 19, 80)).toEqual({
      source: "N10 G81 Z-20. F300.",
      caret: `${" ".repeat(14)}^^^^^`,
    });
    expect(excerpt("G81", 3, 3, 80).caret).toBe("   ^");
  });

  test("wide characters and tabs before the place do not move the caret", () => {
    expect(excerpt("(穴) F300.", 4, 9, 80).caret).toBe(`${" ".repeat(5)}^^^^^`);
    expect(excerpt("\tF300.", 1, 6, 80)).toEqual({ source: " F300.", caret: " ^^^^^" });
  });

  test("cuts a long line around the place, never the place itself", () => {
    fc.assert(
      fc.property(
        fc.nat(300),
        fc.integer({ min: 1, max: 8 }),
        fc.nat(300),
        fc.integer({ min: 40, max: 120 }),
        (a, b, c, width) => {
          const { source, caret } = excerpt("a".repeat(a) + "F".repeat(b) + "z".repeat(c), a, a + b, width);
          expect(columns(source)).toBeLessThanOrEqual(width);
          expect(source.slice(caret.indexOf("^"), caret.length)).toBe("F".repeat(b));
          if (a + b + c > width) expect(source).toContain("…");
        },
      ),
    );
  });
});

test("table lines its columns up", () => {
  const rows = [
    ["torque", "9.5", "N·m"],
    ["vc", "120", "m/min"],
  ];
  expect(table(rows, new Set([1]))).toEqual(["torque  9.5  N·m", "vc      120  m/min"]);
});
