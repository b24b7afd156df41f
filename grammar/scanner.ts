/**
 * The plain scanner: reads the lines that most programs consist of (words with plain numbers, comments, `%`, `N`, `O`,
 * leading block delete) in one pass over the characters. It gives up on anything else and leaves no trace; the parser
 * then reads the line. For every line that it accepts, the parser would have written the same items.
 */
import { ITEM, VALUE } from "./blocks.ts";
import { type BlockWriter, FLAG } from "./columns.ts";

const TAB = 9;
const SPACE = 32;
const PLUS = 43;
const MINUS = 45;
const POINT = 46;
const ZERO = 48;
const NINE = 57;

/** 10^k is exact in a double up to here, so that one division rounds correctly. */
export const POWERS: readonly number[] = Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/**
 * Reads a line, or takes back what it wrote and returns false.
 * Only lines without any problem are read here.
 */
export function scanPlain(line: string, writer: BlockWriter): boolean {
  const columns = writer.columns;
  const length = line.length;
  let at = 0;
  // Words were met: `/`, `%`, `:` and O stand only before them.
  let begun = false;
  while (at < length) {
    const c = line.charCodeAt(at);
    if (c === SPACE || c === TAB) {
      at++;
      continue;
    }
    const upper = c & ~32;
    if (upper >= 65 && upper <= 90 && c >= 65) {
      const end = scanWord(line, at, length, upper, begun, writer);
      if (end < 0) return givenUp(writer);
      if (upper !== 78) begun = true;
      at = end;
    } else if (c === 40) {
      const close = line.indexOf(")", at);
      if (close < 0) return givenUp(writer);
      const nested = line.indexOf("(", at + 1);
      if ((nested >= 0 && nested < close) || beginsWithCut(line, at + 1)) return givenUp(writer);
      columns.add(ITEM.comment, VALUE.none, Number.NaN, at, close + 1);
      writer.flags |= FLAG.comment;
      at = close + 1;
    } else if (c === 59) {
      columns.add(ITEM.lineComment, VALUE.none, Number.NaN, at, length);
      writer.flags |= FLAG.comment;
      at = length;
    } else if (c === 47 && writer.itemsInBlock === 0) {
      at = scanBlockDelete(line, at, length, writer);
      writer.flags |= FLAG.skip;
      if (at < 0) return givenUp(writer);
    } else if (c === 37 && writer.itemsInBlock === 0 && line.trim() === "%") {
      columns.add(ITEM.percent, VALUE.none, Number.NaN, at, at + 1);
      at++;
    } else return givenUp(writer);
  }
  return true;
}

function givenUp(writer: BlockWriter): false {
  writer.rollback();
  return false;
}

/** A word with one good number. Returns its end, or -1. */
function scanWord(
  line: string,
  at: number,
  length: number,
  upper: number,
  begun: boolean,
  writer: BlockWriter,
): number {
  if (upper === 79 && begun) return -1;
  let i = at + 1;
  let end = i;
  let mantissa = 0;
  let digits = 0;
  let decimals = 0;
  let point = false;
  let negative = false;
  let signed = false;
  for (; i < length; i++) {
    const c = line.charCodeAt(i);
    if (c >= ZERO && c <= NINE) {
      mantissa = mantissa * 10 + (c - ZERO);
      digits++;
      if (point) decimals++;
      end = i + 1;
    } else if (c === POINT) {
      if (point) return -1;
      point = true;
      end = i + 1;
    } else if (c === MINUS || c === PLUS) {
      if (signed || point || digits > 0) return -1;
      signed = true;
      negative = c === MINUS;
    } else if (c !== SPACE && c !== TAB) break;
  }
  // More digits than a double holds exactly: the parser reads them the slow way.
  if (digits === 0 || digits > 15) return -1;
  if (i < length) {
    const next = line.charCodeAt(i);
    // A letter O or l in a number, a bracket, an operator: not plain.
    if (next === 79 || next === 111 || next === 108) {
      if (upper !== 78 || next === 108) return -1;
    } else if (next !== 40 && next !== 59 && !isLetter(next)) return -1;
  }
  // `O100 while […]`: what follows may be a keyword.
  if (
    upper === 79 &&
    i < length &&
    isLetter(line.charCodeAt(i)) &&
    i + 1 < length &&
    isLetter(line.charCodeAt(i + 1))
  ) {
    return -1;
  }
  const value = decimals === 0 ? mantissa : mantissa / (POWERS[decimals] ?? 1);
  writer.columns.add(upper, point ? VALUE.real : VALUE.integer, negative ? 0 - value : value, at, end);
  return end;
}

function scanBlockDelete(line: string, at: number, length: number, writer: BlockWriter): number {
  let i = at + 1;
  let end = i;
  let value = 0;
  for (; i < length; i++) {
    const c = line.charCodeAt(i);
    if (c >= ZERO && c <= NINE) {
      value = value * 10 + (c - ZERO);
      end = i + 1;
    } else if (c !== SPACE && c !== TAB) break;
  }
  if (i < length && !isLetter(line.charCodeAt(i)) && line.charCodeAt(i) !== 40) return -1;
  if (end > at + 10) return -1;
  writer.columns.add(ITEM.blockDelete, VALUE.integer, end === at + 1 ? 1 : value, at, end);
  return end;
}

function isLetter(c: number): boolean {
  const upper = c & ~32;
  return upper >= 65 && upper <= 90 && c >= 65;
}

/** Cut notes are checked by the parser's path. */
function beginsWithCut(line: string, at: number): boolean {
  let i = at;
  while (line.charCodeAt(i) === SPACE || line.charCodeAt(i) === TAB) i++;
  const c = line.charCodeAt(i) & ~32;
  return c === 67 && (line.charCodeAt(i + 1) & ~32) === 85 && (line.charCodeAt(i + 2) & ~32) === 84;
}
