import type { Blocks } from "../../grammar/blocks.ts";
import type { Check } from "./types.ts";

/** Lines in which the header of a drill tape must have been seen. */
const HEADER_LINES = 60;

export const notAMachiningProgram: Check = {
  id: "not-a-machining-program",
  severity: "warning",
  docs: {
    title: "This is a drill tape for circuit boards",
    what: "The header of a printed-circuit drill file. It shares letters with machining programs, not their meaning.",
    why: "Its numbers would be read as holes in metal.",
    formula: "",
    example: "M48\nMETRIC,TZ\nT01C0.800\n%\nT01\nX0100Y0200\nM30",
    better: "G21 G90\nT1 M6\nG0 X10. Y20.\nM30",
    limits: "Only the usual header is known.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { blocks } = context.execution;
    const block = tapeHeader(blocks);
    if (block === null) return;
    yield {
      check: "not-a-machining-program",
      severity: "warning",
      place: { in: "program", span: context.spanOf(0, block) },
      message:
        "This is the header of a drill tape for circuit boards, not of a machining program: nothing in this file was checked.",
      count: 1,
      related: [],
      data: null,
      operation: -1,
    };
  },
};

/**
 * The block with M48 alone, where units in words or a tool with its diameter (`T01C0.800`) follow it. M48 by itself means
 * "overrides on" in machining programs.
 */
function tapeHeader(blocks: Blocks): number | null {
  let start: number | null = null;
  const last = Math.min(blocks.count, HEADER_LINES);
  for (let line = 0; line < last; line++) {
    const block = blocks.blockAt(line);
    const text = blocks.textOf(block).trim().toUpperCase();
    if (text === "M48") start ??= block;
    else if (start !== null && /^(METRIC|INCH)\b|^T\d+C\d*\.?\d+/.test(text)) return start;
  }
  return null;
}
