import { describe, expect, test } from "vitest";
import { CHECKS } from "../../../server/checks/registry.ts";
import { CASES, type Case } from "./cases.ts";
import { approach, program, reviewText, SHOP, seen } from "./shop.ts";

function setupOf(one: Case): string | null {
  if (one.noSetup) return null;
  let setup = SHOP;
  for (const [from, to] of one.shop ?? []) {
    if (!setup.includes(from)) throw new Error(`the shop has no "${from}"`);
    setup = setup.replace(from, to);
  }
  return setup;
}

describe.each([...new Set(CASES.map((one) => one.check))])("%s", (check) => {
  test.each(CASES.filter((one) => one.check === check).map((one) => [one.name, one] as const))("%s", (_, one) => {
    const reviewed = reviewText(one.text, setupOf(one), one.dialect === undefined ? {} : { dialect: one.dialect });
    const found = seen(reviewed).filter((finding) => finding.check === check);
    expect(found.map(({ severity, line, word }) => ({ severity, line, word }))).toEqual(
      one.expect.map(({ severity, line, word }) => ({ severity, line, word })),
    );
    one.expect.forEach((expected, i) => {
      const finding = found[i];
      for (const part of expected.says ?? []) expect(finding?.message).toContain(part);
      for (const part of expected.silentOn ?? []) expect(finding?.message).not.toContain(part);
      if (expected.count !== undefined) expect(finding?.count).toBe(expected.count);
      if (expected.measured !== undefined) expect(finding?.data?.measured).toBeCloseTo(expected.measured, 3);
      if (expected.limit !== undefined) expect(finding?.data?.limit).toBeCloseTo(expected.limit, 3);
      if (expected.unit !== undefined) expect(finding?.data?.unit).toBe(expected.unit);
      expect(finding?.message).not.toMatch(/NaN|undefined|unknown \(|Infinity/);
    });
  });
});

describe("a clean program", () => {
  const clean = program(
    ...approach(2, 1330, "M8"),
    "G99 G81 X0. Y0. Z-1.5 R2. F133.",
    "X20.",
    "G80 M9",
    ...approach(3, 2500),
    "G99 G81 X0. Y0. Z-20. R2. F450.",
    "X20.",
    "G80 M9",
    "G0 Z100. M5",
  );

  test("is silent", () => {
    expect(seen(reviewText(clean))).toEqual([]);
  });

  test("is silent in inches too", () => {
    const inch = clean
      .replace("G21", "G20")
      .replace(
        /([XYZRF])(-?[\d.]+)/g,
        (_, letter: string, value: string) => `${letter}${(Number(value) / 25.4).toFixed(5)}`,
      );
    expect(seen(reviewText(inch))).toEqual([]);
  });
});

test("every check that looks at a program has a case that fires and one that is silent, or is named here", () => {
  // Made by the runner; tests/unit/review shows it.
  const elsewhere = new Set(["internal", "more-findings", "unreadable-file"]);
  const firing = new Set(CASES.filter((one) => one.expect.length > 0).map((one) => one.check));
  expect(CHECKS.map((check) => check.id).filter((id) => !firing.has(id) && !elsewhere.has(id))).toEqual([]);
});
