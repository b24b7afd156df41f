/** Where a hole's entry is told, and for how many holes a note there speaks. */
import type { NoteScope } from "../program/types.ts";
import type { MetalHole } from "./cause.ts";
import type { CheckContext, Finding } from "./types.ts";

const REACH: { readonly [S in NoteScope]: string } = {
  block: ", for this block alone",
  operation: ", for all holes from here to G80 or the tool change",
  program: ", for the whole program",
};

/** The note or the line of the setup; none where the face counts as flat. */
export function entryTold(context: CheckContext, hole: MetalHole): Finding["related"] {
  const { entry } = hole.shape;
  if (entry === null) return [];
  if (entry.span !== null) {
    const reach = entry.scope === undefined ? "" : REACH[entry.scope];
    return [{ place: { in: "program", span: entry.span }, message: `The entry is told here${reach}` }];
  }
  const origin = entry.path === null ? undefined : context.setup.origins.get(entry.path);
  if (origin === undefined || origin.line < 0) return [];
  const { file, line, column } = origin;
  const place = { in: "file", file, line, column, endLine: line, endColumn: column + 1 } as const;
  return [{ place, message: "The entry is told here" }];
}
