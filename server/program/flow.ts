/** Jumps, conditions and loops: GOTO, IF, WHILE, DO and END, as the control would follow them. */
import type { Expr, Statement } from "../../grammar/expressions.ts";
import { goTo, park } from "./branches.ts";
import { ifThen, reportFault } from "./gather.ts";
import { foreignStatement } from "./macro-dialect.ts";
import type { Run } from "./run.ts";
import { joinState, stateOf } from "./state.ts";
import { structured } from "./structured.ts";

/** @returns `skip` when nothing else of the block runs */
export function flow(run: Run): "run" | "skip" {
  const { words, blocks, dialect } = run;
  const statement = blocks.statement(words.statement);
  if (statement === undefined) return "run";
  const item = words.statement;
  if (dialect.macroDialect === "none" && dialect.forbiddenLetters !== "" && statement.kind !== "assign") {
    run.remark(
      "flow",
      "error",
      item,
      "this dialect has no jumps, loops or calls. Way out: write the blocks out, or declare the control's own dialect",
    );
    return "skip";
  }
  run.record?.longHand.commit(run);
  if (foreignStatement(run, statement, item)) {
    // A definition is no part of the way, whatever the control makes of it.
    if (statement.kind === "structured" && statement.keyword === "sub") structured(run, statement, item);
    return "skip";
  }
  switch (statement.kind) {
    case "structured":
      structured(run, statement, item);
      return "skip";
    case "if-then":
      return then(run, statement, item);
    case "goto":
      goToLabel(run, statement.target, item, "GOTO");
      return "skip";
    case "if-goto":
      ifGoTo(run, statement, item);
      return "skip";
    case "while":
      loop(run, statement.condition, item);
      return "skip";
    case "do":
      return "skip";
    case "end":
      backToLoop(run);
      return "skip";
    default:
      return "skip";
  }
}

/** A condition: true, false, or unknown with the reason. */
export function truth(run: Run, condition: Expr): { readonly is: boolean | null; readonly why: string } {
  const value = run.evaluator.evaluate(condition);
  const { why } = run.evaluator;
  reportFault(run, run.words.statement);
  if (value !== null && Number.isNaN(value)) return { is: null, why };
  return { is: value !== null && value !== 0, why: "" };
}

/** Tells once per place that both ways are run. */
export function bothWays(run: Run, item: number, what: string, why: string): void {
  const block = run.words.block;
  run.say(
    "branch",
    `${what} ${block}`,
    item,
    {
      text: `${what} depends on a value that is not known (${why}): both ways are checked, and what differs after them is unknown`,
    },
    undefined,
    1,
  );
}

function then(run: Run, statement: Statement & { readonly kind: "if-then" }, item: number): "run" | "skip" {
  const { words } = run;
  const result = ifThen(run, statement);
  const others = words.mask !== 0 || words.gCount > 0 || words.mCount > 0;
  if (result === "unknown" && others) {
    bothWays(run, item, "IF", run.evaluator.why);
    return park(run, run.next, `it depends on a condition: ${run.evaluator.why}`) ? "run" : "skip";
  }
  return result === "run" && others ? "run" : "skip";
}

function ifGoTo(run: Run, statement: Statement & { readonly kind: "if-goto" }, item: number): void {
  const { is, why } = truth(run, statement.condition);
  if (is === false) return;
  if (is === true) {
    goToLabel(run, statement.target, item, "IF … GOTO");
    return;
  }
  const { block } = run.words;
  const reason = `it depends on a condition: ${why}`;
  const line = labelLine(run, statement.target, item, "IF … GOTO");
  if (line < 0) return;
  if (line > run.blocks.lineOf(block)) {
    bothWays(run, item, "IF … GOTO", why);
    park(run, line, reason);
    return;
  }
  // Backwards: a loop of unknown length. Its second turn shows what changes from turn to turn.
  const turn = run.loops.get(block);
  if (turn === undefined || turn === null) {
    manyTurns(run, item, "this loop", why);
    run.loops.set(block, stateOf(run));
    goTo(run, line);
    return;
  }
  run.loops.delete(block);
  joinState(run, turn, reason);
}

/** Tells once per place that two turns stand for as many as there are. */
export function manyTurns(run: Run, item: number, what: string, why: string): void {
  run.say(
    "branch",
    `turns ${run.words.block}`,
    item,
    {
      text: `how often ${what} runs is not known (${why}): its first two turns are checked, and what changes from turn to turn is unknown after it`,
    },
    undefined,
    1,
  );
}

function loop(run: Run, condition: Expr, item: number): void {
  const { block } = run.words;
  const { is, why } = truth(run, condition);
  const end = run.ask(`end|${block}`);
  if (end < 0) return;
  const behind = run.blocks.lineOf(end) + 1;
  unknownLoop(run, is, why, item, behind);
}

/** The head of a loop: in, past it, or, where the condition is unknown, in twice and past it. */
export function unknownLoop(run: Run, is: boolean | null, why: string, item: number, behind: number): void {
  const { block } = run.words;
  const turn = run.loops.get(block);
  const reason = `it depends on a condition: ${why}`;
  if (is === true) return;
  if (is === false) {
    if (turn !== undefined) run.loops.delete(block);
    goTo(run, behind);
    return;
  }
  if (turn === undefined) {
    manyTurns(run, item, "this loop", why);
    if (park(run, behind, reason)) run.loops.set(block, null);
    return;
  }
  if (turn === null) {
    run.loops.set(block, stateOf(run));
    return;
  }
  run.loops.delete(block);
  joinState(run, turn, reason);
  goTo(run, behind);
}

function backToLoop(run: Run): void {
  const begin = run.ask(`do|${run.words.block}`);
  if (begin >= 0) goTo(run, run.blocks.lineOf(begin));
}

/** Line of a GOTO's target; −1 where there is none, which is told. */
function labelLine(run: Run, target: Expr, item: number, what: string): number {
  const { block } = run.words;
  const value = run.evaluator.evaluate(target);
  if (value === null || Number.isNaN(value)) {
    run.say("flow", `target ${block}`, item, {
      level: "warning",
      text: `${what}: where it goes is not known (${run.evaluator.why || "the variable was never set"}). It is not followed`,
    });
    return -1;
  }
  return sequenceLine(run, value, item, what);
}

/** Line of an N number in the program under way, −1 none. A jump into a loop and a number that stands twice are told. */
export function sequenceLine(run: Run, n: number, item: number, what: string): number {
  const { block } = run.words;
  const found = Number.isInteger(n) ? run.ask(`N|${n}|${block}`) : -1;
  if (found < 0) {
    run.say("flow", `no N${n}`, item, {
      level: "error",
      text: `${what}: there is no block N${n} in this program. Way out: N${n} at the block it goes to`,
    });
    return -1;
  }
  const line = run.blocks.lineOf(found);
  if (run.ask(`count|${n}|${block}`) > 1)
    run.say("flow", `twice N${n}`, item, {
      level: "warning",
      text: `N${n} stands more than once in this program: the next one behind the jump is taken. Way out: one N${n}`,
    });
  if (run.ask(`enters|${block}|${found}`) > 0)
    run.say("flow", `into loop ${n}`, item, {
      level: "error",
      text: `${what} N${n} goes into a loop from outside, which a control refuses. Way out: to a block before the loop's DO`,
    });
  return line;
}

function goToLabel(run: Run, target: Expr, item: number, what: string): void {
  const line = labelLine(run, target, item, what);
  if (line < 0) return;
  goTo(run, line);
}
