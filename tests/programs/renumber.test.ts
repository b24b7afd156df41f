/** N words are names: other numbers, with the words that jump to them, change neither a hole nor a finding. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { publicPlace } from "../../server/review/places.ts";
import { names, reviewed, textOf } from "./programs.ts";
import { numbering, renumbered } from "./renumber.ts";

const MOST = 99_999;
const numbered = names.filter((name) => numbering(textOf(name)).numbers.length > 0);
const jumping = numbered.filter((name) => {
  const { numbers, targets } = numbering(textOf(name));
  return targets.some((target) => numbers.includes(target));
});

/** All that a person sees of a review, numbers of blocks aside. */
function seen(name: string, text: string) {
  const { blocks, made } = reviewed(name, text);
  const { execution, findings } = made;
  return {
    tools: execution.operations.map(({ tool, holeCount }) => [tool, holeCount]),
    holes: Array.from({ length: execution.holeCount }, (_, i) => {
      const { at, shape, block, calls } = execution.hole(i);
      const { kind, startZ, endZ, peck } = shape;
      return [kind, ...at, startZ, endZ, peck, blocks.lineOf(block), ...calls.map((call) => blocks.lineOf(call))];
    }),
    findings: findings.map(({ check, severity, message, place }) => {
      const { line } = publicPlace(place, name, blocks);
      return [check, severity, line, message.replace(/\bN\d+/g, "N…")];
    }),
  };
}

test("a good part of the programs is numbered, and some jump in each of the ways", () => {
  expect(numbered.length).toBeGreaterThanOrEqual(10);
  const jumps = jumping.map(textOf).join("\n");
  for (const way of [/^GOTO \d/m, /\] ?GOTO \d/i, /M97 P\d/, /M98 Q\d/, /M99 P\d/]) expect(jumps).toMatch(way);
});

describe.each(numbered)("%s", (name) => {
  const text = textOf(name);
  const { numbers, targets } = numbering(text);
  const own = [...new Set([...numbers, ...targets])];
  const before = seen(name, text);

  it("drills and tells the same under any other numbers", () => {
    const others = fc.uniqueArray(fc.integer({ min: 1, max: MOST }), { minLength: own.length, maxLength: own.length });
    fc.assert(
      fc.property(others, (drawn) => {
        const other = new Map(own.map((n, i) => [n, drawn[i] ?? 0]));
        const changed = renumbered(text, (n) => other.get(n) ?? 0);
        expect(numbering(changed).numbers).toEqual(numbers.map((n) => other.get(n)));
        expect(seen(name, changed)).toEqual(before);
      }),
      { numRuns: 12 },
    );
  });
});

test.each(jumping)("%s: numbers without the words that name them are another program", (name) => {
  const text = textOf(name);
  expect(
    seen(
      name,
      renumbered(text, (n) => n + MOST, false),
    ),
  ).not.toEqual(seen(name, text));
});
