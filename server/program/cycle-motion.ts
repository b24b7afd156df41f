/** The way to a hole and the cycle's motions there: timed always, told one by one where somebody traces. */
import { say } from "../units/wording.ts";
import type { CyclePlan } from "./cycle-plan.ts";
import { feedSeconds, rapidSeconds } from "./motion.ts";
import type { Run } from "./run.ts";

export function planSeconds(run: Run, plan: CyclePlan, start: number): number {
  let at = start;
  let seconds = 0;
  for (const move of plan.moves) {
    if (move.kind === "rapid") {
      const length = Math.abs(move.to - at);
      if (!Number.isNaN(length)) seconds += rapidSeconds(run, length);
      at = move.to;
    } else if (move.kind === "feed") {
      seconds += feedSeconds(run, Math.abs(move.to - at));
      at = move.to;
    } else if (move.kind === "dwell") seconds += move.seconds;
  }
  return seconds;
}

/**
 * Preliminary motion (8.1.13: up to R if below, then across, then to R) and the plan; leaves the tool at its end.
 * @returns seconds since coolant came on when the feed begins; null off, NaN unknown
 */
export function oneHole(
  run: Run,
  plan: CyclePlan,
  planTime: number,
  r: number,
  toU: number,
  toV: number,
  w: number,
  u: number,
  v: number,
): number | null {
  const { pos, record } = run;
  let seconds = 0;
  let lost = false;
  const from = coordinate(pos[w]);
  if (from < r) {
    pos[w] = r;
    const t = rapidSeconds(run, r - from);
    seconds += t;
    run.emit("rapid", t);
  }
  const du = unmoved(toU, coordinate(pos[u]));
  const dv = unmoved(toV, coordinate(pos[v]));
  if (du !== 0 || dv !== 0) {
    clampCheck(run, w);
    pos[u] = toU;
    pos[v] = toV;
    const length = Math.max(Math.abs(du), Math.abs(dv));
    const t = rapidSeconds(run, length);
    if (Number.isNaN(length)) lost = true;
    else seconds += t;
    run.emit("rapid", t);
  }
  const drop = coordinate(pos[w]) - r;
  if (drop !== 0) {
    pos[w] = r;
    const t = rapidSeconds(run, Math.abs(drop));
    if (Number.isNaN(drop)) lost = true;
    else seconds += t;
    run.emit("rapid", t);
  }
  let coolantSeconds: number | null = null;
  if (record !== null) {
    const { operations } = record;
    if (lost) operations.addUnknown();
    operations.addSeconds(seconds);
    coolantSeconds = operations.coolantSeconds;
    operations.addSeconds(planTime);
  }
  if (run.sink === null) pos[w] = plan.end;
  else emitPlan(run, plan, w, u, v);
  return coolantSeconds;
}

/** A rapid across below the clamps, where the setup says how high they are. */
function clampCheck(run: Run, w: number): void {
  const height = run.dialect.clampHeight;
  const z = coordinate(run.pos[w]);
  if (height === null || w !== 2 || !(z < height - 1e-6) || run.row.units === 0) return;
  const system = run.row.units === 2 ? "inch" : "mm";
  const text =
    `the rapid to this hole goes across at Z ${say(z, "length", system)}, the clamps are ${say(height, "length", system)} high. ` +
    "Way out: G98 from a level above them, or `clampHeight` in the setup";
  run.remark("clamp-height", "warning", run.words.first, text, 3);
}

/** Shift off the wall along one axis. Which way a bare Q goes is a parameter of the machine; I and J say it. */
function shift(run: Run, axis: number): number {
  const { cycle, dialect } = run;
  const way = /^Q([+-])([XY])$/.exec(dialect.g76Shift);
  if (way === null) return !cycle.hasShift ? Number.NaN : axis === 0 ? cycle.i : axis === 1 ? cycle.j : 0;
  const along = way[2] === "X" ? 0 : 1;
  return axis !== along ? 0 : cycle.hasQ ? (way[1] === "+" ? cycle.q : -cycle.q) : Number.NaN;
}

/** 0 where the tool does not move along an axis, NaN where that is not known. */
function unmoved(to: number, from: number): number {
  return Number.isNaN(to) && Number.isNaN(from) ? 0 : to - from;
}

function emitPlan(run: Run, plan: CyclePlan, w: number, u: number, v: number): void {
  const { pos, row } = run;
  const atU = coordinate(pos[u]);
  const atV = coordinate(pos[v]);
  const spindle = row.spindle;
  for (const move of plan.moves) {
    switch (move.kind) {
      case "rapid":
      case "feed": {
        const length = Math.abs(move.to - coordinate(pos[w]));
        pos[w] = move.to;
        run.emit(move.kind, move.kind === "rapid" ? rapidSeconds(run, length) : feedSeconds(run, length));
        break;
      }
      case "dwell":
        run.emit("dwell", move.seconds);
        break;
      case "spindle":
        row.spindle = move.direction;
        run.dirty = true;
        run.emit("spindle", 0);
        break;
      case "shift":
        pos[u] = move.on ? atU + shift(run, u) : atU;
        pos[v] = move.on ? atV + shift(run, v) : atV;
        run.emit("rapid", Number.NaN);
        break;
      case "stop":
        run.emit("stop", Number.NaN);
        break;
    }
  }
  row.spindle = spindle;
  run.dirty = true;
  pos[w] = plan.end;
}

function coordinate(value: number | undefined): number {
  return value ?? Number.NaN;
}
