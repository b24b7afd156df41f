import type { ResolvedSetup } from "../setup/types.ts";
import type { FindingPlace } from "./types.ts";

/** The place of a value in the setup; its file's first line where only the file is known; null without a file. */
export function setupPlace(setup: ResolvedSetup, path: string): FindingPlace | null {
  const origin = setup.origins.get(path);
  if (origin !== undefined && origin.kind === "file" && origin.line >= 0) {
    const { file, line, column } = origin;
    return { in: "file", file, line, column, endLine: line, endColumn: column + 1 };
  }
  if (setup.file === null) return null;
  return { in: "file", file: setup.file, line: 0, column: 0, endLine: 0, endColumn: 0 };
}
