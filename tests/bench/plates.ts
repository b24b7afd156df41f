/** Plates of ten thousand holes: all alike, and in overlapping pairs of which no two have the same pitch. */
import { readBlocks } from "../../grammar/read.ts";
import { review } from "../../server/review/review.ts";
import type { Review } from "../../server/review/types.ts";
import { LineStore } from "../../server/text/lines.ts";
import { median, type Row } from "./table.ts";

const FILE = "file:///bench/swarfline.yaml";
const PROGRAM = "file:///bench/plate.nc";
const RUNS = 5;
const WARM_UP = 3;

const SETUP = `units: mm
programs: [{ files: "*.nc", machine: vmc, tools: crib, workpiece: plate }]
machines:
  vmc:
    kind: mill
    dialect: generic-mill
    spindle: { maxRpm: 8000, continuous: [{ rpm: 0, torque: 120 }, { rpm: 8000, power: 20 }], drive: belt }
    axis: { maxFeed: 9000, rapid: 24000, thrust: 14 kN }
    coolant: { M88: { kind: through, pressure: 20, flow: 40 } }
tools:
  crib:
    - { T: 7, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, edge: general, coolant: through,
        windows: [{ group: P, vc: [120, 165, 220], f: [0.04, 0.1, 0.14] }] }
workpieces:
  plate:
    material: C45E
    hardness: 195 HB
    stock: { wcs: G54, solids: [{ box: { x: [-100, 9000], y: [-100, 9000], z: [-50, 0] } }] }
`;

const HEAD = ["G21 G17 G40 G49 G80 G90 G94 G54", "T7 M6", "S2000 M3", "G0 X-50. Y0.", "G43 H7 Z50. M88", "G4 P3000"];

/** A row of numbers that look random and are the same in each run. */
function jitter(): () => number {
  let seed = 7;
  return () => {
    seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
    return seed / 0x7fffffff;
  };
}

function places(holes: number, pairs: boolean): string[] {
  const random = jitter();
  return Array.from({ length: holes }, (_, i) => {
    const cell = pairs ? i >> 1 : i;
    const second = pairs && i % 2 === 1;
    const x = (cell % 100) * (pairs ? 64 : 32) + (second ? 18 + 5 * random() : 0);
    const y = Math.floor(cell / 100) * 40 + (second ? 2 * random() : 0);
    return `X${x.toFixed(4)} Y${y.toFixed(4)}`;
  });
}

interface Plate {
  readonly ms: number;
  readonly editMs: number;
  readonly shapes: number;
}

function plate(holes: number, pairs: boolean): Plate {
  const spots = places(holes, pairs);
  const text = [...HEAD, `G99 G81 ${spots[0]} Z-40. R2. F90.`, ...spots.slice(1), "G80 M9", "M30"].join("\n");
  const sources = new Map([[FILE, SETUP]]);
  const once = (): { ms: number; editMs: number; shapes: number } => {
    // A store and blocks of their own: nothing is kept from the run before.
    const lines = LineStore.from(text);
    const blocks = readBlocks(lines);
    const input = { program: PROGRAM, lines, blocks, sources, setupFile: FILE };
    const first = timed(() => review(input));
    const line = HEAD.length + (holes >> 1);
    const old = lines.line(line);
    blocks.update(
      lines.edit({
        startLine: line,
        startColumn: 0,
        endLine: line,
        endColumn: old.length,
        text: old.replace(/X(\S+)/, (_, x: string) => `X${(Number(x) + 0.25).toFixed(4)}`),
      }),
    );
    const second = timed(() => review({ ...input, previous: first.made }));
    return { ms: first.ms, editMs: second.ms, shapes: first.made.execution.shapes.length };
  };
  for (let i = 0; i < WARM_UP; i++) once();
  const runs = Array.from({ length: RUNS }, once);
  return {
    ms: median(runs.map((run) => run.ms)),
    editMs: median(runs.map((run) => run.editMs)),
    shapes: runs[0]?.shapes ?? 0,
  };
}

function timed(run: () => Review): { ms: number; made: Review } {
  const begun = performance.now();
  const made = run();
  return { ms: performance.now() - begun, made };
}

export function benchPlates(): Row[] {
  const rows: Row[] = [];
  for (const [what, pairs, goal] of [
    ["plate of holes all alike, reviewed warm", false, 300],
    ["plate in overlapping pairs, no two alike, reviewed warm", true, 1000],
  ] as const) {
    const small = plate(2_500, pairs);
    const large = plate(10_000, pairs);
    rows.push({
      what,
      size: "10000",
      now: `${large.ms.toFixed(0)} ms`,
      goal: `${goal} ms`,
      beside: `${large.shapes} surroundings; 4 times 2500 holes take ${(4 * small.ms).toFixed(0)} ms; one hole moved: ${large.editMs.toFixed(0)} ms`,
      ok: large.ms <= goal,
    });
  }
  return rows;
}
