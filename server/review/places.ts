import type { Blocks } from "../../grammar/blocks.ts";
import type { FindingPlace } from "../checks/types.ts";
import type { LineRange } from "../text/place.ts";

export { lineName, placeOf } from "../program/library.ts";

/** A place as it is printed: lines and columns from 1, columns in UTF-16 units. */
export interface PublicPlace {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** Lines and columns from 0. A block that is gone gives the first line, so that no finding is lost. */
export function lineRange(place: FindingPlace, blocks: Blocks): LineRange {
  if (place.in === "file") {
    return { line: place.line, start: place.column, endLine: place.endLine, end: place.endColumn };
  }
  const line = blocks.lineOf(place.span.block);
  if (line < 0) return { line: 0, start: 0, endLine: 0, end: 0 };
  const length = blocks.textOf(place.span.block).length;
  const start = Math.min(place.span.start, length);
  return { line, start, endLine: line, end: Math.min(Math.max(place.span.end, start), length) };
}

/** @param program name under which places in the program itself are shown */
export function publicPlace(place: FindingPlace, program: string, blocks: Blocks): PublicPlace {
  const range = lineRange(place, blocks);
  return {
    file: place.in === "file" ? place.file : program,
    line: range.line + 1,
    column: range.start + 1,
    endLine: range.endLine + 1,
    endColumn: range.end + 1,
  };
}
