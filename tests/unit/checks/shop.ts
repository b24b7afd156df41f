/** An invented shop for the tests of the checks: one machine, ten tools, one material. */
import { readBlocks } from "../../../grammar/read.ts";
import type { Finding } from "../../../server/checks/types.ts";
import { review } from "../../../server/review/review.ts";
import type { Review, ReviewInput } from "../../../server/review/types.ts";
import { LineStore } from "../../../server/text/lines.ts";

export const SHOP = `units: mm
programs:
  - { files: "*.nc", machine: vmc, tools: crib, workpiece: part }
machines:
  vmc:
    kind: mill
    dialect: generic-mill
    spindle:
      maxRpm: 10000
      continuous: [{ rpm: 0, torque: 95 }, { rpm: 1500, torque: 95 }, { rpm: 10000, power: 15 }]
      shortTime: { minutes: 30, points: [{ rpm: 0, torque: 120 }, { rpm: 1500, torque: 120 }, { rpm: 10000, power: 18.8 }] }
      drive: belt
    axis: { maxFeed: 5000, rapid: 30000, thrust: 9 kN }
    coolant:
      M8: { kind: flood, pressure: 2, flow: 40 }
      M88: { kind: through, pressure: 20, flow: 40 }
      M89: { kind: through, pressure: 20, flow: 10 }
tools:
  crib:
    - { T: 1, family: spot, DC: 10, SIG: 90, LU: 20, coolant: external, windows: [{ group: P, vc: [30, 50, 70], f: [0.05, 0.1, 0.15] }] }
    - { T: 2, family: spot, DC: 12, SIG: 142, LU: 20, coolant: external, windows: [{ group: P, vc: [30, 50, 70], f: [0.05, 0.1, 0.15] }] }
    - { T: 3, family: solid-carbide, DC: 10.2, SIG: 140, LU: 55, NOF: 2, coolant: through, RPMX: 12000,
        windows: [{ group: P, vc: [70, 90, 110], f: [0.15, 0.2, 0.25] }, { group: K, vc: [70, 90, 120], f: [0.15, 0.2, 0.3] }, { group: M, vc: [35, 50, 90], f: [0.1, 0.15, 0.2] }] }
    - { T: 4, family: solid-carbide, DC: 8, SIG: 140, LU: 80, NOF: 2, coolant: external,
        windows: [{ group: P, vc: [60, 80, 110], f: [0.12, 0.18, 0.25] }] }
    - { T: 5, family: twist-hss, DC: 12, SIG: 118, LU: 100, NOF: 2, point: split, coolant: external,
        windows: [{ group: P, vc: [10, 20, 28], f: [0.1, 0.18, 0.25] }] }
    - { T: 7, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, edge: general, coolant: through, minPressure: 8,
        windows: [{ group: P, vc: [120, 165, 220], f: [0.06, 0.1, 0.14] }] }
    - { T: 8, family: twist-hss, DC: 40, SIG: 118, LU: 200, NOF: 2, point: standard, coolant: external,
        windows: [{ group: P, vc: [10, 20, 40], f: [0.1, 0.3, 0.5] }] }
    - { T: 9, family: tap, DC: 12, lead: 1.75, LU: 40, coolant: external, windows: [{ group: P, vc: [8, 14, 22] }] }
    - { T: 10, family: indexable, DC: 20, SIG: 180, LU: 100, ZEFP: 1, edge: general, coolant: external,
        windows: [{ group: P, vc: [80, 120, 220], f: [0.05, 0.1, 0.14] }] }
    - { T: 11, family: indexable, DC: 40, SIG: 180, LU: 120, ZEFP: 1, edge: general, coolant: through,
        windows: [{ group: P, vc: [120, 165, 260], f: [0.06, 0.14, 0.25] }] }
workpieces:
  part:
    material: 42CrMo4
    hardness: 290 HB
    stock: { wcs: G54, solids: [{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] } }] }
`;

export const SETUP_FILE = "/shop/swarfline.yaml";
export const PROGRAM = "/shop/part.nc";

export interface ReviewedText {
  readonly review: Review;
  readonly lines: LineStore;
}

/** @param setup null: no setup at all */
export function reviewText(text: string, setup: string | null = SHOP, more: Partial<ReviewInput> = {}): ReviewedText {
  const lines = LineStore.from(text);
  const result = review({
    program: PROGRAM,
    lines,
    blocks: readBlocks(lines),
    sources: new Map(setup === null ? [] : [[SETUP_FILE, setup]]),
    setupFile: setup === null ? null : SETUP_FILE,
    ...more,
  });
  return { review: result, lines };
}

/** A finding as a test reads it: line from 1 and the words it stands on. */
export interface Seen {
  readonly check: string;
  readonly severity: string;
  readonly line: number;
  readonly word: string;
  readonly message: string;
  readonly count: number;
  readonly data: Finding["data"];
}

export function seen({ review: reviewed, lines }: ReviewedText): Seen[] {
  return reviewed.findings.map((finding) => {
    const { check, severity, message, count, data, place } = finding;
    if (place.in === "file") return { check, severity, message, count, data, line: place.line + 1, word: place.file };
    const line = reviewed.execution.blocks.lineOf(place.span.block);
    return {
      check,
      severity,
      message,
      count,
      data,
      line: line + 1,
      word: lines.line(line).slice(place.span.start, place.span.end),
    };
  });
}

/** A whole program around the lines of one test. The lines begin on line 3. */
export function program(...body: readonly string[]): string {
  return ["%", "G21 G17 G40 G49 G80 G90 G94 G54", ...body, "M30", "%"].join("\n");
}

/** An approach with coolant on in time. */
export function approach(tool: number, s: number, coolant = "M88"): string[] {
  return [`T${tool} M6`, `G0 X0. Y0. S${s} M3`, `G43 H${tool} Z50. ${coolant}`, "G4 P3000"];
}
