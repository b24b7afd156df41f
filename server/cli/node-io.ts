/** The real world for the commands: process, disk, terminal. */
import { fstatSync, readFileSync, statSync } from "node:fs";
import { globSync } from "tinyglobby";
import type { CliIo } from "./io.ts";

/** Columns when the output is no terminal: files and logs are read in windows of many widths. */
const PIPED_WIDTH = 100;

export function nodeIo(): CliIo {
  const { stdout, stderr, env } = process;
  const windows = process.platform === "win32";
  const terminal = stdout.isTTY === true;
  return {
    cwd: windows ? process.cwd().replaceAll("\\", "/") : process.cwd(),
    windows,
    // no-color.org: set and not empty switches off.
    colours: terminal && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
    width: terminal ? Math.min(Math.max(stdout.columns || 80, 40), 120) : PIPED_WIDTH,
    out: (text) => void stdout.write(text),
    err: (text) => void stderr.write(text),
    kind(path) {
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat === undefined ? null : stat.isDirectory() ? "folder" : "file";
    },
    size: (path) => statSync(path, { throwIfNoEntry: false })?.size ?? -1,
    readFile: (path) => readFileSync(path),
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
