/** Blocks that would take the place of those of one line, as `explain FILE:LINE` prints them: never applied from here. */

import { SPLIT_FEED_CHECKS, splitFeed } from "../../review/fixes/split-feed.ts";
import { lineRange } from "../../review/places.ts";
import type { Review } from "../../review/types.ts";
import { clean, wrap } from "./terminal.ts";

/** @param line from 1 */
export function wayOutLines(review: Review, line: number, width: number): string[] {
  const out: string[] = [];
  for (const finding of review.findings) {
    if (!SPLIT_FEED_CHECKS.has(finding.check) || finding.place.in !== "program") continue;
    const here = lineRange(finding.place, review.execution.blocks).line === line - 1;
    const fix = splitFeed(review, finding);
    if (!fix.offered) {
      if (here) out.push(...wrap(`${finding.check}: the feed cannot be split in long hand: ${clean(fix.why)}.`, width));
      continue;
    }
    if (!here && !fix.edits.some((edit) => edit.line === line - 1)) continue;
    out.push(...wrap(`Way out of ${finding.check}, in long hand; read each block before it runs:`, width));
    for (const edit of fix.edits) {
      out.push(`  in place of line ${edit.line + 1}`, ...edit.texts.map((text) => `    ${clean(text)}`));
    }
  }
  return out;
}
