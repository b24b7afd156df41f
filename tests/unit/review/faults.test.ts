import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { approach, program, reviewText, seen } from "../checks/shop.ts";

const broken = vi.hoisted(() => ({ execute: false, loads: false, oneHole: false, setup: 0 }));

vi.mock("../../../server/program/execute.ts", async (load) => {
  const real = await load<typeof import("../../../server/program/execute.ts")>();
  return {
    ...real,
    execute: (...args: Parameters<typeof real.execute>) => {
      if (broken.execute) throw new Error("secret detail");
      return real.execute(...args);
    },
  };
});

vi.mock("../../../server/loads/loads.ts", async (load) => {
  const real = await load<typeof import("../../../server/loads/loads.ts")>();
  return {
    ...real,
    createLoads: (...args: Parameters<typeof real.createLoads>) => {
      if (broken.loads) throw new Error("secret detail");
      const loads = real.createLoads(...args);
      return (shape: Parameters<typeof loads>[0]) => {
        if (broken.oneHole && shape.tool === 3) throw new Error("secret detail");
        return loads(shape);
      };
    },
  };
});

vi.mock("../../../server/setup/resolve.ts", async (load) => {
  const real = await load<typeof import("../../../server/setup/resolve.ts")>();
  return {
    ...real,
    resolveSetup: (...args: Parameters<typeof real.resolveSetup>) => {
      if (broken.setup-- > 0) throw new Error("secret detail");
      return real.resolveSetup(...args);
    },
  };
});

const TEXT = program(
  ...approach(3, 2500),
  "G81 X0. Y0. Z-20. R2. F800.",
  "G80",
  ...approach(4, 3200, "M8"),
  "G81 X90. Y0. Z-12. R2. F960.",
  "G80 M9",
  "M5",
);

beforeEach(() => Object.assign(broken, { execute: false, loads: false, oneHole: false, setup: 0 }));
afterEach(() => vi.clearAllMocks());

const faults = (found: ReturnType<typeof seen>) => found.filter((finding) => finding.check === "internal");

test("whole parts find the two feeds", () => {
  expect(seen(reviewText(TEXT)).map((finding) => finding.check)).toEqual(["feed-window", "feed-window"]);
});

test("an execution that fails is one error, and no hole is invented", () => {
  broken.execute = true;
  const made = reviewText(TEXT);
  expect(made.review.execution.holeCount).toBe(0);
  const found = faults(seen(made));
  expect(found).toHaveLength(1);
  expect(found[0]?.severity).toBe("error");
  expect(found[0]?.message).toContain("Executing the program failed");
  expect(found[0]?.message).toContain("Nothing in it was checked.");
  expect(found[0]?.message).not.toContain("secret");
});

test("loads that cannot be made leave what needs none", () => {
  broken.loads = true;
  const made = reviewText(TEXT.replace("M30", "G43 H9\nM30"));
  expect(faults(seen(made))).toHaveLength(1);
  expect(seen(made).map((finding) => finding.check)).toContain("length-offset");
  const shape = made.review.execution.shapes[0];
  expect(shape === undefined ? null : made.review.loads(shape).torque).toBeNull();
});

test("one hole that fails leaves the others", () => {
  broken.oneHole = true;
  const found = seen(reviewText(TEXT));
  expect(faults(found)).toHaveLength(1);
  expect(found.filter((finding) => finding.check === "feed-window").map((finding) => finding.word)).toEqual(["F960."]);
});

test("a setup that cannot be resolved leaves the program to be read without one", () => {
  broken.setup = 1;
  const made = reviewText(TEXT);
  expect(made.review.setup.machine).toBeNull();
  expect(made.review.execution.holeCount).toBe(2);
  expect(faults(seen(made))).toHaveLength(1);
});
