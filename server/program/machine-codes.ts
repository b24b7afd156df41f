/** T and the M codes: tool change, spindle, coolant, stops, calls. Which act after the motion is the dialect's `mTiming`. */
import { codes as gCodes } from "./block-codes.ts";
import { callSub, returnTo } from "./calls.ts";
import { cycleKind, QUIET_M } from "./codes.ts";
import { customCode } from "./custom-codes.ts";
import { lose } from "./losses.ts";
import { startRow } from "./modal.ts";
import type { Run } from "./run.ts";
import { toolWords } from "./tool-change.ts";
import { leftInForce } from "./transform-codes.ts";
import { doubt, settled, UNSURE } from "./unsure.ts";
import { NOT_KNOWN } from "./words.ts";

interface Codes {
  change: boolean;
  /** 0 stop, 1 cw, 2 ccw, −1 none. */
  spindle: number;
  spindleItem: number;
  /** The spindle code is one of the driven tools. */
  live: boolean;
  coolantItem: number;
  coolantOff: boolean;
  /** 0, 1, 2, 30 or 60; −1 none. */
  stop: number;
  call: number;
}

const codes: Codes = {
  change: false,
  spindle: -1,
  spindleItem: 0,
  live: false,
  coolantItem: 0,
  coolantOff: false,
  stop: -1,
  call: -1,
};
const coolantOn: string[] = [];

export function readMachineCodes(run: Run): void {
  codes.change = false;
  codes.spindle = -1;
  codes.live = false;
  codes.coolantOff = false;
  codes.stop = -1;
  codes.call = -1;
  if (coolantOn.length > 0) coolantOn.length = 0;
  const { words } = run;
  for (let i = 0; i < words.mCount; i++) readOne(run, words.m[i] ?? -1, words.mItem[i] ?? words.first);
}

function readOne(run: Run, code: number, item: number): void {
  if (code === NOT_KNOWN) {
    unknownCode(run, item);
    return;
  }
  const book = run.codes;
  if (run.dialect.customM.has(code)) {
    customCode(run, "M", code, item);
    return;
  }
  const live = book.live.get(code);
  if (live !== undefined) {
    codes.spindle = live;
    codes.spindleItem = item;
    codes.live = true;
    return;
  }
  const both = book.spindleCoolant.get(code);
  if (both !== undefined) {
    codes.spindle = both.direction;
    codes.spindleItem = item;
    codes.coolantItem = item;
    coolantOn.push(both.coolant);
    return;
  }
  const coolant = book.coolantOn.get(code);
  if (coolant !== undefined) {
    codes.coolantItem = item;
    if (!coolantOn.includes(coolant)) coolantOn.push(coolant);
    return;
  }
  if (book.coolantOff.has(code)) {
    codes.coolantOff = true;
    codes.coolantItem = item;
    return;
  }
  switch (code) {
    case 3:
    case 4:
    case 5:
      codes.spindle = code === 5 ? 0 : code - 2;
      codes.spindleItem = item;
      return;
    case 6:
      codes.change = true;
      return;
    case 0:
    case 1:
    case 2:
    case 30:
    case 60:
      codes.stop = code;
      return;
    case 97:
    case 98:
    case 99:
      if (run.dialect.unknownCode !== "error") {
        codes.call = code;
        return;
      }
      break;
    case 17:
      // Another spelling of the return, on some controls (common practice, no source); elsewhere the builder's own.
      if (run.frame === null || run.dialect.unknownCode === "error") break;
      codes.call = 99;
      return;
    case 19:
      if (run.dialect.unknownCode === "error") break;
      codes.spindle = 0;
      codes.spindleItem = item;
      return;
    case 29:
      if (run.dialect.rigidTap === "none" || run.dialect.rigidTap === "codes") break;
      rigidTap(run, item);
      return;
    case 48:
    case 49:
      return;
    default:
      break;
  }
  const { dialect } = run;
  if (dialect.unknownCode === "ignore" || (dialect.unknownCode === "warn" && QUIET_M.has(code))) return;
  const name = code < 0 ? "M with a value that is no code" : `M${code}`;
  run.say(
    "unknown-code",
    name,
    item,
    { code: name, level: dialect.unknownCode === "error" ? "error" : "warning" },
    undefined,
    1,
  );
}

/** An M code whose value is not known: it may have changed the tool, the spindle or the coolant. */
function unknownCode(run: Run, item: number): void {
  const { blocks, row, words } = run;
  const written = blocks.textOf(words.block).slice(blocks.start(item), blocks.end(item)).replace(/\s/g, "");
  const why = `${written.toUpperCase()} has a value that is not known, and may have set it`;
  lose(run, why);
  row.tool = -1;
  doubt(row, UNSURE.tool | UNSURE.spindle | UNSURE.coolant, why);
  run.lengthOwed = false;
  run.dirty = true;
  run.cycle.version++;
}

/** M29: the next tapping cycle runs the spindle itself. */
function rigidTap(run: Run, item: number): void {
  const kind = gCodes.cycle > 0 ? cycleKind(run.dialect, gCodes.cycle) : undefined;
  if (run.dialect.rigidTap === "m29-in-block" && kind !== "tap" && kind !== "tap-left") {
    const text =
      "M29 counts only in the block of the tapping cycle in this dialect: here it does nothing. Way out: M29 beside G84";
    run.remark("rigid-tap", "warning", item, text);
    return;
  }
  run.rigid = true;
  run.cycle.version++;
}

/** T, M6, the spindle and coolant codes that act before the motion. */
export function machineCodes(run: Run): void {
  toolWords(run, codes.change);
  const all = run.dialect.mTiming === "all-before";
  if (codes.spindle > 0 || (codes.spindle === 0 && all)) setSpindle(run, codes.spindle as 0 | 1 | 2, codes.spindleItem);
  if (codes.coolantOff && (all || coolantOn.length > 0)) coolantAllOff(run);
  for (const name of coolantOn) switchCoolant(run, name);
}

/** What acts after the motion: M5 and M9 in the ISO order, calls, stops, the end. */
export function machineCodesAfter(run: Run): void {
  if (run.dialect.mTiming === "iso") {
    if (codes.spindle === 0) setSpindle(run, 0, codes.spindleItem);
    if (codes.coolantOff && coolantOn.length === 0) coolantAllOff(run);
  }
  if (codes.call >= 0) call(run, codes.call);
  if (codes.stop >= 0) stop(run, codes.stop);
}

export function setSpindle(run: Run, next: 0 | 1 | 2, item: number): void {
  const { row } = run;
  run.from("spindle", item);
  settled(run, UNSURE.spindle);
  if (next === 0) run.rigid = false;
  if (row.spindle !== next || row.live !== codes.live) {
    row.spindle = next;
    row.live = codes.live;
    run.dirty = true;
    run.cycle.version++;
  }
  run.emit("spindle", 0);
}

function switchCoolant(run: Run, name: string): void {
  const { row } = run;
  run.from("coolant", codes.coolantItem);
  settled(run, UNSURE.coolant);
  const on = row.coolant === "" ? [] : row.coolant.split(" ");
  if (!on.includes(name)) {
    row.coolant = [...on, name].join(" ");
    run.dirty = true;
    run.cycle.version++;
    run.record?.operations.coolantOn();
  }
  run.emit("coolant", 0);
}

function coolantAllOff(run: Run): void {
  const { row } = run;
  run.from("coolant", codes.coolantItem);
  settled(run, UNSURE.coolant);
  if (row.coolant !== "") {
    row.coolant = "";
    run.dirty = true;
    run.cycle.version++;
    run.record?.operations.coolantOff();
  }
  run.emit("coolant", 0);
}

function call(run: Run, code: number): void {
  const item = Math.max(run.words.mItemOf(code), code === 99 ? run.words.mItemOf(17) : -1);
  if (code === 99) returnTo(run, item);
  else callSub(run, code === 97 ? 97 : 98, item);
}

function stop(run: Run, code: number): void {
  if (code === 2 || code === 30) {
    if (!run.dialect.endCodes.has(code === 2 ? "M2" : "M30")) {
      const wanted = [...run.dialect.endCodes].join(" or ");
      const text = `M${code} ends no program in this dialect. Way out: ${wanted === "" ? "`endCodes` in the setup" : wanted}`;
      run.remark("end-code", "warning", run.words.mItemOf(code), text);
    }
    endProgram(run);
    return;
  }
  run.record?.operations.addUnknown();
  run.emit("stop", Number.NaN);
}

/** M2 and M30 put the machine into its start state (NISTIR 6556 3.6.1). Units, F, S and offsets stay. */
export function endProgram(run: Run): void {
  const { row } = run;
  const start = startRow(run.dialect);
  run.record?.longHand.commit(run);
  leftInForce(run, run.words.first, "the end of the program");
  settled(run, row.unsure);
  row.plane = start.plane;
  row.distance = 90;
  row.feedMode = start.feedMode;
  row.comp = 40;
  row.wcs = "G54";
  if (run.dialect.endStopsSpindle) {
    row.spindle = 0;
    row.coolant = "";
  }
  row.cycle = 0;
  row.motion = run.dialect.cycleGroupSeparate ? row.motion : 1;
  run.dirty = true;
  run.ended = true;
  run.sawEnd = true;
  run.emit("end", 0);
}
