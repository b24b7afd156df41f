import { describe, expect, test } from "vitest";
import { CHECKS, checkById } from "../../../server/checks/registry.ts";
import { reviewText, SHOP, seen } from "./shop.ts";

/** Checks whose example is no program text: lines of a setup, or none at all. */
const NOT_A_PROGRAM = new Set(["unreadable-file", "setup", "entry-lost", "cannot-check", "internal", "more-findings"]);

/** Examples that say which key of the dialect they need. */
const KEYS = /^\(with (\w+: [\w-]+)\)/;

/** Examples that need another part than the shop's block. */
const BLOCK = "solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }]";
const PARTS: readonly (readonly [string, string])[] = [
  [
    "(with two plates of 20 mm, 5 mm apart)",
    "solids: [{ plates: { x: [-500, 500], y: [-500, 500], top: 0, layers: [{ plate: 20 }, { gap: 5 }, { plate: 20 }] } }]",
  ],
  [
    "(with a cross bore of 13 mm, 25 mm down)",
    `${BLOCK}, voids: [{ crossHole: { along: y, through: [0, 0, -25], diameter: 13 } }]`,
  ],
];

/** The shop, with that key and the check switched on where it is off by default. */
function shopFor(id: string, example: string): string {
  const key = KEYS.exec(example)?.[1];
  const part = PARTS.find(([says]) => example.startsWith(says))?.[1] ?? BLOCK;
  const own = SHOP.replace(BLOCK, part);
  const shop =
    key === undefined ? own : own.replace("dialect: generic-mill", `dialect: { inherit: generic-mill, ${key} }`);
  return checkById(id)?.severity === "off" ? `${shop}severity: { ${id}: info }\n` : shop;
}

test("ids are unique, stable in form and found", () => {
  const ids = CHECKS.map((check) => check.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) {
    expect(id).toMatch(/^[a-z]+\d*(-[a-z]+)*$/);
    expect(checkById(id)?.id).toBe(id);
  }
  expect(checkById("no-such-check")).toBeUndefined();
});

describe.each(CHECKS.map((check) => [check.id, check] as const))("%s", (_, check) => {
  test("has docs", () => {
    const { title, what, why, limits, source } = check.docs;
    for (const text of [title, what, why, limits, source]) expect(text.length).toBeGreaterThan(10);
    expect(title).not.toMatch(/\.$/);
    for (const text of [what, why, limits]) expect(text).toMatch(/\.$/);
  });
});

describe.each(CHECKS.filter((check) => !NOT_A_PROGRAM.has(check.id)).map((check) => [check.id, check] as const))(
  "%s",
  (id, check) => {
    const found = (text: string): string[] =>
      seen(reviewText(text, shopFor(id, check.docs.example))).map((finding) => finding.check);

    test("the example shows it", () => {
      expect(found(check.docs.example)).toContain(id);
    });

    test("the better one does not", () => {
      expect(found(check.docs.better)).not.toContain(id);
    });
  },
);
