import type { Check, Finding } from "./types.ts";

/** More than anybody reads: what causes them is among the first. */
const MOST_FINDINGS = 1000;

export const moreFindings: Check = {
  id: "more-findings",
  family: "reading",
  severity: "info",
  docs: {
    title: "More findings than are told",
    what: `A program with more than ${MOST_FINDINGS} findings: the gravest are told, in order of place, and this line says how many are left out.`,
    why: "So many have a cause in common (another dialect, another language), and a list of thousands hides it.",
    formula: "",
    example: "",
    better: "",
    limits:
      "Errors go before warnings, warnings before information; whether the program passes is decided by those that are told.",
    source: "none: a limit of this tool",
  },
  // Made where the findings of both block delete variants have met; nothing to look for.
  detect: () => [],
};

/** The gravest, in the order in which they stand, and one line about the others. */
export function capped(findings: readonly Finding[], firstBlock: number): Finding[] {
  if (findings.length <= MOST_FINDINGS) return [...findings];
  let left = MOST_FINDINGS;
  const kept = new Set<Finding>();
  for (const severity of ["error", "warning", "info"] as const)
    for (const finding of findings) {
      if (finding.severity !== severity || left === 0) continue;
      kept.add(finding);
      left--;
    }
  const out = findings.length - MOST_FINDINGS;
  const about: Finding = {
    check: moreFindings.id,
    severity: "info",
    place: { in: "program", span: { block: firstBlock, start: 0, end: 0 } },
    message: `${out} more findings of this program are not told: the ${MOST_FINDINGS} gravest are. Way out: the cause of the first ones; so many often mean another dialect than the setup names.`,
    count: out,
    related: [],
    data: null,
    operation: -1,
  };
  return [about, ...findings.filter((finding) => kept.has(finding))];
}
