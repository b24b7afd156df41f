/** What a fix hands to the edge: lines to put in the place of others, or why there are none. */

/** New lines in the place of one line of the program. */
export interface LineEdit {
  /** From 0. */
  readonly line: number;
  readonly texts: readonly string[];
}

export type Fix =
  | { readonly offered: true; readonly title: string; readonly edits: readonly LineEdit[] }
  | { readonly offered: false; readonly why: string };

/** Why something cannot be written: thrown inside this folder only, and caught where the fix is made. */
export class CannotWrite extends Error {}

export function cannot(why: string): never {
  throw new CannotWrite(why);
}
