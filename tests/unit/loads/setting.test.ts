/** Limits, window and coolant: what machine, tool table and program state give. */
import { describe, expect, test } from "vitest";
import { createLoads } from "../../../server/loads/loads.ts";
import type { ModalState, Motion } from "../../../server/program/types.ts";
import type { Tool } from "../../../server/setup/types.ts";
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
  const dry = state({ coolant: [] });
  const wet = state({ coolant: ["M88"] });

  function leadOf(
    motions: readonly (readonly [Motion["kind"], number, ModalState, number | null])[],
    of: ShapeCase = {},
  ) {
    const inForce = setup();
    const hole = shape(of);
    const trace = motions.map(
      ([kind, block, s, seconds]): Motion => ({ kind, block, x: 0, y: 0, z: 0, state: s, seconds }),
    );
    const loads = createLoads(
      execution({ setup: inForce, shapes: [hole], holeBlocks: [4], motions: trace }),
      inForce,
    )(hole);
    return { lead: loads.coolant.leadSeconds, why: loads.unknown["coolant.leadSeconds"] };
  }

  test("counts what runs between, and the feed down to the surface", () => {
    const { lead } = leadOf([
      ["rapid", 1, dry, 9],
      ["coolant", 2, wet, 0],
      ["dwell", 3, wet, 1.5],
      ["rapid", 4, wet, 0.5],
      ["feed", 4, wet, 12],
    ]);
    // 2 mm at 200 mm/min is 0.6 s.
    expect(lead).toBeCloseTo(2.6, 9);
  });

  test("coolant off in between starts it anew", () => {
    const { lead } = leadOf([
      ["coolant", 1, wet, 0],
      ["dwell", 1, wet, 60],
      ["coolant", 2, dry, 0],
      ["coolant", 3, wet, 0],
      ["feed", 4, wet, 12],
    ]);
    expect(lead).toBeCloseTo(0.6, 9);
  });

  test("a move of unknown time leaves it unknown, with the reason", () => {
    const { lead, why } = leadOf([
      ["coolant", 1, wet, 0],
      ["rapid", 2, wet, null],
      ["feed", 4, wet, 12],
    ]);
    expect(lead).toBeNull();
    expect(why).toContain("no known time");
  });

  test("recorded while running: the trace is not asked", () => {
    const inForce = setup();
    const holes = [shape(), shape()];
    const run = execution({ setup: inForce, shapes: holes });
    const [first] = run.operations;
    if (first === undefined) throw new Error("no operation");
    const recorded = {
      ...run,
      motions: () => {
        throw new Error("asked");
      },
      operations: [{ ...first, holeCount: 2, coolantLead: 3 }],
    };
    const loads = createLoads(recorded, inForce);
    const [a, b] = holes.map(loads);
    expect(a?.coolant.leadSeconds).toBeCloseTo(3.6, 9);
    expect(b?.coolant.leadSeconds).toBeNull();
    expect(b?.unknown["coolant.leadSeconds"]).toContain("first hole of an operation");
  });

  test("a hole that is not in the trace", () => {
    expect(leadOf([["feed", 9, wet, 1]]).why).toContain("not in the trace");
  });
});
