/** Small builders for hole shapes, tools, machines and executions, so that a test says only what it is about. */
import type { Blocks, WordRef } from "../../../grammar/blocks.ts";
import type { EntryForm } from "../../../grammar/entry.ts";
import type { Execution, HoleShape, ModalState, Motion, Operation, Stroke } from "../../../server/program/types.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill } from "../../../server/setup/dialects/generic-mill.ts";
import type {
  EntryData,
  Machine,
  Origin,
  Practice,
  ResolvedSetup,
  Spindle,
  Tool,
  WorkMaterial,
} from "../../../server/setup/types.ts";

/** Shares as shop practice has them; null: must not. */
export const PRACTICE: Practice = {
  share: {
    light: { indexable: 1, "solid-carbide": 1, "twist-hss": 1, spade: 0.8 },
    medium: { indexable: 0.7, "solid-carbide": 0.5, "twist-hss": 0.7, spade: 0.6 },
    heavy: { indexable: 0.5, "solid-carbide": null, "twist-hss": 0.5, spade: null },
    extreme: { indexable: 0.5, "solid-carbide": null, "twist-hss": null, spade: null },
    skin: { indexable: 0.8, "solid-carbide": 0.8, "twist-hss": 1, spade: 0.75 },
  },
};

export const C45E: WorkMaterial = {
  key: "C45E",
  group: "P",
  designations: ["1.1191", "1045"],
  condition: "HB 190",
  kienzle: [{ kc11: 2220, mc: 0.14, line: "victor", source: "Tabellenbuch Metall", evidence: "read-secondary" }],
  hardnessHB: 200,
  handbookKind: "steel",
  combustible: null,
  path: "materials.C45E",
};

export function material(over: Partial<WorkMaterial> = {}): WorkMaterial {
  return { ...C45E, ...over };
}

const NO_ENTRY: EntryData = { maxIncline: null, light: null, medium: null, heavy: null, extreme: null, fMin: null };

export function tool(over: Partial<Omit<Tool, "entry">> & { readonly entry?: Partial<EntryData> } = {}): Tool {
  const { entry, ...rest } = over;
  return {
    T: 7,
    name: null,
    family: "indexable",
    familyAssumed: false,
    DC: 25,
    SIG: 180,
    LU: 75,
    PL: null,
    NOF: null,
    ZEFP: null,
    KAPR: null,
    RPMX: null,
    hand: "right",
    edge: "general",
    point: null,
    r1: null,
    coolant: "through",
    minPressure: null,
    minFlow: null,
    lead: null,
    H: [],
    windows: [{ group: "P", material: null, vc: [140, 180, 220], f: [0.06, 0.1, 0.14] }],
    entry: { ...NO_ENTRY, ...entry },
    price: null,
    edges: null,
    holesPerEdge: null,
    observed: [],
    path: "tools.crib.T7",
    assumed: false,
    ...rest,
  };
}

const NO_REFS: ModalState["from"] = {
  s: 0,
  f: 0,
  spindle: 0,
  coolant: 0,
  tool: 0,
  lengthOffset: 0,
  feedMode: 0,
  units: 0,
  r: 0,
  z: 0,
  q: 0,
  p: 0,
  cycle: 0,
  wcs: 0,
  returnMode: 0,
  repeat: 0,
};

export function state(over: Partial<ModalState> = {}): ModalState {
  return {
    motion: null,
    cycle: 810,
    plane: 17,
    distance: 90,
    feedMode: 94,
    units: "mm",
    returnMode: 99,
    wcs: "G54",
    comp: 40,
    lengthOffset: { code: 43, h: 7 },
    speedMode: 97,
    tool: 7,
    staged: null,
    s: 2000,
    sWhy: null,
    fWhy: null,
    unsure: [],
    unsureWhy: null,
    f: 200,
    spindle: "cw",
    coolant: ["M88"],
    from: NO_REFS,
    ...over,
  };
}

export interface ShapeCase extends Partial<HoleShape> {
  readonly f?: number | null;
  readonly n?: number | null;
  readonly form?: EntryForm;
}

let nextId = 0;

export function shape(over: ShapeCase = {}): HoleShape {
  const { f = 0.1, n = 2000, form, ...rest } = over;
  const startZ = over.startZ === undefined ? 2 : over.startZ;
  const endZ = over.endZ === undefined ? -50 : over.endZ;
  const strokes: Stroke[] = startZ === null || endZ === null ? [] : [{ fromZ: startZ, toZ: endZ, f, n, fRef: 0 }];
  return {
    id: nextId++,
    operation: 0,
    kind: "drill",
    longHand: false,
    axis: "z",
    startZ,
    endZ,
    strokes,
    firstCut: strokes.length > 0 ? 0 : -1,
    surfaceZ: 0,
    surfaceFrom: "assumed",
    dwell: 0,
    state: state(),
    tool: 7,
    wcs: "G54",
    bored: [],
    fullRetracts: false,
    peck: 0,
    refs: { z: 0, r: 0, q: 0, cycle: 0 },
    entry: form === undefined ? null : { form, from: "note", span: null, path: null },
    exit: null,
    unknown: {},
    ...rest,
  };
}

export const SPINDLE: Spindle = {
  maxRpm: 10000,
  continuous: [
    { rpm: 0, torque: 95, power: null },
    { rpm: 1500, torque: 95, power: null },
    { rpm: 6000, torque: null, power: 15 },
  ],
  shortTime: {
    minutes: 30,
    points: [
      { rpm: 0, torque: 120, power: null },
      { rpm: 1500, torque: null, power: 18.5 },
      { rpm: 6000, torque: null, power: 18.5 },
    ],
  },
  efficiency: 0.87,
  drive: "belt",
};

export function machine(over: Partial<Machine> = {}): Machine {
  return {
    name: "vmc",
    kind: "mill",
    dialect: genericMill,
    spindle: SPINDLE,
    axis: { maxFeed: 12000, rapid: 30000, thrust: 8000 },
    coolant: new Map([
      ["M8", { kind: "flood", pressure: 2, flow: null }],
      ["M88", { kind: "through", pressure: 20, flow: 20 }],
    ]),
    toolChange: 4,
    rate: null,
    path: "machines.vmc",
    ...over,
  };
}

export interface SetupCase {
  readonly tools?: readonly Tool[];
  readonly machine?: Machine | null;
  readonly material?: WorkMaterial | null;
  readonly practice?: Practice;
  readonly origins?: ReadonlyMap<string, Origin>;
  readonly dialect?: Dialect;
}

export function setup(over: SetupCase = {}): ResolvedSetup {
  const tools = over.tools ?? [tool()];
  return {
    file: "swarfline.yaml",
    units: "mm",
    machine: over.machine === undefined ? machine() : over.machine,
    dialect: over.dialect ?? genericMill,
    tools: new Map(tools.map((t) => [t.T, t])),
    hasToolTable: true,
    workpiece: null,
    material: over.material === undefined ? C45E : over.material,
    severity: new Map(),
    practice: over.practice ?? PRACTICE,
    origins: over.origins ?? new Map(),
    problems: [],
    unknown: new Map(),
  };
}

/** Lines as blocks whose items are the words; a WordRef is line × 1024 + the word's number, from 1. */
export function blocks(lines: readonly string[]): Blocks {
  const words = lines.map((line, block) =>
    [...line.matchAll(/\([^)]*\)|[A-Z][^A-Z(]*/g)].map((m) => ({
      block,
      start: m.index,
      end: m.index + m[0].trimEnd().length,
      text: m[0].trim(),
    })),
  );
  const at = (item: number) => words[Math.floor(item / 1024)]?.[item % 1024];
  return {
    count: lines.length,
    blockAt: (line) => line,
    lineOf: (block) => (block < lines.length ? block : -1),
    firstItem: (block) => block * 1024,
    itemCount: (block) => words[block]?.length ?? 0,
    kind: (item) => at(item)?.text.charCodeAt(0) ?? 63,
    value: (item) => Number(at(item)?.text.slice(1)),
    form: () => 2,
    start: (item) => at(item)?.start ?? 0,
    end: (item) => at(item)?.end ?? 0,
    expression: () => undefined,
    statement: () => undefined,
    name: () => undefined,
    letterAfterComma: () => 0,
    hasComment: () => false,
    hasSkip: () => false,
    isPlain: () => true,
    refOf: (_block, item) => item + 1,
    spanOf: (ref: WordRef) => {
      const word = at(ref - 1);
      return word === undefined ? null : { block: word.block, start: word.start, end: word.end };
    },
    problems: () => [],
    textOf: (block) => lines[block] ?? "",
  };
}

/** The ref of a word as it is written in a line. */
export function ref(of: Blocks, line: number, word: string): WordRef {
  const first = of.firstItem(line);
  for (let item = first; item < first + of.itemCount(line); item++) {
    if (of.textOf(line).slice(of.start(item), of.end(item)) === word) return of.refOf(line, item);
  }
  throw new Error(`no word ${word} in line ${line}`);
}

export interface ExecutionCase {
  readonly setup?: ResolvedSetup;
  readonly blocks?: Blocks;
  readonly shapes?: readonly HoleShape[];
  readonly motions?: readonly Motion[];
  /** Block of the first hole of each shape. */
  readonly holeBlocks?: readonly number[];
  readonly commentTools?: readonly Tool[];
}

export function execution(over: ExecutionCase = {}): Execution {
  const inForce = over.setup ?? setup();
  const text = over.blocks ?? blocks([]);
  const shapes = over.shapes ?? [];
  const operations: Operation[] = shapes.map((s, index) => ({
    index,
    tool: s.tool,
    firstHole: index,
    holeCount: 1,
    shapes: [{ shape: s, count: 1, firstHole: index }],
    firstBlock: 0,
    lastBlock: 0,
    seconds: null,
    coolantLeads: [],
  }));
  return {
    blocks: text,
    setup: inForce,
    units: "mm",
    stepCount: 0,
    stepBlock: () => 0,
    stepState: () => state(),
    stepZ: () => null,
    stepOf: () => -1,
    motions: () => over.motions ?? [],
    operations,
    shapes,
    holeCount: shapes.length,
    hole: (index) => {
      const of = shapes[index];
      if (of === undefined) throw new RangeError(`no hole ${index}`);
      return { index, shape: of, at: [0, 0], block: over.holeBlocks?.[index] ?? 0, calls: [] };
    },
    shapeOf: (index) => {
      const of = shapes[index];
      if (of === undefined) throw new RangeError(`no hole ${index}`);
      return of;
    },
    places: { x: new Float64Array(shapes.length), y: new Float64Array(shapes.length) },
    ways: [],
    frameOf: () => null,
    holesOfBlock: () => [],
    events: [],
    tool: (t) => inForce.tools.get(t) ?? over.commentTools?.find((c) => c.T === t) ?? null,
    toolComment: () => null,
    notes: [],
    noteMaterial: null,
    lostEntries: [],
    wanted: [],
    skips: false,
    callsOf: () => [],
  };
}
