/** Drilling on turning centres beside the cycles that they share with mills: the turret, G74, turning cycles, G96. */
import { turns } from "../setup/dialect.ts";
import { say } from "../units/wording.ts";
import { gName } from "./codes.ts";
import { forgetCycle } from "./cycle-data.ts";
import { isTurned, onCentre } from "./drill-axes.ts";
import { target } from "./motion.ts";
import type { Run } from "./run.ts";
import { Q, R, X, Z } from "./words.ts";

const scratch = new Float64Array(3);

/** Threading moves go to their end; turning cycles come back to where they began. */
export function turningCycle(run: Run, code: number, explicit: boolean, item: number): void {
  const { row, pos } = run;
  run.record?.longHand.commit(run);
  if (explicit) {
    const text = `${gName(code)} turns or cuts threads here: it is read, and what it cuts is not worked out`;
    run.remark("turning-cycle", "info", item, text, 1);
  }
  const modal = code === 900 || code === 920 || code === 940 || code < 700;
  if (modal && explicit && row.cycle !== code) {
    row.cycle = code;
    run.dirty = true;
  }
  if (code >= 700) return;
  target(run, scratch);
  pos[0] = scratch[0] ?? Number.NaN;
  pos[2] = scratch[2] ?? Number.NaN;
}

/**
 * G74: R alone is the retract between pecks; with Z it drills from where the tool stands.
 * @returns whether the block drills
 */
export function facePeck(run: Run, item: number): boolean {
  const { words, cycle, pos, row } = run;
  run.record?.longHand.commit(run);
  if (words.has(R)) cycle.back = Math.abs(run.length(R));
  if (!words.has(Z)) {
    if (!words.has(R)) run.say("cycle-word-missing", "Z740", item, { word: "Z", cycle: "G74", level: "error" });
    return false;
  }
  const x = pos[0] ?? Number.NaN;
  const across = words.has(X) && Math.abs(run.length(X) - x) > 1e-6;
  if (across || isTurned(run, x)) {
    const text = across
      ? "G74 with another X cuts grooves into the face: it is read, and what it cuts is not worked out"
      : "G74 beside the centre cuts a groove into the face of the turning work: what it cuts is not worked out";
    run.remark("turning-cycle", "info", item, text, 1);
    return false;
  }
  cycle.r = pos[2] ?? Number.NaN;
  cycle.z = run.length(Z);
  cycle.hasQ = words.has(Q);
  if (cycle.hasQ) {
    const micrometres = run.dialect.qUnit === "micrometre" && (words.pointless & (1 << Q)) !== 0;
    cycle.q = micrometres ? words.get(Q) / 1000 : run.length(Q);
    run.from("q", words.itemOf(Q));
  }
  cycle.initial = cycle.r;
  cycle.version++;
  run.from("cycle", item);
  run.from("z", words.itemOf(Z));
  if (row.cycle !== 740) {
    row.cycle = 740;
    run.dirty = true;
  }
  return true;
}

/** G74 holds for its block only. */
export function endFacePeck(run: Run): void {
  const { back } = run.cycle;
  forgetCycle(run.cycle);
  run.cycle.back = back;
  run.row.cycle = 0;
  run.dirty = true;
}

/**
 * What makes a hole of the turning work wrong whatever its loads are.
 * @param x where it is across the axis of the work; null at its side
 */
export function judgeTurned(run: Run, x: number | null, item: number): void {
  const { row, dialect } = run;
  if (!turns(dialect) || row.live) return;
  if (x !== null && onCentre(x)) {
    const text = constantSpeed(run);
    if (text !== "") run.remark("g96-on-centre", "error", item, text, 3);
    return;
  }
  if (x !== null && Number.isNaN(x)) return;
  const system = row.units === 2 ? "inch" : "mm";
  const beside = x === null ? "" : `${say(Math.abs(x), "length", system)} beside the centre`;
  if (row.spindle !== 0) {
    const text = `the work turns and the drill goes ${x === null ? "into the side of the work" : `in ${beside}`}: it bends or breaks. Way out: the driven tool instead of the main spindle${x === null ? "" : ", or X0"}`;
    run.remark("off-centre", "error", item, text, 3);
  } else if (dialect.liveSpindle.size === 0) {
    const text = `a hole ${x === null ? "in the side" : beside} with the work standing still: read as made by a driven tool. Way out: the M codes of the driven tools under \`liveSpindle\` of the machine's dialect`;
    run.remark("driven-tool", "info", item, text, 1);
  }
}

/**
 * Whether a driven tool is taken to turn although no code of it is known: at the face beside the centre, or at the side.
 * @param x across the axis of the work; NaN at the side
 */
export function drivenUnknown(run: Run, x: number): boolean {
  const { row, dialect } = run;
  return turns(dialect) && row.spindle === 0 && dialect.liveSpindle.size === 0 && !onCentre(x);
}

/** What is said of G96 on the centre; empty where the speed is not constant at the surface or a driven tool turns. */
export function constantSpeed(run: Run): string {
  const { row, record, machine } = run;
  if (!turns(run.dialect) || row.live || row.speedMode !== 96) return "";
  const system = row.units === 2 ? "inch" : "mm";
  const vc = row.units === 2 ? row.s * 0.3048 : row.s;
  const most = machine?.spindle?.maxRpm ?? null;
  const limit = !Number.isNaN(row.clamp)
    ? `the ${say(row.clamp, "rotation", system)} of its clamp`
    : most !== null
      ? `the ${say(most, "rotation", system)} of the machine`
      : "its limit";
  const speed = Number.isNaN(vc) ? "G96" : `G96 S${row.s}, ${say(vc, "speed", system)},`;
  const diameter = record?.toolDiameter(row.tool) ?? Number.NaN;
  const n = Math.round((1000 * vc) / (Math.PI * diameter));
  const meant = Number.isFinite(n)
    ? ` S${n} for the same cutting speed at ${say(diameter, "length", system)}`
    : " and S in 1/min";
  return `${speed} on the centre: at X0 the spindle runs up to ${limit}. Way out: G97${meant} before the drill`;
}

/** Tool and offset in one number. @returns tool −1: as before; offset −1: as before */
export function splitTool(run: Run, value: number, item: number): readonly [tool: number, offset: number] {
  const whole = Math.round(value);
  if (whole >= 100) return [Math.floor(whole / 100), whole % 100];
  const { blocks, words } = run;
  const written = blocks
    .textOf(words.block)
    .slice(blocks.start(item) + 1, blocks.end(item))
    .replace(/\s/g, "").length;
  // T0002 changes the offset alone; T2 is short for T0202.
  if (written > 2 || whole === 0) return [-1, whole];
  return [whole, whole];
}
