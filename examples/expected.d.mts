export interface ExpectedFinding {
  readonly check: string;
  readonly severity: string;
  readonly line: number;
}
export function expectedFindings(file: string): ExpectedFinding[];
export function unlike(expected: readonly ExpectedFinding[], findings: readonly ExpectedFinding[]): string[];
