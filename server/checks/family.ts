/** Families of checks: what a person turns off, or makes graver, together. */
import type { Severity } from "../setup/types.ts";
import type { Check } from "./types.ts";

/** Name → what its checks look at, as help says it. */
export const FAMILIES = {
  reading: "words and blocks that cannot be read, or that this control reads differently",
  flow: "calls, jumps, loops and the end of the program",
  setup: "the setup, and what could not be checked without more of it",
  state: "modes and spindle at the moment they matter",
  tool: "tool changes, length offsets and what the tool can reach",
  cycle: "R, Z, Q, P and the run of a drilling cycle",
  place: "where holes are and where the tool goes between them",
  tap: "tapping and reaming",
  feed: "feed and cutting speed",
  machine: "limits of the machine and loads on it",
  entry: "interrupted cuts",
  coolant: "coolant and chips",
} as const;

export type Family = keyof typeof FAMILIES;

/** How the setup names a family under `severity:`. */
export const familyKey = (family: Family): string => `family:${family}`;

export const FAMILY_KEYS: readonly string[] = (Object.keys(FAMILIES) as Family[]).map(familyKey);

/**
 * What the setup says of a check: by its id, else by its family. A check that is off by default is not switched on by
 * its family.
 * @returns undefined: the levels that the check gives itself
 */
export function levelIn(severity: ReadonlyMap<string, Severity>, check: Check): Severity | undefined {
  const own = severity.get(check.id);
  if (own !== undefined) return own;
  return check.severity === "off" ? "off" : severity.get(familyKey(check.family));
}
