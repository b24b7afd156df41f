/**
 * What the numbers of a block mean to the control, put right in the words before anything uses them: F in steps, X as a
 * diameter, U, W and H as increments, the speed clamp of turning controls.
 */
import { type Codes, modal } from "./block-codes.ts";
import { cycleKind, GROUP } from "./codes.ts";
import type { Run } from "./run.ts";
import { C, F, H, letterName, S, U, W, X, XYZ, Z } from "./words.ts";

export function readings(run: Run, codes: Codes): void {
  const { dialect, words } = run;
  if (dialect.feedWithoutPoint === "scaled" && words.has(F) && (words.pointless & (1 << F)) !== 0) scaleFeed(run);
  if (codes.g4) dwellWord(run, codes);
  if (dialect.machineKind === "mill") return;
  clamp(run, codes);
  // G4 X1.5 is a time; U and W of a turning cycle are allowances.
  if (codes.g4 || (codes.cycle >= 0 && cycleKind(dialect, codes.cycle) === "turning")) return;
  if (dialect.diameterX && words.has(X)) words.value[X] = words.get(X) / 2;
  if (dialect.incrementalWords) increments(run, codes);
}

/** Where F or S of G4 is its time or its turns, it is neither a feed nor a speed. */
function dwellWord(run: Run, codes: Codes): void {
  const { words, dialect } = run;
  for (const letter of [F, S]) {
    if (!words.has(letter) || !dialect.dwellLetters.includes(letterName(letter))) continue;
    codes.dwell = letter;
    words.drop(letter);
  }
}

/** F30 is thirty steps: 0.03 mm/rev, or 30 mm/min. */
function scaleFeed(run: Run): void {
  const { dialect, words, row } = run;
  const units = modal[GROUP.units] ?? 0;
  const inch = units === 0 ? row.units === 2 : units === 200 || units === 700;
  const steps = dialect.feedIncrements;
  const mode = words.gCount > 0 ? feedModeOf(run, modal[GROUP.feedMode] ?? 0) : row.feedMode;
  if (mode === 93) return;
  const step = mode === 95 ? (inch ? steps.inPerRev : steps.mmPerRev) : inch ? steps.inPerMin : steps.mmPerMin;
  words.value[F] = Number((words.get(F) * step).toPrecision(12));
}

/** Feed mode that a code of the block sets; that in force where it sets none (code 0). */
export function feedModeOf(run: Run, code: number): 93 | 94 | 95 {
  if (code === 0) return run.row.feedMode;
  if (code === 980) return 94;
  if (code === 990) return 95;
  return (code / 10) as 93 | 94 | 95;
}

/** G50 S and G92 S bound the speed of G96. G50 with axis words sets the position, as G92 does on a mill. */
function clamp(run: Run, codes: Codes): void {
  const { words, row } = run;
  const code = codes.once === 500 || codes.once === 920 ? codes.once : codes.cycle === 920 ? 920 : 0;
  if (code === 0) return;
  const axes = (words.mask & XYZ) !== 0 || words.has(U) || words.has(W);
  if (words.has(S)) {
    if (!Object.is(row.clamp, words.get(S))) {
      row.clamp = words.get(S);
      run.dirty = true;
    }
    words.drop(S);
    if (!axes && codes.cycle === 920) codes.cycle = -1;
    if (!axes && codes.once === 920) codes.once = 500;
  }
  if (axes && codes.once === 500) codes.once = 920;
}

/** U, W and H become X, Z and C. The depth of a cycle counts from R, so the cycle takes that word itself. */
function increments(run: Run, codes: Codes): void {
  const { words, row, dialect } = run;
  const explicit = codes.cycle > 0 && codes.cycle !== 800;
  const cycle = explicit ? codes.cycle : codes.motion < 0 && codes.once < 0 && codes.cycle < 0 ? row.cycle : 0;
  const kind = cycle === 0 ? undefined : cycleKind(dialect, cycle);
  const depth = kind === undefined || kind === "face-peck" || kind === "turning" ? -1 : isSide(cycle) ? U : W;
  if (words.has(U) && depth !== U) increment(run, U, X, 0);
  if (words.has(W) && depth !== W) increment(run, W, Z, 2);
  if (!words.has(H)) return;
  const now = run.rotary[2] ?? Number.NaN;
  const start = row.distance === 91 || Number.isNaN(now) ? 0 : now;
  take(run, H, C, start + words.get(H));
}

function increment(run: Run, from: number, to: number, axis: number): void {
  const { row, dialect } = run;
  const half = to === X && dialect.diameterX ? 2 : 1;
  const way = run.length(from) / half;
  const distance = modal[GROUP.distance] ?? 0;
  const incremental = run.words.gCount > 0 && distance !== 0 ? distance === 910 : row.distance === 91;
  const value = incremental ? way : (run.pos[axis] ?? Number.NaN) + way;
  take(run, from, to, value / run.factor());
}

function take(run: Run, from: number, to: number, value: number): void {
  const { words } = run;
  words.put(to, value, words.itemOf(from), !Number.isNaN(value));
  words.pointless &= ~(1 << to);
  words.relative |= 1 << to;
  words.drop(from);
}

/** Cycles of turning controls that drill square to the spindle, along X. */
export const isSide = (code: number): boolean => code === 870 || code === 880 || code === 890;
