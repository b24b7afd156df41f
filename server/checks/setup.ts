import type { SetupProblem } from "../setup/types.ts";
import { sentence } from "./events.ts";
import type { Check } from "./types.ts";

/** Ends the message of a fault in a part that the program does not use. */
export const NOT_USED = " This program does not use it.";

export const setupCheck: Check = {
  id: "setup",
  family: "setup",
  severity: "error",
  docs: {
    title: "The setup has a fault",
    what: "A value in swarfline.yaml or in a tool table that cannot be read, a name that leads nowhere, a severity for a check that does not exist.",
    why: "What the value should have limited is unknown, and nothing is checked against it.",
    formula: "",
    example: "spindle: { maxRpm: ten thousand }",
    better: "spindle: { maxRpm: 10000 }",
    limits:
      "That a value is the right one for the machine is not known. A fault in a machine, a tool or a part that the program does not use is at most a warning.",
    source: "none: a form of this tool",
  },
  *detect(context) {
    const called = new Set(context.execution.operations.map((operation) => operation.tool));
    for (const { problem: each, more } of oncePerName(context.setup.problems)) {
      const tool = toolOfProblem(each);
      const problem = tool === null || called.has(tool) ? each : aside(each);
      yield {
        check: "setup",
        severity: problem.severity,
        place: { in: "file", file: problem.file, ...problem.range },
        message: `${sentence(problem.message)}${problem.unused === true ? NOT_USED : ""}${more === 0 ? "" : ` ${more} more ${more === 1 ? "rule names" : "rules name"} it.`}`,
        count: 1 + more,
        related: [],
        data: null,
        operation: -1,
      };
    }
  },
};

interface Said {
  problem: SetupProblem;
  /** Rules beside this one that name what is missing. */
  more: number;
}

/** A machine, tool table or workpiece that is not there is one fault, however many rules name it. */
function oncePerName(problems: readonly SetupProblem[]): readonly Said[] {
  const said: Said[] = [];
  const byName = new Map<string, Said>();
  for (const problem of problems) {
    const path = /^programs\[\d+\]\.(?:machine|tools|workpiece)$/.exec(problem.path ?? "")?.[0];
    const name = path === undefined ? null : `${problem.file}|${problem.message.replace(path, "")}`;
    const same = name === null ? undefined : byName.get(name);
    if (same === undefined) {
      const one = { problem, more: 0 };
      said.push(one);
      if (name !== null) byName.set(name, one);
      continue;
    }
    same.more++;
    // The rule of this program speaks.
    if (same.problem.unused === true && problem.unused !== true) same.problem = problem;
  }
  return said;
}

/** The tool that a fault belongs to: `tools.crib.T3.SIG` gives 3; null where it is in no one tool. */
function toolOfProblem(problem: SetupProblem): number | null {
  const found = /^tools\..+?\.T(\d+)(?=$|[.[])/.exec(problem.path ?? "");
  return found === null ? null : Number(found[1]);
}

/** A fault that the program at hand does not meet weighs one step less, as in parts of the setup that its rule leaves out. */
function aside(problem: SetupProblem): SetupProblem {
  if (problem.unused === true) return problem;
  return { ...problem, severity: problem.severity === "error" ? "warning" : "info", unused: true };
}
