import type { Problem, ProblemCode } from "../../grammar/blocks.ts";
import { problemsInside } from "../program/marks.ts";
import type { ResolvedSetup } from "../setup/types.ts";
import { sentence } from "./events.ts";
import type { Check, Finding, FindingSeverity } from "./types.ts";

/** Findings of one kind shown one by one; a file that is no program at all would give thousands. */
const SHOWN_ONE_BY_ONE = 100;

const WARNINGS: ReadonlySet<ProblemCode> = new Set<ProblemCode>(["stray-close"]);

function level(code: ProblemCode, dialect: ResolvedSetup["dialect"]): FindingSeverity {
  if (code === "open-comment") return dialect.openComment;
  if (code === "nested-comment") return dialect.nestedComments === "error" ? "error" : "warning";
  // The NIST language has no such words, and does not run the line.
  if (code === "polar-word") return dialect.repeatWord === "error" ? "error" : "warning";
  return WARNINGS.has(code) ? "warning" : "error";
}

export const syntax: Check = {
  id: "syntax",
  family: "reading",
  severity: "error",
  docs: {
    title: "A block cannot be read as written",
    what: "Characters, numbers, comments, brackets or statements that the language does not know. The rest of the block and of the file is read as usual.",
    why: "A control stops at such a block, or worse, reads something else than was meant: the letter O for a zero, a number with two points.",
    formula: "",
    example: "G1 Z-1O. F100.",
    better: "G1 Z-10. F100.",
    limits: "Only the form is judged here. What a word means on one control is the business of the other checks.",
    source: "ISO 6983-1 and NISTIR 6556 for the forms; common practice for the tolerances",
  },
  *detect(context) {
    const { blocks, setup } = context.execution;
    const seen = new Map<ProblemCode, Problem[]>();
    for (const problem of problemsInside(blocks)) {
      if (problem.code === "cut-note") continue;
      const same = seen.get(problem.code);
      if (same === undefined) seen.set(problem.code, [problem]);
      else same.push(problem);
    }
    for (const [code, problems] of seen) {
      const severity = level(code, setup.dialect);
      for (const problem of problems.slice(0, SHOWN_ONE_BY_ONE))
        yield found(problem, severity, sentence(problem.text), 1);
      const rest = problems.slice(SHOWN_ONE_BY_ONE);
      const first = rest[0];
      if (first !== undefined) {
        yield found(
          first,
          severity,
          `${sentence(first.text)} ${rest.length} more of this kind from here on.`,
          rest.length,
        );
      }
    }
  },
};

function found(problem: Problem, severity: FindingSeverity, message: string, count: number): Finding {
  return {
    check: "syntax",
    severity,
    place: { in: "program", span: problem.span },
    message,
    count,
    related: [],
    data: null,
    operation: -1,
  };
}
