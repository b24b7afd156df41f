/**
 * What the grammar gives: the program as blocks of items in flat columns.
 *
 * One physical line is one block. Its items partition the line: joining the items and the white space between them
 * gives the line back to the letter. Nothing here knows a dialect or a meaning; the grammar is a tolerant superset and
 * every oddity it met is a `Problem` with its place.
 *
 * Columns, not objects: a program of 100 000 blocks holds about half a million items.
 */
import type { LineStore } from "../server/text/lines.ts";
import type { Span } from "../server/text/place.ts";
import type { Expr, Statement } from "./expressions.ts";

/** What an item is. Words have the char code of their upper-case letter (65 to 90) instead. */
export const ITEM = {
  /** `%` on a line of its own (white space allowed). */
  percent: 37,
  /** `( … )`; the closing parenthesis may be missing (then a Problem says so). */
  comment: 40,
  /** `;` and the rest of the line. */
  lineComment: 59,
  /** `/` or `/n`: value is the switch, 1 where none was written. */
  blockDelete: 47,
  /** `,R2.` `,C1.`: a chamfer or rounding; `Blocks.letterAfterComma` gives the letter. */
  comma: 44,
  /** An assignment or a control-flow statement: see `Blocks.statement(item)`. */
  statement: 35,
  /** `O1234`, `O<name>`, `:1234` at block start; for O with digits value is the number, else NaN. */
  program: 79,
  /** A statement that prints or names and moves nothing, with its brackets: `DPRNT[…]`, `BPRNT[…]`, `SETVN[…]`, `POPEN`, `PCLOS`. */
  output: 34,
  /** Characters that nothing understood; a Problem stands at the same place. */
  unread: 63,
} as const;

/** How the value of a word was written. */
export const VALUE = {
  /** No value (`X` alone; a Problem stands there). */
  none: 0,
  /** A number without a decimal point. */
  integer: 1,
  /** A number with a decimal point. */
  real: 2,
  /** A parametric value: see `Blocks.expression(item)`. */
  expression: 3,
  /** A name, as in `O<name>`. */
  name: 4,
} as const;

export type ProblemCode =
  | "unread" // characters that mean nothing here
  | "polar-word" // @radius and ^angle of some controls
  | "no-value" // a letter without a number
  | "bad-number" // 1.2.3, sign without digits, a dot alone
  | "open-comment" // no closing parenthesis on the line
  | "nested-comment" // an opening parenthesis inside a comment
  | "stray-close" // `)` outside a comment
  | "letter-in-number" // O or l where a digit is meant
  | "bad-expression"
  | "unknown-function"
  | "open-bracket"
  | "too-deep" // brackets nested deeper than the cap
  | "bad-statement"
  | "cut-note"; // a comment that begins with CUT and cannot be read

/** `@5. ^30`: radius and angle in the place of X and Y, on some controls (common practice, no source). */
export const POLAR_WORDS = /^(?:[@^]\s*(?:[-+]?(?:\d+(?:\.\d*)?|\.\d+)|#\d+|\[[^\]]*\])\s*)+$/;

export interface Problem {
  readonly code: ProblemCode;
  readonly span: Span;
  /** What stood there, and what would be right, as one sentence without a full stop. */
  readonly text: string;
}

/** Item index into the columns. Valid until the next `update`. */
export type Item = number;

/** A word that outlives edits above it: block id × 1024 + item's number within the block (clamped). */
export type WordRef = number;

/**
 * The blocks of one program. `order` of lines is by `blockAt`; ids are stable across edits of other lines.
 * Reading out of range gives an empty block, never a throw.
 */
export interface Blocks {
  /** Number of lines (= blocks in order). */
  readonly count: number;
  /** Id of the block on a line. */
  blockAt(line: number): number;
  /** Line of a block id, -1 when the block is gone. O(1) amortised. */
  lineOf(block: number): number;

  /** Items of a block: [first, first + n). */
  firstItem(block: number): Item;
  itemCount(block: number): number;
  /** Letter's char code or an ITEM. */
  kind(item: Item): number;
  /** Numeric value; NaN where VALUE.none, expression or name. */
  value(item: Item): number;
  /** A VALUE. */
  form(item: Item): number;
  /** Columns in the line. */
  start(item: Item): number;
  end(item: Item): number;
  /** The parametric value of a word, where form is VALUE.expression. */
  expression(item: Item): Expr | undefined;
  /** The statement, where kind is ITEM.statement. */
  statement(item: Item): Statement | undefined;
  /** Char code of the upper-case letter of a comma word (`,R` `,C`), else 0. */
  letterAfterComma(item: Item): number;
  /** The name of `O<name>`, where form is VALUE.name. */
  name(item: Item): string | undefined;

  /** Items that are comments exist: quick test for readers of comments. */
  hasComment(block: number): boolean;
  /** A block delete stands in the block. */
  hasSkip(block: number): boolean;
  /** The block has no statement, no expression and no unread item. */
  isPlain(block: number): boolean;

  refOf(block: number, item: Item): WordRef;
  /** The place of a referenced word; null when its block is gone. */
  spanOf(ref: WordRef): Span | null;

  /** Problems of all blocks, in line order. */
  problems(): readonly Problem[];
  /** Text of the line a block stands on. */
  textOf(block: number): string;
}

/** Blocks that can follow the edits of their text. */
export interface LiveBlocks extends Blocks {
  /**
   * Re-reads the lines an edit changed. The line store must already hold the new text.
   * @returns ids of the blocks that are new, and of those that are gone
   */
  update(change: { readonly line: number; readonly removed: number; readonly inserted: number }): {
    readonly added: readonly number[];
    readonly gone: readonly number[];
  };
}

export type ReadBlocks = (lines: LineStore) => LiveBlocks;
