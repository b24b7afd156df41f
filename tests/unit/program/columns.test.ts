import fc from "fast-check";
import { expect, test } from "vitest";
import { SparseColumn } from "../../../server/program/columns.ts";

const value = fc.constantFrom(0, -0, 1, 2.5, Number.NaN);

function column(values: readonly number[]): SparseColumn {
  const made = new SparseColumn();
  for (const each of values) made.push(each);
  return made;
}

test("a sparse column gives back what went in, also where it was taken over from another", () => {
  fc.assert(
    fc.property(
      fc.array(value),
      fc.array(value),
      fc.nat(20),
      fc.nat(20),
      fc.array(value),
      (own, other, a, b, after) => {
        const [from, to] = [Math.min(a, b, other.length), Math.min(Math.max(a, b), other.length)];
        const made = column(own);
        made.append(column(other), from, to);
        for (const each of after) made.push(each);
        const expected = [...own, ...other.slice(from, to), ...after];
        expect(made.length).toBe(expected.length);
        for (const [i, each] of expected.entries()) expect(made.at(i)).toBe(each);
        expect([made.at(-1), made.at(expected.length)]).toEqual([Number.NaN, Number.NaN]);
      },
    ),
  );
});
