/** A finding inside a called program names the blocks that call it: that is where a reader has to look as well. */
import type { Execution } from "../program/types.ts";
import type { Finding } from "./types.ts";

const MOST_NAMED = 5;

export function withCalls(findings: readonly Finding[], execution: Execution): Finding[] {
  return findings.map((finding) => {
    if (finding.place.in !== "program") return finding;
    const chains = execution.callsOf(finding.place.span.block);
    if (chains.length === 0) return finding;
    const calls = [...new Set(chains.flat())];
    const named = calls.slice(0, MOST_NAMED).map((block, i) => {
      const more =
        i === MOST_NAMED - 1 && calls.length > MOST_NAMED ? `, and ${calls.length - MOST_NAMED} more calls` : "";
      return {
        place: { in: "program" as const, span: wholeBlock(execution, block) },
        message: `called from here${more}`,
      };
    });
    return { ...finding, related: [...finding.related, ...named] };
  });
}

function wholeBlock(execution: Execution, block: number) {
  const text = execution.blocks.textOf(block);
  return { block, start: text.length - text.trimStart().length, end: text.trimEnd().length };
}
