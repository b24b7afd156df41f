/** The editor's line scanner against a real YAML parser: same keys, same paths, same places, whatever the layout. */
import { describe, expect, test } from "vitest";
import { isMap, isScalar, isSeq, LineCounter, parse, parseDocument, stringify } from "yaml";
import { scan } from "../../../server/setup/assist/scan.ts";
import { complete } from "./complete.ts";

function keysOf(text: string): string[] {
  const lines = new LineCounter();
  const keys: string[] = [];
  const walk = (node: unknown, path: readonly string[]): void => {
    if (isSeq(node)) for (const item of node.items) walk(item, [...path, "[]"]);
    if (!isMap(node)) return;
    for (const { key, value } of node.items) {
      if (!isScalar(key)) continue;
      const name = String(key.value);
      const { line, col } = lines.linePos(key.range?.[0] ?? 0);
      keys.push(`${line}:${col} ${[...path, name].join(" ")}`);
      walk(value, [...path, name]);
    }
  };
  const document = parseDocument(text, { lineCounter: lines });
  expect(document.errors).toEqual([]);
  walk(document.contents, []);
  return keys;
}

function scanned(text: string): string[] {
  return scan(text, null)
    .tokens.filter((token) => token.kind === "key")
    .map((token) => `${token.line + 1}:${token.start + 1} ${token.path.join(" ")}`);
}

const value: unknown = parse(complete);
const layouts: readonly (readonly [string, string])[] = [
  ["as written", complete],
  ["block", stringify(value, { collectionStyle: "block" })],
  ["block, lists at their key", stringify(value, { collectionStyle: "block", indentSeq: false })],
  ["block, four spaces", stringify(value, { collectionStyle: "block", indent: 4 })],
  ["flow, narrow", stringify(value, { collectionStyle: "flow", lineWidth: 40 })],
  ["flow, wide", stringify(value, { collectionStyle: "flow", lineWidth: 0 })],
  ["quoted", stringify(value, { defaultStringType: "QUOTE_DOUBLE", defaultKeyType: "PLAIN" })],
  [
    "brackets on lines of their own",
    "tools:\n  crib:\n    - {\n        T: 1,\n        windows:\n          [\n            { group: P, vc: [1, 2, 3] },\n            { group: K }\n          ],\n      }\n    - T: 2\n      entry:\n        { heavy: 0.5 }\nunits:\n  mm\n",
  ],
  ["comments", "units: mm # as { drawn\n# machines: { a: b }\nmachines: # all\n  vmc: # one\n    kind: mill # ]\n"],
];

describe("the line scanner finds every key where it stands", () => {
  test.each(layouts)("%s", (_what, text) => {
    expect(scanned(text).sort()).toEqual(keysOf(text).sort());
  });
});
