/** Text for a terminal: nothing in a program or a file name may steer the terminal, and columns stay columns. */

/** Makes every character that does not print visible, so that a text cannot move the cursor or turn its direction. */
export function clean(text: string): string {
  return text.replace(/\p{Cc}|[\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/gu, (character) => {
    const code = character.charCodeAt(0);
    if (code === 9) return " ";
    return code < 32 ? String.fromCharCode(0x2400 + code) : "\u00b7";
  });
}

const WIDE =
  /^[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;

/** Columns that a cleaned text takes. */
export function columns(text: string): number {
  let sum = 0;
  for (const character of text) {
    if (WIDE.test(character)) sum += 2;
    else if (!/^\p{Mn}/u.test(character)) sum += 1;
  }
  return sum;
}

const UNIT = /(\d) (?=(?:mm|in|m|ft|kW|hp|N|lbf|bar|psi|L|gal|cm³|in³|1|s|min|ksi|holes?)(?![A-Za-z])|%)/g;

const LINE = /\b(lines?) (?=\d)/g;

/** Breaks at spaces, never between a number and its unit or `line` and its number. A word longer than the width stays whole. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split("\n")) {
    let line = "";
    for (const word of paragraph.replace(UNIT, "$1\u00a0").replace(LINE, "$1\u00a0").split(" ")) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (line !== "" && columns(longer) > width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    lines.push(line);
  }
  return lines.map((line) => line.replaceAll("\u00a0", " "));
}

export interface Excerpt {
  readonly source: string;
  readonly caret: string;
}

/**
 * The source line with the place underlined, cut to the width around it.
 * @param start UTF-16 column from 0, `end` one past the last; an empty place gets one caret
 */
export function excerpt(line: string, start: number, end: number, width: number): Excerpt {
  let head = clean(line.slice(0, start));
  const marked = clean(line.slice(start, end));
  let tail = clean(line.slice(end));
  if (columns(head + marked + tail) > width) {
    const room = Math.max(8, Math.floor((width - Math.min(columns(marked), width)) / 2));
    if (columns(head) > room) head = `…${lastColumns(head, room - 1)}`;
    const left = width - columns(head) - columns(marked);
    if (columns(tail) > left) tail = `${firstColumns(tail, Math.max(0, left - 1))}…`;
  }
  return { source: head + marked + tail, caret: " ".repeat(columns(head)) + "^".repeat(Math.max(1, columns(marked))) };
}

function firstColumns(text: string, width: number): string {
  let out = "";
  let used = 0;
  for (const character of text) {
    used += columns(character);
    if (used > width) break;
    out += character;
  }
  return out;
}

function lastColumns(text: string, width: number): string {
  let out = "";
  let used = 0;
  for (const character of [...text].reverse()) {
    used += columns(character);
    if (used > width) break;
    out = character + out;
  }
  return out;
}

/** The last column of a table is wrapped under itself where this much is left for it. */
const LEAST_COLUMN = 14;

/**
 * Rows as columns that line up, two spaces between them.
 * @param right columns of numbers
 * @param width the last column goes on below itself, or indented below the row, where a row is longer
 */
export function table(
  rows: readonly (readonly string[])[],
  right: ReadonlySet<number> = new Set(),
  width = Number.POSITIVE_INFINITY,
): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, columns(cell));
    });
  }
  return rows.flatMap((row) => {
    const cells = row.map((cell, i) => {
      const gap = " ".repeat(Math.max(0, (widths[i] ?? 0) - columns(cell)));
      return right.has(i) ? gap + cell : cell + gap;
    });
    const line = cells.join("  ").trimEnd();
    if (columns(line) <= width) return [line];
    const head = cells
      .slice(0, -1)
      .map((cell) => `${cell}  `)
      .join("");
    const last = row.at(-1) ?? "";
    const room = width - columns(head);
    if (room < LEAST_COLUMN) return [head.trimEnd(), ...wrap(last, width - 4).map((more) => `    ${more}`)];
    return wrap(last, room).map((more, i) => (i === 0 ? head : " ".repeat(columns(head))) + more);
  });
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
