import { expect, test } from "vitest";
import { reviewText, seen } from "./shop.ts";

const HEAD = "%\nG21 G90 G94 G54 G17\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\n";
const TAIL = "G80 M9\nG69\nG50\nM30\n%";

test.each([
  ["scaled along the drill", "G51 X0 Y0 Z0 P2.\nG81 X10. Y0. Z-20. R2. F450.", "G51 changes Z", "a factor of 1"],
  ["turned about a line", "G68 X0 Y0 Z0 I1. J0 K0 R9.\nG81 X10. Y0. Z-20. R2. F450.", "line in space", "by hand"],
  ["an angle that only the machine knows", "G68 X0 Y0\nG81 X10. Y0. Z-20. R2. F450.", "has no R", "R in its block"],
  ["a factor that only the machine knows", "G51 X0 Y0\nG0 X10.", "no P, I, J or K", "P, or I, J and K, in its block"],
  ["a centre that nobody knows", "G91 G28 X0 Y0\nG90 G68 R30.", "where the tool stands", "the centre in its block"],
])("%s: not checked, with the way out", (_, text, why, out) => {
  const messages = seen(reviewText(`${HEAD}${text}\n${TAIL}`))
    .filter((finding) => finding.check === "cannot-check")
    .map((finding) => finding.message);
  const told = messages.find((message) => message.includes(why));
  expect(told).toBeDefined();
  expect(told?.split("Way out:")[1]).toContain(out);
});

test("a hole turned by G68 is reviewed like any other", () => {
  const plain = seen(reviewText(`${HEAD}G81 X10. Y0. Z-20. R2. F2450.\n${TAIL}`));
  const turned = seen(reviewText(`${HEAD}G68 X0 Y0 R30.\nG81 X10. Y0. Z-20. R2. F2450.\n${TAIL}`));
  expect(turned.map((finding) => finding.message)).toEqual(plain.map((finding) => finding.message));
  expect(plain.length).toBeGreaterThan(0);
});
