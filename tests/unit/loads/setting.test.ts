/** Limits, window and coolant: what machine, tool table and program state give. */
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { createLoads } from "../../../server/loads/loads.ts";
import { execute } from "../../../server/program/execute.ts";
import type { Tool } from "../../../server/setup/types.ts";
import { LineStore } from "../../../server/text/lines.ts";
import {
  execution,
  machine,
  material,
  type SetupCase,
  type ShapeCase,
  SPINDLE,
  setup,
  shape,
  state,
  tool,
} from "./fixtures.ts";

function loadsOf(of: ShapeCase = {}, over: SetupCase = {}) {
  const inForce = setup(over);
  return createLoads(execution({ setup: inForce }), inForce)(shape(of));
}

describe("limits", () => {
  test("at the programmed speed, at the cutter", () => {
    const { limits } = loadsOf({ n: 800 });
    expect(limits.torque?.continuous).toBeCloseTo(95 * 0.87, 9);
    expect(limits.torque?.shortTime).toBeCloseTo(117.77 * 0.87, 0);
    expect(limits.power.continuous).toBeCloseTo((95 * 0.87 * 800) / 9549.3, 4);
    expect(limits.thrust).toBe(8000);
  });

  test("speed: the lesser of spindle and tool", () => {
    expect(loadsOf().limits.rpm).toBe(10_000);
    expect(loadsOf({}, { tools: [tool({ RPMX: 4000 })] }).limits.rpm).toBe(4000);
    expect(loadsOf({}, { tools: [tool({ RPMX: 4000 })], machine: null }).limits.rpm).toBe(4000);
  });

  test("nothing declared: null, each with its reason", () => {
    const loads = loadsOf({}, { machine: null });
    expect(loads.limits).toEqual({
      torque: null,
      power: { continuous: null, shortTime: null },
      thrust: null,
      rpm: null,
    });
    for (const field of [
      "limits.torque",
      "limits.power.continuous",
      "limits.power.shortTime",
      "limits.thrust",
      "limits.rpm",
    ]) {
      expect(loads.unknown[field]).toContain("not declared");
    }
  });

  test("no short-time curve: the continuous one stands", () => {
    const loads = loadsOf({}, { machine: machine({ spindle: { ...SPINDLE, shortTime: null } }) });
    expect(loads.limits.torque?.continuous).toBeGreaterThan(0);
    expect(loads.limits.torque?.shortTime).toBeNull();
    expect(loads.unknown["limits.power.shortTime"]).toContain("short-time spindle curve of machine vmc");
  });

  test("no spindle speed: no limit at it", () => {
    const loads = loadsOf({ n: null });
    expect(loads.limits.torque).toBeNull();
    expect(loads.unknown["limits.torque"]).toContain("no spindle speed");
  });
});

describe("window", () => {
  const windows: Tool["windows"] = [
    { group: "P", material: null, vc: [1, 2, 3], f: [0.1, 0.2, 0.3] },
    { group: null, material: "1045", vc: [4, 5, 6], f: null },
    { group: "M", material: null, vc: [7, 8, 9], f: [0.4, 0.5, 0.6] },
  ];
  const drill = tool({ windows });

  test("the material's own before its group's, for speed and feed apart", () => {
    expect(loadsOf({}, { tools: [drill] }).window).toMatchObject({ vc: [4, 5, 6], f: [0.1, 0.2, 0.3] });
  });

  test("the group's where the material has none", () => {
    const loads = loadsOf({}, { tools: [drill], material: material({ group: "M", key: "304", designations: [] }) });
    expect(loads.window).toMatchObject({ vc: [7, 8, 9], f: [0.4, 0.5, 0.6] });
  });

  test("none for the group", () => {
    const loads = loadsOf({}, { tools: [drill], material: material({ group: "K", key: "GG 25", designations: [] }) });
    expect(loads.window).toBeNull();
    expect(loads.unknown.window).toContain("GG 25 (group K) is declared for T7");
  });

  test("no material", () => {
    const loads = loadsOf({}, { tools: [drill], material: null });
    expect(loads.window).toBeNull();
    expect(loads.unknown.window).toContain("no work material");
    expect(loads.unknown.material).toContain("no work material");
  });
});

describe("coolant at first contact", () => {
  const on = (...coolant: string[]) => ({ state: state({ coolant }) });

  test("the machine's own code gives kind, pressure and flow", () => {
    expect(loadsOf(on("M88")).coolant).toMatchObject({ kinds: ["through"], pressure: 20, flow: 20 });
  });

  test("with several on, that through the tool counts", () => {
    expect(loadsOf(on("M8", "M88")).coolant).toMatchObject({ kinds: ["flood", "through"], pressure: 20, flow: 20 });
  });

  test("a code that only the dialect knows has a kind and nothing more", () => {
    const loads = loadsOf(on("M8"), { machine: null });
    expect(loads.coolant).toMatchObject({ kinds: ["flood"], pressure: null, flow: null });
    expect(loads.unknown["coolant.pressure"]).toBe("the pressure of M8 is not declared");
  });

  test("off", () => {
    const loads = loadsOf(on());
    expect(loads.coolant).toMatchObject({ kinds: [], pressure: null, flow: null, leadSeconds: null });
    expect(loads.unknown["coolant.flow"]).toBe("no coolant is on at first contact");
  });
});

describe("time between coolant and contact", () => {
  /** Leads of the program's shapes in order, or why they are unknown. */
  function leadsOf(...lines: readonly string[]): (number | string)[] {
    const inForce = setup();
    const text = ["G21 G90 G94 G54", "T7 M6", "G0 X0. Y0. S2000 M3", "G43 H7 Z50.", "G0 Z10.", ...lines, "M30"].join(
      "\n",
    );
    const run = execute(readBlocks(LineStore.from(text)), inForce, { program: "a.nc" });
    const loads = createLoads(run, inForce);
    return run.shapes.map((s) => {
      const { coolant, unknown } = loads(s);
      return coolant.leadSeconds ?? unknown["coolant.leadSeconds"] ?? "no reason";
    });
  }
  const rapid = (mm: number) => (mm / (machine().axis.rapid ?? Number.NaN)) * 60;
  // The way from R to the surface at 200 mm/min.
  const way = (2 / 200) * 60;

  test("counts what runs between, and the feed down to the surface", () => {
    const [lead] = leadsOf("M88", "G4 P1500", "G99 G81 Z-20. R2. F200.");
    expect(lead).toBeCloseTo(1.5 + rapid(8) + way, 9);
  });

  test("long-hand the same", () => {
    const [lead] = leadsOf("M88", "G4 P1500", "G0 Z2.", "G1 Z-20. F200.", "G0 Z10.");
    expect(lead).toBeCloseTo(1.5 + rapid(8) + way, 9);
  });

  test("coolant off in between starts it anew", () => {
    const [lead] = leadsOf("M88", "G4 P60000", "M9", "M88", "G99 G81 Z-20. R2. F200.");
    expect(lead).toBeCloseTo(rapid(8) + way, 9);
  });

  test("in the block of the contact", () => {
    const [lead] = leadsOf("G99 G81 Z-20. R2. F200. M88");
    expect(lead).toBeCloseTo(rapid(8) + way, 9);
  });

  test("coolant that comes on for a later hole is timed for that hole", () => {
    const [dry, wet] = leadsOf("G99 G81 Z-20. R2. F200.", "M88", "G4 P1000", "X30.");
    expect(dry).toContain("no coolant is on");
    expect(wet).toBeCloseTo(1 + rapid(30) + way, 9);
  });

  test("only the first hole since it came on is timed", () => {
    const [first, second] = leadsOf("M88", "G4 P1000", "G99 G81 Z-20. R2. F200.", "X30. Z-10.");
    expect(first).toBeCloseTo(1 + rapid(8) + way, 9);
    expect(second).toContain("only the first hole after coolant came on is timed");
  });

  test("a move or a stop of unknown time leaves it unknown, with the reason", () => {
    expect(leadsOf("M88", "M0", "G99 G81 Z-20. R2. F200.")[0]).toContain("no known time");
    expect(leadsOf("M88", "G91 G28 Z0.", "G90 G0 Z10.", "G99 G81 Z-20. R2. F200.")[0]).toContain("no known time");
  });

  test("on from before the program: since when is not known", () => {
    const inForce = setup();
    const run = execute(readBlocks(LineStore.from("T7\nG99 G81 X0. Y0. Z-20. R2. F200.\nM30")), inForce, {
      program: "a.nc",
      before: "G21 G90 S2000 M3 M88 G0 X0. Y0. Z10.",
    });
    const [loads] = run.shapes.map(createLoads(run, inForce));
    expect(loads?.coolant.kinds).toEqual(["through"]);
    expect(loads?.coolant.leadSeconds).toBeNull();
    expect(loads?.unknown["coolant.leadSeconds"]).toContain("no known time");
  });
});
