/**
 * Where something stands. Inside the house a place is a block and columns in it, never a line number: blocks keep their
 * id when lines are inserted above them, so a newline at the top of a program invalidates nothing.
 * Columns are UTF-16 units from 0 at the line's first character.
 */
export interface Span {
  /** Stable id of the block (grammar/blocks.ts). */
  readonly block: number;
  readonly start: number;
  readonly end: number;
}

/** The place as a person or a protocol wants it. Lines and columns from 0. */
export interface LineRange {
  readonly line: number;
  readonly start: number;
  readonly endLine: number;
  readonly end: number;
}
