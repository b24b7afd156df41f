/** What the builders share: the findings so far, and the origins they add for values that no file names. */
import type { Findings } from "../read/findings.ts";
import type { Origin } from "../types.ts";

export interface Building {
  readonly findings: Findings;
  readonly origins: Map<string, Origin>;
  /** Path → what was done to the written value, for its origin. */
  readonly notes: Map<string, string>;
}

/** Records that a value is a default. */
export function byDefault(building: Building, path: string, text: string): void {
  building.origins.set(path, { kind: "default", file: "", line: -1, column: -1, text });
}

export function byOption(building: Building, path: string, text: string): void {
  building.origins.set(path, { kind: "option", file: "", line: -1, column: -1, text });
}

/** The text of a default that stands in for a value that was written but could not be read. */
export function assumed(building: Building, path: string, text: string): string {
  return building.findings.unknown.has(path) ? `assumed, what is written could not be read: ${text}` : text;
}
