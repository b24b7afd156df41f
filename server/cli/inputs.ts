/** What the arguments name: program files, in the order given, each once. */
import { type CliIo, UsageError } from "./io.ts";
import { absolute, named, shown, slashed } from "./paths.ts";

/** File name endings that are taken for programs when a folder is given. The same list opens in the editor. */
export const EXTENSIONS = ["nc", "cnc", "tap", "eia", "iso", "ptp", "ngc", "mpf", "min"] as const;

export interface Input {
  /** Absolute path; for standard input that of the name it goes by. */
  readonly path: string;
  /** As it is printed. */
  readonly shown: string;
  readonly stdin: boolean;
  /** The folder argument that it was found under; null when it was named itself. */
  readonly under: string | null;
}

const STDIN = "<stdin>";
/** Folders that hold other people's files. */
const SKIPPED = ["!**/node_modules/**", "!**/.git/**"];

/**
 * @param args file names, folders, globs or `-`; none: the current folder
 * @param stdinName file name that standard input goes by; null: none of its own
 * @throws {UsageError} when something names nothing
 */
export function findInputs(args: readonly string[], io: CliIo, stdinName: string | null = null): Input[] {
  const inputs = new Map<string, Input>();
  const nothing: string[] = [];
  const add = (path: string, under: string | null) => {
    if (!inputs.has(path)) inputs.set(path, { path, shown: shown(path, io), stdin: false, under });
  };
  for (const arg of args.length === 0 ? ["."] : args) {
    if (arg === "-") {
      const path = absolute(stdinName ?? STDIN, io);
      inputs.set("-", { path, shown: shown(path, io), stdin: true, under: null });
      continue;
    }
    const path = named(arg, io);
    const kind = arg === "" ? null : io.kind(path);
    if (kind === "file") {
      add(path, null);
      continue;
    }
    const found =
      kind === "folder"
        ? io.glob([`**/*.{${EXTENSIONS.join(",")}}`, ...SKIPPED], path)
        : isGlob(arg)
          ? globbed(arg, io)
          : [];
    for (const file of found.sort()) add(file, kind === "folder" ? path : null);
    if (found.length === 0) nothing.push(sayNothing(arg, kind, io));
  }
  if (nothing.length > 0) throw new UsageError(nothing.join("\n"));
  return [...inputs.values()];
}

function globbed(arg: string, io: CliIo): string[] {
  const found = io.windows ? [] : io.glob([arg, ...SKIPPED], io.cwd);
  return found.length > 0 || !(io.windows || arg.includes("\\")) ? found : io.glob([slashed(arg), ...SKIPPED], io.cwd);
}

function isGlob(arg: string): boolean {
  return /[*?[\]{}!]/.test(arg);
}

function sayNothing(arg: string, kind: "folder" | "file" | null, io: CliIo): string {
  if (kind === "folder") {
    const where = shown(absolute(arg, io), io);
    return `${where === "." ? "The current folder" : where} holds no program (${EXTENSIONS.map((e) => `.${e}`).join(" ")}).`;
  }
  return isGlob(arg) ? `Nothing matches ${arg}.` : `There is no file ${arg === "" ? '""' : arg}.`;
}

/** `FILE` or `FILE:LINE`, as `explain` takes it. A file whose own name ends so is taken as it is. */
export function splitLine(arg: string, io: CliIo): { readonly file: string; readonly line: number | null } {
  const match = /^(.+):(\d+)$/.exec(arg);
  if (match === null || io.kind(named(arg, io)) === "file") return { file: arg, line: null };
  return { file: match[1] ?? arg, line: Number(match[2]) };
}

/** One program, for `explain` and `trace`. */
export function oneInput(arg: string, io: CliIo, stdinName: string | null = null): Input {
  const [input, ...more] = findInputs([arg], io, stdinName);
  if (input === undefined || more.length > 0 || input.under !== null) {
    throw new UsageError(`Expected one program, ${arg} names ${more.length + 1}.`);
  }
  return input;
}
