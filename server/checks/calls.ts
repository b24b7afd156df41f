/** A finding inside a called program names the blocks that call it: that is where a reader has to look as well. */
import { fileName, JoinedBlocks } from "../program/library.ts";
import type { Execution } from "../program/types.ts";
import type { CheckContext, Finding } from "./types.ts";

const MOST_NAMED = 5;

export function withCalls(findings: readonly Finding[], context: CheckContext): Finding[] {
  const { execution } = context;
  return findings.map((finding) => {
    if (finding.place.in !== "program") return finding;
    const chains = execution.callsOf(finding.place.span.block);
    const { blocks } = execution;
    const other = blocks instanceof JoinedBlocks ? blocks.fileOf(finding.place.span.block) : null;
    if (other !== null) return atTheCall(finding, other, chains, context);
    if (chains.length === 0) return finding;
    const calls = [...new Set(chains.flat())];
    const named = calls.slice(0, MOST_NAMED).map((block, i) => {
      const more =
        i === MOST_NAMED - 1 && calls.length > MOST_NAMED ? `, and ${calls.length - MOST_NAMED} more calls` : "";
      return {
        place: { in: "program" as const, span: context.spanOf(0, block) },
        message: `called from here${more}`,
      };
    });
    return { ...finding, related: [...finding.related, ...named] };
  });
}

/** What stands in another file is told where this program calls it: the file is not the one that is reviewed. */
function atTheCall(
  finding: Finding,
  { file, line }: { readonly file: string; readonly line: number },
  chains: readonly (readonly number[])[],
  context: CheckContext,
): Finding {
  const { execution } = context;
  if (finding.place.in !== "program") return finding;
  const { start, end } = finding.place.span;
  const call = chains[0]?.[0] ?? execution.blocks.blockAt(0);
  const name = fileName(file);
  const there = { in: "file" as const, file, line, column: start, endLine: line, endColumn: end };
  return {
    ...finding,
    place: { in: "program", span: context.spanOf(0, call) },
    message: `In ${name}, line ${line + 1}, called here: ${finding.message}`,
    related: [
      { place: there, message: "the block it stands in" },
      ...finding.related.filter((r) => r.place.in === "file" || !isOther(execution, r.place.span.block)),
    ],
  };
}

function isOther({ blocks }: Execution, block: number): boolean {
  return blocks instanceof JoinedBlocks && blocks.fileOf(block) !== null;
}
