import { describe, expect, test } from "vitest";
import { type SlowZone, stepsOf } from "../../../server/review/fixes/steps.ts";

const zone = (where: SlowZone["where"], fromZ: number, toZ: number, allowed = 0.05): SlowZone => ({
  where,
  fromZ,
  toZ,
  allowed,
});
const steps = (zones: SlowZone[], fromZ = 12, toZ = -40): string =>
  stepsOf(fromZ, toZ, 0.1, zones, 0.1)
    .map((step) => `${step.f ?? "-"} to ${step.toZ.toFixed(2)}`)
    .join(", ");

describe("feeds of a stroke", () => {
  test.each([
    ["none without a zone", [], "- to -40.00"],
    ["an entry is slow from the beginning", [zone("entry", 8, -8.51)], "0.05 to -8.60, - to -40.00"],
    ["an end on the grid stays", [zone("entry", 8, -8.6)], "0.05 to -8.60, - to -40.00"],
    ["inside: before, in it, after", [zone("inside", -10.02, -20.02)], "- to -10.00, 0.05 to -20.10, - to -40.00"],
    ["an exit lasts to the end", [zone("exit", -30, -40)], "- to -30.00, 0.05 to -40.00"],
    ["a rest under a millimetre is not worth a block", [zone("inside", -10, -39.5)], "- to -10.00, 0.05 to -40.00"],
    ["nor is one above", [zone("inside", 11.5, -9)], "0.05 to -9.00, - to -40.00"],
    ["zones that touch are one", [zone("entry", 8, -9), zone("inside", -9, -20)], "0.05 to -20.00, - to -40.00"],
    [
      "the slower feed rules where zones overlap",
      [zone("entry", 8, -20), zone("inside", -10, -15, 0.03)],
      "0.05 to -10.00, 0.03 to -15.00, 0.05 to -20.00, - to -40.00",
    ],
    ["a zone that allows the feed changes nothing", [zone("entry", 8, -9, 0.1)], "- to -40.00"],
    ["a zone below the stroke changes nothing", [zone("exit", -50, -60)], "- to -40.00"],
  ])("%s", (_, zones, expected) => {
    expect(steps(zones)).toBe(expected);
  });
});
