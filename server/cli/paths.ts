/** Paths with forward slashes, on every system. */
import { posix, win32 } from "node:path";
import type { CliIo } from "./io.ts";

type Where = Pick<CliIo, "cwd" | "windows">;

const flavour = (io: Where) => (io.windows ? win32 : posix);
const forward = (path: string, io: Where) => (io.windows ? path.replaceAll("\\", "/") : path);

/** The absolute path of what a person wrote. */
export function absolute(path: string, io: Where): string {
  return forward(flavour(io).resolve(io.cwd, path), io);
}

/** What a person wrote with backslashes, read on a system whose paths have none: a script from elsewhere means the same. */
export function slashed(path: string): string {
  return path.replaceAll("\\", "/");
}

/** The file that a person named, with its backslashes read as slashes where nothing is found by them. */
export function named(path: string, io: Where & Pick<CliIo, "kind">): string {
  const asWritten = absolute(path, io);
  return io.kind(asWritten) === null && path.includes("\\") ? absolute(slashed(path), io) : asWritten;
}

/** The path as it is shown: relative to the current folder; absolute where there is no such way (another drive). */
export function shown(path: string, io: Where, from: string = io.cwd): string {
  return forward(flavour(io).relative(from, path), io) || ".";
}

/** The folder of a path; of a root, the root itself. */
export function folderOf(path: string, io: Where): string {
  return forward(flavour(io).dirname(path), io);
}

export function join(folder: string, name: string): string {
  return folder.endsWith("/") ? folder + name : `${folder}/${name}`;
}

/** True when `path` is `folder` or lies under it. */
export function isInside(path: string, folder: string, io: Where): boolean {
  const way = shown(path, io, folder);
  return way === "." || !(way === ".." || way.startsWith("../") || flavour(io).isAbsolute(way));
}

/**
 * A reference that a file makes: a relative one starts at the folder of the file.
 * A `file:` uri is taken as the path it names.
 */
export function referred(reference: string, io: Where): string {
  const bare = /^file:\/\/(?:localhost)?(\/.*)$/i.exec(reference)?.[1];
  if (bare === undefined) return absolute(reference, io);
  const path = decodeURIComponent(bare);
  return /^\/[A-Za-z]:/.test(path) && io.windows ? path.slice(1) : path;
}
