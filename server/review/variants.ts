/**
 * A program with block deletes is two programs, and safe only if both are: its findings are those of both, and what
 * stands in one of them only says in which.
 */
import type { Finding } from "../checks/types.ts";

export function bothVariants(off: readonly Finding[], on: readonly Finding[]): Finding[] {
  const inBoth = new Set<Finding>();
  const theirs = new Map<string, Finding[]>();
  for (const finding of on) {
    const list = theirs.get(keyOf(finding));
    if (list === undefined) theirs.set(keyOf(finding), [finding]);
    else list.push(finding);
  }
  // One word can have several findings of one check: those that say the same belong together first.
  const match = (finding: Finding, same: (other: Finding) => boolean): void => {
    const list = theirs.get(keyOf(finding)) ?? [];
    const at = list.findIndex(same);
    if (at < 0) return;
    for (const each of list.splice(at, 1)) inBoth.add(each);
    inBoth.add(finding);
  };
  for (const finding of off) match(finding, (other) => other.message === finding.message);
  for (const finding of off) if (!inBoth.has(finding)) match(finding, () => true);
  const only = (finding: Finding, variant: "off" | "on"): Finding => ({
    ...finding,
    variant,
    message: `With block delete ${variant}: ${lowerFirst(finding.message)}`,
  });
  return [
    ...off.map((finding) => (inBoth.has(finding) ? finding : only(finding, "off"))),
    ...on.filter((finding) => !inBoth.has(finding)).map((finding) => only(finding, "on")),
  ];
}

function keyOf({ check, severity, place }: Finding): string {
  const at =
    place.in === "file" ? `${place.file} ${place.line} ${place.column}` : `${place.span.block} ${place.span.start}`;
  return `${check} ${severity} ${at}`;
}

/** A sentence goes on after a colon; words that are codes or numbers keep their form. */
function lowerFirst(text: string): string {
  return /^[A-Z][a-z ]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
