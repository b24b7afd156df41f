import { list, record, text } from "./node.ts";

const files = list(
  text("glob", {
    description: "File pattern relative to this setup file: `*` within a folder, `**` across folders, `?`, `{a,b}`.",
    examples: ['"parts/bracket-*.nc"', '"**/*.nc"'],
  }),
  { description: "The programs this rule is for, as one file pattern or a list of them, relative to this setup file." },
  { single: true },
);

/** `subprograms:`: where called programs are kept. */
export const SUBPROGRAMS = list(
  text("plain", {
    description:
      "Where a called program is kept, relative to this setup file; `*` stands for its number, as it is, with four and with five digits.",
    examples: ['"subs/O*.nc"'],
  }),
  {
    description:
      "Files of programs that are called (M98, G65, G66) and do not stand in the calling file, as one pattern or a list; the first that is there counts.",
    fallback: "only programs in the calling file are found",
  },
  { single: true },
);

/** `programs:`: which machine, tools and workpiece a program runs with. */
export const PROGRAMS = list(
  record(
    "a program rule",
    {
      files,
      machine: text("machine-name", {
        description: "A name under `machines:`, or a file that holds one machine.",
        examples: ["vmc"],
      }),
      tools: text("tools-name", {
        description: "A name under `tools:`, or a tool table in a file (CSV or YAML), relative to this setup file.",
        examples: ["crib", "tools/crib.csv"],
      }),
      workpiece: text("workpiece-name", {
        description: "A name under `workpieces:`, or a file that holds one workpiece.",
        examples: ["bracket"],
      }),
    },
    {
      description:
        "One rule: the programs that match `files` run on this machine, with these tools, on this workpiece.",
    },
    ["files"],
  ),
  {
    description:
      "Which program runs on which machine, with which tools, on which workpiece. The first rule that matches wins.",
    fallback: "no machine, no tools, dialect generic-mill",
  },
);
