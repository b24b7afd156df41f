/** Canned cycles: which words count, what is kept from block to block, the way to the hole, and the hole itself. */
import { turns } from "../setup/dialect.ts";
import { say } from "../units/wording.ts";
import { cycleKind, gName } from "./codes.ts";
import { oneHole, planSeconds } from "./cycle-motion.ts";
import { type CycleNumbers, type CyclePlan, MOST_PECKS, planCycle } from "./cycle-plan.ts";
import { takeWords } from "./cycle-words.ts";
import { cycleAxes, DRILL_AXIS, type DrillAxes } from "./drill-axes.ts";
import { manyTurns } from "./flow.ts";
import { lengthCheck } from "./motion.ts";
import { rotaryWords } from "./rotary.ts";
import type { Recorder, Run } from "./run.ts";
import type { DraftStroke } from "./shapes.ts";
import { intervenes } from "./transform.ts";
import { keepsDepth } from "./transform-codes.ts";
import { reach } from "./transform-words.ts";
import { endFacePeck, facePeck, judgeTurned, turningCycle } from "./turning.ts";
import { axisDoubt, settled, UNSURE, unsure } from "./unsure.ts";
import { C, H, letterName, U, W, X, XYZ } from "./words.ts";

export { DRILL_AXIS };

const MOST_REPEATS = 10_000;

/** The plan of the cycle that ran last in a run, kept while nothing that shapes it changes. */
export interface PlanCache {
  version: number;
  r: number;
  z: number;
  clear: number;
  plan: CyclePlan | null;
  /** What the plan was made of. */
  numbers: CycleNumbers | null;
  /** The strokes that the last hole of a plan had. */
  drawn: { readonly plan: CyclePlan; readonly strokes: readonly DraftStroke[] } | null;
  seconds: number;
}

export const newPlanCache = (): PlanCache => ({
  version: -1,
  r: Number.NaN,
  z: Number.NaN,
  clear: Number.NaN,
  plan: null,
  numbers: null,
  drawn: null,
  seconds: Number.NaN,
});

/**
 * Runs a cycle block.
 * @param explicit the code stands in the block
 */
export function runCycle(run: Run, code: number, explicit: boolean, item: number): void {
  const { row, words, cycle, dialect } = run;
  const kind = cycleKind(dialect, code);
  if (kind === undefined) return;
  if (kind === "turning") {
    turningCycle(run, code, explicit, item);
    return;
  }
  const axes = cycleAxes(run, code);
  if (kind === "face-peck") {
    if (!facePeck(run, item)) return;
    drill(run, code, cycle.hasQ ? "chip-break" : "drill", 1, item, axes);
    endFacePeck(run);
    return;
  }
  const [w, u, v] = axes;
  const strict = dialect.unusedWords === "error";
  const running = unsure(row, UNSURE.cycle);
  if (explicit) {
    run.record?.longHand.commit(run);
    if (row.cycle === 0) run.record?.noted.runEnds();
    if (row.cycle === 0 || !cycle.running) {
      // One that was running on one way keeps the level it had.
      cycle.initial = running ? Number.NaN : (run.pos[w] ?? Number.NaN);
      cycle.running = true;
      cycle.distance = row.distance;
    }
    run.from("cycle", item);
  }
  if (dialect.initialLevel === "before-block") cycle.initial = run.pos[w] ?? Number.NaN;
  if (explicit && strict && (words.mask & XYZ) === 0) {
    run.remark(
      "cycle-axes",
      "error",
      item,
      `${gName(code)} needs at least one of X, Y and Z. Way out: write the position in this block`,
    );
    return;
  }
  if (strict && refusesCycle(run, code, kind, item)) return;
  const before = row.cycle;
  if (explicit && before !== code) {
    row.cycle = code;
    if (strict) row.motion = -1;
    run.dirty = true;
    cycle.version++;
  }
  if (explicit) settled(run, strict ? UNSURE.cycle | UNSURE.motion : UNSURE.cycle);
  if (!takeWords(run, code, kind, explicit, before, item, w)) return;
  rotaryWords(run);
  if (row.comp !== 40 && !strict)
    run.remark("comp-in-cycle", "warning", item, "cutter compensation is on in a cycle. Way out: G40 before it", 3);
  if (row.feedMode === 93 && !unsure(row, UNSURE.feedMode)) {
    run.remark(
      "g93-in-cycle",
      "error",
      item,
      "G93 gives the time of a move, and a cycle needs a feed. Way out: G94 or G95 and an F before it",
      3,
    );
    if (strict) return;
  }
  const repeats = repeatCount(run, code);
  if (repeats === 0) return;
  // A block that only stores: nothing to drill at.
  const depth = dialect.incrementalWords ? (1 << U) | (1 << W) : 0;
  const place = (words.mask & (XYZ | 0b111 | depth)) !== 0 || words.has(17);
  const across = (words.mask & ((1 << letterOf(u)) | (1 << letterOf(v)) | 0b111)) !== 0;
  if (!place || (!across && dialect.cycleWithoutXy === "store")) return;
  // A peck cycle to which no Q was ever given, where that is no mistake.
  const plain = pecks(kind) && !cycle.hasQ;
  const made = plain ? "drill" : kind;
  if (!Number.isNaN(repeats)) drill(run, code, made, repeats, item, axes);
  else drillOften(run, code, made, across && row.distance === 91, item, axes);
}

/** Nobody knows how often: what changes from hole to hole is seen at the second, and unknown after it. */
function drillOften(
  run: Run,
  code: number,
  kind: CycleNumbers["kind"],
  steps: boolean,
  item: number,
  axes: DrillAxes,
): void {
  const { words, pos, dialect } = run;
  const letter = countLetter(run, code);
  const why = words.takeCount(letter);
  manyTurns(run, words.itemOf(letter), "this cycle", why);
  const before = pos.slice();
  const turns = steps || words.relative !== 0;
  drill(run, code, kind, turns ? 2 : 1, item, axes);
  run.record?.longHand.commit(run);
  for (let axis = 0; axis < 3; axis++) {
    // One hole or more end at the same level; none leaves the tool where it was.
    const doubtful = dialect.repeatZero === "store-only" || (turns && axis !== axes[0]);
    if (!doubtful || Object.is(pos[axis], before[axis])) continue;
    pos[axis] = Number.NaN;
    run.why[axis as 0 | 1 | 2] = `it depends on a count: ${why}`;
  }
  run.places.written = null;
  if ((words.relative & (1 << C)) !== 0) turnOn(run, Number.NaN);
}

const letterOf = (axis: number): number => X + axis;
const pecks = (kind: string): boolean => kind === "peck" || kind === "chip-break";

/** What the NIST language refuses before a cycle runs (3.5.16). */
function refusesCycle(run: Run, code: number, kind: string, item: number): boolean {
  const { row, words } = run;
  for (let letter = 0; letter < 3; letter++) {
    if (!words.has(letter) || words.get(letter) === run.rotary[letter]) continue;
    run.remark(
      "rotary-in-cycle",
      "error",
      words.itemOf(letter),
      `${letterName(letter)} must not move in a cycle. Way out: turn in a block of its own before it`,
    );
    return true;
  }
  if (row.comp !== 40) {
    run.remark(
      "comp-in-cycle",
      "error",
      item,
      "a cycle must not run with cutter compensation on. Way out: G40 before it",
    );
    return true;
  }
  if (unsure(row, UNSURE.spindle)) return false;
  if (kind === "tap" && run.dialect.tapNeedsSpindle && row.spindle !== 1) {
    run.remark(
      "tap-spindle",
      "error",
      item,
      `${gName(code)} needs the spindle turning clockwise. Way out: M3 before it`,
    );
    return true;
  }
  if ((code === 860 || code === 870 || code === 880) && row.spindle === 0) {
    run.remark("bore-spindle", "error", item, `${gName(code)} needs the spindle turning. Way out: M3 or M4 before it`);
    return true;
  }
  return false;
}

/** The letter that says how often; −1 none. */
function countLetter({ words, dialect }: Run, code: number): number {
  let letter = -1;
  for (const name of dialect.repeatLetters) {
    const candidate = name.charCodeAt(0) - 65;
    // K of a back bore is a level, or part of a shift.
    if (name === "K" && (code === 870 || code === 760)) continue;
    if (words.has(candidate)) letter = candidate;
  }
  return letter;
}

/** NaN: it is not known. */
function repeatCount(run: Run, code: number): number {
  const { words, dialect } = run;
  const letter = countLetter(run, code);
  if (letter < 0) return 1;
  const item = words.itemOf(letter);
  const value = words.get(letter);
  run.from("repeat", item);
  if (Number.isNaN(value)) return Number.NaN;
  const data = { word: letterName(letter), value, cycle: gName(code) };
  if (value === 0 && dialect.repeatZero === "store-only") return 0;
  if (value < 1 || Math.abs(value - Math.round(value)) > 1e-4) {
    run.say("cycle-word-bad", letterName(letter), item, {
      ...data,
      level: "error",
      text: `${letterName(letter)} must be a whole number from 1`,
    });
    return 0;
  }
  if (value > MOST_REPEATS) {
    const text = `${letterName(letter)}${value} repeats are not worked out: the first ${MOST_REPEATS} are`;
    run.say("cycle-word-bad", letterName(letter), item, { ...data, level: "warning", text });
    return MOST_REPEATS;
  }
  return Math.round(value);
}

const number = (value: number | undefined): number => value ?? Number.NaN;

const reached = new Float64Array(3);

function drill(
  run: Run,
  code: number,
  kind: CycleNumbers["kind"],
  repeats: number,
  item: number,
  [w, u, v]: DrillAxes,
): void {
  const { row, words, cycle, pos, dialect } = run;
  // Levels of this block.
  let r = cycle.r;
  let z = cycle.z;
  if (dialect.stickyKind === "number" && row.distance === 91) {
    const base = dialect.g91RReference === "initial-level" ? cycle.initial : number(pos[w]);
    r = base + cycle.r;
    z = r + cycle.z;
  }
  const why = levelDoubt(run);
  if (!keepsDepth(run, w) || why !== "") {
    r = Number.NaN;
    z = Number.NaN;
    if (why !== "") run.why[w] = why;
  } else if (Number.isNaN(r) && cycle.rWhy !== "") run.why[w] = cycle.rWhy;
  if (row.distance !== cycle.distance && !unsure(row, UNSURE.distance)) distanceChanged(run, item, w);
  const up = kind === "back-bore" && dialect.unusedWords !== "error";
  // What the words cannot mean as a level they may mean as a way: told once as undeclared, and not guessed.
  const open = dialect.cycleR === "undeclared" && r < z - 1e-9 && mayBeWay(run, z, w);
  if (open) r = Number.NaN;
  if (up ? r > z : r < z - 1e-9) {
    const factor = run.factor();
    // Along X or Y the numbers of a mill's cycle are read in the wrong plane: no sign is at fault.
    const plane = w !== 2 && dialect.machineKind === "mill" ? `G${row.plane}` : null;
    const told = { r: r / factor, z: z / factor, cycle: gName(code), plane, axis: letterName(letterOf(w)) };
    run.say("r-below-z", plane ?? "", item, told);
    return;
  }
  if (run.lengthOwed) lengthCheck(run, r, item);
  let clear = r;
  if (open && row.returnMode === 98) clear = cycle.initial;
  else if (row.returnMode === 98) clear = cycle.initial > r ? cycle.initial : cycle.initial <= r ? r : Number.NaN;
  else if (row.returnMode === 0 && !(cycle.initial <= r)) {
    clear = Number.NaN;
    if (unsure(row, UNSURE.returnMode)) run.why[w] = row.unsureWhy;
    else
      run.remark(
        "return-unknown",
        "warning",
        item,
        "neither G98 nor G99 is in force: the level this dialect returns to is not known. Way out: write G98 or G99",
        1,
      );
  }
  if (up) clear = number(cycle.initial);
  const cache = run.plans;
  if (
    cache.version !== cycle.version ||
    cache.plan === null ||
    !Object.is(cache.r, r) ||
    !Object.is(cache.z, z) ||
    !Object.is(cache.clear, clear)
  ) {
    if (pecks(kind) && (r - z) / cycle.q > MOST_PECKS) {
      const text = `Q gives more than ${MOST_PECKS} pecks in one hole: the hole is not worked out`;
      run.say("cycle-word-bad", "Q-small", item, {
        word: "Q",
        value: cycle.q / run.factor(),
        cycle: gName(code),
        level: "error",
        text,
      });
      return;
    }
    if ((kind === "peck" || kind === "chip-break") && cycle.q > 100 * (r - z) && r > z) {
      const text = `Q is more than 100 times the depth of the hole: is it in micrometres? No peck is made`;
      run.say(
        "cycle-word-bad",
        "Q-large",
        words.has(16) ? words.itemOf(16) : item,
        { word: "Q", value: cycle.q / run.factor(), cycle: gName(code), level: "warning", text },
        undefined,
        3,
      );
    }
    // The stored version counts changes of r, z and clear too, so that the hole builder may rely on it.
    cycle.version++;
    cache.version = cycle.version;
    cache.r = r;
    cache.z = z;
    cache.clear = clear;
    const numbers: CycleNumbers = {
      code,
      kind,
      r,
      z,
      q: cycle.q,
      p: cycle.p,
      k: cycle.k,
      clear,
      back: code === 740 && turns(dialect) ? cycle.back : Number.NaN,
      spindle: row.spindle,
      rigid: runsItself(run, code, kind),
    };
    // A cycle written out anew in each turn of a loop is drawn up once.
    if (cache.plan === null || cache.numbers === null || !sameNumbers(cache.numbers, numbers))
      cache.plan = planCycle(numbers, dialect);
    cache.numbers = numbers;
    cache.seconds = planSeconds(run, cache.plan, r);
  }
  const plan = cache.plan;
  const times = withinLimit(run, repeats, plan.strokes.length);
  const aside = intervenes(run.places);
  const doubtful = placeDoubt(run);
  const stepU = !aside && row.distance === 91 && words.has(letterOf(u)) ? run.length(letterOf(u)) : 0;
  const stepV = !aside && row.distance === 91 && words.has(letterOf(v)) ? run.length(letterOf(v)) : 0;
  // An increment counts again at each repeat: U and W along, H round.
  const way = (axis: number): number =>
    (words.relative & (1 << letterOf(axis))) === 0 ? 0 : run.length(letterOf(axis)) - number(pos[axis]);
  const wayU = way(u);
  const wayV = way(v);
  for (let k = 0; k < times; k++) {
    if (k > 0 && (words.relative & (1 << C)) !== 0) turnOn(run, number(words.value[H]));
    let toU = number(pos[u]);
    let toV = number(pos[v]);
    if (aside) {
      reach(run, words.mask & ((1 << letterOf(u)) | (1 << letterOf(v))), reached);
      toU = number(reached[u]);
      toV = number(reached[v]);
    } else if (row.distance === 91) {
      toU += stepU;
      toV += stepV;
    } else {
      if (words.has(letterOf(u))) toU = run.length(letterOf(u)) + k * wayU;
      if (words.has(letterOf(v))) toV = run.length(letterOf(v)) + k * wayV;
    }
    if (doubtful !== "" && (words.has(letterOf(u)) || unsure(row, UNSURE.plane))) {
      toU = Number.NaN;
      run.why[u] = doubtful;
    }
    if (doubtful !== "" && (words.has(letterOf(v)) || unsure(row, UNSURE.plane))) {
      toV = Number.NaN;
      run.why[v] = doubtful;
    }
    judgeTurned(run, w === 2 ? toU : null, item);
    const coolantSeconds = oneHole(run, plan, cache.seconds, r, toU, toV, w, u, v);
    const { record } = run;
    if (record === null) continue;
    const hole = record.holes.addCycle(run, record, {
      plan,
      kind,
      code,
      r,
      z,
      w,
      u: toU,
      v: toV,
      version: cache.version,
    });
    contact(run, record, hole, plan.strokes.length, coolantSeconds);
  }
}

/** Whether R, read as the way from the level before the cycle, begins above the bottom. */
function mayBeWay({ cycle, dialect }: Run, z: number, w: number): boolean {
  const way = cycle.r * (w === 0 && dialect.diameterX ? 2 : 1);
  return way <= 0 && (Number.isNaN(cycle.initial) || cycle.initial + way >= z - 1e-9);
}

/** Why the plane, and with it every number of a cycle, is not known; else why the places are not. */
function placeDoubt({ row }: Run): string {
  return unsure(row, UNSURE.plane) ? row.unsureWhy : axisDoubt(row);
}

/** Why the levels of a cycle are not known although its words are. */
function levelDoubt(run: Run): string {
  const { row, dialect } = run;
  const anew = dialect.stickyKind === "number" ? UNSURE.plane | UNSURE.distance : UNSURE.plane;
  return unsure(row, anew) ? row.unsureWhy : "";
}

function sameNumbers(a: CycleNumbers, b: CycleNumbers): boolean {
  for (const name in a) if (!Object.is(a[name as keyof CycleNumbers], b[name as keyof CycleNumbers])) return false;
  return true;
}

/** Counts the holes of a block and their strokes; fewer than asked for where they are too many, and the run stops after it. */
function withinLimit(run: Run, repeats: number, strokes: number): number {
  const left = Math.max(1, Math.ceil((run.mostStrokes - run.strokes + 1) / Math.max(1, strokes)));
  const times = Math.min(repeats, left);
  run.ticks += times - 1;
  run.strokes += times * strokes;
  return times;
}

/** Tells the first hole after coolant came on. The strokes of the cycle are the last of its hole. */
function contact(run: Run, record: Recorder, hole: number, strokes: number, coolantSeconds: number | null): void {
  const owed = record.operations.owedAfter(run, 0, coolantSeconds);
  const shape = owed === null ? undefined : record.holes.rowOf(hole)?.shape;
  if (owed === null || shape === undefined) return;
  const first = Math.max(0, shape.strokes.length - strokes);
  const own = Array.from({ length: Math.max(1, strokes) }, (_, i) => ({ ...owed, stroke: first + i }));
  record.operations.contact(hole, shape, own);
}

/** C goes on by an angle before the next repeat. */
function turnOn(run: Run, angle: number): void {
  run.rotary[2] = number(run.rotary[2]) + angle;
  run.places.version++;
  run.plans.version = ++run.cycle.version;
}

/** A tapping cycle that starts and stops the spindle by itself. */
export function runsItself(run: Run, code: number, kind: CycleNumbers["kind"]): boolean {
  if ((kind !== "tap" && kind !== "tap-left") || run.row.spindle !== 0) return false;
  return run.rigid || run.dialect.rigidTap === "always" || code === 842 || code === 843;
}

function distanceChanged(run: Run, item: number, w: number): void {
  const { row, cycle, dialect, pos } = run;
  const now = `G${row.distance} in a cycle run`;
  const out = "Way out: R and the depth anew in this block";
  cycle.distance = row.distance;
  if (dialect.stickyKind === "position") {
    const text = `${now}: the kept R and Z stay where they were, other controls read their numbers anew. ${out}`;
    run.remark("distance-in-cycle", "warning", item, text, 1);
    return;
  }
  const base = dialect.g91RReference === "initial-level" ? cycle.initial : number(pos[w]);
  const apart = base + cycle.r + cycle.z - cycle.z;
  const system = row.units === 2 ? "inch" : "mm";
  if (Math.abs(apart) > 1e-6) {
    const text = `${now}: the kept R and Z numbers are read anew in it, and the bottom moves by ${say(Math.abs(apart), "length", system)}. ${out}`;
    run.remark("distance-moves-depth", "error", item, text, 1);
  } else
    run.remark("distance-in-cycle", "warning", item, `${now}: the kept R and Z numbers are read anew in it. ${out}`, 1);
}
