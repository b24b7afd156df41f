import type { Check } from "./types.ts";

export const unreadableFile: Check = {
  id: "unreadable-file",
  family: "reading",
  severity: "error",
  docs: {
    title: "A file that is no program",
    what: "A file given to the command line that holds bytes no program text has, or more than 128 MB.",
    why: "Nothing in it was checked, and a release must not pass over it.",
    formula: "",
    example: "",
    better: "",
    limits: "Said on the command line only: the editor opens no such file as a program.",
    source: "none: a limit of this tool",
  },
  // Made by the command line, before there are blocks to look at.
  detect: () => [],
};
