/**
 * YAML does not indent by tabs, and a line that begins with one takes all below it out of its place. So that one slip loses
 * one line's form and not a whole machine, such lines are read again with the spaces they most likely stand for.
 */

export interface Untabbed {
  readonly text: string;
  /** The offset in the text as written. */
  back(offset: number): number;
}

interface Line {
  /** Where the line begins as written and as read. */
  readonly from: number;
  readonly to: number;
  /** Length of what it begins with, as written and as read. */
  readonly before: number;
  readonly after: number;
}

const STEP = 2;

export function untab(text: string): Untabbed {
  const parts = text.split(/(\r\n|\n|\r)/);
  const next = below(parts);
  const levels = new Levels();
  const lines: Line[] = [];
  const read: string[] = [];
  let from = 0;
  let to = 0;
  for (let i = 0; i < parts.length; i += 2) {
    const line = parts[i] ?? "";
    const end = parts[i + 1] ?? "";
    const space = /^[ \t]*/.exec(line)?.[0] ?? "";
    const empty = /^\s*(#|$)/.test(line);
    const indent = empty || !space.includes("\t") ? space.length : levels.likely(space, next[i / 2] ?? -1);
    if (!empty) levels.take(line.slice(space.length), space, indent);
    lines.push({ from, to, before: space.length, after: indent });
    const now = (empty ? space : " ".repeat(indent)) + line.slice(space.length) + end;
    read.push(now);
    from += line.length + end.length;
    to += now.length;
  }
  return { text: read.join(""), back: (offset) => backOf(lines, offset) };
}

/** For each line, the columns of the first one below it that is indented by spaces; -1 none. */
function below(parts: readonly string[]): readonly number[] {
  const next: number[] = [];
  let columns = -1;
  for (let i = parts.length - 1 - ((parts.length - 1) % 2); i >= 0; i -= 2) {
    next[i / 2] = columns;
    const line = parts[i] ?? "";
    const space = /^[ \t]*/.exec(line)?.[0] ?? "";
    if (!/^\s*(#|$)/.test(line) && !space.includes("\t")) columns = space.length;
  }
  return next;
}

/** The levels that are open above a line. */
class Levels {
  readonly #open: number[] = [];
  #tabs = 0;
  /** The line above ends with a colon: what comes is inside it. */
  #opens = false;

  likely(space: string, sibling: number): number {
    const own = this.#open.at(-1) ?? 0;
    if (this.#opens) return sibling > own ? sibling : own + STEP;
    const tabs = space.split("\t").length - 1;
    const up = this.#tabs > tabs ? this.#tabs - tabs : 0;
    return this.#open.at(-1 - up) ?? 0;
  }

  take(words: string, space: string, indent: number): void {
    const dashes = /^(?:- +)+/.exec(words)?.[0].length ?? 0;
    while ((this.#open.at(-1) ?? -1) >= indent) this.#open.pop();
    this.#open.push(indent);
    if (dashes > 0) this.#open.push(indent + dashes);
    this.#tabs = space.split("\t").length - 1;
    this.#opens = /:\s*(?:#.*)?$/.test(words);
  }
}

function backOf(lines: readonly Line[], offset: number): number {
  let low = 0;
  let high = lines.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle]?.to ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  const line = lines[low - 1];
  if (line === undefined) return offset;
  const column = offset - line.to;
  return line.from + (column < line.after ? Math.min(column, line.before) : column - line.after + line.before);
}
