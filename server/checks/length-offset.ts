import { eventFindings, eventsOf, levelOf, said } from "./events.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";

export const lengthOffset: Check = {
  id: "length-offset",
  family: "tool",
  severity: "error",
  docs: {
    title: "The length offset is not that of the tool in the spindle",
    what: "G43 with an H that belongs to another tool, such as one that is selected by T but not loaded by M6, or a move down after a tool change while the offset of the tool before is still in force.",
    why: "The drill stops short or is driven into the part by the difference of the two lengths, at rapid.",
    formula: "H = T, or one of the H numbers the setup allows for the tool",
    example: "T1 M6\nG0 X0. Y0.\nG43 H2 Z50.",
    better: "T1 M6\nG0 X0. Y0.\nG43 H1 Z50.",
    limits:
      "Controls that take the length with the tool change are silent when the dialect says so. Values of offsets are not known.",
    source: "NISTIR 6556 section 3.5.11; common practice",
  },
  *detect(context) {
    const { dialect } = context.setup;
    if (dialect.hEqualsT === "off") return;
    const level: FindingSeverity = dialect.hEqualsT === "required" ? "error" : "warning";
    yield* eventFindings("length-offset", eventsOf(context, "length-offset", "length-offset-missing"), (event) => {
      const tool = said(event, "tool", "");
      const named = tool === "" ? "the tool in the spindle" : `T${tool}`;
      if (event.kind === "length-offset-missing") {
        return {
          severity: levelOf(event, "warning"),
          message: `${named} moves down without a length offset of its own since the tool change. Way out: G43 H${tool === "" ? "…" : tool} before the first move down.`,
        };
      }
      const h = said(event, "h", "?");
      const allowed = context.execution.tool(Number(tool))?.H ?? [];
      const wanted =
        allowed.length > 0 ? allowed.map((number) => `H${number}`).join(" or ") : `H${tool === "" ? "…" : tool}`;
      const staged = stagedAt(context, event.span.block);
      if (tool !== "" && staged !== null && String(staged) !== tool && offsetsOf(context, staged).includes(Number(h))) {
        return {
          severity: levelOf(event, level),
          message: `T${staged} is selected but no M6 has loaded it: ${named} is still in the spindle, and H${h} is not its length. Way out: M6 for T${staged} before G43, or ${wanted} if ${named} is to drill.`,
          data: { measured: Number(h), limit: Number(tool), unit: "" },
        };
      }
      return {
        severity: levelOf(event, level),
        message: `H${h} is not the length offset of ${named}. Way out: ${wanted}, or \`H: ${h}\` at the tool in the setup when it is meant so.`,
        data: tool === "" || h === "?" ? null : { measured: Number(h), limit: Number(tool), unit: "" },
      };
    });
  },
};

/** The tool that T has selected and no M6 has loaded yet. */
function stagedAt({ execution }: CheckContext, block: number): number | null {
  const step = execution.stepOf(block);
  if (step < 0) return null;
  const { staged, tool } = execution.stepState(step);
  return staged === tool ? null : staged;
}

function offsetsOf({ execution }: CheckContext, tool: number): readonly number[] {
  const own = execution.tool(tool)?.H ?? [];
  return own.length > 0 ? own : [tool];
}
