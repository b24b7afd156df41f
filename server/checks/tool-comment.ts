import { type ToolMention, toolMentions } from "../program/tool-comments.ts";
import type { Tool } from "../setup/types.ts";
import { say } from "../units/wording.ts";
import { setupPlace } from "./in-setup.ts";
import type { Check, CheckContext, Finding } from "./types.ts";

export const toolCommentDiffers: Check = {
  id: "tool-comment-differs",
  family: "tool",
  severity: "warning",
  docs: {
    title: "A comment names another tool than the tool table",
    what: "A comment of the program that names a tool with its size, against the tool of that number in the tool table: the diameter, the lead of a tap, and whether it drills, reams or taps.",
    why: "The program was written for one tool and is checked with another. Either the table or the comment is wrong, and the setter loads what the comment says.",
    formula: "|DC of the comment − DC of the table| > 1 % of it and > 0.05 mm (0.002 in)",
    example:
      "%\nG21 G90 G94 G54\n(T3 8.5 DRILL)\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\n(T3 10.2 CARBIDE DRILL)\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits:
      "Only comments that can be read in one way. Kinds of drill (carbide, insert, HSS) are not compared, nor what is really in the magazine.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution, setup } = context;
    if (!setup.hasToolTable) return;
    const differing = new Map<number, { first: Difference; count: number }>();
    for (const mention of toolMentions(
      execution.blocks,
      commented(context),
      execution.units,
      context.setup.dialect.toolWord === "tool-offset",
    )) {
      const tool = setup.tools.get(mention.T);
      const difference = tool === undefined ? null : compare(mention, tool, context);
      if (difference === null) continue;
      const known = differing.get(mention.T);
      if (known === undefined) differing.set(mention.T, { first: difference, count: 1 });
      else known.count++;
    }
    for (const { first, count } of differing.values()) yield finding(first, count, context);
  },
};

function* commented({ execution: { blocks } }: CheckContext): Generator<number> {
  for (let line = 0; line < blocks.count; line++) {
    const block = blocks.blockAt(line);
    if (blocks.hasComment(block)) yield block;
  }
}

interface Difference {
  readonly mention: ToolMention;
  readonly tool: Tool;
  readonly comment: string;
  readonly table: string;
  /** Key of the tool in the setup that differs. */
  readonly key: "DC" | "lead" | "family";
  readonly data: Finding["data"];
}

/** Both sizes may be rounded: 1/2 in for 12.7, 10.3 for 10.25. */
function far(a: number, b: number): boolean {
  return Math.abs(a - b) > Math.max(0.05, 0.01 * Math.abs(b)) + 1e-9;
}

function compare(mention: ToolMention, tool: Tool, { system }: CheckContext): Difference | null {
  const { words } = mention;
  const length = (mm: number): string => say(mm, "length", system);
  const work = tool.familyAssumed ? null : WORKS[tool.family];
  const both = { mention, tool } as const;
  if (work !== null && words.work !== null && work !== words.work && work !== "other" && words.work !== "other") {
    const comment = `${NAMES[words.work]} of ${length(words.DC)}`;
    return { ...both, comment, table: `${NAMES[work]} of ${length(tool.DC)}`, key: "family", data: null };
  }
  if (far(words.DC, tool.DC)) {
    const data = { measured: words.DC, limit: tool.DC, unit: "mm" };
    return { ...both, comment: `DC ${length(words.DC)}`, table: `DC ${length(tool.DC)}`, key: "DC", data };
  }
  if (words.lead !== null && tool.lead !== null && Math.abs(words.lead - tool.lead) > 0.01 * tool.lead) {
    const data = { measured: words.lead, limit: tool.lead, unit: "mm" };
    return { ...both, comment: `lead ${length(words.lead)}`, table: `lead ${length(tool.lead)}`, key: "lead", data };
  }
  return null;
}

const WORKS: Readonly<Record<Tool["family"], "drill" | "ream" | "tap" | "other">> = {
  "twist-hss": "drill",
  "solid-carbide": "drill",
  indexable: "drill",
  spade: "drill",
  gun: "drill",
  spot: "other",
  ream: "ream",
  tap: "tap",
  countersink: "other",
  bore: "other",
};

const NAMES = { drill: "a drill", ream: "a reamer", tap: "a tap" } as const;

function finding(difference: Difference, count: number, context: CheckContext): Finding {
  const { mention, tool, comment, table, key, data } = difference;
  const { execution, setup } = context;
  const place = setupPlace(setup, `${tool.path}.${key}`);
  const more = count === 1 ? "" : ` ${count} comments name it so.`;
  return {
    check: "tool-comment-differs",
    severity: "warning",
    place: { in: "program", span: mention.span },
    message: `This comment says ${comment} for T${tool.T}; the tool table has ${table}, and the loads are worked out with that. Way out: see which tool is in the magazine, then mend the comment or ${key} of T${tool.T} in the table.${more}`,
    count,
    related: place === null ? [] : [{ place, message: `T${tool.T} in the tool table: ${table}` }],
    data,
    operation: execution.operations.find((operation) => operation.tool === tool.T)?.index ?? -1,
  };
}
