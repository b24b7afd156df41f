/**
 * Runs one block: reads its codes, then acts in the order of NISTIR 6556 table 8, which other controls share but for
 * the M codes that act after the motion (key `mTiming`).
 */
import { codes, readCodes } from "./block-codes.ts";
import { callEach, fallOut, macroCall } from "./calls.ts";
import { gName } from "./codes.ts";
import { cancelCycle } from "./cycle-data.ts";
import { runCycle } from "./cycles.ts";
import { cycleAxes } from "./drill-axes.ts";
import { dwell } from "./dwell.ts";
import { flow } from "./flow.ts";
import { programDigits } from "./form-rules.ts";
import { gather, tellOpenCounts } from "./gather.ts";
import { lose } from "./losses.ts";
import { machineCodes, machineCodesAfter, readMachineCodes } from "./machine-codes.ts";
import { foreignCall, writesHash } from "./macro-dialect.ts";
import { WORD_NOT_KNOWN, WORD_NOT_READ } from "./modal.ts";
import { feedMode, lengthOffset, modes, offsetLetter } from "./modes.ts";
import { ANY_AXIS, move } from "./motion.ts";
import { clearPosition, goHome, localShift, machineMove, setPosition, switchWcs, writeOffsets } from "./places.ts";
import { rotaryWords } from "./rotary.ts";
import { refuses } from "./rules.ts";
import type { Run } from "./run.ts";
import { intervenes } from "./transform.ts";
import { doubt, NO_SYSTEM, settled, UNSURE, unsure } from "./unsure.ts";
import { F, R, S, T, type Words, X, XYZ } from "./words.ts";

export function runBlock(run: Run, block: number): void {
  if (run.blocks.itemCount(block) === 0) return;
  run.at = block;
  gather(run, block);
  runWords(run, block);
  if (run.words.openCounts !== 0) tellOpenCounts(run);
}

function runWords(run: Run, block: number): void {
  const { words, frame } = run;
  if (words.comments && run.record !== null) run.record.noted.reach(run, block);
  if (words.percent) {
    run.percents++;
    percent(run);
    return;
  }
  if (run.dataInput) {
    if (words.gItemOf(110) >= 0) run.dataInput = false;
    return;
  }
  if (words.programItem >= 0 && programNumber(run)) return;
  if (words.statement >= 0 && flow(run) === "skip") {
    step(run, block);
    return;
  }
  const something = (words.mask | words.broken) !== 0 || words.gCount > 0 || words.mCount > 0;
  if (!something) {
    if (words.assignments) step(run, block);
    return;
  }
  run.executed++;
  if (words.gCount > 0 && run.dialect.unknownCode !== "error" && foreignCall(run)) {
    step(run, block);
    return;
  }
  if (words.gCount > 0 && writesHash(run.dialect) && macroCall(run)) {
    step(run, block);
    return;
  }
  readCodes(run);
  readMachineCodes(run);
  if (!refuses(run, codes)) act(run);
  step(run, block);
  if (run.each !== null && (words.mask & ANY_AXIS) !== 0) callEach(run, frame);
}

function step(run: Run, block: number): void {
  if (run.record !== null) {
    run.store.steps.push(run.currentRow());
    run.store.stepBlocks.push(block);
    run.store.stepZ.push(run.row.units === 0 ? Number.NaN : (run.pos[2] ?? Number.NaN));
    run.record.operations.reach(block);
  }
  run.step++;
}

function percent(run: Run): void {
  if (run.frame !== null) {
    fallOut(run);
    return;
  }
  // Text before the first % is leader (ISO 6983-1, from memory); once something ran, a % closes.
  if (run.percents > 1 || run.executed > 0) {
    run.ended = true;
    run.sawEnd = true;
    run.closed = true;
  } else run.opened = true;
}

/** @returns true when the block belongs to another program */
function programNumber(run: Run): boolean {
  const { words, dialect } = run;
  if (!dialect.programNumbers) {
    run.remark(
      "program-number",
      "error",
      words.programItem,
      "this dialect has no program numbers. Way out: a comment for the name of the program",
    );
    return true;
  }
  programDigits(run);
  if (run.frame !== null) {
    // The called program runs into the next one.
    if (words.block === run.frame.start) return false;
    fallOut(run);
    return true;
  }
  if (run.executed > 0) {
    run.ended = true;
    return true;
  }
  return false;
}

function act(run: Run): void {
  const { words, row } = run;
  if (codes.unknown >= 0) unknownCode(run, codes.unknown);
  if (words.gCount > 0) feedMode(run);
  speedAndFeed(run);
  if (words.has(T) || words.mCount > 0) {
    machineCodes(run);
  }
  if (words.gCount > 0) modes(run);
  else if (words.has(offsetLetter(run.dialect)) && row.tlo !== 49 && run.dialect.unusedWords === "ignore")
    lengthOffset(run, row.tlo, words.itemOf(offsetLetter(run.dialect)));
  axisWords(run);
  if (words.mCount > 0) machineCodesAfter(run);
}

function speedAndFeed(run: Run): void {
  const { words, row } = run;
  if (words.isWritten(F)) {
    const f = words.has(F) ? words.get(F) : Number.NaN;
    const why = whyUnknown(words, F, "f");
    if (!Object.is(row.f, f) || row.fWhy !== why) {
      row.f = f;
      row.fWhy = why;
      run.dirty = true;
      run.cycle.version++;
    }
    if (unsure(row, UNSURE.feedMode)) run.feedByMode.fill(Number.NaN);
    else run.feedByMode[row.feedMode - 93] = f;
    run.from("f", words.itemOf(F));
  }
  if (words.isWritten(S)) {
    const s = words.has(S) ? words.get(S) : Number.NaN;
    const why = whyUnknown(words, S, "s");
    if (!Object.is(row.s, s) || row.sWhy !== why) {
      row.s = s;
      row.sWhy = why;
      run.dirty = true;
      run.cycle.version++;
    }
    run.from("s", words.itemOf(S));
  }
}

/** Of a word that is there, and with it the value from before no longer in force. */
function whyUnknown(words: Words, letter: number, name: "s" | "f"): string {
  if (!words.has(letter)) return WORD_NOT_READ[name];
  return Number.isNaN(words.get(letter)) ? WORD_NOT_KNOWN[name] : "";
}

function axisWords(run: Run): void {
  const { words, row } = run;
  if (codes.g4) dwell(run);
  if (codes.once >= 0) {
    const item = words.gItemOf(codes.once);
    if (once(run, codes.once, item)) {
      if (codes.cycle === 800) cancelCycle(run);
      setMotion(run);
      return;
    }
  }
  if (codes.g53) {
    setMotion(run);
    machineMove(run, words.gItemOf(530));
    return;
  }
  const axes = (words.mask & ANY_AXIS) !== 0 && !(codes.g4 && (words.mask & ANY_AXIS & ~(1 << X)) === 0);
  if (codes.cycle > 800 || (codes.cycle >= 0 && codes.cycle < 800)) {
    if (codes.motion >= 0 && run.dialect.cycleGroupSeparate) setMotion(run);
    run.afterG80 = false;
    runCycle(run, codes.cycle, true, words.gItemOf(codes.cycle));
    return;
  }
  if (codes.cycle === 800) {
    cancelCycle(run);
    // Holes in long hand are a run too.
    run.record?.longHand.commit(run);
    run.record?.noted.runEnds();
    run.rigid = false;
    run.from("cycle", words.gItemOf(800));
    if (codes.motion < 0) {
      run.afterG80 = true;
      if (run.dialect.afterG80 !== "previous-group1") settled(run, UNSURE.motion);
      if (run.dialect.afterG80 === "G0") row.motion = 0;
      if (run.dialect.afterG80 === "none") row.motion = -1;
      run.dirty = true;
    }
  }
  if (codes.motion >= 0) {
    setMotion(run);
    if (axes || ((codes.motion === 20 || codes.motion === 30) && (words.mask & 0x700) !== 0))
      move(run, words.gItemOf(codes.motion));
    else if (run.dialect.bareMotionCode === "error")
      run.remark(
        "motion-without-axes",
        "error",
        words.gItemOf(codes.motion),
        `${gName(codes.motion)} needs at least one axis word. Way out: write where it goes, or leave the code out`,
      );
    return;
  }
  if (codes.stray >= 0 && axes) {
    strayMove(run);
    return;
  }
  if (unsure(row, UNSURE.cycle) || (row.cycle === 0 && unsure(row, UNSURE.motion))) {
    if (axes) unknownMove(run);
    return;
  }
  if (row.cycle !== 0) {
    const repeats = (words.mask & (ANY_AXIS | (run.dialect.cycleGroupSeparate ? 1 << R : 0))) !== 0;
    if (repeats) runCycle(run, row.cycle, false, words.first);
    return;
  }
  if (!axes) return;
  rotaryWords(run);
  if ((words.mask & XYZ) === 0) return;
  if (row.motion < 0) {
    run.remark(
      "axes-without-code",
      "error",
      words.first,
      "axis words, but no code that moves is in force. Way out: G0 or G1 before them",
    );
    return;
  }
  if (run.afterG80) {
    run.afterG80 = false;
    run.remark(
      "after-g80",
      "warning",
      words.first,
      `after G80 this moves by G${row.motion}, in force from before. Way out: write the code`,
    );
  }
  move(run, words.first);
}

/** A G code whose value is not known: it may have set any mode, moved the tool, or shifted what positions mean. */
function unknownCode(run: Run, item: number): void {
  const { blocks, row, words } = run;
  const written = blocks.textOf(words.block).slice(blocks.start(item), blocks.end(item)).replace(/\s/g, "");
  const why = `${written.toUpperCase()} has a value that is not known, and may have set it`;
  lose(run, why);
  switchWcs(run, NO_SYSTEM);
  row.wcs = NO_SYSTEM;
  for (const axis of [0, 1, 2] as const) run.why[axis] = why;
  row.cycle = 0;
  row.motion = -1;
  row.returnMode = 0;
  row.comp = 40;
  doubt(row, ANY_MODE, why);
  run.dirty = true;
  run.cycle.version++;
}

/** Axis words of a code that is not followed: what it does with them, and so where the tool is then, is unknown. */
function strayMove(run: Run): void {
  const { row, words } = run;
  const { blocks } = run;
  const item = words.gItem[codes.stray] ?? words.first;
  const written = blocks
    .textOf(words.block)
    .slice(blocks.start(item), blocks.end(item))
    .replace(/\s/g, "")
    .toUpperCase();
  const why = `${written} is not followed`;
  run.record?.operations.addUnknown();
  lose(run, why);
  for (let axis = 0; axis < 3; axis++) if (words.has(axis)) run.rotary[axis] = Number.NaN;
  // The builder's own are most often calls, for one block; any other may stay in force as a move or a cycle.
  if (run.dialect.customG.has(words.g[codes.stray] ?? -1)) return;
  row.cycle = 0;
  row.motion = -1;
  doubt(row, UNSURE.motion | UNSURE.cycle, why);
  run.dirty = true;
  run.cycle.version++;
}

/** All that a G code may set. */
const ANY_MODE =
  UNSURE.motion |
  UNSURE.cycle |
  UNSURE.plane |
  UNSURE.distance |
  UNSURE.feedMode |
  UNSURE.units |
  UNSURE.returnMode |
  UNSURE.wcs |
  UNSURE.comp |
  UNSURE.lengthOffset |
  UNSURE.speedMode;

/** Axis words of which nobody knows whether they move, drill, or how: no move is told, and where they lead is unknown. */
function unknownMove(run: Run): void {
  const { words, row } = run;
  rotaryWords(run);
  run.record?.longHand.commit(run);
  run.record?.operations.addUnknown();
  run.places.written = null;
  const all = unsure(row, UNSURE.plane) || intervenes(run.places);
  for (let axis = 0; axis < 3; axis++) {
    // A cycle leaves the tool at a level of its own.
    const drilled = axis === cycleAxes(run, row.cycle)[0] && unsure(row, UNSURE.cycle);
    const touched = all || drilled || words.has(X + axis);
    if (!touched) continue;
    run.pos[axis] = Number.NaN;
    run.why[axis as 0 | 1 | 2] = row.unsureWhy;
  }
}

function setMotion(run: Run): void {
  const { row } = run;
  if (codes.motion < 0) return;
  const motion = codes.motion / 10;
  if (row.cycle !== 0 || unsure(row, UNSURE.cycle)) cancelCycle(run);
  settled(run, UNSURE.motion);
  run.afterG80 = false;
  rotaryWords(run);
  if (row.motion === motion) return;
  row.motion = motion <= 3 ? motion : -1;
  run.dirty = true;
}

/** @returns true when the code used up the block's axis words */
function once(run: Run, code: number, item: number): boolean {
  switch (code) {
    case 100:
      writeOffsets(run, item);
      return true;
    case 280:
    case 300:
      goHome(run, code, item);
      return true;
    case 920:
      run.record?.longHand.commit(run);
      setPosition(run, item);
      return true;
    case 921:
    case 922:
    case 923:
      run.record?.longHand.commit(run);
      clearPosition(run, code);
      return false;
    case 520:
      run.record?.longHand.commit(run);
      localShift(run);
      return true;
    case 270:
    case 290:
    case 310:
    case 370:
      run.say(
        "not-executed",
        gName(code),
        item,
        { text: `${gName(code)} is read but not followed: positions after it are unknown` },
        undefined,
        1,
      );
      lose(run, `${gName(code)} is not followed`);
      return true;
    default:
      return false;
  }
}
