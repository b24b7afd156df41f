/** Calls and returns: M98, M97, M99, G65, G66 and the structured call. A call pushes a frame; the return pops it. */
import { ITEM, VALUE } from "../../grammar/blocks.ts";
import type { Expr } from "../../grammar/expressions.ts";
import { endsHere, goTo, park } from "./branches.ts";
import { manyTurns, sequenceLine } from "./flow.ts";
import { type Frame, NO_COUNTERS, type SavedLocals } from "./frames.ts";
import { lose } from "./losses.ts";
import type { ModalRow } from "./modal.ts";
import type { Run } from "./run.ts";
import { itemsSpan } from "./spans.ts";
import { joinState, stateOf } from "./state.ts";
import { UNSURE, type UnsureMode } from "./unsure.ts";
import { L, P, Q } from "./words.ts";

/** Deeper than any control: a program that calls itself without end. */
const MOST_DEPTH = 50;
/** More repeats of one call than a program would ask for. */
const MOST_REPEATS = 9999;

const NO_PROGRAM = "a subprogram was called that is not followed";

/** M98 P L, M98 Pkkknnnn, M98 Q, M97 P. After the motion of its block. */
export function callSub(run: Run, code: 97 | 98, item: number): void {
  const { words } = run;
  if (!words.has(P) && !(code === 98 && words.has(Q))) {
    run.remark(
      "call-without-p",
      "error",
      item,
      `M${code} has no P that says what to call. Way out: P and the program number`,
    );
    return;
  }
  const given = words.get(P);
  const times = words.has(L) ? words.get(L) : 1;
  const bySequence = code === 97 || !words.has(P);
  const n = words.has(P) ? given : words.get(Q);
  if (Number.isNaN(n)) {
    const why = words.whys[words.has(P) ? P : Q] || "a value that is not known";
    notFound(run, item, `M${code}: which ${bySequence ? "block" : "program"} it calls is not known (${why})`, PLAIN);
    return;
  }
  if (bySequence) {
    const line = sequenceLine(run, n, item, code === 97 ? `M97 P${n}` : `M98 Q${n}`);
    if (line < 0) lose(run, NO_PROGRAM);
    else push(run, "sub", run.blocks.blockAt(line), times, item, true, null);
    return;
  }
  const [number, repeats] = whichProgram(run, given, times, words.has(L));
  const start = programCalled(run, number, item, `M98 P${given}`);
  if (start < 0) return;
  if (run.ask(`programs|${number}`) > 1)
    run.say("subprogram", `twice ${number}`, item, {
      level: "warning",
      text: `O${number} stands more than once: the first is called. Way out: one number for each program`,
    });
  push(run, "sub", start, repeats, item, !opensWithNumber(run, start), null);
}

/** The block that a called program begins at; −1 where it is not there, which is told and asked for. */
function programCalled(run: Run, number: number, item: number, what: string): number {
  const known = !Number.isNaN(number);
  const start = known ? run.ask(`O|${number}`) : -1;
  if (start >= 0) return start;
  if (known) run.wanted.add(number);
  const named = known ? `O${number}` : "a program that is not known";
  const wayOut = known
    ? `the folder with ${named} under \`subprograms:\` of the setup, such as \`subprograms: "subs/O*.nc"\``
    : PLAIN;
  const text = `${what} calls ${named}, which stands neither in this file nor among the setup's subprograms`;
  notFound(run, item, text, wayOut);
  return -1;
}

/** The last four digits name the program and those before them count, where the number is too long for a name. */
function whichProgram(run: Run, given: number, times: number, counted: boolean): readonly [number, number] {
  const form = run.dialect.subCallForm;
  const long = given >= 10_000;
  if (form === "P-L" || !long || (form === "both" && (counted || run.ask(`O|${given}`) >= 0))) return [given, times];
  return [given % 10_000, Math.floor(given / 10_000)];
}

/** Whether a called block is an O number; a file may begin without one. */
function opensWithNumber({ blocks }: Run, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++)
    if (blocks.kind(item) === ITEM.program) return true;
  return false;
}

const PLAIN = "a plain number in its place";

function notFound(run: Run, item: number, text: string, wayOut: string): void {
  run.say("subprogram", text, item, {
    level: "warning",
    text: `${text}: what it drills is not seen, and positions after it are unknown. Way out: ${wayOut}`,
  });
  lose(run, NO_PROGRAM);
}

/** @param args local variables of the callee; null: it works on the caller's */
function push(
  run: Run,
  kind: Frame["kind"],
  start: number,
  times: number,
  item: number,
  inclusive: boolean,
  args: ReadonlyMap<number, number | null> | null,
): boolean {
  const { frame, words } = run;
  if (times < 1) {
    run.remark("call-zero", "info", item, "the call has the count 0: it is not made", 1);
    return false;
  }
  if (times > MOST_REPEATS) {
    run.say("run-limit", "repeats", item, {
      text: `the call is repeated ${times} times: only ${MOST_REPEATS} are followed`,
    });
  }
  const depth = (frame?.depth ?? 0) + 1;
  const macros = (frame?.macros ?? 0) + (kind === "macro" || kind === "each" ? 1 : 0);
  if (!depthAllowed(run, start, depth, macros, item)) {
    lose(run, NO_PROGRAM);
    return false;
  }
  run.record?.longHand.commit(run);
  let open = "";
  if (Number.isNaN(times)) {
    const why = words.takeCount(L);
    open = `it depends on a count: ${why}`;
    manyTurns(run, words.itemOf(L), "this call", why);
    // A count of 0 calls nothing.
    if (!park(run, run.blocks.lineOf(words.block) + 1, open)) return false;
  }
  run.jumped = words.block;
  const locals: SavedLocals | null = args === null ? null : run.variables.takeLocals();
  if (args !== null) run.variables.putArguments(args);
  beginBody(run, {
    kind,
    call: words.block,
    back: run.next === run.blocks.lineOf(words.block) + 1 ? null : run.blocks.blockAt(run.next),
    start,
    inclusive,
    left: open === "" ? Math.min(Math.floor(times), MOST_REPEATS) - 1 : 1,
    open,
    parent: frame,
    depth,
    macros,
    locals,
    args,
    counters: run.counters,
    calls: [...(frame?.calls ?? []), words.block],
    entry: { ...run.row },
  });
  return true;
}

function beginBody(run: Run, frame: Frame): void {
  run.counters = NO_COUNTERS;
  run.enter(frame);
  run.next = run.blocks.lineOf(frame.start) + (frame.inclusive ? 0 : 1);
}

function depthAllowed(run: Run, start: number, depth: number, macros: number, item: number): boolean {
  const { maxNesting } = run.dialect;
  let itself = false;
  for (let frame = run.frame; frame !== null; frame = frame.parent) if (frame.start === start) itself = true;
  const tooDeep = depth > MOST_DEPTH || macros > maxNesting.macro || depth - macros > maxNesting.sub;
  if (!tooDeep) return true;
  const most =
    macros > maxNesting.macro ? `${maxNesting.macro} macro calls` : `${Math.min(maxNesting.sub, MOST_DEPTH)} calls`;
  const text = itself
    ? `the program calls itself: this dialect goes ${most} deep, then the control stops. Way out: a loop instead`
    : `calls are nested deeper than the ${most} of this dialect. Way out: fewer levels, or \`maxNesting\` of the control`;
  run.say("subprogram", "depth", item, { level: "error", text }, undefined, 1);
  return false;
}

/** M99, `endsub`, the end of a called text: back to the caller, or once more from the top. */
export function leave(run: Run): void {
  const { frame, blocks } = run;
  if (frame === null || endsHere(run, true) === "goes-on") return;
  run.record?.longHand.commit(run);
  if (frame.left > 0) {
    if (frame.open !== "") run.loops.set(frame.call, stateOf(run));
    if (frame.args !== null) {
      run.variables.takeLocals();
      run.variables.putArguments(frame.args);
    }
    beginBody(run, { ...frame, left: frame.left - 1 });
    return;
  }
  if (frame.open !== "") {
    // The second turn showed what changes from turn to turn.
    const turn = run.loops.get(frame.call);
    run.loops.delete(frame.call);
    if (turn === undefined || turn === null) lose(run, frame.open);
    else joinState(run, turn, frame.open);
  }
  tellLeak(run, frame);
  if (frame.locals !== null) run.variables.restoreLocals(frame.locals);
  run.counters = frame.counters;
  run.enter(frame.parent);
  if (frame.back === null) goTo(run, blocks.lineOf(frame.call) + 1);
  // Block 0 is none: the text ended there.
  else goTo(run, frame.back === 0 ? run.textEnd : blocks.lineOf(frame.back));
}

/** M99, with P to a block of the caller. */
export function returnTo(run: Run, item: number): void {
  const { words, frame } = run;
  const to = words.has(P) ? words.get(P) : Number.NaN;
  if (frame === null) {
    if (Number.isInteger(to)) {
      const line = sequenceLine(run, to, item, `M99 P${to}`);
      if (line >= 0) goTo(run, line);
      else run.ended = true;
      return;
    }
    const meant = run.dialect.endCodes.has("M99");
    if (!meant)
      run.say(
        "main-return",
        "",
        item,
        { text: "M99 at the main level starts the program over, without end: it is read once, to here" },
        undefined,
        1,
      );
    run.ended = true;
    run.sawEnd = true;
    return;
  }
  if (!words.has(P) || frame.left > 0) {
    leave(run);
    return;
  }
  const caller = frame.call;
  leave(run);
  if (run.frame === frame) return;
  // The number is looked for in the caller's program.
  const found = Number.isInteger(to) ? run.ask(`N|${to}|${caller}`) : -1;
  if (found >= 0) goTo(run, run.blocks.lineOf(found));
  else
    run.say("flow", `no N${to}`, item, {
      level: "error",
      text: `M99 P${Number.isNaN(to) ? "" : to}: the calling program has no such block. Way out: N${Number.isNaN(to) ? "…" : to} there`,
    });
}

/** The text of a called program ends without M99. */
export function fallOut(run: Run): void {
  const { frame, blocks } = run;
  if (frame === null) return;
  const block = frame.start;
  const first = blocks.firstItem(block);
  const count = blocks.itemCount(block);
  const span = { block, start: count > 0 ? blocks.start(first) : 0, end: count > 0 ? blocks.end(first) : 0 };
  run.record?.events.add("subprogram", `no-return ${block}`, span, run.record.operations.current, {
    level: "warning",
    text: "the called program has no M99 at its end: it is read as if one stood there. Way out: M99 as its last block",
  });
  leave(run);
}

const MODES: readonly (readonly [keyof ModalRow, (row: ModalRow) => string])[] = [
  ["distance", (row) => `G${row.distance}`],
  ["plane", (row) => `G${row.plane}`],
  ["units", (row) => (row.units === 2 ? "G20" : "G21")],
  ["feedMode", (row) => `G${row.feedMode}`],
  ["wcs", (row) => row.wcs],
];

function tellLeak(run: Run, frame: Frame): void {
  if (frame.kind === "each") return;
  const doubtful = run.row.unsure | frame.entry.unsure;
  const changed = MODES.filter(
    ([name]) => run.row[name] !== frame.entry[name] && (doubtful & UNSURE[name as UnsureMode]) === 0,
  );
  if (changed.length === 0) return;
  const span = itemsSpan(run.blocks, frame.call);
  const now = changed.map(([, say]) => say(run.row)).join(", ");
  const before = changed.map(([, say]) => say(frame.entry)).join(", ");
  run.record?.events.add("modal-leak", now, span, run.record.operations.current, {
    text: `the called program leaves ${now} in force, before it was ${before}. Way out: ${before} before its M99, or here`,
  });
}

/** Letters of macro arguments and their variables, type I (from memory of published macro textbooks). */
const ARGUMENT: Readonly<Record<string, number>> = {
  A: 1,
  B: 2,
  C: 3,
  D: 7,
  E: 8,
  F: 9,
  H: 11,
  I: 4,
  J: 5,
  K: 6,
  M: 13,
  Q: 17,
  R: 18,
  S: 19,
  T: 20,
  U: 21,
  V: 22,
  W: 23,
  X: 24,
  Y: 25,
  Z: 26,
};

/** G65, G66: reads the block's own words as arguments. @returns false where the block is no such call */
export function macroCall(run: Run): boolean {
  const { words } = run;
  const item = Math.max(words.gItemOf(650), words.gItemOf(660));
  if (item < 0) return false;
  const modal = words.gItemOf(660) >= 0;
  const what = modal ? "G66" : "G65";
  if (!words.has(P)) {
    run.remark(
      "call-without-p",
      "error",
      item,
      `${what} has no P that says what to call. Way out: P and the program number`,
    );
    return true;
  }
  const number = words.get(P);
  const args = argumentsOf(run, item);
  const start = programCalled(run, number, item, what);
  if (start < 0) return true;
  if (modal) run.each = { program: start, args, depth: run.frame?.depth ?? 0 };
  else push(run, "macro", start, words.has(L) ? words.get(L) : 1, item, !opensWithNumber(run, start), args);
  return true;
}

/**
 * G66: the macro after a block that moved, in a called program too, but not in the macro or what it calls.
 * @param mover the call that the block stands in
 */
export function callEach(run: Run, mover: Frame | null): void {
  const { each } = run;
  // A return may have let another way go on.
  if (each === null || run.ended || run.at !== run.words.block) return;
  for (let frame = mover; frame !== null && frame.depth > each.depth; frame = frame.parent)
    if (frame.kind === "each") return;
  push(run, "each", each.program, 1, run.words.first, !opensWithNumber(run, each.program), each.args);
}

/** Arguments in the order in which they stand: the later of two for one variable counts. */
function argumentsOf(run: Run, from: number): ReadonlyMap<number, number | null> {
  const { blocks, words, evaluator } = run;
  const args = new Map<number, number | null>();
  let triple = 0;
  let last = "";
  for (let item = from + 1; item < words.first + words.count; item++) {
    const kind = blocks.kind(item);
    if (kind < 65 || kind > 90) continue;
    const letter = String.fromCharCode(kind);
    const variable = ARGUMENT[letter];
    if (variable === undefined) continue;
    const expr = blocks.form(item) === VALUE.expression ? blocks.expression(item) : undefined;
    const value = expr === undefined ? blocks.value(item) : evaluator.evaluate(expr);
    if ("IJK".includes(letter)) {
      // Type II: each further I, J or K that does not go on in the alphabet opens the next triple.
      if (last !== "" && letter <= last) triple++;
      last = letter;
      args.set(variable + 3 * triple, value);
    } else args.set(variable, value);
  }
  return args;
}

export function callStructured(run: Run, name: string, args: readonly Expr[], item: number): void {
  const start = run.ask(`sub|${name}`);
  if (start < 0) {
    notFound(run, item, `${name} call: there is no ${name} sub in this file`, `the ${name} sub in this file`);
    return;
  }
  const values = new Map<number, number | null>();
  args.forEach((arg, i) => {
    values.set(i + 1, run.evaluator.evaluate(arg));
  });
  push(run, "structured", start, 1, item, false, values);
}
