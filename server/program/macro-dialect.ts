/** Jumps, loops and macro calls that the control does not write this way: told once each, and not run. */
import type { Statement } from "../../grammar/expressions.ts";
import type { Dialect } from "../setup/dialect.ts";
import { lose } from "./losses.ts";
import type { Run } from "./run.ts";
import { tellWords } from "./undeclared.ts";

type Way = "hash-iso" | "o-word";

const NAMES: { readonly [K in Statement["kind"]]?: string } = {
  "if-then": "IF … THEN",
  "if-goto": "IF … GOTO",
  goto: "GOTO",
  while: "WHILE … DO",
  do: "DO",
};
/** What opens or calls; the rest of a structure is told with it. */
const OPENING: ReadonlySet<string> = new Set(["sub", "call", "if", "while", "do", "repeat"]);

/** The control has IF, GOTO, WHILE and G65. */
export const writesHash = ({ macroDialect }: Dialect): boolean =>
  macroDialect === "hash-iso" || macroDialect === "undeclared";

/** Where nobody said what the control has, a program written in o words tells it. */
function runsWords(run: Run, statement: Statement, item: number): boolean {
  const { macroDialect } = run.dialect;
  if (macroDialect === "undeclared" && statement.kind === "structured") tellWords(run, statement.name, item);
  return macroDialect === "o-word" || macroDialect === "undeclared";
}

/** @returns true where the dialect has no such statement: nothing of it runs */
export function foreignStatement(run: Run, statement: Statement, item: number): boolean {
  const way: Way = statement.kind === "structured" ? "o-word" : "hash-iso";
  if (way === "o-word" ? runsWords(run, statement, item) : writesHash(run.dialect)) return false;
  const { words } = run;
  const called = statement.kind === "structured" && statement.keyword === "call";
  const moves = words.mask !== 0 || words.gCount > 0 || words.mCount > 0;
  const what =
    statement.kind === "structured"
      ? OPENING.has(statement.keyword) && `\`o${statement.name.toLowerCase()} ${statement.keyword}\``
      : NAMES[statement.kind];
  if (what) tell(run, what, statement.kind === "structured" ? `o ${statement.keyword}` : what, way, item);
  if (called || (statement.kind === "if-then" && moves)) lose(run, `${what} is not run in this dialect`);
  return true;
}

/** G65 and G66, where the dialect has the codes but does not call macros by them. @returns true where the block is one */
export function foreignCall(run: Run): boolean {
  const { words, dialect } = run;
  if (writesHash(dialect)) return false;
  const item = Math.max(words.gItemOf(650), words.gItemOf(660));
  if (item < 0) return false;
  const what = words.gItemOf(660) >= 0 ? "G66" : "G65";
  tell(run, what, what, "hash-iso", item);
  lose(run, `${what} is not run in this dialect`);
  return true;
}

function tell(run: Run, what: string, cause: string, way: Way, item: number): void {
  const { macroDialect } = run.dialect;
  const call = what.startsWith("G6") || what.endsWith(" call`");
  const then = call ? "positions after it are unknown" : "the blocks are read straight on";
  run.say(
    "not-executed",
    cause,
    item,
    {
      text: `${what} is not run, and ${then}: ${HAS[macroDialect]} (\`macroDialect: ${macroDialect}\`). Way out: \`macroDialect: ${way}\` if the control has it, else the blocks written out`,
    },
    undefined,
    1,
  );
}

const HAS: { readonly [W in Dialect["macroDialect"]]: string } = {
  undeclared: "nothing is declared",
  none: "this dialect has no jumps, loops or macros",
  "hash-iso": "this dialect writes jumps, loops and macros as IF, GOTO, WHILE and G65",
  "o-word": "this dialect writes jumps, loops and macros as o words",
};
