/** The proof must see each way in which blocks written out could drill another hole. */
import { expect, test } from "vitest";
import { disproved } from "../../../server/review/fixes/proof.ts";
import { approach, program, reviewText } from "../checks/shop.ts";
import { interrupted } from "./written-out.ts";

const CYCLE = "G99 G81 X10. Y10. Z-40. R12. F200.";
const NOTE = "(CUT ENTRY INCLINE 30 DEG)";
const BEHIND = ["G80", "(CUT ENTRY FLAT)", "G0 X90.", "Z2.", "G1 Z-10.", "G0 Z50. M9"];
const TEXT = program(...approach(7, 2000), NOTE, CYCLE, ...BEHIND);
const GOOD = ["G99 G0 X10. Y10.", "G0 Z12.", "G1 Z-8.6 F100.", "Z-40. F200.", "G0 Z12."];

function told(texts: readonly string[]): string {
  const { review } = reviewText(TEXT);
  const [finding] = interrupted(review);
  if (finding?.place.in !== "program") throw new Error("no finding");
  const line = TEXT.split("\n").indexOf(CYCLE);
  return disproved(review, finding.check, [{ line, texts }], new Set([review.execution.blocks.blockAt(line)]));
}

test("the right blocks stand", () => {
  expect(told(GOOD)).toBe("");
});

const wrong = (from: string, to: string): string[] => GOOD.map((block) => block.replace(from, to));
test.each([
  ["another depth", wrong("Z-40.", "Z-39.9"), "a hole would not be the same"],
  ["another place", wrong("X10.", "X10.01"), "a hole would not be the same"],
  ["another R", wrong("G0 Z12.", "G0 Z11."), "a hole would not be the same"],
  [
    "a pilot of its own",
    [...GOOD.slice(0, 3), "G0 Z12.", "G0 Z-8.", "G1 Z-40. F200.", "G0 Z12."],
    "peck-style would speak",
  ],
  ["a retract between the feeds", [...GOOD.slice(0, 3), "G0 Z-8.5", ...GOOD.slice(3)], "rapid-into-metal would speak"],
  ["a stop between the feeds", [...GOOD.slice(0, 3), "G4 P500", ...GOOD.slice(3)], "a hole would not be the same"],
  ["another way back", [...GOOD.slice(0, 4), "G0 Z20."], "the tool would go another way"],
  ["a way round", ["G99 G0 X10. Y20.", ...GOOD], "the tool would go another way"],
  ["another speed", ["S2050", ...GOOD], "speed, coolant or another mode would differ in it"],
  ["coolant off", ["M9", ...GOOD], /would speak/],
  ["another mode left", wrong("G99 ", "G98 "), "speed, coolant or another mode would differ in it"],
  ["a feed that rises", wrong("F200.", "F210."), "a feed elsewhere would change"],
  ["a feed left for later holes", [...GOOD.slice(0, 3), "Z-40. F150.", "G0 Z12."], "a feed elsewhere would change"],
  ["a zone that stays too fast", wrong("Z-8.6", "Z3."), "interrupted-feed would still speak"],
  ["the cycle as it was", [CYCLE], "interrupted-feed would still speak"],
  ["no hole at all", ["F200."], "the holes would not be the same"],
])("%s is seen", (_, texts, why) => {
  expect(told(texts)).toMatch(why);
});
