/** The G codes of one block, sorted by what they do. One scratch for all runs: a block is done before the next is read. */
import { GROUP, gName, groupOf } from "./codes.ts";
import { customCode } from "./custom-codes.ts";
import { readings } from "./readings.ts";
import type { Run } from "./run.ts";
import { NOT_KNOWN } from "./words.ts";

/** The block's G codes by what they do. −1 where absent. Scratch of one run. */
export interface Codes {
  motion: number;
  cycle: number;
  /** A one-block code other than G4, G9 and G53. */
  once: number;
  g4: boolean;
  g53: boolean;
  comp: number;
  tlo: number;
  /** F or S of a block with G4 where it is the dwell's, and no feed or speed. */
  dwell: number;
  /** Item of a G code whose value is not known. */
  unknown: number;
  /** Index of a G code that is told as not followed: unknown to the dialect, or the machine builder's own. */
  stray: number;
}

export const codes: Codes = {
  motion: -1,
  cycle: -1,
  once: -1,
  g4: false,
  g53: false,
  comp: -1,
  tlo: -1,
  dwell: -1,
  unknown: -1,
  stray: -1,
};
/** Modal codes of the block by group; 0 absent. */
export const modal = new Int32Array(24);

export function readCodes(run: Run): void {
  const { words } = run;
  codes.motion = -1;
  codes.cycle = -1;
  codes.once = -1;
  codes.g4 = false;
  codes.g53 = false;
  codes.comp = -1;
  codes.tlo = -1;
  codes.dwell = -1;
  codes.unknown = -1;
  codes.stray = -1;
  if (words.gCount > 0) modal.fill(0);
  for (let i = 0; i < words.gCount; i++) {
    const code = words.g[i] ?? -1;
    const group = groupOf(run.codes.groups, code);
    if (code === NOT_KNOWN) codes.unknown = words.gItem[i] ?? words.first;
    else if (group === GROUP.unknown) unknownG(run, i, code);
    else if (group === GROUP.custom) customG(run, i, code);
    else if (group === GROUP.motion) codes.motion = code;
    else if (group === GROUP.cycle) codes.cycle = code;
    else if (group === GROUP.once) {
      if (code === 40) codes.g4 = true;
      else if (code === 530) codes.g53 = true;
      else if (code !== 90) codes.once = code;
    } else modal[group] = code === 0 ? -1 : code;
  }
  if (words.gCount > 0) {
    const comp = modal[GROUP.comp] ?? 0;
    const tlo = modal[GROUP.length] ?? 0;
    if (comp > 0) codes.comp = comp / 10;
    if (tlo > 0) codes.tlo = tlo / 10;
  }
  readings(run, codes);
}

function unknownG(run: Run, i: number, code: number): void {
  const { words, dialect, blocks } = run;
  const item = words.gItem[i] ?? words.first;
  if (dialect.unknownCode === "ignore") return;
  codes.stray = i;
  const written = blocks
    .textOf(words.block)
    .slice(blocks.start(item), blocks.end(item))
    .replace(/\s/g, "")
    .toUpperCase();
  const name = code < 0 ? written : gName(code);
  run.say(
    "unknown-code",
    name,
    item,
    { code: name, level: dialect.unknownCode === "error" ? "error" : "warning" },
    undefined,
    1,
  );
}

function customG(run: Run, i: number, code: number): void {
  if (customCode(run, "G", code, run.words.gItem[i] ?? run.words.first) && codes.stray < 0) codes.stray = i;
}
