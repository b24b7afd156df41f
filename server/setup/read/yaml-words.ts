/**
 * Mistakes of form in a setup, in words of a shop: what stands there, what was expected, and the place where a person would
 * mend it, which is seldom the one where the reader of YAML notices.
 */
import type { SourceFile, Span } from "./source.ts";
import { closeOf, openAt } from "./yaml-open.ts";

/** As the YAML library reports it. */
export interface YamlError {
  readonly code: string;
  readonly message: string;
  readonly pos: readonly [number, number];
}

export interface Fault {
  readonly span: Span;
  readonly message: string;
  /** What follows is read wrongly because of it, and says nothing of its own. */
  readonly rest?: true;
}

/** More mistakes of form than this help nobody, and each is looked for from the start of the file. */
const MOST = 20;

/**
 * The mistakes worth saying: one a line, none after a bracket or quote that was never closed, and of tabs the first, since
 * they move the columns of all that comes after them.
 */
export function wordFaults(errors: readonly YamlError[], file: SourceFile): Fault[] {
  const faults: Fault[] = [];
  const lines = new Set<number>();
  let tab: { readonly at: number; more: number } | null = null;
  for (const error of errors) {
    const noticed = file.place(error.pos[0]).line;
    if (lines.has(noticed)) continue;
    if (tab !== null && (error.code === "TAB_AS_INDENT" || isColumn(error))) {
      if (error.code === "TAB_AS_INDENT") tab.more++;
      lines.add(noticed);
      continue;
    }
    const fault = wordFault(error, file);
    if (error.code === "TAB_AS_INDENT") tab = { at: faults.length, more: 0 };
    lines.add(noticed);
    lines.add(file.place(fault.span.start).line);
    faults.push(fault);
    if (fault.rest === true) break;
    if (faults.length < MOST) continue;
    faults.push({
      ...fault,
      message: `more than ${MOST - 1} mistakes of form: the others are said when these are mended`,
    });
    break;
  }
  const first = tab === null ? undefined : faults[tab.at];
  if (tab !== null && first !== undefined && tab.more > 0)
    faults[tab.at] = { ...first, message: `${first.message}; ${tab.more} more lines begin with one` };
  return faults;
}

/** A line in a column where nothing begins. */
function isColumn({ code, message }: YamlError): boolean {
  return code === "BAD_INDENT" && !/flow/i.test(message);
}

function wordFault(error: YamlError, file: SourceFile): Fault {
  const [start, end] = error.pos;
  const here = (message: string): Fault => ({ span: { start, end }, message });
  const { message } = error;
  const at = file.text[start] ?? "";
  switch (error.code) {
    case "TAB_AS_INDENT":
      return here("expected spaces before the key, got a tab: YAML does not indent by tabs");
    case "BAD_INDENT":
      return /flow/i.test(message) ? openBracket(start, file) : badIndent(start, file);
    case "MISSING_CHAR":
      if (/quote/i.test(message)) return openQuote(start, file);
      if (/comment/i.test(message)) return here("expected a space before the # of a comment, got none");
      if (/map values/i.test(message)) return here(`expected a colon after ${word(file, start)}, got none`);
      if (/Missing , or :/.test(message))
        return here(`expected a colon or a comma before ${word(file, start)}, got none`);
      if (/Missing ,/.test(message)) return here(`expected a comma before ${word(file, start)}, got none`);
      if (/directives/i.test(message)) return here("expected --- after a line that begins with %, got none");
      break;
    case "BLOCK_AS_IMPLICIT_KEY":
      if (/sequence/i.test(message)) return straySeq(start, file);
      return keyInValue(start, file);
    case "MULTILINE_IMPLICIT_KEY":
      return noColon(start, file);
    case "KEY_OVER_1024_CHARS":
      return here("expected a key of at most 1024 characters, got a longer one: is a quote or a line end missing?");
    case "BLOCK_IN_FLOW":
      return missingComma(start, end, file);
    case "BAD_SCALAR_START":
      return here(
        `a text cannot begin with ${at}: put it in quotes, as "${file.text.slice(start).match(/^\S*/)?.[0]}"`,
      );
    case "BAD_DQ_ESCAPE":
      return here(
        `${file.text.slice(start, start + 2)} means nothing in double quotes: write \\\\ for a backslash, or use single quotes`,
      );
    case "BAD_ALIAS":
      if (/ambiguous/i.test(message)) return here("a key cannot begin with *: put it in quotes");
      return here(`expected a name after ${at}, got none`);
    case "MULTIPLE_ANCHORS":
      return here("expected one name with & for a value, got two");
    case "TAG_RESOLVE_FAILED":
      return here(
        `expected a value, got the tag ${file.text.slice(start, end)}: a setup has no tags; put a text in quotes`,
      );
    case "BAD_DIRECTIVE":
      return here("expected a key, got a line that begins with %: a setup has no directives");
    case "UNEXPECTED_TOKEN":
      return unexpected(start, end, message, file);
  }
  return here(`cannot be read here: ${plain(message)}`);
}

/** A bracket that was opened and is not closed, or closed by another. */
function openBracket(start: number, file: SourceFile): Fault {
  const opener = openAt(file.text, start).brackets.at(-1);
  const got = file.text[start] ?? "";
  if (opener === undefined) {
    return { span: { start, end: start + 1 }, message: "a bracket { or [ that was opened above is not closed" };
  }
  const bracket = file.text[opener] ?? "";
  const close = bracket === "{" ? "}" : "]";
  if (got === "}" || got === "]") return wrongClose(start, opener, file);
  const before = start >= file.text.trimEnd().length ? "the end of the file" : `line ${file.place(start).line + 1}`;
  return {
    span: { start: opener, end: opener + 1 },
    message: `this ${bracket} is not closed: expected ${close} before ${before}`,
    rest: true,
  };
}

function openQuote(start: number, file: SourceFile): Fault {
  const opener = openAt(file.text, start).quote;
  if (opener === null) {
    return { span: { start, end: start }, message: "a quote that was opened above is not closed", rest: true };
  }
  const quote = file.text[opener] ?? "";
  return {
    span: { start: opener, end: opener + 1 },
    message: `this quote is not closed: expected another ${quote} at the end of the text`,
    rest: true,
  };
}

/** A line that begins between the columns in which something may begin. */
function badIndent(start: number, file: SourceFile): Fault {
  const { line } = file.place(start);
  const text = file.line(line);
  const own = indentOf(text);
  const places = new Map<number, number>();
  let listAt: number | null = null;
  let lowest = Number.POSITIVE_INFINITY;
  for (let above = line - 1; above >= 0 && lowest > 0; above--) {
    const other = file.line(above);
    if (/^\s*(#|$)/.test(other)) continue;
    const indent = indentOf(other);
    if (indent >= lowest) continue;
    lowest = indent;
    const inside = /^\s*(?:- +)+/.exec(other)?.[0].length;
    if (inside !== undefined) {
      if (indent === own) listAt ??= above;
      if (!places.has(inside)) places.set(inside, above);
    }
    if (inside === undefined && !places.has(indent)) places.set(indent, above);
  }
  places.delete(own);
  const wanted = [...places].map(([column, at]) => `column ${column + 1} (as line ${at + 1})`);
  const span = { start: file.lineStart(line) + own, end: file.lineStart(line) + text.trimEnd().length };
  const rest = wanted.length === 0 ? "" : `: expected ${wanted.slice(0, 4).join(" or ")}`;
  if (listAt !== null && !/^\s*-/.test(text)) {
    return { span, message: `a key cannot begin in the column of the - of line ${listAt + 1}${rest}` };
  }
  return { span, message: `this line begins in column ${own + 1}, where no level begins${rest}` };
}

const indentOf = (line: string): number => line.length - line.trimStart().length;

/** `units: mm: inch`, or a value with a deeper line below it. */
function keyInValue(start: number, file: SourceFile): Fault {
  const { line, column } = file.place(start);
  const text = file.line(line);
  const second = /:(?=\s|$)/.exec(text.slice(column));
  if (second !== null) {
    const end = start + second.index + 1;
    return {
      span: { start, end },
      message: `expected one key and one value in a line, got a second colon: put a text in quotes, a map in { }`,
    };
  }
  const next = line + 1;
  const below = file.line(next);
  if (indentOf(below) <= indentOf(text)) {
    return {
      span: { start, end: start + 1 },
      message: "a key stands here where the lines above leave no place for one",
    };
  }
  const span = { start: file.lineStart(next) + indentOf(below), end: file.lineStart(next) + below.trimEnd().length };
  return {
    span,
    message: `line ${line + 1} has its value already, and this line stands deeper: expected it in column ${indentOf(text) + 1}`,
    rest: true,
  };
}

function straySeq(start: number, file: SourceFile): Fault {
  const { line } = file.place(start);
  const from = file.lineStart(line) + indentOf(file.line(line));
  return { span: { start: from, end: from + 1 }, message: "expected a key as in the lines above, got a list item (-)" };
}

function noColon(start: number, file: SourceFile): Fault {
  const { line, column } = file.place(start);
  const text = file.line(line).slice(column).trimEnd();
  const span = { start, end: start + text.length };
  if (openAt(file.text, start).brackets.length > 0) {
    return { span, message: "this goes on in the next line: expected a comma or a closing bracket at its end" };
  }
  if (/^[[{]/.test(text)) return endsEarly(start, file);
  if (/^["']/.test(text)) return { span, message: "expected a key in one line, got one that goes on in the next" };
  return { span, message: `expected a colon, as in "key: value", got ${quoted(text)}` };
}

/** A list or map in brackets that ends before it should: one of its opening brackets is missing. */
function endsEarly(start: number, file: SourceFile): Fault {
  const { at, opener } = closeOf(file.text, start);
  if (opener !== start) return wrongClose(at, opener, file);
  const closes = file.text[at] ?? "";
  const { line, column } = file.place(opener);
  return {
    span: { start: at, end: at + 1 },
    message: `this ${closes} ends the ${file.text[opener]} of line ${line + 1}, column ${column + 1}, and more follows: is a ${openerOf(closes)} missing before it?`,
    rest: true,
  };
}

function wrongClose(at: number, opener: number, file: SourceFile): Fault {
  const { line, column } = file.place(opener);
  const bracket = file.text[opener] ?? "";
  const got = file.text[at] ?? "";
  return {
    span: { start: at, end: at + 1 },
    message: `expected ${bracket === "{" ? "}" : "]"} for the ${bracket} of line ${line + 1}, column ${column + 1}, got ${got}: is a ${openerOf(got)} missing before it?`,
    rest: true,
  };
}

const openerOf = (closing: string): string => (closing === "}" ? "{" : "[");

function missingComma(start: number, end: number, file: SourceFile): Fault {
  const found = /^.*?\s(\S+)\s*:/.exec(file.text.slice(start, end));
  const key = found?.[1] ?? "";
  const from = found === null ? start : start + found[0].indexOf(key, found[0].length - key.length - 2);
  const span = { start: from, end: found === null ? end : from + key.length };
  return {
    span,
    message: `expected a comma before ${key === "" ? "this" : key}: entries in brackets are parted by commas`,
  };
}

function unexpected(start: number, end: number, message: string, file: SourceFile): Fault {
  const here = (text: string): Fault => ({ span: { start, end }, message: text });
  const at = file.text[start] ?? "";
  if (/on same line with key/i.test(message)) {
    return here("a list item (-) cannot stand on the line of its key: expected it on the next line, or a list in [ ]");
  }
  const header = /header includes extra characters: ([|>])(.*)$/i.exec(message);
  if (header !== null) return here(`expected the end of the line after ${header[1]}, got ${quoted(header[2] ?? "")}`);
  if (at === "}" || at === "]")
    return here(`this ${at} closes nothing: expected no more than the brackets that are open`);
  if (at === "," && openAt(file.text, start).brackets.length === 0) {
    return here("a comma parts entries only in brackets: expected the end of the line, or a { or [ above");
  }
  if (openAt(file.text, start).brackets.length > 0) {
    return here(`expected a comma before ${word(file, start)}: entries in brackets are parted by commas`);
  }
  if (/at node end/i.test(message))
    return here(`expected the end of the line after the value, got ${word(file, start)}`);
  return here(`${word(file, start)} is not expected here: ${plain(message)}`);
}

/** The word that begins at an offset, short enough for a message. */
function word(file: SourceFile, start: number): string {
  return quoted(/^\s*([[{]|[^\s,{}[\]]*)/.exec(file.text.slice(start, start + 80))?.[1] ?? "");
}

const quoted = (text: string): string => `"${text.length > 40 ? `${text.slice(0, 37)}...` : text}"`;

/** The library's own sentence, without its place and with fewer of its terms. */
export const plain = (message: string): string =>
  (message.split("\n")[0] ?? message)
    .replace(/ at line \d+, column \d+:?$/, "")
    .replace(/\bflow map(ping)?s?\b/gi, "{ }")
    .replace(/\bflow seq(uence)?s?\b/gi, "[ ]")
    .replace(/\b(block )?mappings?\b/gi, "map")
    .replace(/\b(block )?sequences?\b/gi, "list")
    .replace(/\bimplicit (map )?key/gi, "key")
    .replace(/\bscalar\b/gi, "text")
    .replace(/\bnode\b/gi, "value");
