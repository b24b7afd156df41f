/**
 * Runs one block: reads its codes, then acts in the order of NISTIR 6556 table 8, which other controls share but for
 * the M codes that act after the motion (key `mTiming`).
 */
import { runCycle } from "./cycles.ts";
import { GROUP, gName, groupOf } from "./codes.ts";
import { forgetCycle } from "./cycle-data.ts";
import { flow } from "./flow.ts";
import { lose } from "./losses.ts";
import { gather } from "./gather.ts";
import { machineCodes, machineCodesAfter, readMachineCodes } from "./machine-codes.ts";
import { ANY_AXIS, move } from "./motion.ts";
import { applyLength, clearPosition, goHome, localShift, machineMove, setPosition, switchWcs, writeOffsets } from "./places.ts";
import { refuses } from "./rules.ts";
import type { Run } from "./run.ts";
import { A, C, F, H, P, R, S, T, U, X, XYZ } from "./words.ts";

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
}

const codes: Codes = { motion: -1, cycle: -1, once: -1, g4: false, g53: false, comp: -1, tlo: -1 };
/** Modal codes of the block by group; 0 absent. */
const modal = new Int32Array(24);

export function runBlock(run: Run, block: number): void {
  const { words, blocks } = run;
  if (blocks.itemCount(block) === 0) return;
  gather(run, block);
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
  if (words.statement >= 0 || run.insideSub > 0) {
    if (flow(run) === "skip") {
      step(run, block);
      return;
    }
  }
  const something = words.mask !== 0 || words.gCount > 0 || words.mCount > 0;
  if (!something) {
    if (words.assignments) step(run, block);
    return;
  }
  run.executed++;
  readCodes(run);
  readMachineCodes(run);
  if (!refuses(run, codes)) act(run);
  step(run, block);
}

function step(run: Run, block: number): void {
  if (run.record !== null) {
    run.store.steps.push(run.currentRow());
    run.store.stepBlocks.push(block);
  }
  run.step++;
}

function percent(run: Run): void {
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
    run.remark("program-number", "error", words.programItem, "this dialect has no program numbers");
    return true;
  }
  if (run.executed > 0) {
    run.ended = true;
    return true;
  }
  return false;
}

function readCodes(run: Run): void {
  const { words } = run;
  codes.motion = -1;
  codes.cycle = -1;
  codes.once = -1;
  codes.g4 = false;
  codes.g53 = false;
  codes.comp = -1;
  codes.tlo = -1;
  if (words.gCount > 0) modal.fill(0);
  for (let i = 0; i < words.gCount; i++) {
    const code = words.g[i] ?? -1;
    const group = groupOf(run.codes.groups, code);
    if (group === GROUP.unknown) unknownG(run, i, code);
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
}

function unknownG(run: Run, i: number, code: number): void {
  const { words, dialect, blocks } = run;
  const item = words.gItem[i] ?? words.first;
  if (dialect.unknownCode === "ignore" || (words.unknown !== 0 && code < 0)) return;
  const written = blocks.textOf(words.block).slice(blocks.start(item), blocks.end(item)).replace(/\s/g, "").toUpperCase();
  const name = code < 0 ? written : gName(code);
  run.say("unknown-code", name, item, { code: name, level: dialect.unknownCode === "error" ? "error" : "warning" }, undefined, 1);
}

function act(run: Run): void {
  const { words, row } = run;
  if (words.gCount > 0) feedMode(run);
  if (words.has(F)) {
    const f = words.get(F);
    if (!Object.is(row.f, f)) {
      row.f = f;
      run.dirty = true;
      run.cycle.version++;
    }
    run.feedByMode[row.feedMode - 93] = f;
    run.from("f", words.itemOf(F));
  }
  if (words.has(S)) {
    const s = words.get(S);
    if (!Object.is(row.s, s)) {
      row.s = s;
      run.dirty = true;
      run.cycle.version++;
    }
    run.from("s", words.itemOf(S));
  }
  if (words.has(T) || words.mCount > 0) {
    machineCodes(run);
  }
  if (words.gCount > 0) modes(run);
  else if (words.has(H) && row.tlo !== 49 && run.dialect.unusedWords === "ignore") lengthOffset(run, row.tlo, words.itemOf(H));
  axisWords(run);
  if (words.mCount > 0) machineCodesAfter(run);
}

function feedMode(run: Run): void {
  const { row, dialect, words } = run;
  const code = modal[GROUP.feedMode] ?? 0;
  if (code === 0) return;
  modal[GROUP.feedMode] = 0;
  const mode = (code / 10) as 93 | 94 | 95;
  run.from("feedMode", words.gItemOf(code));
  if (mode === row.feedMode) return;
  row.feedMode = mode;
  if (dialect.feedOnModeChange === "require-new") row.f = Number.NaN;
  else if (dialect.feedOnModeChange === "per-mode") row.f = run.feedByMode[mode - 93] ?? Number.NaN;
  run.dirty = true;
  run.cycle.version++;
}

function modes(run: Run): void {
  const { row, words } = run;
  for (let group = 0; group < modal.length; group++) {
    const code = modal[group] ?? 0;
    if (code === 0) continue;
    modal[group] = 0;
    const item = words.gItemOf(code);
    run.dirty = true;
    run.cycle.version++;
    switch (group) {
      case GROUP.plane:
        plane(run, (code / 10) as 17 | 18 | 19, item);
        break;
      case GROUP.units:
        units(run, code === 200 || code === 700 ? 2 : 1, item);
        break;
      case GROUP.comp:
        row.comp = (code / 10) as 40 | 41 | 42;
        break;
      case GROUP.length:
        lengthOffset(run, (code / 10) as 43 | 44 | 49, item);
        break;
      case GROUP.wcs: {
        const name = code === 541 || (code === 540 && words.has(P)) ? `G54.1 P${words.get(P)}` : gName(code);
        run.from("wcs", item);
        if (name === row.wcs) break;
        run.record?.longHand.commit(run);
        switchWcs(run, name);
        row.wcs = name;
        break;
      }
      case GROUP.distance:
        row.distance = (code / 10) as 90 | 91;
        break;
      case GROUP.returnMode:
        row.returnMode = (code / 10) as 98 | 99;
        run.from("returnMode", item);
        break;
      case GROUP.speedMode:
        row.speedMode = (code / 10) as 96 | 97;
        break;
      case GROUP.polar:
        run.polar = code === 160;
        if (run.polar) notFollowed(run, "G16", item, "polar coordinates: positions in G16 are unknown");
        break;
      case GROUP.scaling:
        if (code === 510) notFollowed(run, "G51", item, "scaling: positions and depths are read as written, unscaled");
        break;
      case GROUP.rotation:
        if (code === 680) notFollowed(run, "G68", item, "rotation: positions are those before it");
        run.places.rotation = code === 680 ? `G68 ${words.block}` : "";
        run.places.version++;
        break;
      case GROUP.mirror:
        if (code === 511) notFollowed(run, "G51.1", item, "mirror image: positions are those before it");
        run.places.rotation = code === 511 ? `G51.1 ${words.block}` : "";
        run.places.version++;
        break;
      case GROUP.macro:
        if (code !== 670) notFollowed(run, gName(code), item, "the macro that runs after each move is not followed");
        break;
      default:
        break;
    }
  }
}

function notFollowed(run: Run, code: string, item: number, what: string): void {
  run.say("not-executed", code, item, { text: `${code} is read but not followed. It sets ${what}` }, undefined, 1);
}

function plane(run: Run, next: 17 | 18 | 19, item: number): void {
  const { row, dialect } = run;
  if (next === row.plane) return;
  if (row.cycle !== 0) {
    const level = dialect.planeInCycle === "error" ? "error" : "warning";
    run.say("plane-change-in-cycle", "", item, { level, plane: `G${next}`, cycle: gName(row.cycle) });
    if (dialect.planeInCycle === "error") {
      row.cycle = 0;
      forgetCycle(run.cycle);
    }
  }
  run.record?.longHand.commit(run);
  row.plane = next;
}

function units(run: Run, next: 1 | 2, item: number): void {
  const { row, words } = run;
  const before = row.units;
  if (before === next) {
    run.from("units", item);
    return;
  }
  const code = next === 2 ? "G20" : "G21";
  if (before === 0) {
    // Positions read so far were numbers of an unknown unit.
    for (let axis = 0; axis < 3; axis++) if (next === 2) run.pos[axis] = (run.pos[axis] ?? Number.NaN) * 25.4;
  } else {
    if (row.cycle !== 0) run.say("units-change-in-cycle", "", item, { code, cycle: gName(row.cycle) });
    run.remark("units-change", "warning", item, `${code} changes the units in the middle of the program`, 3);
    if (!Number.isNaN(row.f) && row.feedMode !== 93 && !words.has(F)) {
      const unit = next === 2 ? "inches" : "millimetres";
      run.remark("units-feed", "warning", item, `F${row.f} keeps its number and is read in ${unit} from here: give F anew after ${code}`, 3);
    }
  }
  run.record?.longHand.commit(run);
  row.units = next;
  run.from("units", item);
}

/** G43, G44, G49, and a bare H that takes another offset where the dialect allows it. */
function lengthOffset(run: Run, code: 43 | 44 | 49, item: number): void {
  const { row, words, dialect } = run;
  run.from("lengthOffset", code === 49 || !words.has(H) ? item : words.itemOf(H));
  run.dirty = true;
  run.cycle.version++;
  if (code === 49) {
    row.tlo = 49;
    row.h = Number.NaN;
    applyLength(run, 0);
    return;
  }
  if (!words.has(H)) {
    const strict = dialect.unusedWords === "error";
    run.remark("g43-without-h", strict ? "error" : "warning", item, `G${code} has no H word for the offset`);
    if (!strict) run.lengthOwed = false;
    return;
  }
  run.lengthOwed = false;
  const h = words.get(H);
  const again = row.tlo === code && Object.is(row.h, h) && !Number.isNaN(h);
  row.tlo = code;
  row.h = h;
  if (!again) {
    const length = h === 0 ? 0 : (run.places.lengths.get(h) ?? Number.NaN);
    applyLength(run, code === 44 ? -length : length);
  }
  const tool = row.tool;
  if (dialect.hEqualsT === "off" || tool < 0 || h === 0 || Number.isNaN(h)) return;
  const allowed = run.record?.operations.lengthOffsetsOf(tool) ?? [];
  if (allowed.length > 0 ? allowed.includes(h) : h === tool) return;
  const level = dialect.hEqualsT === "required" ? "error" : "warning";
  run.say("length-offset", "", words.itemOf(H), { h, tool, level });
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
    run.from("cycle", words.gItemOf(800));
    if (codes.motion < 0) {
      run.afterG80 = true;
      if (run.dialect.afterG80 === "G0") row.motion = 0;
      if (run.dialect.afterG80 === "none") row.motion = -1;
      run.dirty = true;
    }
  }
  if (codes.motion >= 0) {
    setMotion(run);
    if (axes || ((codes.motion === 20 || codes.motion === 30) && (words.mask & 0x700) !== 0)) move(run, words.gItemOf(codes.motion));
    else if (run.dialect.bareMotionCode === "error")
      run.remark("motion-without-axes", "error", words.gItemOf(codes.motion), `${gName(codes.motion)} needs at least one axis word`);
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
    run.remark("axes-without-code", "error", words.first, "axis words, but no code that moves is in force");
    return;
  }
  if (run.afterG80) {
    run.afterG80 = false;
    run.remark("after-g80", "warning", words.first, `after G80 this moves by G${row.motion}, in force from before: write the code to be sure`);
  }
  move(run, words.first);
}

/** Takes over A, B and C: holes at another rotary position are not on the same axis line. */
export function rotaryWords(run: Run): void {
  const { words, row } = run;
  for (let letter = A; letter <= C; letter++) {
    if (!words.has(letter)) continue;
    const before = run.rotary[letter] ?? Number.NaN;
    const value = words.get(letter) + (row.distance === 91 ? (Number.isNaN(before) ? 0 : before) : 0);
    if (Object.is(before, value)) continue;
    run.record?.longHand.commit(run);
    run.rotary[letter] = value;
    run.places.version++;
    run.cycle.version++;
  }
}

function setMotion(run: Run): void {
  const { row } = run;
  if (codes.motion < 0) return;
  const motion = codes.motion / 10;
  if (row.cycle !== 0) cancelCycle(run);
  run.afterG80 = false;
  rotaryWords(run);
  if (row.motion === motion) return;
  row.motion = motion <= 3 ? motion : -1;
  run.dirty = true;
}

export function cancelCycle(run: Run): void {
  forgetCycle(run.cycle);
  if (run.row.cycle === 0) return;
  run.row.cycle = 0;
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
    case 650:
      run.say("not-executed", "G65", item, { text: "G65 calls a macro that is not followed: positions after it are unknown" }, undefined, 1);
      lose(run, "a macro was called that is not followed");
      return true;
    case 270:
    case 290:
    case 310:
    case 370:
      run.say("not-executed", gName(code), item, { text: `${gName(code)} is read but not followed: positions after it are unknown` }, undefined, 1);
      lose(run, `${gName(code)} is not followed`);
      return true;
    default:
      return false;
  }
}

function dwell(run: Run): void {
  const { words, dialect } = run;
  const item = words.gItemOf(40);
  const letters = dialect.dwellLetters;
  let seconds = Number.NaN;
  let given = false;
  if (letters.includes("P") && words.has(P)) {
    given = true;
    seconds = dialect.dwellP === "ms" ? words.get(P) / 1000 : words.get(P);
  } else if (letters.includes("X") && words.has(X)) {
    given = true;
    seconds = run.length(X) / run.factor();
  } else if (letters.includes("U") && words.has(U)) {
    given = true;
    seconds = words.get(U);
  } else if (letters.includes("F") && words.has(F)) {
    given = true;
    seconds = words.get(F);
  }
  if (!given || seconds < 0) {
    run.remark("dwell", "error", item, given ? "G4 has a negative time" : `G4 has no time: it needs ${[...letters].join(" or ")}`);
    return;
  }
  run.record?.operations.addSeconds(seconds);
  run.record?.longHand.dwell(seconds);
  run.emit("dwell", seconds);
}

