/** The real world for the commands: process, disk, terminal. */
import { fstatSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { globSync } from "tinyglobby";
import type { CliIo } from "./io.ts";

/** Columns when the output is no terminal: files and logs are read in windows of many widths. */
const PIPED_WIDTH = 100;

/** Output is gathered to this many characters before it is written: a trace has a line for every motion. */
const CHUNK = 1 << 16;

export interface NodeIo extends CliIo {
  /** Writes what is still held back. */
  flush(): void;
}

export function nodeIo(): NodeIo {
  const { stdout, stderr, env } = process;
  const windows = process.platform === "win32";
  const terminal = stdout.isTTY === true;
  let held = "";
  const flush = () => {
    if (held !== "") stdout.write(held);
    held = "";
  };
  return {
    flush,
    cwd: windows ? process.cwd().replaceAll("\\", "/") : process.cwd(),
    windows,
    // no-color.org: set and not empty switches off.
    colours: terminal && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
    width: terminal ? Math.min(Math.max(stdout.columns || 80, 40), 120) : PIPED_WIDTH,
    out(text) {
      held += text;
      if (held.length >= CHUNK) flush();
    },
    err(text) {
      flush();
      stderr.write(text);
    },
    kind(path) {
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat === undefined ? null : stat.isDirectory() ? "folder" : "file";
    },
    size: (path) => statSync(path, { throwIfNoEntry: false })?.size ?? -1,
    readFile: (path) => readFileSync(path),
    writeFile: (path, text) => writeFileSync(path, text),
    readStdin,
    glob: (patterns, folder) =>
      globSync([...patterns], { cwd: folder, absolute: true, caseSensitiveMatch: false, expandDirectories: false }),
  };
}

async function readStdin(): Promise<Uint8Array> {
  if (fstatSync(0).isFile()) return readFileSync(0);
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(part as Buffer);
  return Buffer.concat(parts);
}
