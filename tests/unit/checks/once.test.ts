import { expect, test } from "vitest";
import { program, reviewText, SHOP, seen } from "./shop.ts";

const found = (text: string, check: string) => seen(reviewText(text, SHOP)).filter((f) => f.check === check);

test("a word in a loop that is wrong in each turn is one finding with a count", () => {
  const [only, ...more] = found(program("#1=0", "WHILE[#1LT50]DO1", "#1=#1+1", "G4", "END1"), "dialect-rule");
  expect(more).toEqual([]);
  expect(only).toMatchObject({ severity: "error", word: "G4", count: 50 });
  expect(only?.message).toContain("50 times, first here");
});

test("findings of the holes of one place that say the same are one", () => {
  const text = program(
    "#1=0",
    "WHILE[#1LT30]DO1",
    "#1=#1+1",
    "T3 M6",
    "G43 H3 Z50.",
    "G99 G81 X[#1*20] Y0. Z-5. R2. F100. S1000",
    "G80",
    "M6 T4",
    "END1",
  );
  const stands = found(text, "spindle-state");
  expect(stands.map((f) => f.line)).toEqual([8]);
  expect(stands[0]?.message).toContain("So 30 times at this place");
});

test("what differs in its numbers is told for the first three, and counted", () => {
  const text = program("#1=0", "WHILE[#1LT40]DO1", "#1=#1+1", "T#1 M6", "M6", "END1");
  const again = found(text, "tool-not-loaded");
  expect(again.map((f) => /^T\d+/.exec(f.message)?.[0])).toEqual(["T1", "T2", "T3"]);
  expect(again[2]?.message).toContain("So 37 more times at this place, with other numbers.");
});

test("a called pattern keeps what it says of each tool", () => {
  const text = program(
    ...["1", "3", "5"].flatMap((t) => [`T${t} M6`, `G43 H${t} Z50. S500`, "M98 P7"]),
    "M30",
    "O7",
    "G99 G81 X0. Y0. Z-5. R2. F50.",
    "G80",
    "M99",
  );
  const stands = found(text, "spindle-state");
  expect(stands.map((f) => /T\d+/.exec(f.message)?.[0])).toEqual(["T1", "T3", "T5"]);
});

test("more than a thousand findings end in one line, errors first", () => {
  const tools = Array.from({ length: 700 }, (_, i) => `T${3 + (i % 2)} M6\nG99 G81 X${i}. Y0. Z-5. R2. F100.\nG80`);
  const all = seen(reviewText(program("G0 Z50.", ...tools), SHOP));
  expect(all).toHaveLength(1001);
  const [about] = all.filter((f) => f.check === "more-findings");
  expect(about).toMatchObject({ severity: "info", line: 1 });
  expect(about?.message).toContain(`${about?.count} more findings`);
  expect(all.filter((f) => f.severity === "error")).toHaveLength(1000);
});
