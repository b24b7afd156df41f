/** `swarfline checks [id]`: the checks with their severities, or the whole documentation of one. */
import { CHECKS } from "../checks/registry.ts";
import { nearest } from "../checks/run.ts";
import type { CheckDocs } from "../checks/types.ts";
import { table, wrap } from "./formats/terminal.ts";
import { colours } from "./formats/text.ts";
import { type CliIo, UsageError } from "./io.ts";

/** Headings of the documentation, in reading order; `code` parts are program lines and are not wrapped. */
export const SECTIONS: readonly { readonly key: keyof CheckDocs; readonly head: string; readonly code: boolean }[] = [
  { key: "what", head: "What it checks", code: false },
  { key: "why", head: "Why it matters", code: false },
  { key: "formula", head: "Formula and units", code: false },
  { key: "example", head: "Example", code: true },
  { key: "better", head: "Better", code: true },
  { key: "limits", head: "What it does not see", code: false },
  { key: "source", head: "Source", code: false },
];

export function checks(id: string | undefined, io: CliIo): number {
  const colour = colours(io);
  if (id === undefined) {
    const rows = table(CHECKS.map((check) => [check.id, check.family, check.severity, check.docs.title]));
    const after =
      "The second column is the family; severities are defaults. `severity:` in swarfline.yaml changes both: `{ walk: off }`, `{ family:place: off }`. `swarfline checks ID` says what one checks, why, and by which formula.";
    io.out(`${[...rows, "", ...wrap(after, io.width)].join("\n")}\n`);
    return 0;
  }
  const check = CHECKS.find((one) => one.id === id);
  if (check === undefined) {
    const near = nearest(id);
    const meant = near === null ? "" : ` Did you mean ${near}?`;
    throw new UsageError(`There is no check ${id}.${meant} \`swarfline checks\` lists them.`);
  }
  const out = [
    colour.bold(check.id),
    ...wrap(`${check.docs.title} (${check.severity}, family ${check.family})`, io.width),
  ];
  for (const { key, head, code } of SECTIONS) {
    const body = check.docs[key];
    if (body === "") continue;
    const lines = code ? body.split("\n") : wrap(body, io.width - 2);
    out.push("", colour.cyan(head), ...lines.map((line) => `  ${line}`));
  }
  io.out(`${out.join("\n")}\n`);
  return 0;
}
