/**
 * Tool tables in CSV. Column heads are the names of the setup, nested ones with points: `DC`, `coolant`,
 * `windows.P.vc.min`, `entry.heavy`. A head may carry a unit for its bare numbers: `DC [in]`. Comma, semicolon or tab;
 * in a semicolon table a comma is the decimal point, as spreadsheets of those countries write it.
 */
import { keyMeant } from "./read/hints.ts";
import { nearest } from "./read/nearest.ts";
import type { Source, SourceEntry, SourceFile, Span } from "./read/source.ts";
import { MAX_CHARACTERS } from "./read/yaml.ts";
import type { Schema } from "./schema/node.ts";
import { TOOL } from "./schema/tools.ts";
import type { SetupProblem } from "./types.ts";

const MAX_ROWS = 20_000;

interface Cell {
  readonly text: string;
  readonly span: Span;
}

interface Column {
  /** `["windows", "P", "vc", "min"]` */
  readonly path: readonly string[];
  readonly unit: string | null;
}

export function readCsv(file: SourceFile): {
  readonly root: Source | null;
  readonly problems: readonly SetupProblem[];
} {
  const problems: SetupProblem[] = [];
  const say = (span: Span, message: string, severity: SetupProblem["severity"] = "error"): void => {
    problems.push({ file: file.uri, severity, range: file.range(span), message });
  };
  if (file.text.length > MAX_CHARACTERS) {
    say(
      { start: 0, end: 0 },
      `expected a file of at most ${MAX_CHARACTERS} characters, got ${file.text.length}: not read`,
    );
    return { root: null, problems };
  }
  const { rows, delimiter, openQuote } = splitRows(file);
  if (openQuote !== null)
    say({ start: openQuote, end: openQuote + 1 }, "a quote is opened here and never closed: taken as part of the text");
  const headRow = rows.find((row) => row.some((cell) => cell.text.trim() !== ""));
  if (headRow === undefined) {
    say({ start: 0, end: 0 }, "expected a row of column heads (T, family, DC, ...), got an empty file");
    return { root: null, problems };
  }
  if (!headRow.some((cell) => headPath(cell.text)[0] === "T")) {
    const heads = headRow.map((cell) => cell.text.trim()).join(", ");
    const span = { start: headRow[0]?.span.start ?? 0, end: headRow.at(-1)?.span.end ?? 0 };
    say(span, `expected a row of column heads with T among them, got ${heads.slice(0, 80)}`);
    return { root: null, problems };
  }
  const columns = headRow.map((cell) => readHead(cell, say));
  const items: Source[] = [];
  for (const row of rows.slice(rows.indexOf(headRow) + 1)) {
    if (row.every((cell) => cell.text.trim() === "") || row[0]?.text.trimStart().startsWith("#")) continue;
    if (items.length >= MAX_ROWS) {
      say(row[0]?.span ?? { start: 0, end: 0 }, `expected at most ${MAX_ROWS} tools: the rest is not read`);
      break;
    }
    for (const extra of row.slice(columns.length)) {
      if (extra.text.trim() !== "")
        say(extra.span, `this cell has no column head: ${headRow.length} heads, ${row.length} cells`, "warning");
    }
    items.push(toTool(row, columns, delimiter));
  }
  return { root: { kind: "list", items, span: { start: 0, end: file.text.length } }, problems };
}

/** Rows of cells with their places. Written here because the place of every cell is needed. */
export function splitRows(file: SourceFile): { rows: Cell[][]; delimiter: string; openQuote: number | null } {
  const bom = file.text.startsWith("\uFEFF") ? 1 : 0;
  const text = file.text.slice(bom);
  const delimiter = delimiterOf(text);
  const rows: Cell[][] = [[]];
  let at = 0;
  let openQuote: number | null = null;
  for (;;) {
    const start = at;
    let content: string;
    while (text[at] === " ") at++;
    if (text[at] === '"') {
      const quoteStart = at;
      let value = "";
      at++;
      for (;;) {
        const close = text.indexOf('"', at);
        if (close < 0) {
          // Read on as if the quote were a letter, so that the rows below are not lost in one cell.
          openQuote ??= quoteStart + bom;
          at = quoteStart + 1;
          value = "";
          break;
        }
        value += text.slice(at, close);
        at = close + 1;
        if (text[at] !== '"') break;
        value += '"';
        at++;
      }
      const tail = cellEnd(text, at, delimiter);
      content = value + text.slice(at, tail);
      at = tail;
    } else {
      at = cellEnd(text, at, delimiter);
      content = text.slice(start, at);
    }
    rows.at(-1)?.push(cellOf(content, start + bom, at + bom, file.text));
    const c = text[at];
    if (c === undefined) break;
    at++;
    if (c === delimiter) continue;
    if (c === "\r" && text[at] === "\n") at++;
    rows.push([]);
  }
  return { rows, delimiter, openQuote };
}

/** The commonest of comma, semicolon and tab in the first line that says anything, quoted text left out. */
function delimiterOf(text: string): string {
  const line = (/[^\r\n]*\S[^\r\n]*/.exec(text)?.[0] ?? "").replace(/"[^"]*"/g, "");
  let best = ",";
  for (const each of [",", ";", "\t"]) if (line.split(each).length > line.split(best).length) best = each;
  return best;
}

function cellEnd(text: string, from: number, delimiter: string): number {
  let at = from;
  while (at < text.length && text[at] !== delimiter && text[at] !== "\n" && text[at] !== "\r") at++;
  return at;
}

function cellOf(content: string, start: number, end: number, text: string): Cell {
  let from = start;
  let to = end;
  while (from < to && text[from] === " ") from++;
  while (to > from && text[to - 1] === " ") to--;
  return { text: content, span: { start: from, end: to } };
}

const HEAD = /^(.*?)\s*(?:\[([^\]]*)\]|\(([^)]*)\))?$/;

function headPath(head: string): string[] {
  const name = (HEAD.exec(head.trim())?.[1] ?? head).trim();
  // A material's name may hold points: `windows.1.7225.vc.min`.
  const window = /^windows\.(.+)\.(\w+)\.(\w+)$/.exec(name);
  const parts = window === null ? name.split(".") : ["windows", ...window.slice(1)];
  return parts.map((part) => part.trim());
}

function readHead(
  cell: Cell,
  say: (span: Span, message: string, severity?: SetupProblem["severity"]) => void,
): Column | null {
  const head = cell.text.trim();
  if (head === "") return null;
  const match = HEAD.exec(head);
  const path = headPath(head);
  const unit = (match?.[2] ?? match?.[3])?.trim() ?? null;
  const wrong = unknownPart(path);
  if (wrong === null) return { path, unit: unit === "" ? null : unit };
  const near =
    (path.length === 1 ? keyMeant(wrong.part, TOOL)?.replace("[]", ".P") : null) ?? nearest(wrong.part, wrong.known);
  say(
    cell.span,
    `"${head}" is no column of a tool table${near === null ? `; known here: ${wrong.known.slice(0, 10).join(", ")}${wrong.known.length > 10 ? " ..." : ""}` : `; ${near}?`}`,
    "warning",
  );
  return null;
}

/** The first part of a column head that the schema does not know. */
function unknownPart(path: readonly string[]): { readonly part: string; readonly known: readonly string[] } | null {
  let schema: Schema = TOOL;
  for (let i = 0; i < path.length; i++) {
    const part = path[i] ?? "";
    if (schema.kind === "record") {
      const next: Schema | undefined = Object.hasOwn(schema.keys, part) ? schema.keys[part] : undefined;
      if (next === undefined) return { part, known: Object.keys(schema.keys) };
      schema = next;
    } else if (schema.kind === "list" && schema.names !== null) {
      if (!schema.names.includes(part)) return { part, known: schema.names };
      schema = schema.of;
    } else if (schema.kind === "list" && part !== "") schema = schema.of;
    else return { part, known: [] };
  }
  if (schema.kind === "record" || (schema.kind === "list" && !schema.single && schema.names === null)) {
    return { part: "", known: schema.kind === "record" ? Object.keys(schema.keys) : [] };
  }
  return null;
}

/** A branch that is still being filled from the cells of one row. */
interface Branch {
  readonly kind: "branch";
  readonly parts: Map<string, Branch | Source>;
  span: Span;
}

function toTool(row: readonly Cell[], columns: readonly (Column | null)[], delimiter: string): Source {
  const filled = row.filter((cell) => cell.text.trim() !== "");
  const span = { start: filled[0]?.span.start ?? 0, end: filled.at(-1)?.span.end ?? 0 };
  const root: Branch = { kind: "branch", parts: new Map(), span };
  row.forEach((cell, i) => {
    const column = columns[i];
    if (column === null || column === undefined || cell.text.trim() === "") return;
    let at = root;
    for (const part of column.path.slice(0, -1)) {
      const next = at.parts.get(part);
      if (next?.kind === "branch") {
        next.span = { start: Math.min(next.span.start, cell.span.start), end: Math.max(next.span.end, cell.span.end) };
        at = next;
      } else {
        const branch: Branch = { kind: "branch", parts: new Map(), span: cell.span };
        at.parts.set(part, branch);
        at = branch;
      }
    }
    at.parts.set(column.path.at(-1) ?? "", scalar(cell, column.unit, delimiter));
  });
  return toSource(root, TOOL);
}

function scalar(cell: Cell, unit: string | null, delimiter: string): Source {
  let text = cell.text.trim();
  if (delimiter === ";") text = text.replace(/^([+-]?\d+),(\d+)/, "$1.$2");
  const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : null;
  if (number !== null && unit === null) return { kind: "scalar", value: number, text, span: cell.span };
  if (number !== null) text = `${text} ${unit}`;
  return { kind: "scalar", value: text, text, span: cell.span };
}

function toSource(part: Branch | Source, schema: Schema): Source {
  if (part.kind !== "branch") {
    // `H: 3 33` in one cell is a list.
    if (schema.kind === "list" && part.kind === "scalar" && /[\s|/]/.test(part.text)) {
      const items = part.text.split(/[\s|/]+/).filter((t) => t !== "");
      return {
        kind: "list",
        span: part.span,
        items: items.map((t) => ({ kind: "scalar", value: t, text: t, span: part.span })),
      };
    }
    return part;
  }
  if (schema.kind === "list" && schema.names !== null) {
    const names = schema.names;
    const items = names.map(
      (name): Source =>
        (part.parts.get(name) as Source | undefined) ?? { kind: "scalar", value: null, text: "", span: part.span },
    );
    return { kind: "list", items, span: part.span };
  }
  if (schema.kind === "list") {
    const items = [...part.parts].map(([name, inner]): Source => {
      const item = toSource(inner, schema.of);
      if (item.kind !== "map" || schema.itemKey.length === 0) return item;
      const key = /^[PMKNSH]$/.test(name) ? "group" : "material";
      const named: SourceEntry = {
        key,
        keySpan: item.span,
        value: { kind: "scalar", value: name, text: name, span: item.span },
      };
      return { ...item, entries: [named, ...item.entries] };
    });
    return { kind: "list", items, span: part.span };
  }
  const keys = schema.kind === "record" ? schema.keys : {};
  const entries = [...part.parts].map(([key, inner]): SourceEntry => {
    const value = toSource(inner, keys[key] ?? schema);
    return { key, keySpan: value.span, value };
  });
  return { kind: "map", entries, span: part.span };
}
