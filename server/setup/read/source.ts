/** A setup file as read, whatever its form: YAML and CSV both become this tree, with offsets for every value. */
import type { SetupProblem } from "../types.ts";

export interface Span {
  readonly start: number;
  readonly end: number;
}

export type Source =
  | {
      readonly kind: "scalar";
      readonly value: string | number | boolean | null;
      readonly text: string;
      readonly span: Span;
    }
  | { readonly kind: "list"; readonly items: readonly Source[]; readonly span: Span }
  | { readonly kind: "map"; readonly entries: readonly SourceEntry[]; readonly span: Span };

export interface SourceEntry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: Source;
}

/** A file with its lines. Line ends as editors count them: LF, CR LF, CR. */
export class SourceFile {
  readonly uri: string;
  readonly text: string;
  readonly #starts: number[];

  constructor(uri: string, text: string) {
    this.uri = uri;
    this.text = text;
    this.#starts = [0];
    for (let i = 0; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (c === 10 || (c === 13 && text.charCodeAt(i + 1) !== 10)) this.#starts.push(i + 1);
    }
  }

  get lineCount(): number {
    return this.#starts.length;
  }

  lineStart(line: number): number {
    return this.#starts[Math.max(0, Math.min(line, this.#starts.length - 1))] ?? 0;
  }

  /** The line without its end. */
  line(line: number): string {
    const end = line + 1 < this.#starts.length ? this.lineStart(line + 1) : this.text.length;
    return this.text.slice(this.lineStart(line), end).replace(/[\r\n]+$/, "");
  }

  /** Line and column from 0 of an offset, held inside the text. */
  place(offset: number): { readonly line: number; readonly column: number } {
    const at = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    // An offset on the line end itself belongs to the end of the line's words.
    return { line: low, column: Math.min(at - (this.#starts[low] ?? 0), this.line(low).length) };
  }

  range(span: Span): SetupProblem["range"] {
    const from = this.place(span.start);
    const to = this.place(Math.max(span.start, span.end));
    return { line: from.line, column: from.column, endLine: to.line, endColumn: to.column };
  }

  /** First line of a value, so that a problem about a whole map does not underline a page. */
  head(span: Span): Span {
    const { line } = this.place(span.start);
    const end = Math.min(span.end, this.lineStart(line) + this.line(line).length);
    return { start: span.start, end: Math.max(span.start, end) };
  }

  /** `swarfline.yaml line 12`, for provenance. */
  say(offset: number): string {
    return `${fileName(this.uri)} line ${this.place(offset).line + 1}`;
  }
}

/** Last part of a path or uri, readable. */
export function fileName(uri: string): string {
  const last = uri.split(/[/\\]/).at(-1) ?? uri;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
