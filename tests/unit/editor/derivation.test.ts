import { expect, test } from "vitest";
import { bandText, numbersIn, printDerivations } from "../../../server/editor/hover/derivation.ts";
import type { Derivation } from "../../../server/editor/model.ts";

const kc: Derivation = {
  formula: "kienzle-kc",
  title: "specific cutting force",
  expression: "kc = kc1.1 · h^−mc",
  inputs: [
    { symbol: "kc1.1", value: 1650, quantity: "stress", from: "built-in table" },
    { symbol: "h", value: 0.06, quantity: "length", from: "f and the edge angle" },
    { symbol: "mc", value: 0.24, quantity: null, from: "built-in table" },
  ],
  result: { symbol: "kc", value: 3241.5, quantity: "stress" },
  band: null,
  source: "a table, from memory",
  notes: ["below the model's range"],
  steps: [],
};
const torque: Derivation = {
  formula: "kienzle-torque",
  title: "torque at the drill",
  expression: "M = D² · f · kc / 8000",
  inputs: [
    { symbol: "D", value: 26, quantity: "length", from: "swarfline.yaml line 12" },
    { symbol: "f", value: 0.09, quantity: "feedPerRev", from: "F218. in block N40" },
    { symbol: "kc", value: 3241.5, quantity: "stress", from: "below" },
  ],
  result: { symbol: "M", value: 24.65, quantity: "torque" },
  band: { low: 20, nominal: 24.65, high: 32 },
  source: "a book, p. 3",
  notes: ["wear 1.0/1.15/1.3"],
  steps: [kc],
};

test("the numbers stand in the formula in the place of their symbols", () => {
  expect(numbersIn(torque)).toBe("= 26² · 0.09 · 3242 / 8000");
  expect(numbersIn(kc)).toBe("= 1650 · 0.06^−0.24");
});

test.each([
  ["vc = π · D · n / 1000", { D: 10, n: 2000 }, "= π · 10 · 2000 / 1000"],
  ["x = sin(n) · n", { n: 3 }, "= sin(3) · 3"],
  ["x = D1 + D · a_D", { D: 4 }, "= D1 + 4 · a_D"],
  ["x = a · b", { a: 2, b: -5 }, "= 2 · (-5)"],
  ["x = -a", { a: 1234567 }, "= -1234567"],
])("%s", (expression, values, expected) => {
  const inputs = Object.entries(values).map(([symbol, value]) => ({ symbol, value, quantity: null, from: "" }));
  expect(numbersIn({ ...torque, expression, inputs })).toBe(expected);
});

test("a derivation prints formula, numbers, result in both systems, band, provenance, steps, notes and sources", () => {
  const text = printDerivations([torque], "mm").replaceAll("\u00a0", " ");
  for (const part of [
    "**Torque at the drill**: `M = D² · f · kc / 8000`",
    "`= 26² · 0.09 · 3242 / 8000` = **24.6 N·m (18.2 ft·lb)**",
    "band 20.0 to 32.0 N·m (14.8 to 23.6 ft·lb)",
    "| D | 26.00 mm (1.024 in) | swarfline.yaml line 12 |",
    "| f | 0.090 mm/rev (0.0035 in/rev) | F218. in block N40 |",
    "Specific cutting force: `kc = kc1.1 · h^−mc`",
    "Notes: wear 1.0/1.15/1.3; below the model's range.",
    "Source: a book, p. 3; a table, from memory",
  ]) {
    expect(text).toContain(part);
  }
  // An input that is worked out in a step stands there, not among the given values.
  expect(text).not.toMatch(/^\| kc \|/m);
});

test("what two derivations share stands once", () => {
  const power: Derivation = {
    ...torque,
    formula: "power",
    title: "power",
    expression: "P = M · 2",
    inputs: [{ symbol: "M", value: 24.65, quantity: "torque", from: "above" }],
    result: { symbol: "P", value: 49.3, quantity: null },
    steps: [torque],
  };
  const text = printDerivations([power, null, torque], "mm");
  expect(text.match(/D² · f · kc/g)).toHaveLength(1);
  expect(text.match(/^\| D \|/gm)).toHaveLength(1);
  expect(text).not.toMatch(/^\| M \|/m);
});

test("the program's own system comes first", () => {
  expect(printDerivations([torque], "inch")).toContain("**18.2 ft·lb (24.6 N·m)**");
  expect(bandText({ low: 0.1, nominal: 0.2, high: 0.25 }, "feedPerRev", "inch")).toBe(
    "0.0039 to 0.0098 in/rev (0.100 to 0.250 mm/rev)",
  );
});

test("provenance from outside cannot become markup", () => {
  const nasty = { symbol: "D", value: 1, quantity: null, from: "a|b [x](http://y) ![p](z) <img> `c` **d**\n# e" };
  const text = printDerivations([{ ...torque, inputs: [nasty] }], "mm");
  const row = text.split("\n").find((line) => line.startsWith("| D |")) ?? "";
  expect(row.replace(/\\\|/g, "").split("|")).toHaveLength(5);
  expect(row).not.toMatch(/(?<!\\)[[\]`*<#]/);
  expect(row).not.toContain("http:");
});
