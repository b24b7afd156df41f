/** Hardness and strength: the published pairs, and the rule of thumb beside them. */
import { describe, expect, it } from "vitest";
import { parseHardness } from "../../server/setup/hardness.ts";

function brinell(written: string): number {
  const read = parseHardness(written);
  if (typeof read === "string") throw new Error(read);
  return read.hb;
}

describe("hardness", () => {
  it("C109: 285 HB is 141 000 psi (a hardness and tensile comparison table, read)", () => {
    expect(brinell("141 ksi")).toBe(285);
  });

  it.each([
    ["20 HRC", 226],
    ["30 HRC", 286],
    ["40 HRC", 371],
    ["50 HRC", 481],
    ["60 HRC", 654],
    ["302 HV", 286],
    ["513 HV", 481],
  ])("%s is %d HB (from memory of ASTM E140, table 1)", (written, hb) => {
    expect(brinell(written)).toBe(hb);
  });

  it.each([
    // C107, C108: TS = 3.45 HB in MPa, 500 HB in psi, for most steels (Callister, eq. 7.25, read).
    ["690 MPa", 200],
    ["100 ksi", 200],
    ["986.7 MPa", 286],
  ])("%s lies within 5 %% of the rule's %d HB", (written, hb) => {
    expect(Math.abs(brinell(written) / hb - 1)).toBeLessThan(0.05);
  });
});
