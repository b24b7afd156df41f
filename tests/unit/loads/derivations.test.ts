/** The arithmetic that is shown must be the arithmetic that was done. */
import { describe, expect, test } from "vitest";
import type { EntryForm } from "../../../grammar/entry.ts";
import { createLoads } from "../../../server/loads/loads.ts";
import type { Derivation, HoleLoads } from "../../../server/loads/types.ts";
import type { Origin, Tool } from "../../../server/setup/types.ts";
import { blocks, execution, ref, type ShapeCase, setup, shape, state, tool } from "./fixtures.ts";

const WHAT = [
  "vc",
  "n",
  "f",
  "vf",
  "mrr",
  "pointLength",
  "torque",
  "power",
  "thrust",
  "limits",
  "allowedFeed",
] as const;

/** Puts the inputs into the right-hand side of the expression as it is printed. */
function evaluate(of: Derivation): number {
  let text = of.expression.slice(of.expression.indexOf("=") + 1).replace(/ of the tool$/, "");
  const inputs = [...of.inputs].sort((a, b) => b.symbol.length - a.symbol.length);
  const values = inputs.map((i) => i.value);
  inputs.forEach((input, i) => {
    const name = input.symbol.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    text = text.replace(new RegExp(`(?<![A-Za-zα-ω$])${name}(?![A-Za-zα-ω(])`, "g"), `$${i}$`);
  });
  const code = text
    .replace(/\$(\d+)\$/g, "v[$1]")
    .replace(/sin (v\[\d+\])/g, "sin($1)")
    .replaceAll("²", "**2")
    .replaceAll("^", "**")
    .replaceAll("−", "-")
    .replaceAll("·", "*")
    .replaceAll("2π", "(2*Math.PI)")
    .replaceAll("π", "Math.PI");
  const rad = Math.PI / 180;
  const run = new Function("v", "sin", "tan", "max", `return ${code};`);
  return run(
    values,
    (x: number) => Math.sin(x * rad),
    (x: number) => Math.tan(x * rad),
    Math.max,
  );
}

function everyStep(of: Derivation): Derivation[] {
  return [of, ...of.steps.flatMap(everyStep)];
}

interface Case {
  readonly name: string;
  readonly tool: Tool;
  readonly of: ShapeCase;
  readonly program?: string;
}

const CASES: readonly Case[] = [
  { name: "two-insert, flat", tool: tool(), of: {} },
  { name: "two-insert into an incline", tool: tool(), of: { form: { kind: "incline", angleDeg: 30 } } },
  { name: "two-insert at an edge", tool: tool({ edge: "light" }), of: { form: { kind: "edge-area", areaShare: 0.5 } } },
  { name: "two-insert, thin chip", tool: tool(), of: { f: 0.03 } },
  {
    name: "two-insert, floor",
    tool: tool({ windows: [{ group: "P", material: null, vc: null, f: [0.02, 0.05, 0.1] }] }),
    of: { form: { kind: "incline", angleDeg: 30 } },
  },
  { name: "solid carbide", tool: tool({ family: "solid-carbide", DC: 12, SIG: 140, edge: null }), of: { f: 0.25 } },
  {
    name: "solid carbide opening a core",
    tool: tool({ family: "solid-carbide", DC: 12, SIG: 140, edge: null }),
    of: { bored: [{ diameter: 6, toZ: -60, tool: 9 }] },
  },
  { name: "HSS", tool: tool({ family: "twist-hss", DC: 22, SIG: null, edge: null }), of: { f: 0.2 } },
  {
    name: "HSS opening a core",
    tool: tool({ family: "twist-hss", DC: 22, SIG: 118, edge: null }),
    of: { bored: [{ diameter: 8, toZ: -60, tool: 9 }] },
  },
  { name: "gun", tool: tool({ family: "gun", DC: 12, SIG: null, edge: null }), of: {} },
  { name: "spade, PL declared", tool: tool({ family: "spade", DC: 40, PL: 9, edge: null }), of: { f: 0.3 } },
  { name: "feed per revolution", tool: tool(), of: { state: state({ feedMode: 95 }) } },
  {
    name: "a reading",
    tool: tool({
      observed: [{ program: "a.nc", operation: 1, load: 42, idle: 6, meter: "continuous", wear: "new", path: "x" }],
    }),
    of: {},
    program: "a.nc",
  },
];

function loadsOf({ tool: t, of, program }: Case): HoleLoads {
  const inForce = setup({ tools: [t] });
  return createLoads(execution({ setup: inForce }), inForce, program === undefined ? {} : { program })(shape(of));
}

describe.each(CASES)("$name", (of) => {
  const loads = loadsOf(of);
  test.each(WHAT)("%s: inputs put into the expression give the result", (what) => {
    const derivation = loads.derive(what);
    if (what === "allowedFeed" && loads.engagement?.allowedFeed === null) {
      expect(derivation).toBeNull();
      return;
    }
    if (derivation === null) throw new Error(`no derivation of ${what}`);
    for (const step of everyStep(derivation)) {
      const { value } = step.result;
      expect(
        Math.abs(evaluate(step) - value) / Math.max(Math.abs(value), 1e-9),
        `${step.formula}: ${step.expression}`,
      ).toBeLessThan(2e-5);
      expect(step.source).not.toBe("");
      for (const input of step.inputs) expect(input.from, `${step.formula}: ${input.symbol}`).not.toBe("");
    }
  });

  test("the result is the value of the load", () => {
    expect(loads.derive("torque")?.band).toEqual(loads.torque);
    expect(loads.derive("torque")?.result.value).toBeCloseTo(loads.torque?.nominal ?? Number.NaN, 9);
    expect(loads.derive("power")?.band).toEqual(loads.power);
    expect(loads.derive("thrust")?.band).toEqual(loads.thrust);
    expect(loads.derive("limits")?.result.value).toBe(loads.limits.power.continuous);
    expect(loads.derive("vc")?.result.value).toBe(loads.vc);
    expect(loads.derive("mrr")?.result.value).toBe(loads.mrr);
    expect(loads.derive("pointLength")?.result.value).toBe(loads.pointLength);
    expect(loads.derive("allowedFeed")?.result.value ?? null).toBe(loads.engagement?.allowedFeed);
  });
});

describe("provenance", () => {
  const text = blocks(["%", "N10 T7 M6", "N20 S2000 M3", "F200.", "N40 G81 Z-50. R2."]);
  const from = { ...state().from, s: ref(text, 2, "S2000"), f: ref(text, 3, "F200.") };
  const origin = (line: number): Origin => ({
    kind: "file",
    file: "swarfline.yaml",
    line: line - 1,
    column: 0,
    text: `swarfline.yaml line ${line}`,
  });
  const origins = new Map([
    ["tools.crib.T7.DC", origin(12)],
    ["tools.crib.T7.windows.P.f", origin(14)],
    ["machines.vmc.spindle.continuous", origin(4)],
  ]);
  const form: EntryForm = { kind: "incline", angleDeg: 30 };

  function loads(t: Tool, withOrigins = true): HoleLoads {
    const inForce = setup({ tools: [t], ...(withOrigins ? { origins } : {}) });
    return createLoads(execution({ setup: inForce, blocks: text }), inForce)(shape({ state: state({ from }), form }));
  }

  const fromOf = (derivation: Derivation | null, symbol: string) =>
    derivation?.inputs.find((i) => i.symbol === symbol)?.from;

  test("of words, setup lines and defaults", () => {
    const of = loads(tool({ edge: null }));
    expect(fromOf(of.derive("vc"), "n")).toBe("S2000 in block N20");
    expect(fromOf(of.derive("f"), "F")).toBe("F200. in line 4");
    expect(fromOf(of.derive("vc"), "DC")).toBe("swarfline.yaml line 12");
    expect(fromOf(of.derive("allowedFeed"), "f nominal")).toBe("swarfline.yaml line 14");
    expect(fromOf(of.derive("allowedFeed"), "fMin")).toBe("common practice");
    expect(of.derive("limits")?.source).toBe("swarfline.yaml line 4");
    expect(of.window?.origin).toBe("swarfline.yaml line 14");
    const kc = of.derive("torque")?.steps[0];
    expect(fromOf(kc ?? null, "Kγ")).toContain("common practice: edge general");
    expect(fromOf(kc ?? null, "kc1.1")).toBe("Tabellenbuch Metall");
  });

  test("of a diameter that only a comment names", () => {
    const comment = tool({ assumed: true, path: "comment.T7" });
    const inForce = setup({ tools: [comment] });
    const run = { ...execution({ setup: inForce, blocks: text }), toolComment: () => ({ block: 1, start: 0, end: 3 }) };
    expect(fromOf(createLoads(run, inForce)(shape()).derive("vc"), "DC")).toBe("comment in block N10 (assumed)");
  });

  test("every input of every derivation has one, without a setup file too", () => {
    const of = loads(tool(), false);
    for (const what of WHAT) {
      const derivation = of.derive(what);
      if (derivation === null) throw new Error(what);
      for (const step of everyStep(derivation)) for (const input of step.inputs) expect(input.from).not.toBe("");
    }
  });
});
