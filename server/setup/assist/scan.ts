/**
 * Reads setup text line by line for the editor: every key and value with its path, and what is expected at the cursor.
 * Not a YAML parser: it has to know where the cursor stands while the text around it is no valid YAML.
 */
import { ITEM } from "../schema/at.ts";
import { flowPiece, keyAt, type Piece, valueAt } from "./words.ts";

export interface Token {
  readonly kind: "key" | "value";
  /** A key's path ends with the key itself; a value's path is that of its key or item. */
  readonly path: readonly string[];
  readonly line: number;
  readonly start: number;
  readonly end: number;
  /** Without quotes. */
  readonly text: string;
  /** The map or list it stands in. */
  readonly container: number;
}

export interface Cursor {
  readonly mode: "key" | "value";
  /** Of the map for a key, of the value itself for a value. */
  readonly path: readonly string[];
  readonly container: number;
  readonly flow: boolean;
  /** What is written before the cursor, and the columns that a completion replaces. */
  readonly prefix: string;
  readonly start: number;
  readonly end: number;
  /** Column of the line's first word. */
  readonly indent: number;
  /** Only white space, or a dash, stands before the cursor on a line of its own. */
  readonly fresh: boolean;
}

export interface Scan {
  readonly tokens: readonly Token[];
  readonly cursor: Cursor | null;
}

interface Frame {
  readonly indent: number;
  /** Key, or `ITEM`. */
  readonly name: string;
  /** Id of the map or list that stands under it. */
  readonly inside: number;
}

interface FlowFrame {
  readonly open: "{" | "[";
  readonly path: readonly string[];
  readonly id: number;
  key: string | null;
}

export function scan(text: string, at: { readonly line: number; readonly column: number } | null): Scan {
  const scanner = new Scanner(at);
  const lines = text.split(/\r\n|\r|\n/);
  for (const [number, line] of lines.entries()) scanner.line(line, number);
  return { tokens: scanner.tokens, cursor: scanner.cursor };
}

class Scanner {
  readonly tokens: Token[] = [];
  cursor: Cursor | null = null;
  readonly #at: { readonly line: number; readonly column: number } | null;
  #stack: Frame[] = [];
  #flow: FlowFrame[] = [];
  /** Indent of the line where the open flow began. */
  #flowIndent = 0;
  #ids = 1;
  /** Lines deeper than this belong to a block text (`|` or `>`). */
  #skip = -1;

  constructor(at: { readonly line: number; readonly column: number } | null) {
    this.#at = at;
  }

  line(raw: string, number: number): void {
    const line = number === 0 ? raw.replace(/^\uFEFF/, " ") : raw;
    const indent = line.length - line.trimStart().length;
    const column = this.#at?.line === number ? Math.min(this.#at.column, line.length) : -1;
    const body = line.trim();
    if (body !== "" && this.#skip >= 0 && indent <= this.#skip) this.#skip = -1;
    if (this.#skip >= 0) return;
    // Only a deeper line can go on with an open bracket; anything else means that it was never closed.
    if (this.#flow.length > 0 && body !== "" && indent <= this.#flowIndent && !/^[\]},]/.test(body)) this.#flow = [];
    if (this.#flow.length > 0) {
      this.#flowPart(line, 0, number, column);
      return;
    }
    if (body === "" || body.startsWith("#")) {
      if (column >= 0 && body === "") this.#freshCursor(column, column, line);
      return;
    }
    if (/^(---|\.\.\.)(\s|$)/.test(line)) {
      this.#stack = [];
      return;
    }
    this.#block(line, indent, number, column);
  }

  #block(line: string, from: number, number: number, column: number): void {
    let indent = from;
    let dash = false;
    while (/^-(\s|$)/.test(line.slice(indent))) {
      this.#pop(indent, true);
      this.#stack.push({ indent, name: ITEM, inside: this.#ids++ });
      dash = true;
      const after = line.slice(indent + 1);
      const gap = after.length - after.trimStart().length;
      if (after.trim() === "") {
        if (column > indent) this.#freshCursor(column, indent + 2, line);
        return;
      }
      if (column > indent && column < indent + 1 + gap) this.#freshCursor(column, indent + 2, line);
      indent += 1 + gap;
    }
    const key = keyAt(line, indent);
    if (key === null) {
      const piece = valueAt(line, indent);
      if (dash || (piece !== null && /[[{]/.test(line[indent] ?? ""))) {
        if (!dash) this.#pop(indent, false);
        this.#value(line, piece, number, column, indent);
      } else this.#loose(line, piece, number, column, indent);
      return;
    }
    this.#pop(indent, false);
    const top = this.#stack.at(-1);
    const container = top?.inside ?? 0;
    const path = [...this.#path(), key.text];
    this.tokens.push({ kind: "key", path, line: number, start: key.start, end: key.end, text: key.text, container });
    if (column >= key.start && column <= key.end) {
      this.cursor = {
        mode: "key",
        path: this.#path(),
        container,
        flow: false,
        prefix: line.slice(key.start, column),
        start: key.start,
        end: key.end,
        indent,
        fresh: false,
      };
    }
    this.#stack.push({ indent, name: key.text, inside: this.#ids++ });
    const colon = line.indexOf(":", key.end);
    const valueStart = colon + 1 + (line.slice(colon + 1).length - line.slice(colon + 1).trimStart().length);
    if (/^[|>][+-]?\d?\s*(#.*)?$/.test(line.slice(valueStart))) {
      this.#skip = indent;
      return;
    }
    const piece = valueAt(line, valueStart);
    if (column > colon && column < valueStart && piece !== null) return;
    if (column > colon || piece !== null) this.#value(line, piece, number, column > colon ? column : -1, indent);
  }

  /** A word on a line of its own: the value of the key above it, or a key whose colon is not written yet. */
  #loose(line: string, piece: Piece | null, number: number, column: number, indent: number): void {
    if (piece === null) return;
    if (column >= indent && column <= piece.end) this.#freshCursor(column, indent, line, piece);
    const under = this.#stack.filter((frame) => frame.indent < indent);
    const path = under.map((frame) => frame.name);
    const container = under.at(-1)?.inside ?? 0;
    const { start, end, text } = piece;
    if (path.length > 0) this.tokens.push({ kind: "value", path, line: number, start, end, text, container });
  }

  /** A value in block style: a word, or the start of a bracket. */
  #value(line: string, piece: Piece | null, number: number, column: number, indent: number): void {
    const path = this.#path();
    const container = this.#stack.at(-1)?.inside ?? 0;
    if (piece === null) {
      if (column >= 0) this.#valueCursor(path, container, false, "", column, column, indent);
      return;
    }
    const first = line[piece.start];
    if (first === "{" || first === "[") {
      this.#flowIndent = this.#stack.at(-1)?.indent ?? 0;
      this.#flowPart(line, piece.start, number, column);
      return;
    }
    this.tokens.push({
      kind: "value",
      path,
      line: number,
      start: piece.start,
      end: piece.end,
      text: piece.text,
      container,
    });
    if (column >= piece.start && column <= piece.end)
      this.#valueCursor(path, container, false, line.slice(piece.start, column), piece.start, piece.end, indent);
    else if (column > piece.end && line.slice(piece.end, column).trim() === "") {
      this.#valueCursor(path, container, false, line.slice(piece.start, column), piece.start, column, indent);
    }
  }

  /** Text inside brackets, from a column to the line's end or to where the last bracket closes. */
  #flowPart(line: string, from: number, number: number, column: number): void {
    const indent = line.length - line.trimStart().length;
    let i = from;
    const ask = (start: number, end: number): void => {
      const frame = this.#flow.at(-1);
      if (column < 0 || frame === undefined || this.cursor !== null || column < start || column > end) return;
      const prefix = line.slice(start, column);
      const path =
        frame.open === "[" ? [...frame.path, ITEM] : frame.key === null ? frame.path : [...frame.path, frame.key];
      const mode = frame.open === "{" && frame.key === null ? "key" : "value";
      this.cursor = { mode, path, container: frame.id, flow: true, prefix, start, end, indent, fresh: false };
    };
    while (i < line.length) {
      const c = line[i] ?? "";
      if (c === "#" && (i === 0 || /\s/.test(line[i - 1] ?? ""))) return;
      if (/\s/.test(c)) {
        const end = i + (line.slice(i).length - line.slice(i).trimStart().length);
        // Between two words the cursor belongs to the next word, at the line's end to nothing yet.
        if (column >= i && (column < end || end >= line.length)) ask(column, column);
        i = end;
        continue;
      }
      if (c === "{" || c === "[") {
        const frame = this.#flow.at(-1);
        const path =
          frame === undefined
            ? this.#path()
            : frame.open === "["
              ? [...frame.path, ITEM]
              : [...frame.path, frame.key ?? ""];
        this.#flow.push({ open: c, path, id: this.#ids++, key: null });
        i++;
        if (column === i && !/[^\s\]},]/.test(line[i] ?? "")) ask(i, i);
        continue;
      }
      if (c === "}" || c === "]") {
        if (column === i && this.cursor === null) ask(i, i);
        this.#flow.pop();
        i++;
        if (this.#flow.length === 0) return;
        continue;
      }
      if (c === ",") {
        const frame = this.#flow.at(-1);
        if (column === i) ask(i, i);
        if (frame !== undefined) frame.key = null;
        i++;
        if (column === i && !/[^\s\]},]/.test(line[i] ?? "")) ask(i, i);
        continue;
      }
      if (c === ":") {
        i++;
        if (column === i && !/[^\s\]},]/.test(line[i] ?? "")) ask(i, i);
        continue;
      }
      i = this.#flowWord(line, i, number, ask);
    }
    if (column >= line.length) ask(column, column);
  }

  #flowWord(line: string, start: number, number: number, ask: (start: number, end: number) => void): number {
    const frame = this.#flow.at(-1);
    const piece = flowPiece(line, start);
    const colon = /^\s*:(?=[\s[\]{},]|$)/.exec(line.slice(piece.end));
    ask(piece.start, piece.end);
    if (frame === undefined) return piece.end;
    if (colon !== null && frame.open === "{" && frame.key === null) {
      frame.key = piece.text;
      this.tokens.push({
        kind: "key",
        path: [...frame.path, piece.text],
        line: number,
        start: piece.start,
        end: piece.end,
        text: piece.text,
        container: frame.id,
      });
      return piece.end + colon[0].length - 1;
    }
    if (frame.open === "[" || frame.key !== null) {
      const path = frame.open === "[" ? [...frame.path, ITEM] : [...frame.path, frame.key ?? ""];
      this.tokens.push({
        kind: "value",
        path,
        line: number,
        start: piece.start,
        end: piece.end,
        text: piece.text,
        container: frame.id,
      });
    }
    return Math.max(piece.end, start + 1);
  }

  #pop(indent: number, item: boolean): void {
    for (;;) {
      const top = this.#stack.at(-1);
      if (top === undefined || top.indent < indent) return;
      // A list may stand at the indent of its own key.
      if (item && top.indent === indent && top.name !== ITEM) return;
      this.#stack.pop();
    }
  }

  #path(): readonly string[] {
    return this.#stack.map((frame) => frame.name);
  }

  /** A line on which nothing but the beginning of a word stands: a key (or item) of what the indent says. */
  #freshCursor(column: number, indent: number, line: string, piece: Piece | null = null): void {
    if (this.cursor !== null || column < 0) return;
    const stack = this.#stack.filter((frame) => frame.indent < indent);
    const start = piece?.start ?? column;
    this.cursor = {
      mode: "key",
      path: stack.map((frame) => frame.name),
      container: stack.at(-1)?.inside ?? 0,
      flow: false,
      prefix: line.slice(start, column),
      start,
      end: piece?.end ?? column,
      indent,
      fresh: true,
    };
  }

  #valueCursor(
    path: readonly string[],
    container: number,
    flow: boolean,
    prefix: string,
    start: number,
    end: number,
    indent: number,
  ): void {
    if (this.cursor !== null) return;
    this.cursor = { mode: "value", path, container, flow, prefix: prefix.trimEnd(), start, end, indent, fresh: false };
  }
}
