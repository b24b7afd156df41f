/** Problems of a setup file or a tool table by itself, for the editor. */
import { loadPart, loadSetup } from "../load.ts";
import { nearest } from "../read/nearest.ts";
import type { SetupProblem } from "../types.ts";

export interface AssistContext {
  /** Ids of the checks, so that `severity:` can be completed and checked. */
  readonly checks?: readonly string[];
}

/** Never throws; every range lies inside the text. A CSV file is read as a tool table. */
export function setupProblems(uri: string, text: string, context: AssistContext = {}): readonly SetupProblem[] {
  if (/\.(csv|tsv)([?#].*)?$/i.test(uri)) return loadPart("tools", uri, text, "table", "mm", NONE).findings.problems;
  const loaded = loadSetup(uri, text);
  const { problems } = loaded.findings;
  if (context.checks === undefined) return problems;
  const checks = context.checks;
  const extra: SetupProblem[] = [];
  for (const id of loaded.severity.keys()) {
    const place = loaded.findings.placeOf(`severity.${id}`);
    if (checks.includes(id) || place === null) continue;
    extra.push({
      file: uri,
      severity: "warning",
      range: loaded.file.range(place.keySpan),
      message: unknownCheck(id, checks),
    });
  }
  return [...problems, ...extra];
}

const NONE = [] as const;

function unknownCheck(id: string, checks: readonly string[]): string {
  const near = nearest(id, checks);
  return `severity.${id}: no check ${id}${near === null ? "" : `; ${near}?`}`;
}
