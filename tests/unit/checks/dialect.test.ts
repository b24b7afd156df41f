/** Keys of the dialect that checks read, and turning centres in a whole review. */
import { describe, expect, test } from "vitest";
import { approach, program, reviewText, SHOP, seen } from "./shop.ts";

const withDialect = (keys: string): string =>
  SHOP.replace("dialect: generic-mill", `dialect: { inherit: generic-mill, ${keys} }`);
const of = (check: string, text: string, setup: string) =>
  seen(reviewText(text, setup))
    .filter((finding) => finding.check === check)
    .map(({ severity, word, message }) => [severity, word, message]);

const hole = (r: string, z = "-20.") => program(...approach(3, 2500), `G99 G81 X0. Y0. Z${z} R${r} F450.`, "G80");

test("clearanceMin: R must clear the surface by that much", () => {
  const setup = withDialect("clearanceMin: 2");
  expect(of("r-plane-low", hole("1."), setup)).toEqual([
    [
      "warning",
      "R1.",
      "R 1.00 mm (0.039 in) is 1.00 mm (0.039 in) above the surface, less than the 2.00 mm (0.079 in) that the setup wants (`clearanceMin`). Way out: R 2.00 mm (0.079 in) or more.",
    ],
  ]);
  expect(of("r-plane-low", hole("2."), setup)).toEqual([]);
  expect(of("r-plane-low", hole("1."), SHOP)).toEqual([]);
});

test("stockBottom: a deeper tip comes through", () => {
  const bare = (setup: string) => setup.replace(/ {4}stock: .*\n/, "");
  const disc = (keys: string, z: string) => {
    const text = program(...approach(7, 2000), `G99 G81 X0. Y0. Z${z} R2. F180.`, "G80");
    return of("freed-disc", text, bare(keys === "" ? SHOP : withDialect(keys))).length;
  };
  expect([disc("", "-27."), disc("stockBottom: -25", "-27."), disc("stockBottom: -25", "-24.")]).toEqual([0, 1, 0]);
});

describe("a turning centre", () => {
  const setup = SHOP.replace("kind: mill", "kind: turn").replace("    dialect: generic-mill\n", "");
  const text = (speed: string): string =>
    `%\nO0413\nG21 G40 G99\nT0303\n${speed} M3\nG0 X0. Z5. M88\nG4 U3.\nG83 Z-30. R2. F.2\nG80 M9\nG28 U0 W0\nM30\n%\n`;
  const loud = (speed: string) =>
    seen(reviewText(text(speed), setup))
      .filter((finding) => finding.severity !== "info")
      .map(({ check, severity, word }) => [check, severity, word]);

  test("is read as one without a word of it, and its hole is judged by the tool", () => {
    const { review } = reviewText(text("G97 S2500"), setup);
    expect(review.setup.dialect.name).toBe("generic-turn");
    const shape = review.execution.shapes[0];
    expect(shape?.strokes).toMatchObject([{ fromZ: 2, toZ: -30, f: 0.2, n: 2500 }]);
    expect(shape === undefined ? null : review.loads(shape).vc).toBeCloseTo((Math.PI * 10.2 * 2500) / 1000, 6);
    expect(loud("G97 S2500")).toEqual([]);
  });

  test("G96 on the centre is an error", () => {
    expect(loud("G96 S80")).toEqual([["dialect-rule", "error", "G83"]]);
  });
});
