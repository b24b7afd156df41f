/** Which setup file rules a program: the nearest `swarfline.yaml` above it. */
import type { Input } from "./inputs.ts";
import type { CliIo } from "./io.ts";
import { folderOf, isInside, join } from "./paths.ts";

export const SETUP_NAME = "swarfline.yaml";

/**
 * Upward from the program's folder, no higher than the repository root. Outside a repository, no higher than the folder
 * that was given, or than the current folder when the program lies under it.
 */
export function findSetup(input: Input, io: CliIo): string | null {
  const start = folderOf(input.path, io);
  const top = repositoryRoot(start, io) ?? input.under ?? (isInside(start, io.cwd, io) ? io.cwd : null);
  for (let folder = start; ; ) {
    const file = join(folder, SETUP_NAME);
    if (io.kind(file) === "file") return file;
    const up = folderOf(folder, io);
    if (folder === top || up === folder) return null;
    folder = up;
  }
}

/** The nearest folder at or above that holds `.git`; null outside a repository. */
export function repositoryRoot(start: string, io: CliIo): string | null {
  for (let folder = start; ; ) {
    if (io.kind(join(folder, ".git")) !== null) return folder;
    const up = folderOf(folder, io);
    if (up === folder) return null;
    folder = up;
  }
}
