import type { Check, Finding } from "./types.ts";

export const internal: Check = {
  id: "internal",
  family: "setup",
  severity: "error",
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

/**
 * The finding for something that threw, at the first block. An error, since a gate must not pass what was not looked at.
 * @param rest what still holds
 */
export function internalFinding(what: string, block: number, rest = "The other checks are complete."): Finding {
  return {
    check: "internal",
    severity: "error",
    place: { in: "program", span: { block, start: 0, end: 0 } },
    message: `${what} failed through a fault in Swarfline, so it was not done for this program. ${rest} Please report it with the program.`,
    count: 1,
    related: [],
    data: null,
    operation: -1,
  };
}
