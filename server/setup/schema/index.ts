/** The whole schema of `swarfline.yaml`: sections in files of their own, put together here. */
import { MACHINES } from "./machines.ts";
import { MATERIALS } from "./materials.ts";
import { choice, type Infer, map, record } from "./node.ts";
import { PRACTICE } from "./practice.ts";
import { PROGRAMS, SUBPROGRAMS } from "./programs.ts";
import { TOOLS } from "./tools.ts";
import { WORKPIECES } from "./workpieces.ts";

export const SEVERITIES = {
  error: "Fails the check.",
  warning: "Shown as a warning.",
  info: "Shown as information.",
  off: "Not shown.",
} as const;

export const UNIT_SYSTEMS = {
  mm: "Bare numbers in mm, mm/rev, mm/min, m/min, kW, N·m, N, bar, L/min.",
  inch: "Bare numbers in in, in/rev, in/min, ft/min, hp, ft·lb, lbf, psi, gal/min.",
} as const;

export const UNITS_KEY = choice(UNIT_SYSTEMS, {
  description: "Unit system of bare numbers in this file. A written unit always wins.",
  fallback: "mm",
});

export const SETUP = record(
  "a setup",
  {
    units: UNITS_KEY,
    programs: PROGRAMS,
    machines: MACHINES,
    tools: TOOLS,
    workpieces: WORKPIECES,
    materials: MATERIALS,
    subprograms: SUBPROGRAMS,
    practice: PRACTICE,
    severity: map(
      choice(SEVERITIES, { description: "Severity of this check." }),
      {
        description:
          "Severity of single checks, or of a family of them: error, warning, info or off. A check's own key wins over that of its family.",
        examples: ["{ walk: off }", "{ family:place: off }"],
      },
      { keyRole: "check", keyTitle: "a check's id" },
    ),
  },
  { description: "A Swarfline setup: what programs run on, with and in." },
);

export type SetupFile = Infer<typeof SETUP>;
