import { describe, expect, test } from "vitest";
import { createLoads } from "../../../server/loads/loads.ts";
import { namesProgram } from "../../../server/loads/observed.ts";
import type { Machine, Observed, Tool } from "../../../server/setup/types.ts";
import { execution, machine, SPINDLE, setup, shape, tool } from "./fixtures.ts";

const READING: Observed = {
  program: "parts/bracket-2.nc",
  operation: 1,
  load: 42,
  idle: 6,
  meter: "continuous",
  wear: "new",
  path: "tools.crib.T7.observed[0]",
};

interface Case {
  readonly reading?: Partial<Observed>;
  readonly program?: string;
  readonly n?: number;
  readonly machine?: Machine;
  readonly tool?: Partial<Tool>;
}

function loadsOf({
  reading = {},
  program = "/work/parts/bracket-2.nc",
  n = 2000,
  machine: m = machine(),
  tool: over = {},
}: Case = {}) {
  const drill = tool({ ...over, observed: [{ ...READING, ...reading }] } as Partial<Tool>);
  const inForce = setup({ tools: [drill], machine: m });
  return createLoads(execution({ setup: inForce }), inForce, { program })(shape({ n }));
}

const tables = loadsOf({ program: "other.nc" });

describe("a load-meter reading", () => {
  test("gives the power at the cutter and narrows the band to 15 %", () => {
    // 36 % of the continuous rating at 2000 1/min, through the belt, brought from a new edge to nominal wear.
    const rating = 14.9231 + (15 - 14.9231) * (500 / 4500);
    const { power, torque } = loadsOf();
    expect(power?.nominal).toBeCloseTo(0.36 * rating * 0.87 * 1.15, 3);
    expect((power?.low ?? 0) / (power?.nominal ?? 1)).toBeCloseTo(0.85, 9);
    expect((power?.high ?? 0) / (power?.nominal ?? 1)).toBeCloseTo(1.15, 9);
    expect(((torque?.nominal ?? 0) * 2000) / 9549.3).toBeCloseTo(power?.nominal ?? 0, 3);
  });

  test("a worn edge at the reading lowers the nominal", () => {
    const fresh = loadsOf().torque?.nominal ?? 0;
    expect((loadsOf({ reading: { wear: "worn" } }).torque?.nominal ?? 0) / fresh).toBeCloseTo(1 / 1.3, 9);
  });

  test("in percent of the short-time rating it is more", () => {
    const short = loadsOf({ reading: { meter: "short-time" } }).power?.nominal ?? 0;
    expect(short / (loadsOf().power?.nominal ?? 1)).toBeCloseTo(18.5 / 14.93, 2);
  });

  test("thrust is not touched by it", () => {
    expect(loadsOf().thrust).toEqual(tables.thrust);
  });

  test("its derivation names the reading and keeps the tables beside it", () => {
    const derivation = loadsOf().derive("torque");
    expect(derivation?.formula).toBe("meter-torque");
    expect(derivation?.steps[0]?.formula).toBe("kienzle-torque");
    expect(derivation?.inputs.find((i) => i.symbol === "load")?.value).toBe(0.42);
  });
});

describe("a reading is not used", () => {
  test.each<{ name: string; of: Case; why: string | null }>([
    { name: "for another program", of: { program: "/work/parts/bracket-1.nc" }, why: null },
    { name: "for another operation", of: { reading: { operation: 2 } }, why: null },
    { name: "when load is not above idle", of: { reading: { load: 5 } }, why: "not above idle" },
    { name: "when idle is negative", of: { reading: { idle: -4 } }, why: "not above idle" },
    { name: "when no meter reads so much", of: { reading: { load: 900 } }, why: "more than any meter shows" },
    { name: "when the cut cannot take so much", of: { reading: { load: 240, idle: 0 } }, why: "check load, idle" },
    { name: "when the cut must take more", of: { reading: { load: 7 } }, why: "check load, idle" },
    {
      name: "when its rating is not declared",
      of: { reading: { meter: "short-time" }, machine: machine({ spindle: { ...SPINDLE, shortTime: null } }) },
      why: "short-time rating",
    },
  ])("$name", ({ of, why }) => {
    const loads = loadsOf(of);
    expect(loads.torque).toEqual(tables.torque);
    const notes = loads.derive("torque")?.notes.join(" ") ?? "";
    if (why === null) expect(notes).not.toContain("not used");
    else expect(notes).toContain(why);
  });
});

describe("which program a reading names", () => {
  test.each([
    ["parts/bracket-2.nc", "/home/shop/parts/bracket-2.nc", true],
    ["bracket-2.nc", "C:\\shop\\parts\\bracket-2.nc", true],
    ["parts\\bracket-2.nc", "file:///c%3A/shop/parts/bracket-2.nc", true],
    ["./parts/bracket-2.nc", "parts/bracket-2.nc", true],
    ["bracket-2.nc", "parts/old-bracket-2.nc", false],
    ["parts/bracket-2.nc", "bracket-2.nc", false],
    ["", "bracket-2.nc", false],
    ["a%zz.nc", "file:///a%zz.nc", true],
  ])("%s names %s: %s", (written, program, names) => {
    expect(namesProgram(written, program)).toBe(names);
  });
});
