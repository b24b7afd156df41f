/**
 * Reads one line that the plain scanner gave up on: cuts out what nests too deeply, lexes, parses, adds the comments,
 * and turns whatever is still uncovered into unread items, so that items and white space always give the line back.
 */
import type { IToken, Lexer } from "chevrotain";
import { ITEM, POLAR_WORDS, VALUE } from "./blocks.ts";
import { type BlockWriter, FLAG } from "./columns.ts";
import { readCutNote } from "./cut-notes.ts";
import { type Draft, DraftBlock, type DraftProblem, excerpt } from "./drafts.ts";
import { makeLexer } from "./lexer.ts";
import { BlockParser } from "./parser.ts";
import { prepare } from "./prepare.ts";

/** More problems than this in one block say nothing new and cost time; the rest are counted. */
const MAX_PROBLEMS = 200;

let machine: { readonly lexer: Lexer; readonly parser: BlockParser } | undefined;

/** Lexer and parser cost tens of milliseconds to build, so they are built when a line first needs them. */
function reader(): { readonly lexer: Lexer; readonly parser: BlockParser } {
  machine ??= { lexer: makeLexer(false), parser: new BlockParser(false) };
  return machine;
}

/** Reads any line. Never throws; every character ends up in an item or is white space between items. */
export function parseLine(line: string, writer: BlockWriter): void {
  const draft = new DraftBlock();
  const comments: IToken[] = [];
  try {
    readInto(line, draft, comments);
  } catch (error) {
    // A line so long that an engine limit is hit. What was drafted stays, the rest is unread with this reason.
    const reason = error instanceof Error ? error.message : String(error);
    draft.problem("unread", 0, line.length, `this line could not be read to its end (${reason})`);
  }
  for (const comment of comments) addComment(line, comment, draft);
  finish(line, draft, writer);
}

function readInto(line: string, draft: DraftBlock, comments: IToken[]): void {
  const { lexer, parser } = reader();
  const prepared = prepare(line);
  for (const [start, end] of prepared.tooDeep) {
    draft.problem(
      "too-deep",
      start,
      end,
      "these brackets nest too deeply to be read; split the expression over assignments",
    );
  }
  let text = prepared.text;
  for (const cut of [...prepared.cuts, line.length]) {
    // Blanks keep the columns of the second part; its first word is not at block start, which the parser still knows.
    const part = text.slice(0, cut);
    const { tokens, groups } = lexer.tokenize(part);
    comments.push(...(groups.comments ?? []));
    const errors = parser.read(line, tokens, draft);
    for (const error of errors.slice(0, MAX_PROBLEMS)) {
      const at = error.token.startOffset >= 0 ? error.token.startOffset : cut;
      const end = error.token.startOffset >= 0 ? at + error.token.image.length : cut;
      if (draft.problems.some((p) => p.start <= at && p.end >= end && at < end)) continue;
      draft.problem(
        "bad-expression",
        Math.min(at, Math.max(0, cut - 1)),
        Math.max(end, at),
        "a value is missing or cannot be read here",
      );
    }
    text = " ".repeat(cut) + text.slice(cut);
  }
}

function addComment(line: string, token: IToken, draft: DraftBlock): void {
  const start = token.startOffset;
  const end = start + token.image.length;
  const kind = token.image.startsWith("(") ? ITEM.comment : ITEM.lineComment;
  draft.items.push({ kind, form: VALUE.none, value: Number.NaN, start, end, side: null, letter: 0 });
  if (kind === ITEM.lineComment) return;
  const closed = token.image.endsWith(")");
  if (!closed) draft.problem("open-comment", start, end, "this comment is not closed on its line; write ) at its end");
  const nested = token.image.indexOf("(", 1);
  if (nested > 0) {
    draft.problem(
      "nested-comment",
      start + nested,
      start + nested + 1,
      "a ( inside a comment: the comment ends at the first ), so write no parentheses inside it",
    );
  }
  const note = readCutNote(line.slice(start + 1, closed ? end - 1 : end), 1);
  if (note !== null && "problem" in note) draft.problem("cut-note", start, end, note.problem);
}

/** Writes the drafts in order, with unread items in the gaps. */
function finish(line: string, draft: DraftBlock, writer: BlockWriter): void {
  const limit = draft.unreadFrom;
  const isComment = (d: Draft) => d.kind === ITEM.comment || d.kind === ITEM.lineComment;
  const items = draft.items.filter((d) => isComment(d) || d.start < limit).sort((a, b) => a.start - b.start);
  const problems = draft.problems.filter((p) => p.start <= limit).sort((a, b) => a.start - b.start || a.end - b.end);
  const covered = coverage(problems);
  let at = 0;
  for (const item of items) {
    // A comment between the parts of a statement belongs to the statement's own text.
    if (item.start < at) continue;
    fill(line, at, item.start, covered, problems, writer);
    write(item, writer);
    at = item.end;
  }
  fill(line, at, line.length, covered, problems, writer);
  problems.sort((a, b) => a.start - b.start || a.end - b.end);
  for (const p of problems.slice(0, MAX_PROBLEMS)) writer.problem(p.code, p.start, p.end, p.text);
  const next = problems[MAX_PROBLEMS];
  if (next !== undefined) {
    writer.problem(
      "unread",
      next.start,
      line.length,
      `${problems.length - MAX_PROBLEMS} more problems in this block are not listed`,
    );
  }
}

function write(item: Draft, writer: BlockWriter): void {
  const { columns } = writer;
  if (item.kind === ITEM.comment || item.kind === ITEM.lineComment) writer.flags |= FLAG.comment;
  if (item.kind === ITEM.blockDelete) writer.flags |= FLAG.skip;
  if (item.side === null) columns.add(item.kind, item.form, item.value, item.start, item.end);
  else {
    columns.addSide(item.kind, item.form, item.side, item.start, item.end);
    if (item.kind === ITEM.statement || item.form === VALUE.expression) writer.flags |= FLAG.notPlain;
  }
  if (item.letter > 0) columns.setLetter(item.letter);
}

/** Makes what no item covers into one unread item, with a problem unless one stands there already. */
function fill(
  line: string,
  from: number,
  to: number,
  covered: (start: number, end: number) => boolean,
  problems: DraftProblem[],
  writer: BlockWriter,
): void {
  let start = from;
  let end = to;
  while (start < end && isBlank(line.charCodeAt(start))) start++;
  while (end > start && isBlank(line.charCodeAt(end - 1))) end--;
  if (start === end) return;
  writer.columns.add(ITEM.unread, VALUE.none, Number.NaN, start, end);
  writer.flags |= FLAG.notPlain;
  if (!covered(start, end)) problems.push(unreadProblem(line, start, end));
}

function unreadProblem(line: string, start: number, end: number): DraftProblem {
  const text = line.slice(start, Math.min(end, start + 40));
  const first = text[0] ?? "";
  const shown = excerpt(line.slice(start, end));
  if (POLAR_WORDS.test(text)) {
    const told = `${shown}: a polar radius or angle is not followed, so the position is unknown; write X and Y`;
    return { code: "polar-word", start, end, text: told };
  }
  if (/^\)[ \t]*$/.test(text)) {
    return {
      code: "stray-close",
      start,
      end,
      text: "a ) stands here without a ( before it; delete it or open the comment",
    };
  }
  if (/^[-+*/]/.test(first)) {
    return {
      code: "unread",
      start,
      end,
      text: `${shown} means nothing here; arithmetic stands in brackets, as in X[2*3]`,
    };
  }
  if (/^[A-Za-z]{4}/.test(text)) {
    return { code: "unread", start, end, text: `${shown} is no word; write text for the operator in parentheses` };
  }
  if (/^[\x21-\x7e]/.test(first))
    return { code: "unread", start, end, text: `${shown} means nothing here; delete it or put it in parentheses` };
  const code = (text.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0");
  return { code: "unread", start, end, text: `the character U+${code} means nothing in a program; delete it` };
}

/** Answers for rising ranges whether a problem touches them. */
function coverage(problems: readonly DraftProblem[]): (start: number, end: number) => boolean {
  const sorted = [...problems];
  let next = 0;
  let reach = -1;
  return (start, end) => {
    for (let p = sorted[next]; p !== undefined && p.start < end; p = sorted[++next]) reach = Math.max(reach, p.end);
    return reach > start;
  };
}

function isBlank(c: number): boolean {
  return c === 32 || c === 9;
}
