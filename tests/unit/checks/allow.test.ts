import { expect, test } from "vitest";
import { approach, program, reviewText, seen } from "./shop.ts";

const over = (note: string, ...more: string[]): string =>
  program(...approach(3, 2500), note, "G81 X0. Y0. Z-20. R2. F800.", "G80", ...more);
const feedWindow = (text: string) => seen(reviewText(text)).filter((finding) => finding.check === "feed-window");

test("an allowance turns the finding into information and keeps its reason in sight", () => {
  const [finding] = feedWindow(over("(CUT ALLOW FEED-WINDOW UP TO 0.32 BY AB BECAUSE TRIAL OK)"));
  expect(finding?.severity).toBe("info");
  expect(finding?.message).toContain("Allowed up to 0.32 by AB: TRIAL OK.");
});

test("it can be told as the word that was agreed", () => {
  expect(feedWindow(over("(CUT ALLOW FEED-WINDOW UP TO F800. BY AB BECAUSE TRIAL OK)"))[0]?.severity).toBe("info");
});

test("it is void, and says so, when the value has grown past it", () => {
  for (const upTo of ["0.3", "F790."]) {
    const [finding] = feedWindow(over(`(CUT ALLOW FEED-WINDOW UP TO ${upTo} BY AB BECAUSE TRIAL OK)`));
    expect(finding?.severity).toBe("warning");
    expect(finding?.message).toContain(`The allowance of AB ends at ${upTo} and is void.`);
  }
});

test("it counts for the operation that follows only", () => {
  const second = [...approach(4, 3200, "M8"), "G81 X9. Y0. Z-12. R2. F960."];
  const text = over("(CUT ALLOW FEED-WINDOW UP TO 0.32 BY AB BECAUSE TRIAL OK)", ...second);
  expect(feedWindow(text).map((finding) => finding.severity)).toEqual(["info", "warning"]);
});

test("before the first tool change it counts for the program", () => {
  const text = program(
    "(CUT ALLOW FEED-WINDOW UP TO 0.32 BY AB BECAUSE TRIAL OK)",
    ...approach(3, 2500),
    "G81 X0. Y0. Z-20. R2. F800.",
    "G80",
    ...approach(4, 3200, "M8"),
    "G81 X9. Y0. Z-12. R2. F960.",
  );
  expect(feedWindow(text).map((finding) => finding.severity)).toEqual(["info", "info"]);
});

test("one for a check that does not exist is told", () => {
  const found = seen(reviewText(over("(CUT ALLOW FEED-WINDW UP TO 0.32 BY AB BECAUSE TRIAL OK)")));
  expect(found.filter((finding) => finding.check === "cut-note")[0]?.message).toContain("feed-windw");
});
