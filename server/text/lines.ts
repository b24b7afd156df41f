/**
 * The line store: a decoded text as lines, edited in place. Line ends are kept per line, so that the text can be given
 * back to the letter. Built for one edit per keystroke in 100 000 lines, which a full-text document cannot do.
 */

/** An edit in LSP's terms: lines and UTF-16 columns from 0. Positions outside the text are clamped, never trusted. */
export interface TextEdit {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly text: string;
}

/** What an edit did to the lines: `removed` lines from `line` on were replaced by `inserted` new ones. */
export interface LineChange {
  readonly line: number;
  readonly removed: number;
  readonly inserted: number;
}

export type Eol = "" | "\n" | "\r\n" | "\r";

const EOLS: readonly Eol[] = ["", "\n", "\r\n", "\r"];

export class LineStore {
  #lines: string[];
  #eols: Uint8Array;

  private constructor(lines: string[], eols: Uint8Array) {
    this.#lines = lines;
    this.#eols = eols;
  }

  /** Splits at LF, CR LF or CR. A text that ends in a line end has an empty last line, as editors count. */
  static from(text: string): LineStore {
    const lines: string[] = [];
    const eols: number[] = [];
    splitInto(text, lines, eols);
    return new LineStore(lines, Uint8Array.from(eols));
  }

  get count(): number {
    return this.#lines.length;
  }

  /** The line without its end. Empty for a line outside the text. */
  line(index: number): string {
    return this.#lines[index] ?? "";
  }

  eol(index: number): Eol {
    return EOLS[this.#eols[index] ?? 0] ?? "";
  }

  /** The whole text, to the letter. */
  text(): string {
    const parts: string[] = [];
    for (let i = 0; i < this.#lines.length; i++) parts.push(this.line(i), this.eol(i));
    return parts.join("");
  }

  /** Applies one edit and says which lines changed. */
  edit(edit: TextEdit): LineChange {
    const last = this.#lines.length - 1;
    let startLine = whole(edit.startLine);
    let startColumn = whole(edit.startColumn);
    if (startLine > last) {
      startLine = last;
      startColumn = this.line(last).length;
    }
    let endLine = whole(edit.endLine);
    let endColumn = whole(edit.endColumn);
    if (endLine > last) {
      endLine = last;
      endColumn = this.line(last).length;
    }
    startColumn = Math.min(startColumn, this.line(startLine).length);
    endColumn = Math.min(endColumn, this.line(endLine).length);
    if (endLine < startLine || (endLine === startLine && endColumn < startColumn)) {
      [startLine, endLine] = [endLine, startLine];
      [startColumn, endColumn] = [endColumn, startColumn];
    }
    let head = this.line(startLine).slice(0, startColumn);
    const tailEol = this.eol(endLine);
    const tail = this.line(endLine).slice(endColumn) + tailEol;
    // A line that ended in a lone CR and now meets an LF shares one line end with it: both lines are read again.
    const before = this.eol(startLine - 1);
    if (before === "\r" && (head + edit.text + tail).startsWith("\n")) {
      startLine--;
      head = this.line(startLine) + before;
    }
    const lines: string[] = [];
    const eols: number[] = [];
    splitInto(head + edit.text + tail, lines, eols);
    // The split ends with an open line; where the tail brought its own line end, that open line is the next one.
    if (tailEol !== "") {
      lines.pop();
      eols.pop();
    }
    const removed = endLine - startLine + 1;
    this.#splice(startLine, removed, lines, eols);
    return { line: startLine, removed, inserted: lines.length };
  }

  #splice(at: number, removed: number, lines: string[], eols: number[]): void {
    if (removed === lines.length) {
      for (let i = 0; i < lines.length; i++) {
        this.#lines[at + i] = lines[i] ?? "";
        this.#eols[at + i] = eols[i] ?? 0;
      }
      return;
    }
    if (lines.length < 10_000) this.#lines.splice(at, removed, ...lines);
    else this.#lines = this.#lines.slice(0, at).concat(lines, this.#lines.slice(at + removed));
    const next = new Uint8Array(this.#lines.length);
    next.set(this.#eols.subarray(0, at));
    next.set(eols, at);
    next.set(this.#eols.subarray(at + removed), at + eols.length);
    this.#eols = next;
  }
}

function whole(n: number): number {
  return n > 0 ? Math.floor(n) : 0;
}

function splitInto(text: string, lines: string[], eols: number[]): void {
  let start = 0;
  const length = text.length;
  for (let i = 0; i < length; i++) {
    const c = text.charCodeAt(i);
    if (c !== 10 && c !== 13) continue;
    lines.push(text.slice(start, i));
    if (c === 10) eols.push(1);
    else if (text.charCodeAt(i + 1) === 10) {
      eols.push(2);
      i++;
    } else eols.push(3);
    start = i + 1;
  }
  lines.push(text.slice(start));
  eols.push(0);
}
