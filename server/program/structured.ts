/** The structured dialect: `o100 sub … endsub`, `call`, `if … elseif … else … endif`, `while`, `do`, `repeat`. */
import type { Statement } from "../../grammar/expressions.ts";
import { goTo, park } from "./branches.ts";
import { callStructured, leave } from "./calls.ts";
import { bothWays, truth, unknownLoop } from "./flow.ts";
import { NO_COUNTERS } from "./frames.ts";
import type { Run } from "./run.ts";

type Structured = Statement & { readonly kind: "structured" };

export function structured(run: Run, statement: Structured, item: number): void {
  const { name, keyword, args } = statement;
  const find = (keywords: string, back = false): number =>
    run.ask(`o|${name}|${run.words.block}|${keywords}${back ? "|back" : ""}`);
  const behind = (block: number): number => run.blocks.lineOf(block) + 1;
  switch (keyword) {
    case "sub": {
      // Met on the way, not called: the definition is passed over.
      const end = find("endsub");
      if (end >= 0) goTo(run, behind(end));
      else missing(run, item, name, "sub", "endsub");
      return;
    }
    case "endsub":
    case "return":
      if (run.frame?.kind === "structured") leave(run);
      return;
    case "call":
      callStructured(run, name, args, item);
      return;
    case "if":
    case "elseif": {
      // An elseif that is fallen into ends the way that was taken.
      const turn = run.counters.get(run.words.block);
      if (keyword === "elseif" && turn === undefined) {
        const end = find("endif");
        if (end >= 0) goTo(run, behind(end));
        return;
      }
      choose(run, statement, item, find);
      return;
    }
    case "else": {
      const end = find("endif");
      if (end >= 0) goTo(run, behind(end));
      return;
    }
    case "while": {
      const [condition] = args;
      if (condition === undefined) return;
      const head = find("do", true);
      const { is, why } = truth(run, condition);
      const end = find("endwhile");
      if (end < 0 && head >= 0) {
        // do … while [c]: the condition stands behind the body.
        if (is === true) goTo(run, run.blocks.lineOf(head));
        else if (is === null) bothWays(run, item, "while", why);
        return;
      }
      if (end < 0) missing(run, item, name, "while", "endwhile");
      else unknownLoop(run, is, why, item, behind(end));
      return;
    }
    case "endwhile": {
      const head = find("while", true);
      if (head >= 0) goTo(run, run.blocks.lineOf(head));
      return;
    }
    case "repeat": {
      const end = find("endrepeat");
      if (end < 0) {
        missing(run, item, name, "repeat", "endrepeat");
        return;
      }
      const [times] = args;
      const value = times === undefined ? Number.NaN : (run.evaluator.evaluate(times) ?? 0);
      if (Number.isNaN(value)) {
        bothWays(run, item, "repeat", run.evaluator.why);
        if (park(run, behind(end), `it depends on a count: ${run.evaluator.why}`)) setCounter(run, run.words.block, 0);
      } else if (value >= 1) setCounter(run, run.words.block, Math.floor(value) - 1);
      else goTo(run, behind(end));
      return;
    }
    case "endrepeat": {
      const head = find("repeat", true);
      const left = run.counters.get(head);
      if (head < 0 || left === undefined) return;
      if (left > 0) {
        setCounter(run, head, left - 1);
        goTo(run, behind(head));
      } else setCounter(run, head, null);
      return;
    }
    case "break":
    case "continue": {
      const end = find("endwhile,endrepeat");
      if (end < 0) return;
      if (keyword === "continue") {
        goTo(run, run.blocks.lineOf(end));
        return;
      }
      const head = find("repeat", true);
      if (head >= 0) setCounter(run, head, null);
      goTo(run, behind(end));
      return;
    }
    case "do":
    case "endif":
      return;
  }
}

/** `if` and, where no way before it was taken, `elseif` and `else`. */
function choose(run: Run, statement: Structured, item: number, find: (keywords: string) => number): void {
  const [condition] = statement.args;
  const next = find("elseif,else,endif");
  setCounter(run, run.words.block, null);
  if (next < 0) {
    missing(run, item, statement.name, "if", "endif");
    return;
  }
  if (condition === undefined) return;
  const { is, why } = truth(run, condition);
  if (is === true) return;
  const other = run.blocks.statement(statementItem(run, next));
  const line = run.blocks.lineOf(next);
  const to = other?.kind === "structured" && other.keyword === "elseif" ? line : line + 1;
  // The elseif that is jumped to is to be asked; one that is fallen into is not.
  if (to === line) setCounter(run, next, 0);
  if (is === false) {
    goTo(run, to);
    return;
  }
  bothWays(run, item, statement.keyword, why);
  if (park(run, to, `it depends on a condition: ${why}`) && to === line) setCounter(run, next, null);
}

function statementItem(run: Run, block: number): number {
  const { blocks } = run;
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) if (blocks.statement(item)) return item;
  return first;
}

function setCounter(run: Run, block: number, left: number | null): void {
  if (left === null && !run.counters.has(block)) return;
  const next = new Map(run.counters);
  if (left === null) next.delete(block);
  else next.set(block, left);
  run.counters = next.size === 0 ? NO_COUNTERS : next;
}

function missing(run: Run, item: number, name: string, what: string, end: string): void {
  run.say("flow", `${what} ${name}`, item, {
    level: "error",
    text: `${name} ${what} has no ${name} ${end} behind it. Way out: write it where the ${what} ends`,
  });
}
