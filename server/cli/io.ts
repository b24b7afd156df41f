/**
 * The world outside, as the commands see it: injected, so that tests run them in process and the commands themselves know
 * neither a process nor a disk. Paths are absolute and have forward slashes, on Windows too.
 */
export interface CliIo {
  readonly cwd: string;
  /** Paths may start with a drive and compare without case. */
  readonly windows: boolean;
  /** Colours are wanted and the output is a terminal. */
  readonly colours: boolean;
  /** Columns to lay text out for. */
  readonly width: number;
  out(text: string): void;
  err(text: string): void;
  kind(path: string): "file" | "folder" | null;
  /** Size in bytes, -1 when unknown. */
  size(path: string): number;
  /** @throws {Error} with the system's reason when the file cannot be read */
  readFile(path: string): Uint8Array;
  /** @throws {Error} with the system's reason when the file cannot be written */
  writeFile(path: string, text: string): void;
  readStdin(): Promise<Uint8Array>;
  /** Files that match, as absolute paths, in any order. Patterns have forward slashes and are relative to `folder`. */
  glob(patterns: readonly string[], folder: string): string[];
}

/** Wrong use: one message for the person, exit code 2. */
export class UsageError extends Error {}
