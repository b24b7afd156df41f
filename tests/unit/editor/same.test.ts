import fc from "fast-check";
import { expect, test } from "vitest";
import { sameData } from "../../../server/editor/same.ts";

test("two answers are the same exactly when they are written alike", () => {
  const json = fc.jsonValue({ maxDepth: 3 });
  fc.assert(
    fc.property(json, json, (a, b) => {
      const copy: unknown = JSON.parse(JSON.stringify(a));
      expect(sameData(a, copy)).toBe(true);
      expect(sameData(a, b)).toBe(isWrittenAlike(a, b));
    }),
  );
});

test("a missing key is not an undefined one, a list is not a record", () => {
  expect(sameData({ a: undefined }, { b: undefined })).toBe(false);
  expect(sameData([], {})).toBe(false);
  expect(sameData({ a: [1, { b: null }] }, { a: [1, { b: null }] })).toBe(true);
  expect(sameData(null, {})).toBe(false);
});

function isWrittenAlike(a: unknown, b: unknown): boolean {
  const sorted = (value: unknown): unknown =>
    typeof value !== "object" || value === null
      ? value
      : Array.isArray(value)
        ? value.map(sorted)
        : Object.fromEntries(
            Object.entries(value)
              .sort(([x], [y]) => (x < y ? -1 : 1))
              .map(([key, v]) => [key, sorted(v)]),
          );
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}
