/**
 * Which faults of a setup concern one program. A setup serves many programs, machines and tool libraries: a fault in what a
 * program does not use must be seen, but must not stop its release.
 */
import type { SetupProblem } from "./types.ts";

/** What the rule for one program names. */
export interface InUse {
  /** Number of the rule under `programs:`; -1: none is for this program. */
  readonly rule: number;
  readonly machine: string | undefined;
  readonly tools: string | undefined;
  readonly workpiece: string | undefined;
  /** Keys of `materials:` that count; null: any may. */
  readonly materials: readonly string[] | null;
}

/** The problem as it weighs for the program: one step less where it is in a part that the program does not use. */
export function weighed(problem: SetupProblem, use: InUse): SetupProblem {
  if (concerns(problem.path ?? "", use)) return problem;
  return { ...problem, severity: problem.severity === "error" ? "warning" : "info", unused: true };
}

const PARTS = [
  ["machines", "machine"],
  ["tools", "tools"],
  ["workpieces", "workpiece"],
] as const;

function concerns(path: string, use: InUse): boolean {
  const rule = /^programs\[(\d+)\]\.(?!files\b)/.exec(path);
  // What a broken pattern was for, nobody knows: it may have been this program.
  if (rule !== null) return Number(rule[1]) === use.rule;
  for (const [section, part] of PARTS) {
    if (path.startsWith(`${section}.`)) return use[part] !== undefined && isAt(path, `${section}.${use[part]}`);
  }
  if (!path.startsWith("materials.") || use.materials === null) return true;
  return use.materials.some((name) => isAt(path, `materials.${name}`));
}

function isAt(path: string, part: string): boolean {
  return path.startsWith(part) && /^(?:$|[.[])/.test(path.slice(part.length));
}
