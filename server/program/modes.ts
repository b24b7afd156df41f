/** The modes that a block sets: feed mode, plane, units, offsets, distance, return level. */

import type { Dialect } from "../setup/dialect.ts";
import { codes, modal } from "./block-codes.ts";
import { GROUP, gName } from "./codes.ts";
import { cancelCycle } from "./cycle-data.ts";
import { unitFactor } from "./modal.ts";
import { rapidSeconds } from "./motion.ts";
import { applyLength, isUnknownSystem, switchWcs, UNKNOWN_SYSTEM } from "./places.ts";
import { feedModeOf } from "./readings.ts";
import type { Run } from "./run.ts";
import { mirrorCode, polarCode, rotationCode, scalingCode } from "./transform-codes.ts";
import { doubt, settled, UNSURE, unsure } from "./unsure.ts";
import { D, F, H, letterName, P, Z } from "./words.ts";

const MODE_OF: { readonly [group: number]: number } = {
  [GROUP.plane]: UNSURE.plane,
  [GROUP.units]: UNSURE.units,
  [GROUP.comp]: UNSURE.comp,
  [GROUP.length]: UNSURE.lengthOffset,
  [GROUP.wcs]: UNSURE.wcs,
  [GROUP.distance]: UNSURE.distance,
  [GROUP.returnMode]: UNSURE.returnMode,
  [GROUP.speedMode]: UNSURE.speedMode,
};

export function feedMode(run: Run): void {
  const { row, dialect, words } = run;
  const code = modal[GROUP.feedMode] ?? 0;
  if (code === 0) return;
  modal[GROUP.feedMode] = 0;
  const mode = feedModeOf(run, code);
  run.from("feedMode", words.gItemOf(code));
  if (unsure(row, UNSURE.feedMode)) {
    feedModeAtLast(run, mode);
    return;
  }
  if (mode === row.feedMode) return;
  row.feedMode = mode;
  if (dialect.feedOnModeChange !== "keep-number") row.fWhy = "";
  if (dialect.feedOnModeChange === "require-new") row.f = Number.NaN;
  else if (dialect.feedOnModeChange === "per-mode") row.f = run.feedByMode[mode - 93] ?? Number.NaN;
  run.dirty = true;
  run.cycle.version++;
}

/** The feed mode is known again. Whether that changed it, and F with it, is not. */
function feedModeAtLast(run: Run, mode: 93 | 94 | 95): void {
  const { row, dialect } = run;
  if (dialect.feedOnModeChange !== "keep-number") {
    row.f = Number.NaN;
    row.fWhy = row.unsureWhy;
  }
  row.feedMode = mode;
  settled(run, UNSURE.feedMode);
}

export function modes(run: Run): void {
  const { row, words } = run;
  for (let group = 0; group < modal.length; group++) {
    const code = modal[group] ?? 0;
    if (code === 0) continue;
    modal[group] = 0;
    const item = words.gItemOf(code);
    run.dirty = true;
    run.cycle.version++;
    const doubtful = unsure(row, MODE_OF[group] ?? 0);
    const why = row.unsureWhy;
    settled(run, MODE_OF[group] ?? 0);
    switch (group) {
      case GROUP.plane:
        if (doubtful) planeAtLast(run, (code / 10) as 17 | 18 | 19, why);
        else plane(run, (code / 10) as 17 | 18 | 19, item);
        break;
      case GROUP.units:
        units(run, code === 200 || code === 700 ? 2 : 1, item, doubtful);
        break;
      case GROUP.comp:
        row.comp = (code / 10) as 40 | 41 | 42;
        break;
      case GROUP.length:
        lengthOffset(run, (code / 10) as 43 | 44 | 49, item);
        break;
      case GROUP.wcs: {
        const name = wcsName(run, code);
        run.from("wcs", item);
        if (name === row.wcs && !isUnknownSystem(name)) break;
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
        polarCode(run, code);
        break;
      case GROUP.scaling:
        scalingCode(run, code, item);
        break;
      case GROUP.rotation:
        rotationCode(run, code, item);
        break;
      case GROUP.mirror:
        mirrorCode(run, code, item);
        break;
      case GROUP.macro:
        if (code === 670) run.each = null;
        break;
      default:
        break;
    }
  }
}

/** `G54 P3` is G54.1 P3 where the control has those. */
function wcsName(run: Run, code: number): string {
  const { dialect, words } = run;
  const system = Number.isNaN(words.get(P)) ? UNKNOWN_SYSTEM : String(words.get(P));
  if (code === 541 && !words.has(P))
    run.remark(
      "g54.1-p",
      "error",
      words.gItemOf(541),
      "G54.1 has no P, so the work system is not known. Way out: P and its number",
    );
  const calls = [97, 98, 99].some((m) => words.mItemOf(m) >= 0);
  const own = words.has(P) && !codes.g4 && codes.once < 0 && !calls;
  const numbered = code === 541 || (code === 540 && own && dialect.wcsCodes.has("G54.1"));
  const name = numbered ? `G54.1 P${system}` : code === 1540 && words.has(P) ? `G154 P${system}` : gName(code);
  // The P that numbers the system is no dwell of a cycle in the same block.
  if (own && name !== gName(code)) words.drop(P);
  return name;
}

/** The plane is known again; a cycle that may have begun in another one may have been ended by it. */
function planeAtLast(run: Run, next: 17 | 18 | 19, why: string): void {
  const { row, dialect } = run;
  run.record?.longHand.commit(run);
  row.plane = next;
  if (row.cycle === 0 || dialect.planeInCycle !== "error") return;
  row.cycle = 0;
  doubt(row, UNSURE.cycle, why);
}

function plane(run: Run, next: 17 | 18 | 19, item: number): void {
  const { row, dialect } = run;
  if (next === row.plane) return;
  if (row.cycle !== 0) {
    const level = dialect.planeInCycle === "error" ? "error" : "warning";
    run.say("plane-change-in-cycle", "", item, { level, plane: `G${next}`, cycle: gName(row.cycle) });
    if (dialect.planeInCycle === "error") cancelCycle(run);
  }
  run.record?.longHand.commit(run);
  row.plane = next;
}

function units(run: Run, next: 1 | 2, item: number, doubtful: boolean): void {
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
  } else if (!doubtful) {
    if (row.cycle !== 0) run.say("units-change-in-cycle", "", item, { code, cycle: gName(row.cycle) });
    run.remark(
      "units-change",
      "warning",
      item,
      `${code} changes the units in the middle of the program: positions read on, all other numbers keep their digits. Way out: one of G20 and G21, at the top`,
      3,
    );
    if (run.dialect.unitsChangeFeed === "convert") convertFeed(run, before, next);
    else if (!Number.isNaN(row.f) && row.feedMode !== 93 && !words.has(F)) {
      const unit = next === 2 ? "inches" : "millimetres";
      run.remark(
        "units-feed",
        "warning",
        item,
        `F${row.f} keeps its number and is read in ${unit} from here. Way out: F anew after ${code}`,
        3,
      );
    }
  }
  run.record?.longHand.commit(run);
  row.units = next;
  run.from("units", item);
}

/** The feed stays as fast as it was. */
function convertFeed(run: Run, before: 1 | 2, next: 1 | 2): void {
  const { row } = run;
  const factor = unitFactor(before) / unitFactor(next);
  if (row.feedMode !== 93) row.f *= factor;
  run.feedByMode.forEach((f, i) => {
    if (i > 0) run.feedByMode[i] = f * factor;
  });
}

/** G43, G44, G49, and a bare H that takes another offset where the dialect allows it. */
export function lengthOffset(run: Run, code: 43 | 44 | 49, item: number): void {
  const { row, words, dialect } = run;
  const letter = offsetLetter(dialect);
  run.from("lengthOffset", code === 49 || !words.has(letter) ? item : words.itemOf(letter));
  run.dirty = true;
  run.cycle.version++;
  if (code === 49) {
    row.tlo = 49;
    row.h = Number.NaN;
    takeLength(run, 0);
    return;
  }
  if (!words.has(letter)) {
    const strict = dialect.unusedWords === "error";
    run.remark(
      "g43-without-h",
      strict ? "error" : "warning",
      item,
      `G${code} has no ${letterName(letter)} word for the offset. Way out: ${letterName(letter)} and the number of the tool`,
    );
    if (!strict) run.lengthOwed = false;
    return;
  }
  run.lengthOwed = false;
  const h = words.get(letter);
  const again = row.tlo === code && Object.is(row.h, h) && !Number.isNaN(h);
  row.tlo = code;
  row.h = h;
  if (!again) {
    const length = h === 0 ? 0 : (run.places.lengths.get(h) ?? Number.NaN);
    takeLength(run, code === 44 ? -length : length);
  }
  const tool = row.tool;
  if (dialect.toolCount !== null && h > dialect.toolCount)
    run.remark(
      "tool-count",
      dialect.repeatWord === "error" ? "error" : "warning",
      words.itemOf(letter),
      `${letterName(letter)}${h}: this machine has ${dialect.toolCount} places for tools. Way out: the number of the tool, or \`toolCount\` in the setup`,
    );
  if (dialect.hEqualsT === "off" || tool < 0 || h === 0 || Number.isNaN(h)) return;
  const allowed = run.record?.operations.lengthOffsetsOf(tool) ?? [];
  if (allowed.length > 0 ? allowed.includes(h) : h === tool) return;
  const level = dialect.hEqualsT === "required" ? "error" : "warning";
  run.say("length-offset", "", words.itemOf(letter), { h, tool, level });
}

/** Another length in force. Where the control moves at once, Z goes by the difference and its reading stays. */
function takeLength(run: Run, length: number): void {
  const { pos, dialect, words } = run;
  const before = run.places.length;
  const z = pos[2] ?? Number.NaN;
  const { initial } = run.cycle;
  applyLength(run, length);
  if (dialect.tloApply === "with-z" || Object.is(before, length) || words.has(Z) || Number.isNaN(z)) return;
  pos[2] = z;
  run.why[2] = "";
  run.cycle.initial = initial;
  const way = Math.abs(length - before);
  const seconds = rapidSeconds(run, way);
  if (Number.isNaN(way)) run.record?.operations.addUnknown();
  else run.record?.operations.addSeconds(seconds);
  run.emit("rapid", seconds);
}

/** The letter that names a length offset. */
export function offsetLetter(dialect: Dialect): number {
  return dialect.tloWord === "D" ? D : H;
}
