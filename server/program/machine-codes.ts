/** T and the M codes: tool change, spindle, coolant, stops, calls. Which act after the motion is the dialect's `mTiming`. */
import type { WordRef } from "../../grammar/blocks.ts";
import { QUIET_M } from "./codes.ts";
import { lose } from "./losses.ts";
import { applyLength } from "./places.ts";
import type { Run } from "./run.ts";
import { P, T } from "./words.ts";

interface Codes {
  change: boolean;
  /** 0 stop, 1 cw, 2 ccw, −1 none. */
  spindle: number;
  spindleItem: number;
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
  coolantItem: 0,
  coolantOff: false,
  stop: -1,
  call: -1,
};
const coolantOn: string[] = [];

export function readMachineCodes(run: Run): void {
  codes.change = false;
  codes.spindle = -1;
  codes.coolantOff = false;
  codes.stop = -1;
  codes.call = -1;
  if (coolantOn.length > 0) coolantOn.length = 0;
  const { words } = run;
  for (let i = 0; i < words.mCount; i++) readOne(run, words.m[i] ?? -1, words.mItem[i] ?? words.first);
}

function readOne(run: Run, code: number, item: number): void {
  const book = run.codes;
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
    case 19:
      if (run.dialect.unknownCode === "error") break;
      codes.spindle = 0;
      codes.spindleItem = item;
      return;
    case 29:
      if (run.dialect.unknownCode === "error") break;
      run.rigid = true;
      run.cycle.version++;
      return;
    case 48:
    case 49:
      return;
    default:
      break;
  }
  const { dialect } = run;
  if (dialect.unknownCode === "ignore" || (dialect.unknownCode === "warn" && QUIET_M.has(code))) return;
  if (code < 0 && run.words.unknown !== 0) return;
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

/** T, M6, the spindle and coolant codes that act before the motion. */
export function machineCodes(run: Run): void {
  toolWords(run);
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

function toolWords(run: Run): void {
  const { words, row, dialect } = run;
  const given = words.has(T);
  const value = words.get(T);
  const later = codes.change && dialect.tM6SameBlock === "loads-previous";
  if (given && !later) stage(run, value, run.refOf(T));
  if (codes.change) {
    const item = words.mItemOf(6);
    if (!run.staged)
      run.say("tool-change", "no-t", item, {
        text: "M6 has no T before it: the tool it loads is not known",
        level: "warning",
      });
    if (row.cycle !== 0)
      run.say("tool-change", "in-cycle", item, {
        text: "the tool is changed while a cycle is active: the next position would drill with the new tool; end the cycle with G80 first",
        level: "warning",
      });
    loadTool(run, item);
  }
  if (given && later) stage(run, value, run.refOf(T));
}

function stage(run: Run, value: number, ref: WordRef): void {
  run.staged = true;
  run.stagedRef = ref;
  const next = Number.isNaN(value) ? -1 : Math.round(value);
  if (run.row.staged === next) return;
  run.row.staged = next;
  run.dirty = true;
}

function loadTool(run: Run, item: number): void {
  const { row, dialect } = run;
  row.tool = row.staged === 0 ? -1 : row.staged;
  if (run.stagedRef !== 0) run.fromRef("tool", run.stagedRef);
  else run.from("tool", item);
  if (dialect.m6StopsSpindle && row.spindle !== 0) {
    row.spindle = 0;
    run.from("spindle", item);
  }
  if (dialect.m6StopsCoolant && row.coolant !== "") {
    row.coolant = "";
    run.from("coolant", item);
  }
  if (dialect.m6CancelsTlo && row.tlo !== 49) {
    row.tlo = 49;
    row.h = Number.NaN;
    applyLength(run, 0);
  }
  run.lengthOwed = row.tool >= 0;
  run.rigid = false;
  run.dirty = true;
  run.cycle.version++;
  const { record } = run;
  if (record !== null) {
    record.longHand.commit(run);
    record.operations.begin(row.tool, run.words.block, record.holes.count);
    if (row.coolant === "") record.operations.coolantOff();
    record.noted.toolChanged();
  }
  if (dialect.m6RetractsZ) {
    run.pos[2] = Number.NaN;
    run.why[2] = "the tool change moved Z";
  }
  run.emit("tool", run.machine?.toolChange ?? Number.NaN);
}

export function setSpindle(run: Run, next: 0 | 1 | 2, item: number): void {
  const { row } = run;
  run.from("spindle", item);
  if (next === 0) run.rigid = false;
  if (row.spindle !== next) {
    row.spindle = next;
    run.dirty = true;
    run.cycle.version++;
  }
  run.emit("spindle", 0);
}

function switchCoolant(run: Run, name: string): void {
  const { row } = run;
  run.from("coolant", codes.coolantItem);
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
  if (row.coolant !== "") {
    row.coolant = "";
    run.dirty = true;
    run.cycle.version++;
    run.record?.operations.coolantOff();
  }
  run.emit("coolant", 0);
}

function call(run: Run, code: number): void {
  const { words } = run;
  const item = words.mItemOf(code);
  if (code === 99) {
    run.say(
      "not-executed",
      "M99",
      item,
      { text: "M99 at the main level starts the program over: it is read once, to here" },
      undefined,
      1,
    );
    run.ended = true;
    run.sawEnd = true;
    return;
  }
  if (!words.has(P)) {
    run.remark(
      "call-without-p",
      "error",
      item,
      `M${code} has no P that says what to call. Way out: P and the program number`,
    );
    return;
  }
  const text = `M${code} calls a subprogram that is not followed: what it drills is not seen, and positions after it are unknown`;
  run.say("not-executed", `M${code}`, item, { text }, undefined, 1);
  lose(run, "a subprogram was called that is not followed");
}

function stop(run: Run, code: number): void {
  if (code === 2 || code === 30) {
    endProgram(run);
    return;
  }
  run.record?.operations.addUnknown();
  run.emit("stop", Number.NaN);
}

/** M2 and M30 put the machine into its start state (NISTIR 6556 3.6.1). Units, F, S and offsets stay. */
export function endProgram(run: Run): void {
  const { row } = run;
  run.record?.longHand.commit(run);
  row.plane = 17;
  row.distance = 90;
  row.feedMode = 94;
  row.comp = 40;
  row.wcs = "G54";
  row.spindle = 0;
  row.coolant = "";
  row.cycle = 0;
  row.motion = run.dialect.cycleGroupSeparate ? row.motion : 1;
  run.dirty = true;
  run.ended = true;
  run.sawEnd = true;
  run.emit("end", 0);
}
