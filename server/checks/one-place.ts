/** Findings that stand at one word or block and belong to no hole. */
import type { CheckContext, Finding, FindingPlace, FindingSeverity } from "./types.ts";

/** Place of the first word of a block with this letter and, if given, one of these values; else the whole block. */
export function wordPlace(context: CheckContext, block: number, letter: string, ...values: number[]): FindingPlace {
  const { blocks } = context.execution;
  const code = letter.charCodeAt(0);
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (blocks.kind(item) !== code) continue;
    if (values.length > 0 && !values.includes(blocks.value(item))) continue;
    return { in: "program", span: { block, start: blocks.start(item), end: blocks.end(item) } };
  }
  return { in: "program", span: context.spanOf(0, block) };
}

/** A finding of one place, without a hole. */
export function single(
  check: string,
  severity: FindingSeverity,
  place: FindingPlace,
  message: string,
  more: Partial<Pick<Finding, "count" | "data" | "related" | "operation">> = {},
): Finding {
  return { check, severity, place, message, count: 1, related: [], data: null, operation: -1, ...more };
}

/** Keeps the first of those with one key, counts the rest. */
export function* counted(findings: Iterable<readonly [key: string, finding: Finding]>): Generator<Finding> {
  const first = new Map<string, { readonly finding: Finding; count: number }>();
  for (const [key, finding] of findings) {
    const known = first.get(key);
    if (known === undefined) first.set(key, { finding, count: finding.count });
    else known.count += finding.count;
  }
  for (const { finding, count } of first.values())
    yield count === finding.count
      ? finding
      : { ...finding, count, message: `${finding.message} ${count} times, first here.` };
}
