import { setupPlace } from "./in-setup.ts";
import type { Check } from "./types.ts";

export const entryLost: Check = {
  id: "entry-lost",
  family: "setup",
  severity: "warning",
  docs: {
    title: "An entry in the setup finds no hole",
    what: "An item under `entries:` for this program whose tool, work offset or position belongs to no hole any more.",
    why: "The hole was moved or the program posted anew; its entry now counts as flat and the feed is not checked for it.",
    formula: "",
    example: "entries: [{ program: a.nc, tool: 7, wcs: G54, at: [30, 40], entry: INCLINE 30 DEG }]",
    better: "entries: [{ program: a.nc, tool: 7, wcs: G54, at: [32, 40], entry: INCLINE 30 DEG }]",
    limits: "Positions must agree; a hole that merely lies near is not taken.",
    source: "none: a form of this tool",
  },
  *detect(context) {
    for (const path of context.execution.lostEntries) {
      const place = setupPlace(context.setup, path);
      if (place === null) continue;
      yield {
        check: "entry-lost",
        severity: "warning",
        place,
        message:
          "This entry finds no hole in the program. Way out: its tool, work offset and position as they are in the program now, or take it out.",
        count: 1,
        related: [],
        data: null,
        operation: -1,
      };
    }
  },
};
