/** Reads one word as the lexer sees it: a letter and what was meant as its number, faults included. */
import { VALUE } from "./blocks.ts";

export type WordFault = "bad-number" | "letter-in-number";

export interface ReadWord {
  readonly end: number;
  /** NaN where a fault stands. */
  readonly value: number;
  readonly form: number;
  readonly fault: WordFault | null;
}

export interface ReadNumber {
  readonly end: number;
  readonly value: number;
  readonly point: boolean;
}

/** Digits with at most one point and white space anywhere between, from a place where one of them stands. */
export function readNumber(text: string, at: number): ReadNumber | null {
  let i = at;
  let end = at;
  let digits = 0;
  let point = false;
  let blanks = false;
  for (; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c >= 48 && c <= 57) {
      digits++;
      if (i > end) blanks = true;
      end = i + 1;
    } else if (c === 46 && !point) {
      point = true;
      if (i > end) blanks = true;
      end = i + 1;
    } else if (c !== 32 && c !== 9) break;
  }
  if (digits === 0) return null;
  const written = text.slice(at, end);
  return { end, value: Number(blanks ? written.replaceAll(/[ \t]+/g, "") : written), point };
}

/**
 * @param at a letter
 * @returns null where the letter has no number of its own: it stands alone or its value is parametric
 */
export function readWord(text: string, at: number, isFunction: (text: string, at: number) => boolean): ReadWord | null {
  let i = skipBlanks(text, at + 1);
  const sign = text[i];
  const signed = sign === "-" || sign === "+";
  if (signed) i = skipBlanks(text, i + 1);
  const number = readNumber(text, i);
  if (number === null) return withoutDigits(text, at, i, signed, isFunction);
  const next = text[number.end] ?? "";
  if (isDisguisedDigit(text, at, next)) return mixed(text, at);
  // A second point belongs to the same attempt at a number.
  if (text[skipBlanks(text, number.end)] === ".") return fault("bad-number", runEnd(text, at, false));
  // `X1,5`: a decimal comma. Reading X1 would be a wrong motion.
  const decimals = next === "," ? readNumber(text, number.end + 1) : null;
  if (decimals !== null) return fault("bad-number", decimals.end);
  if (!Number.isFinite(number.value)) return fault("bad-number", number.end);
  const value = sign === "-" ? 0 - number.value : number.value;
  return { end: number.end, value, form: number.point ? VALUE.real : VALUE.integer, fault: null };
}

function withoutDigits(
  text: string,
  at: number,
  i: number,
  signed: boolean,
  isFunction: (text: string, at: number) => boolean,
): ReadWord | null {
  const c = text[i] ?? "";
  if (c === ".") {
    const end = runEnd(text, at, false);
    return isDisguisedDigit(text, at, text[end] ?? "") ? mixed(text, at) : fault("bad-number", end);
  }
  // `XO.5`, `GO`: the letter where the digit should be, with nothing between.
  if (isDisguisedDigit(text, at, c) && (signed || i === at + 1) && !isFunction(text, i)) return mixed(text, at);
  if (!signed || c === "#" || c === "[" || isFunction(text, i)) return null;
  if (c === "-" || c === "+") {
    // More than one sign: `X--5`. Before a bracket or a variable the parser sees to it.
    let end = i;
    while (text[end] === "-" || text[end] === "+") end = skipBlanks(text, end + 1);
    if (text[end] === "#" || text[end] === "[" || isFunction(text, end)) return null;
    const number = readNumber(text, end);
    return fault("bad-number", number?.end ?? lastInk(text, end));
  }
  return fault("bad-number", lastInk(text, i));
}

/** O in any word but N; l only where the word's own letter is a capital, since `x1l3` is X1 L3. */
function isDisguisedDigit(text: string, at: number, c: string): boolean {
  const letter = text[at] ?? "";
  if (letter === "N" || letter === "n") return false;
  return c === "O" || c === "o" || (c === "l" && letter === letter.toUpperCase());
}

function mixed(text: string, at: number): ReadWord {
  return fault("letter-in-number", runEnd(text, at, true));
}

function fault(code: WordFault, end: number): ReadWord {
  return { end, value: Number.NaN, form: VALUE.none, fault: code };
}

/** End of the sign, digits and points behind a letter; with `letters`, an O or l that touches them belongs to them. */
function runEnd(text: string, at: number, letters: boolean): number {
  let end = at + 1;
  for (let i = at + 1; i < text.length; i++) {
    const c = text[i] ?? "";
    const sign = (c === "-" || c === "+") && end === at + 1;
    const letter = letters && i === end && isDisguisedDigit(text, at, c);
    if (sign || letter || c === "." || (c >= "0" && c <= "9")) end = i + 1;
    else if (c !== " " && c !== "\t") break;
  }
  return end;
}

function skipBlanks(text: string, at: number): number {
  let i = at;
  while (text.charCodeAt(i) === 32 || text.charCodeAt(i) === 9) i++;
  return i;
}

function lastInk(text: string, end: number): number {
  let i = end;
  while (i > 0 && (text.charCodeAt(i - 1) === 32 || text.charCodeAt(i - 1) === 9)) i--;
  return i;
}
