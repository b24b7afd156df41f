import { expect, test } from "vitest";
import { createContext } from "../../../server/checks/context.ts";
import { feedCode } from "../../../server/checks/wording.ts";
import { reviewText } from "./shop.ts";

test.each([
  ["generic-mill", "G94", "G95"],
  ["generic-turn", "G98", "G99"],
])("%s writes its feed modes %s and %s", (dialect, perMinute, perRev) => {
  const { review } = reviewText("G0 X1.", null, { dialect });
  const context = createContext(review.execution, review.setup, review.loads);
  expect(feedCode(context, 94)).toBe(perMinute);
  expect(feedCode(context, 95)).toBe(perRev);
});
