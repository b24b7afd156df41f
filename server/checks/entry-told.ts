/** Where a hole's entry is told, and for how many holes a note there speaks. */
import { surroundingsOf } from "../loads/surroundings/arrange.ts";
import { neighboursOf } from "../loads/surroundings/neighbours.ts";
import type { NoteScope } from "../program/types.ts";
import { at, type MetalHole } from "./cause.ts";
import type { CheckContext, Finding } from "./types.ts";

const REACH: { readonly [S in NoteScope]: string } = {
  block: ", for this block alone",
  operation: ", for all holes from here to G80 or the tool change",
  program: ", for the whole program",
};

/** The note or the line of the setup; none where the face counts as flat. */
export function entryTold(context: CheckContext, hole: MetalHole): Finding["related"] {
  const { entry } = hole.shape;
  if (entry === null) return hole.loads.engagement?.source === "stock" ? byPart(context, hole) : [];
  if (entry.span !== null) {
    const reach = entry.scope === undefined ? "" : REACH[entry.scope];
    return [{ place: { in: "program", span: entry.span }, message: `The entry is told here${reach}` }];
  }
  return entry.path === null ? [] : inSetup(context, entry.path, "The entry is told here");
}

const MOST_TOLD = 2;

/** The earlier holes that reach into the first of these, else the stock. */
function byPart(context: CheckContext, { firstHole, shape }: MetalHole): Finding["related"] {
  const { execution, setup } = context;
  const near = Array.from(neighboursOf(execution).near(firstHole));
  const blocks = [...new Set(near.map((earlier) => execution.hole(earlier).block))];
  const holes = blocks.slice(-MOST_TOLD).map((block) => ({
    place: at(context, 0, block),
    message: "The hole drilled here reaches into it",
  }));
  const around = surroundingsOf(shape);
  if (around === null || "why" in around || !around.declared || setup.workpiece === null) return holes;
  return [...holes, ...inSetup(context, `${setup.workpiece.path}.stock`, "The stock is described here")];
}

function inSetup(context: CheckContext, path: string, message: string): Finding["related"] {
  const origin = context.setup.origins.get(path);
  if (origin === undefined || origin.line < 0) return [];
  const { file, line, column } = origin;
  const place = { in: "file", file, line, column, endLine: line, endColumn: column + 1 } as const;
  return [{ place, message }];
}
