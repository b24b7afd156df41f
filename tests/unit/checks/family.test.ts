import { describe, expect, test } from "vitest";
import { FAMILIES, FAMILY_KEYS } from "../../../server/checks/family.ts";
import { CHECKS } from "../../../server/checks/registry.ts";
import { setupProblems } from "../../../server/setup/assist/problems.ts";
import { program, reviewText, SHOP, seen } from "./shop.ts";

const TEXT = program("T3 M6", "G0 X0. Y0.", "G43 H3 Z50. M88", "G4 P3000", "G99 G81 Z-20. R2. F450.", "G80");
const levels = (severity: string): (readonly [string, string])[] =>
  seen(reviewText(TEXT, `${SHOP}severity: ${severity}\n`)).map(({ check, severity }) => [check, severity] as const);

describe("families", () => {
  test("every family has a check, and every check a family", () => {
    expect(new Set(CHECKS.map((check) => check.family))).toEqual(new Set(Object.keys(FAMILIES)));
  });

  test("a family is turned off, or made milder, with one line", () => {
    expect(levels("{}")).toContainEqual(["spindle-state", "error"]);
    expect(levels("{ family:state: off }").map(([check]) => check)).not.toContain("spindle-state");
    expect(levels("{ family:state: info }")).toContainEqual(["spindle-state", "info"]);
  });

  test("the check's own line wins over that of its family", () => {
    expect(levels("{ family:state: off, spindle-state: warning }")).toContainEqual(["spindle-state", "warning"]);
  });

  test("a name that is no family is told, with the nearest", () => {
    const [finding] = seen(reviewText(TEXT, `${SHOP}severity: { family:stat: off }\n`));
    expect(finding?.message).toContain('Is "family:state" meant?');
  });

  test("the setup's own help takes families as keys", () => {
    const checks = [...CHECKS.map((check) => check.id), ...FAMILY_KEYS];
    expect(setupProblems("file:///swarfline.yaml", "severity: { family:place: off }\n", { checks })).toEqual([]);
  });
});
