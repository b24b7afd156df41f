/** `--print-setup`: every value in force for a program, with where it comes from; with `--format json` as data. */
import { printSetup, printSetupJson } from "../setup/print.ts";
import type { ResolvedSetup } from "../setup/types.ts";
import { toJson } from "./formats/json.ts";
import { clean } from "./formats/terminal.ts";
import type { CliIo } from "./io.ts";
import type { Reviewed } from "./load.ts";
import { shown } from "./paths.ts";

export function printSetups(reviewed: readonly Reviewed[], format: string, io: CliIo): void {
  if (format === "json") {
    const programs = reviewed.map(({ input, review }) => ({
      program: input.shown,
      ...printSetupJson(fromHere(review.setup, io)),
    }));
    io.out(toJson({ schema: 1, programs }));
    return;
  }
  for (const { input, review } of reviewed) {
    const lines = printSetup(fromHere(review.setup, io)).split("\n");
    io.out(`${clean(input.shown)}\n${lines.map(clean).join("\n")}\n`);
  }
}

/** File names as everything else on the command line shows them. */
function fromHere(setup: ResolvedSetup, io: CliIo): ResolvedSetup {
  return {
    ...setup,
    file: setup.file === null ? null : shown(setup.file, io),
    problems: setup.problems.map((problem) => ({ ...problem, file: shown(problem.file, io) })),
  };
}
