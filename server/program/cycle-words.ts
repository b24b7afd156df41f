/** The words of a cycle: taken, kept, inherited, or missing. */
import { type CycleKind, turns } from "../setup/dialect.ts";
import { gName } from "./codes.ts";
import { dwellOf } from "./dwell.ts";
import { FROM_INDEX } from "./modal.ts";
import { isSide } from "./readings.ts";
import type { Run } from "./run.ts";
import { tellCycleR } from "./undeclared.ts";
import { UNSURE, unsure } from "./unsure.ts";
import { I, J, K, letterName, P, Q, R, U, W, X } from "./words.ts";

/**
 * Takes R, the depth, Q and P of a cycle block into the cycle's memory.
 * @param depthAxis index of the axis it drills along
 * @param before the cycle that was active before the block, 0 none
 * @returns false when the block cannot drill
 */
export function takeWords(
  run: Run,
  code: number,
  kind: CycleKind,
  explicit: boolean,
  before: number,
  item: number,
  depthAxis: 0 | 1 | 2,
): boolean {
  const { row, words, cycle, dialect } = run;
  const depth = X + depthAxis;
  const changed = explicit && before !== 0 && before !== code;
  if (changed && dialect.cycleDataScope === "same-code") {
    cycle.hasR = false;
    cycle.hasZ = false;
    cycle.hasQ = false;
    cycle.hasP = false;
    cycle.hasShift = false;
  }
  const position = dialect.stickyKind === "position";
  const incremental = position && row.distance === 91;
  const doubtful = position && unsure(row, UNSURE.distance);
  // Turning centres begin where the tool stands (common practice; NISTIR 6556 has mills only).
  if (!cycle.hasR && turns(dialect))
    keep(run, "r", dialect.stickyKind === "number" && row.distance === 91 ? 0 : cycle.initial);
  if (words.has(R)) {
    keep(run, "r", doubtful ? Number.NaN : levelOfR(run, code, depthAxis, incremental));
    keepWhy(run, "rWhy", R);
    cycle.hasR = true;
    cycle.distance = row.distance;
    run.from("r", words.itemOf(R));
  }
  if (words.has(depth)) {
    const value = run.length(depth);
    keep(run, "z", doubtful ? Number.NaN : incremental ? cycle.r + value : value);
    keepWhy(run, "zWhy", depth);
    cycle.hasZ = true;
    cycle.distance = row.distance;
    run.from("z", words.itemOf(depth));
  }
  // On turning centres W, or U at the side, counts the depth from R.
  const way = depthAxis === 0 ? U : W;
  if (dialect.incrementalWords && words.has(way)) {
    keep(run, "z", cycle.r + run.length(way) / (way === U && dialect.diameterX ? 2 : 1));
    keepWhy(run, "zWhy", way);
    cycle.hasZ = true;
    run.from("z", words.itemOf(way));
  }
  if (words.has(Q)) {
    const micrometres = dialect.qUnit === "micrometre" && (words.pointless & (1 << Q)) !== 0;
    keep(run, "q", micrometres ? words.get(Q) / 1000 : run.length(Q));
    cycle.hasQ = true;
    run.from("q", words.itemOf(Q));
  }
  if (words.has(P)) {
    keep(run, "p", dwellOf(run));
    cycle.hasP = true;
    run.from("p", words.itemOf(P));
  }
  if (kind === "back-bore" || kind === "fine-bore") {
    if (words.has(I) || words.has(J)) {
      keep(run, "i", words.has(I) ? run.length(I) : 0);
      keep(run, "j", words.has(J) ? run.length(J) : 0);
      cycle.hasShift = true;
    }
    if (words.has(K)) keep(run, "k", run.length(K));
  }
  if (explicit) inherited(run, code, kind, changed, item, depth);
  const wanted = explicit && armsOnly(run, depth) ? "" : missing(run, code, kind, depth);
  cycle.broken = (explicit ? 0 : cycle.broken) | words.broken;
  if (wanted !== "") {
    // One mistake for all positions of the run, and none where the word is there and told as unreadable.
    const since = explicit ? words.block : Math.floor(run.store.from(FROM_INDEX.cycle, run.step) / 1024);
    for (const word of wanted) {
      if ((cycle.broken & (1 << (word.charCodeAt(0) - 65))) !== 0) continue;
      const plane = word === letterName(depth) && depthAxis !== 2 && dialect.machineKind === "mill";
      const data = { word, cycle: gName(code), level: "error", plane: plane ? `G${row.plane}` : null };
      run.say("cycle-word-missing", `${word}${code} ${since}`, item, data, undefined, 1);
    }
    return false;
  }
  return !badPeck(run, code, kind, item);
}

/** Where R lies, in mm. */
function levelOfR(run: Run, code: number, axis: number, incremental: boolean): number {
  const { dialect, cycle } = run;
  const way = run.length(R);
  if (incremental)
    return (dialect.g91RReference === "initial-level" ? cycle.initial : (run.pos[axis] ?? Number.NaN)) + way;
  if (dialect.cycleR === "from-initial") return cycle.initial + way;
  // A level on X is a diameter like X itself.
  const level = isSide(code) && dialect.diameterX ? way / 2 : way;
  if (dialect.cycleR === "undeclared") tellCycleR(run, code, level, way);
  return level;
}

/** Stores a value and counts the change: what hangs on the old one is worked out anew. */
function keep(run: Run, field: "r" | "z" | "q" | "p" | "i" | "j" | "k", value: number): void {
  if (Object.is(run.cycle[field], value)) return;
  run.cycle[field] = value;
  run.cycle.version++;
}

function keepWhy(run: Run, field: "rWhy" | "zWhy", letter: number): void {
  const { words, cycle } = run;
  const why = Number.isNaN(words.get(letter)) ? (words.whys[letter] ?? "") : "";
  if (cycle[field] === why) return;
  cycle[field] = why;
  cycle.version++;
}

/** A bare cycle code that stores nothing and drills nothing (`G98 G81` in a line of modes). */
function armsOnly(run: Run, depth: number): boolean {
  const { words } = run;
  const used = (1 << R) | (1 << depth) | (1 << Q) | (1 << U) | (1 << W) | (0b111 << X) | 0b111;
  return (words.mask & used) === 0;
}

const pecks = (kind: CycleKind): boolean => kind === "peck" || kind === "chip-break";

function missing(run: Run, code: number, kind: CycleKind, depth: number): string {
  const { cycle, dialect } = run;
  let out = "";
  if (!cycle.hasR && !turns(dialect)) out += "R";
  if (!cycle.hasZ) out += letterName(depth);
  if (pecks(kind) && !cycle.hasQ && dialect.peckWithoutQ === "error") out += "Q";
  if (dialect.pRequired && !cycle.hasP && (code === 820 || code === 860 || code === 880 || code === 890)) out += "P";
  if ((kind === "back-bore" || kind === "fine-bore") && dialect.g76Shift === "IJ" && !cycle.hasShift) out += "IJ";
  if (code === 870 && dialect.unusedWords === "error" && Number.isNaN(cycle.k)) out += "K";
  return out;
}

function inherited(run: Run, code: number, kind: CycleKind, changed: boolean, item: number, depth: number): void {
  const { cycle, words } = run;
  if (changed) {
    let taken = "";
    if (cycle.hasR && !words.has(R)) taken += "R";
    if (cycle.hasZ && !words.has(depth)) taken += letterName(depth);
    if (pecks(kind) && cycle.hasQ && !words.has(Q)) taken += "Q";
    if (taken !== "") {
      const word = [...taken].join(", ");
      run.say("cycle-data-inherited", `${code}`, item, { word, cycle: gName(cycle.givenWith), now: gName(code) });
    }
  }
  cycle.givenWith = code;
}

function badPeck(run: Run, code: number, kind: CycleKind, item: number): boolean {
  const { cycle, words } = run;
  if (!pecks(kind) || !cycle.hasQ || !(cycle.q <= 0)) return false;
  const at = words.has(Q) ? words.itemOf(Q) : item;
  const text = "Q must be above 0: it is the depth of one peck";
  run.say("cycle-word-bad", `Q${code}`, at, {
    word: "Q",
    value: cycle.q / run.factor(),
    cycle: gName(code),
    level: "error",
    text,
  });
  return true;
}
