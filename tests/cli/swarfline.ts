import { run } from "../../server/cli/run.ts";
import { memoryIo, type World } from "./memory-io.ts";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in process. */
export async function swarfline(argv: readonly string[], world: World): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(argv, memoryIo(world, out, err));
  return { code, out: out.join(""), err: err.join("") };
}

/** Dotted names of the nulls of a hole. */
export function nullsOf(value: unknown, path = ""): string[] {
  if (value === null) return [path];
  if (typeof value !== "object" || Array.isArray(value)) return [];
  return Object.entries(value as object).flatMap(([key, inner]) =>
    key === "unknown" ? [] : nullsOf(inner, path === "" ? key : `${path}.${key}`),
  );
}
