/** `--print-setup`: every value in force for a program, with where it comes from. */
import { printSetup } from "../setup/print.ts";
import type { CliIo } from "./io.ts";
import type { Reviewed } from "./load.ts";

export function sayResolved({ input, review }: Reviewed, _io: CliIo): string {
  return `# ${input.shown}\n${printSetup(review.setup)}\n`;
}
