/** Control flow and structured calls: read, and said honestly where they are not followed. */
import { ifThen } from "./gather.ts";
import { lose } from "./losses.ts";
import type { Run } from "./run.ts";

const ONCE = "the blocks are taken once, as they stand";

/** @returns `skip` when nothing else of the block runs */
export function flow(run: Run): "run" | "skip" {
  const { words, blocks, dialect } = run;
  const statement = words.statement < 0 ? undefined : blocks.statement(words.statement);
  if (statement === undefined) return run.insideSub > 0 ? "skip" : "run";
  const item = words.statement;
  if (dialect.forbiddenLetters !== "" && statement.kind !== "assign") {
    run.remark(
      "flow",
      "error",
      item,
      "this dialect has no jumps, loops or calls. Way out: write the blocks out, or declare the control's own dialect",
    );
    return "skip";
  }
  if (statement.kind === "structured") {
    structured(run, statement.keyword, item);
    return "skip";
  }
  if (run.insideSub > 0) return "skip";
  switch (statement.kind) {
    case "if-then": {
      const result = ifThen(run, statement);
      const others = words.mask !== 0 || words.gCount > 0 || words.mCount > 0;
      if (result === "unknown" && others)
        said(run, "IF", item, `IF depends on a value that cannot be known: the words after THEN are not run`);
      return result === "run" && others ? "run" : "skip";
    }
    case "goto":
      said(run, "GOTO", item, `GOTO is read but not followed: ${ONCE}`);
      return "skip";
    case "if-goto":
      said(run, "IF", item, `IF … GOTO is read but not followed: ${ONCE}`);
      return "skip";
    case "while":
    case "do":
      said(run, "WHILE", item, `the loop is read but not followed: ${ONCE}`);
      return "skip";
    default:
      return "skip";
  }
}

function structured(run: Run, keyword: string, item: number): void {
  switch (keyword) {
    case "sub":
      run.insideSub++;
      return;
    case "endsub":
      run.insideSub = Math.max(0, run.insideSub - 1);
      return;
    case "call":
      if (run.insideSub > 0) return;
      said(
        run,
        "call",
        item,
        "the call is read but not followed: what it drills is not seen, and positions after it are unknown",
      );
      lose(run, "a subprogram was called that is not followed");
      return;
    case "if":
    case "elseif":
    case "else":
    case "while":
    case "do":
    case "repeat":
      if (run.insideSub === 0) said(run, "structured", item, `${keyword} is read but not followed: ${ONCE}`);
      return;
    default:
      return;
  }
}

function said(run: Run, cause: string, item: number, text: string): void {
  run.say("not-executed", cause, item, { text }, undefined, 1);
}
