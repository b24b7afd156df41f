import type { Check, Finding } from "./types.ts";

export const internal: Check = {
  id: "internal",
  severity: "warning",
  docs: {
    title: "A check failed",
    what: "A fault in Swarfline itself: one check, or one hole's loads, could not be worked out. The others are not touched.",
    why: "What that check looks for was not looked for in this program.",
    formula: "",
    example: "",
    better: "",
    limits: "The finding names the check, not the fault in it.",
    source: "none: a limit of this tool",
  },
  // Made by the runner when a check throws; nothing to look for.
  detect: () => [],
};

/** The finding for something that threw, at the first block. */
export function internalFinding(what: string, block: number): Finding {
  return {
    check: "internal",
    severity: "warning",
    place: { in: "program", span: { block, start: 0, end: 0 } },
    message: `${what} failed through a fault in Swarfline, so it was not done for this program. The other checks are complete. Please report it with the program.`,
    count: 1,
    related: [],
    data: null,
    operation: -1,
  };
}
