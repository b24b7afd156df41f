import { expect, test } from "vitest";
import { createGuard } from "../../../server/editor/guard.ts";

test("a failing feature gives its empty answer, says so once, and leaves the others alone", async () => {
  const said: string[] = [];
  const guard = createGuard((message) => said.push(message));
  const fail = (): number => {
    throw new RangeError("the fault");
  };
  expect(guard.run("hover", 1, fail)).toBe(1);
  expect(guard.run("hover", 1, fail)).toBe(1);
  expect(await guard.runAsync("hover", 1, async () => fail())).toBe(1);
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/The hover failed.*RangeError: the fault/s);
  expect(guard.run("diagnostics", 1, () => 2)).toBe(2);
  expect(await guard.runAsync("completion", 0, () => Promise.reject(new Error("other")))).toBe(0);
  expect(said).toHaveLength(2);
});
