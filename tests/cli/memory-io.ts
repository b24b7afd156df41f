/** A disk in memory for the commands, of either family of systems. */
import { posix } from "node:path";
import type { CliIo } from "../../server/cli/io.ts";

export interface World {
  /** Absolute paths with forward slashes. */
  readonly files: Readonly<Record<string, string | Uint8Array>>;
  readonly cwd?: string;
  readonly windows?: boolean;
  readonly colours?: boolean;
  readonly width?: number;
  readonly stdin?: string;
  /** What commands write, by path; without it the disk is read-only. */
  readonly written?: Map<string, string>;
}

export function memoryIo(world: World, out: string[], err: string[]): CliIo {
  const encoder = new TextEncoder();
  const key = (path: string) => (world.windows === true ? path.toLowerCase() : path);
  const files = new Map(Object.entries(world.files).map(([path, data]) => [key(path), { path, data }]));
  const bytes = (path: string) => {
    const data = files.get(key(path))?.data;
    return typeof data === "string" ? encoder.encode(data) : data;
  };
  return {
    cwd: world.cwd ?? "/shop",
    windows: world.windows ?? false,
    colours: world.colours ?? false,
    width: world.width ?? 100,
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    kind(path) {
      if (files.has(key(path))) return "file";
      const folder = key(path).replace(/\/?$/, "/");
      return [...files.keys()].some((file) => file.startsWith(folder)) ? "folder" : null;
    },
    size: (path) => bytes(path)?.length ?? -1,
    readFile(path) {
      const data = bytes(path);
      if (data === undefined) throw Object.assign(new Error("no such file"), { code: "ENOENT" });
      return data;
    },
    writeFile(path, text) {
      if (world.written === undefined) throw Object.assign(new Error("read-only"), { code: "EROFS" });
      world.written.set(path, text);
    },
    readStdin: async () => encoder.encode(world.stdin ?? ""),
    glob(patterns, folder) {
      const base = key(folder).replace(/\/?$/, "/");
      return [...files.values()]
        .map(({ path }) => path)
        .filter((path) => {
          if (!key(path).startsWith(base)) return false;
          const name = path.slice(base.length);
          const matches = (pattern: string) => posix.matchesGlob(name, pattern);
          return (
            patterns.some((p) => !p.startsWith("!") && matches(p)) &&
            !patterns.some((p) => p.startsWith("!") && matches(p.slice(1)))
          );
        });
    },
  };
}
