import { readBlocks } from "../../../grammar/read.ts";
import { execute } from "../../../server/program/execute.ts";
import type { ExecuteOptions, Execution } from "../../../server/program/types.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import type { Machine, Practice, ResolvedSetup, Tool, Workpiece } from "../../../server/setup/types.ts";
import { LineStore } from "../../../server/text/lines.ts";

const shares = { indexable: 1, "solid-carbide": 1, "twist-hss": 1, spade: 1 };
const practice: Practice = { share: { light: shares, medium: shares, heavy: shares, extreme: shares, skin: shares } };

export function drill(T: number, DC: number, more: Partial<Tool> = {}): Tool {
  return {
    T,
    name: null,
    family: "twist-hss",
    familyAssumed: false,
    DC,
    SIG: 118,
    LU: null,
    PL: null,
    NOF: 2,
    ZEFP: null,
    KAPR: null,
    RPMX: null,
    hand: "right",
    edge: null,
    point: null,
    r1: null,
    coolant: null,
    minPressure: null,
    minFlow: null,
    lead: null,
    H: [],
    windows: [],
    entry: { maxIncline: null, light: null, medium: null, heavy: null, extreme: null, fMin: null },
    price: null,
    edges: null,
    holesPerEdge: null,
    observed: [],
    path: `tools.test.T${T}`,
    assumed: false,
    ...more,
  };
}

export function machine(more: Partial<Machine> = {}): Machine {
  return {
    name: "vmc",
    kind: "mill",
    dialect: genericMill,
    spindle: null,
    axis: { maxFeed: null, rapid: 30000, thrust: null },
    coolant: new Map(),
    toolChange: null,
    rate: null,
    path: "machines.vmc",
    ...more,
  };
}

export function workpiece(more: Partial<Workpiece> = {}): Workpiece {
  return {
    name: "part",
    materialKey: null,
    hardnessHB: null,
    hardnessText: null,
    workOffsets: new Map(),
    stock: null,
    entries: [],
    path: "workpieces.part",
    ...more,
  };
}

export function setup(more: Partial<ResolvedSetup> = {}, tools: readonly Tool[] = []): ResolvedSetup {
  return {
    file: null,
    units: "mm",
    machine: null,
    dialect: genericMill,
    tools: new Map(tools.map((t) => [t.T, t])),
    hasToolTable: tools.length > 0,
    workpiece: null,
    material: null,
    severity: new Map(),
    practice,
    origins: new Map(),
    problems: [],
    unknown: new Map(),
    ...more,
  };
}

export interface RunOptions extends Partial<ExecuteOptions> {
  readonly dialect?: Dialect;
  readonly setup?: ResolvedSetup;
}

export function run(text: string, options: RunOptions = {}): Execution {
  const { dialect, setup: given, ...rest } = options;
  const blocks = readBlocks(LineStore.from(text));
  return execute(blocks, given ?? setup(dialect === undefined ? {} : { dialect }), { program: "part.nc", ...rest });
}

/** Moves as `R(x,y,z)`, `F(x,y,z)`, `A(x,y,z)`, `D(t)`, in the program's units. */
export function moves(execution: Execution): string[] {
  const out: string[] = [];
  for (const m of execution.motions()) {
    const k = m.state.units === "inch" ? 25.4 : 1;
    const n = (v: number | null) => (v === null ? "?" : String(Math.round((v / k) * 1e4) / 1e4));
    const at = `(${n(m.x)},${n(m.y)},${n(m.z)})`;
    if (m.kind === "rapid") out.push(`R${at}`);
    else if (m.kind === "feed") out.push(`F${at}`);
    else if (m.kind === "arc") out.push(`A${at}`);
    else if (m.kind === "dwell") out.push(`D(${n(m.seconds)})`);
    else out.push(m.kind);
  }
  return out;
}

export interface PlainHole {
  readonly at: readonly (number | null)[];
  readonly kind: string;
  readonly startZ: number | null;
  readonly endZ: number | null;
  readonly strokes: readonly (readonly (number | null)[])[];
  readonly peck: number;
  readonly dwell: number;
  readonly firstCut: number;
}

const r6 = (v: number | null) => (v === null ? null : Math.round(v * 1e6) / 1e6 + 0);

export function holes(execution: Execution): PlainHole[] {
  return Array.from({ length: execution.holeCount }, (_, i) => {
    const { shape, at } = execution.hole(i);
    return {
      at: at.map(r6),
      kind: shape.kind,
      startZ: r6(shape.startZ),
      endZ: r6(shape.endZ),
      strokes: shape.strokes.map((s) => [r6(s.fromZ), r6(s.toZ), r6(s.f), r6(s.n)]),
      peck: r6(shape.peck) ?? 0,
      dwell: shape.dwell,
      firstCut: shape.firstCut,
    };
  });
}

export function events(execution: Execution): string[] {
  return execution.events.map(
    (e) => `${e.kind}:${e.data.rule ?? e.data.word ?? e.data.text ?? ""}:${e.data.level ?? ""}`,
  );
}
