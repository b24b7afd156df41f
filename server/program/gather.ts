/** Reads one block's items into the scratch, working out expressions and assignments on the way. */

import { ITEM, POLAR_WORDS, VALUE } from "../../grammar/blocks.ts";
import type { Expr, Statement } from "../../grammar/expressions.ts";
import { writesHash } from "./macro-dialect.ts";
import { writeOffsetVariable } from "./offset-variables.ts";
import type { Run } from "./run.ts";
import { itemsSpan } from "./spans.ts";
import { letterName, N, NOT_KNOWN, type Words, X, Y } from "./words.ts";

const G = 6;
const M = 12;
/** NIST accepts a value this near to a whole number wherever a whole number is needed (3.3.2.1). */
const WHOLE = 1e-4;

interface Pending {
  readonly target: Expr;
  readonly value: number | null;
  readonly why: string;
}

export function gather(run: Run, block: number): void {
  const { blocks, words } = run;
  const first = blocks.firstItem(block);
  const count = blocks.itemCount(block);
  words.clear(block, first, count);
  let pending: Pending[] | null = null;
  let polar = -1;
  for (let item = first; item < first + count; item++) {
    const kind = blocks.kind(item);
    if (kind >= 65 && kind <= 90) {
      if (kind === ITEM.program) words.programItem = item;
      else word(run, kind - 65, item);
      continue;
    }
    switch (kind) {
      case ITEM.comment:
        words.comments = true;
        break;
      case ITEM.lineComment:
        words.comments = true;
        words.lineComment = item;
        break;
      case ITEM.blockDelete:
        words.deleteItem = item;
        // With the switch on the rest of the line is passed over.
        if (run.deleteOn) {
          words.count = item - first;
          item = first + count;
        }
        break;
      case ITEM.percent:
        words.percent = true;
        break;
      case ITEM.statement: {
        const statement = blocks.statement(item);
        if (statement?.kind !== "assign") {
          words.statement = item;
          break;
        }
        words.assignments = true;
        const settled = settle(run, statement, item);
        if (run.dialect.assign === "parallel") {
          pending ??= [];
          pending.push(settled);
        } else assign(run, settled);
        break;
      }
      case ITEM.unread:
        words.unread = true;
        if (isPolar(run, item)) polar = item;
        break;
      default:
        break;
    }
  }
  if (polar >= 0) for (const letter of [X, Y]) if (!words.has(letter)) words.put(letter, Number.NaN, polar, false);
  // Settings take effect after every value of the line was read (NISTIR 6556 3.3.3).
  if (pending !== null) for (const each of pending) assign(run, each);
}

/** Polar words move X and Y to where is not worked out. */
function isPolar({ blocks, words }: Run, item: number): boolean {
  return POLAR_WORDS.test(blocks.textOf(words.block).slice(blocks.start(item), blocks.end(item)));
}

function word(run: Run, letter: number, item: number): void {
  const { blocks, words } = run;
  const form = blocks.form(item);
  let value = blocks.value(item);
  if (form === VALUE.none || form === VALUE.name) {
    words.valueless = true;
    words.putBroken(letter, item);
    // Where it goes is not known; the place before is surely not meant.
    if (letter === X || letter === Y) words.put(letter, Number.NaN, item, false);
    return;
  }
  let known = true;
  if (form === VALUE.expression) {
    const expr = blocks.expression(item);
    const result = expr === undefined ? Number.NaN : run.evaluator.evaluate(expr);
    reportFault(run, item);
    if (result === null) {
      // A word whose value is null is passed over together with its letter (common practice). To hand on an argument
      // that a macro was not given is what null is for.
      if (isArgument(words, letter)) return;
      run.say("dialect", "null-word", item, {
        rule: "null-word",
        level: nullLevel(run, letter, expr),
        text: `${letterName(letter)} has a variable that was never set: the word is passed over`,
      });
      return;
    }
    value = result;
    if (Number.isNaN(value)) {
      known = false;
      words.whys[letter] = run.evaluator.why;
      // A fault has been told as such; what the grammar could not read is a syntax finding already.
      if (run.evaluator.fault === null && expr !== undefined && !broken(expr)) {
        if (mayCount(run, letter)) words.openCounts |= 1 << letter;
        else run.unknownValue(letter, item, run.evaluator.why);
      }
    }
  }
  // A code that is not known is told as such and is no unknown code.
  if (letter === G) {
    const tens = Math.round(value * 10);
    const code = Math.abs(value * 10 - tens) <= 10 * WHOLE && value >= 0 ? tens : -1;
    words.putG(known ? code : NOT_KNOWN, item);
    return;
  }
  if (letter === M) {
    const whole = Math.round(value);
    const code = Math.abs(value - whole) <= WHOLE && value >= 0 ? whole : -1;
    words.putM(known ? code : NOT_KNOWN, item);
    return;
  }
  words.put(letter, value, item, known);
  if (form === VALUE.integer && letter !== N) words.pointless |= 1 << letter;
}

/** What repeats by the letter says what an unknown count leads to; where nothing does, the letter is told at the end. */
function mayCount(run: Run, letter: number): boolean {
  const name = letterName(letter);
  return name === "L" || run.dialect.repeatLetters.includes(name);
}

/** Counts that nothing in the block has taken. */
export function tellOpenCounts(run: Run): void {
  const { words } = run;
  for (let letter = 0; words.openCounts >> letter !== 0; letter++)
    if ((words.openCounts & (1 << letter)) !== 0)
      run.unknownValue(letter, words.itemOf(letter), words.whys[letter] ?? "");
  words.openCounts = 0;
}

const COORDINATES: ReadonlySet<string> = new Set("ABCIJKRUVWXYZ");

/**
 * A place that depends on a local variable which nothing set is most often a slip. Arguments of a macro may be left out,
 * #0 is empty on purpose, and the common ones come from elsewhere.
 */
function nullLevel(run: Run, letter: number, expr: Expr | undefined): "warning" | "info" {
  if (!COORDINATES.has(letterName(letter)) || expr === undefined) return "info";
  for (let { frame } = run; frame !== null; frame = frame.parent) if (frame.args !== null) return "info";
  let of = expr;
  while (of.kind === "negate" || (of.kind === "chain" && of.terms.length === 1))
    of = of.kind === "negate" ? of.of : (of.terms[0] ?? of);
  if (of.kind !== "variable") return "info";
  const index = run.evaluator.evaluate(of.index);
  return index !== null && index >= 1 && index <= 33 ? "warning" : "info";
}

/** Letters of a macro call that are no arguments: the codes, what is called, and how often. */
const NOT_HANDED_ON: ReadonlySet<string> = new Set(["G", "L", "N", "O", "P"]);

/** The block calls a macro (G65, G66), and this word is one of its arguments. */
function isArgument(words: Words, letter: number): boolean {
  if (words.gItemOf(650) < 0 && words.gItemOf(660) < 0) return false;
  return !NOT_HANDED_ON.has(letterName(letter));
}

function broken(expr: Expr): boolean {
  switch (expr.kind) {
    case "broken":
      return true;
    case "variable":
      return broken(expr.index);
    case "negate":
      return broken(expr.of);
    case "call":
      return expr.args.some(broken);
    case "chain":
      return expr.terms.some(broken);
    default:
      return false;
  }
}

/** Tells what was wrong with the expression worked out last, if anything. */
export function reportFault(run: Run, item: number): void {
  const fault = run.evaluator.fault;
  if (fault === null) return;
  run.words.fault = true;
  run.say("dialect", "expression", item, { rule: "expression", level: "error", text: fault.text }, fault);
}

function settle(run: Run, statement: Statement & { readonly kind: "assign" }, item: number): Pending {
  const value = run.evaluator.evaluate(statement.value);
  const why = value !== null && Number.isNaN(value) ? run.evaluator.why : "";
  reportFault(run, item);
  return { target: statement.target, value, why };
}

function assign(run: Run, pending: Pending): void {
  const { target, value, why } = pending;
  if (target.kind === "named") {
    run.variables.setNamed(target.name, value);
    return;
  }
  if (target.kind !== "variable") return;
  const index = run.evaluator.evaluate(target.index);
  if (index === null || Number.isNaN(index)) return;
  const whole = Math.round(index);
  const strict = run.dialect.assign === "parallel";
  if (Math.abs(index - whole) > WHOLE || whole < 1 || (strict && whole > 5399)) {
    run.say(
      "dialect",
      "variable-range",
      run.words.first,
      {
        rule: "variable-range",
        level: "error",
        text: cannotBeSet(index, whole, strict),
      },
      target,
    );
    return;
  }
  if (whole === ALARM && writesHash(run.dialect)) raiseAlarm(run, value);
  else if (!writeOffsetVariable(run, whole, value)) run.variables.set(whole, value, why);
}

/** `#3000 = n (text)`: common practice, from the dossier of the language. */
const ALARM = 3000;

/** The control stops with an alarm: the program ends here. A guard behind a condition that is not known is no fault. */
function raiseAlarm(run: Run, value: number | null): void {
  const { blocks, record, words } = run;
  run.ended = true;
  run.sawEnd = true;
  if (record?.events.told("branch") !== false) return;
  const number = value === null || Number.isNaN(value) ? "" : ` ${value}`;
  const span = itemsSpan(blocks, words.block);
  const text = `#${ALARM} raises alarm${number} here: the control stops, and what comes after is not run. Way out: what the alarm is about`;
  record.events.add("dialect", "alarm", span, record.operations.current, { rule: "alarm", level: "warning", text }, 1);
}

function cannotBeSet(index: number, whole: number, strict: boolean): string {
  const name = `#${Number(index.toPrecision(9))} cannot be set`;
  if (Math.abs(index - whole) > WHOLE)
    return `${name}: the number of a variable is a whole number. Way out: #${Math.trunc(index)}, or another number`;
  if (strict) return `${name}: this dialect has the variables #1 to #5399`;
  return whole === 0 ? `${name}: it is always empty` : `${name}: the numbers of variables begin at 1`;
}

/** Runs `IF [...] THEN #n = ...`: straight-line code, no jump. Returns whether the block's other words count. */
export function ifThen(run: Run, statement: Statement & { readonly kind: "if-then" }): "run" | "skip" | "unknown" {
  const condition = run.evaluator.evaluate(statement.condition);
  const why = run.evaluator.why;
  const unknown = condition !== null && Number.isNaN(condition);
  if (statement.assign?.kind === "assign") {
    const target = statement.assign.target;
    if (unknown) assign(run, { target, value: Number.NaN, why: `it depends on a condition: ${why}` });
    else if (condition !== 0 && condition !== null) assign(run, settle(run, statement.assign, run.words.first));
  }
  return unknown ? "unknown" : condition === 0 || condition === null ? "skip" : "run";
}
