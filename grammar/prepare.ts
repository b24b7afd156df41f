/**
 * One look along a line before it is lexed: brackets that nest too deeply are masked, so that the parser's recursion has
 * a bound, and a bracket that never closes is cut off at the next thing that must be a word, so that the rest of the
 * block can be read.
 */
import { TOO_DEEP_MARK } from "./lexer.ts";
import { outputAt } from "./outputs.ts";

/** Deeper than any dialect allows (five is usual), shallow enough for any stack. */
export const MAX_DEPTH = 32;

export interface Prepared {
  /** As long as the line. */
  readonly text: string;
  readonly tooDeep: readonly (readonly [start: number, end: number])[];
  /** Where the line is to be read in parts, rising. */
  readonly cuts: readonly number[];
}

/** Brackets left open on one line, each cut off on its own; more of them are read as one. */
const MAX_CUTS = 16;

export function prepare(line: string): Prepared {
  const tooDeep: [number, number][] = [];
  const cuts: number[] = [];
  if (!line.includes("[")) return { text: line, tooDeep, cuts };
  let next = look(line, 0, tooDeep);
  while (next >= 0 && cuts.length < MAX_CUTS) {
    cuts.push(next);
    next = look(line, next, tooDeep);
  }
  return { text: mask(line, tooDeep), tooDeep, cuts };
}

/** Looks along the line from a place outside brackets; returns where to cut, or -1. */
function look(line: string, from: number, tooDeep: [number, number][]): number {
  let depth = 0;
  let deepest = 0;
  let opened = 0;
  let word = -1;
  let inkEnd = from;
  for (let i = from; i < line.length; i++) {
    const c = line.charCodeAt(i);
    if (c === 40) {
      const close = line.indexOf(")", i);
      i = close < 0 ? line.length : close;
      continue;
    }
    if (c === 59) break;
    const output = depth === 0 && isLetter(c) ? outputAt(line, i) : null;
    if (output !== null) {
      i = output.end - 1;
      inkEnd = output.end;
      continue;
    }
    if (c !== 32 && c !== 9) inkEnd = i + 1;
    if (c === 91) {
      if (depth === 0) {
        opened = i;
        deepest = 0;
        word = -1;
      }
      depth++;
      deepest = Math.max(deepest, depth);
    } else if (c === 93 && depth > 0) {
      depth--;
      if (depth === 0 && deepest > MAX_DEPTH) tooDeep.push([opened, i + 1]);
    } else if (depth > 0 && word < 0 && isWordStart(line, i)) word = i;
  }
  if (depth === 0) return -1;
  // Nothing behind the cut has been counted: it is looked at again from there.
  if (deepest > MAX_DEPTH) {
    tooDeep.push([opened, word >= 0 ? lastInk(line, word) : inkEnd]);
  }
  return word;
}

/** A single letter with a value: an address, since functions and operators have at least two letters. */
function isWordStart(line: string, at: number): boolean {
  if (!isLetter(line.charCodeAt(at)) || isLetter(line.charCodeAt(at - 1))) return false;
  let i = at + 1;
  while (line.charCodeAt(i) === 32 || line.charCodeAt(i) === 9) i++;
  return /[-+.#[0-9]/.test(line[i] ?? "");
}

function isLetter(c: number): boolean {
  return (c >= 65 && c <= 90) || (c >= 97 && c <= 122);
}

function lastInk(line: string, end: number): number {
  let i = end;
  while (i > 0 && (line.charCodeAt(i - 1) === 32 || line.charCodeAt(i - 1) === 9)) i--;
  return i;
}

function mask(line: string, ranges: readonly (readonly [number, number])[]): string {
  let text = "";
  let at = 0;
  for (const [start, end] of ranges) {
    text += line.slice(at, start) + TOO_DEEP_MARK.repeat(end - start);
    at = end;
  }
  return text + line.slice(at);
}
