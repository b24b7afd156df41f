import type { ResolvedSetup, TextRange } from "../setup/types.ts";
import type { FindingPlace } from "./types.ts";

/** The place of a value in the setup; its file's first line where only the file is known; null without a file. */
export function setupPlace(setup: ResolvedSetup, path: string): FindingPlace | null {
  const origin = setup.origins.get(path);
  return place(setup, origin?.file, origin?.range);
}

/** The place of the key that a value stands under, for what is wrong with the key. */
export function setupKeyPlace(setup: ResolvedSetup, path: string): FindingPlace | null {
  const origin = setup.origins.get(path);
  return place(setup, origin?.file, origin?.keyRange);
}

function place(setup: ResolvedSetup, file: string | undefined, range: TextRange | undefined): FindingPlace | null {
  if (file !== undefined && range !== undefined) return { in: "file", file, ...range };
  if (setup.file === null) return null;
  return { in: "file", file: setup.file, line: 0, column: 0, endLine: 0, endColumn: 0 };
}
