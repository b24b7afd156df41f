/** `check --format json`. */
import { countFindings } from "../public.ts";
import type { CheckResult } from "../result.ts";

export function checkJson(results: readonly CheckResult[]): string {
  const files = results.map(({ program, findings }) => ({ program, findings: findings.map((one) => one.finding) }));
  const counts = countFindings(files.flatMap((file) => file.findings));
  return toJson({ schema: 1, files, summary: { ...counts, programs: results.length } });
}

/** Two spaces, and a line end: a report is also read by people and compared line by line. */
export function toJson(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
