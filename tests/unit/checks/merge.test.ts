/** One word is one cause: what is said of it stands in one finding, the worst first. */
import { expect, test } from "vitest";
import { approach, program, reviewText, seen } from "./shop.ts";

const findings = (check: string, text: string) => {
  const reviewed = reviewText(text);
  return { seen: seen(reviewed).filter((one) => one.check === check), all: reviewed.review.findings };
};

test("an F that is too much over the turn in one hole and within the turn in another is one finding", () => {
  const text = program(...approach(11, 1400), "G81 X0. Y0. Z-60. R25. F120.", "X200. (CUT ENTRY CHAIN PITCH 30.)");
  const [finding, ...more] = findings("spindle-torque", text).seen;
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ severity: "warning", line: 7, word: "F120.", count: 2 });
  expect(finding?.message).toMatch(/^In the interrupted cut the torque peaks at 121\.4 N·m/);
  expect(finding?.message).toContain("Also: over the turn it is 93.4 N·m");
  expect(finding?.message).toMatch(/ 2 holes, first line 7, worst line 8\.$/);
});

test("both ends of a band stand in both unit systems", () => {
  const text = program(...approach(11, 1400), "G81 X0. Y0. Z-60. R2. F150.");
  const [finding] = findings("spindle-torque", text).seen;
  const [, own, foreign] =
    /band ([\d.]+ to [\d.]+) N·m \(([\d.]+ to [\d.]+) ft·lb\)/.exec(finding?.message ?? "") ?? [];
  const ends = (range: string | undefined) => (range ?? "").split(" to ").map(Number);
  const pairs = ends(own).map((end, i) => [end / 1.355818, ends(foreign)[i] ?? 0] as const);
  expect(pairs).toHaveLength(2);
  for (const [expected, told] of pairs) expect(told).toBeCloseTo(expected, 0);
});

test("every note that tells an entry under the F is related, each once", () => {
  const body = ["G81 X0. Y0. Z-40. R12. F200.", "X50.", "X60. (CUT ENTRY EDGE AREA 50 PCT)"];
  const text = program(...approach(7, 2000), "(CUT ENTRY INCLINE 30 DEG)", ...body);
  const related = findings("interrupted-feed", text).all.find((one) => one.check === "interrupted-feed")?.related ?? [];
  const lines = related.map(({ place }) => (place.in === "program" ? place.span.block + 1 : -1));
  expect(lines).toHaveLength(2);
  expect(new Set(lines).size).toBe(2);
});
