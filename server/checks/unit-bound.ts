/**
 * Where the numbers look like those of the other unit, every length, depth and feed is 25 times off, and what checks say
 * of them only repeats that. One finding then speaks for all, as grave as the gravest of them.
 */
import type { Execution } from "../program/types.ts";
import type { Severity } from "../setup/types.ts";
import { levelIn } from "./family.ts";
import type { Finding, FindingSeverity } from "./types.ts";
import { unitsDoubtful } from "./units-doubtful.ts";

/** Checks that weigh a length, a depth, a place or a feed of the program. Speeds and states do not hang on the unit. */
const UNIT_BOUND: ReadonlySet<string> = new Set([
  "axis-thrust",
  "centre-insert-free",
  "coolant-supply",
  "cycle-depth-order",
  "diagonal-approach",
  "entry-advice",
  "entry-contradicts",
  "entry-not-allowed",
  "feed-limit",
  "feed-mode",
  "feed-stays-low",
  "feed-window",
  "hole-in-air",
  "hole-twice",
  "interrupted-exit",
  "interrupted-feed",
  "low-rapid",
  "peck-style",
  "plate-gap",
  "predrilled-large",
  "r-plane-high",
  "r-plane-low",
  "rapid-into-metal",
  "reach",
  "sideways-in-metal",
  "spindle-power",
  "spindle-torque",
  "tap-depth",
  "tap-lead",
  "thin-web",
  "through-coolant",
  "through-depth",
  "tip-allowance",
  "too-deep",
  "tool-comment-differs",
  "walk",
]);

/**
 * Bound where what was measured has this unit: an S that another tool left is wrong in any unit, and holes overlap by
 * their pitch.
 */
const SOMETIMES: ReadonlyMap<string, string> = new Map([
  ["cannot-check", "mm"],
  ["speed-inherited", "mm/rev"],
]);

const RANK: { readonly [S in FindingSeverity]: number } = { info: 0, warning: 1, error: 2 };

export function withoutUnitBound(
  findings: Finding[],
  execution: Execution,
  severity: ReadonlyMap<string, Severity>,
): Finding[] {
  const doubtful = findings.find((finding) => finding.check === unitsDoubtful.id);
  // Who answers for the unit wants to see the rest.
  const answered = execution.notes.some(({ note }) => note.kind === "allow" && note.check === unitsDoubtful.id);
  if (doubtful === undefined || answered) return findings;
  let worst = doubtful.severity;
  const others = findings.filter((finding) => {
    if (finding === doubtful) return false;
    const bound =
      UNIT_BOUND.has(finding.check) || (finding.data !== null && SOMETIMES.get(finding.check) === finding.data.unit);
    if (bound && RANK[finding.severity] > RANK[worst]) worst = finding.severity;
    return !bound;
  });
  const level = levelIn(severity, unitsDoubtful) ?? worst;
  return [...others, level === "off" ? doubtful : { ...doubtful, severity: level }];
}
