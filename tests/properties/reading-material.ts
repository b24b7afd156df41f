/** Text to read: arbitrary, NC-like, near-plain; and what was read, in a form that can be compared. */
import fc from "fast-check";
import type { Blocks } from "../../grammar/blocks.ts";
import { BlockWriter, Columns } from "../../grammar/columns.ts";

const pieces = (...values: string[]) => fc.constantFrom(...values);

const letter = fc.constantFrom(..."GXYZFSTMNHRQPLOABCDEIJKUVWgxyzfsmnhrlo");
const blank = pieces("", "", "", " ", "  ", "\t");
const digits = fc.stringMatching(/^[0-9]{1,4}$/);
const numeral = fc.oneof(
  digits,
  fc.tuple(digits, blank, digits).map(([a, b, c]) => `${a}${b}.${c}`),
  digits.map((d) => `${d}.`),
  digits.map((d) => `.${d}`),
  fc.tuple(digits, blank, digits).map((parts) => parts.join("")),
);

/** A word, nearly always a good one. */
export const plainWord = fc
  .tuple(letter, blank, pieces("", "", "", "-", "+"), blank, numeral)
  .map((parts) => parts.join(""));

const comment = fc.oneof(
  pieces("(CENTRE DRILL)", "(a;b)", "( )", "()", "(MSG, HELLO)", "(CUT ENTRY SKIN)", "(CUTTER 5)", "(öß€)"),
  fc.stringMatching(/^[A-Z0-9 .=+-]{0,12}$/).map((text) => `(${text})`),
);

/** Lines that the plain scanner was made for, with the odd thing that it must refuse. */
export const nearPlainLine = fc
  .array(
    fc.oneof(
      { weight: 12, arbitrary: fc.tuple(plainWord, blank).map((p) => p.join("")) },
      { weight: 3, arbitrary: comment },
      {
        weight: 1,
        arbitrary: pieces("; rest (of) line", ";", "/", "/2", "%", ":12", "O100", "o<n>", "X", "x1l5", "X1O2"),
      },
      {
        weight: 1,
        arbitrary: pieces("#1=2", "X#1", "(open", ")", "X1.2.3", "X.", "1", "-", "]", "é", "\u00a0", ",R2."),
      },
      { weight: 1, arbitrary: blank },
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(""));

const odd = pieces(
  "[",
  "]",
  "#",
  "=",
  "**",
  "*",
  "/",
  "-",
  "+",
  "(",
  ")",
  ";",
  ",",
  "<",
  ">",
  ".",
  "$",
  "%",
  ":",
  "\\",
  "\u0000",
  "\ufeff",
  "[#1+2.]",
  "[1--3]",
  "ATAN[1]/[2]",
  "Xasim[0.5]",
  "IF[#1LT#2]",
  "GOTO1",
  "THEN#3=0",
  "WHILE[#1LE3]DO1",
  "WH[#1]DO2",
  "END1",
  "o100 while [#1 lt 5]",
  "o<part> call [1] [2]",
  "#<_name>",
  "##1",
  "#[#1]",
  "#1=#1-#11:",
  "MOD",
  "AND",
  "EQ",
  "SIN[30]",
  "XSIN",
  "TOOL CHANGE",
  "IF #1",
  "[[[",
  "]]]",
  "<a b>",
  "l",
  "O",
  "END",
  "DO",
  "GO",
  "\ud83d\ude00",
  "\ud800",
  "\u2028",
  "\u00a0",
  "1E3",
  "(a (b) c)",
  "\ue000",
  ",R2.",
  ",C#1",
  "POW[2,3]",
  "[1,2]",
  "\v",
  "\f",
  "(CUT ALLOW X)",
  "POPEN",
  "pclos",
  "DPRNT[X#100[53]*Y#101[53]]",
  "BPRNT[",
  "SETVN 510[DEPTH-1, (WIDTH); X]",
  "DPRNT [",
);

/** One line of what may stand in a program, well-formed or not. */
export const anyLine = fc.oneof(
  { weight: 3, arbitrary: nearPlainLine },
  {
    weight: 4,
    arbitrary: fc.array(fc.oneof(plainWord, odd, blank, comment), { maxLength: 10 }).map((parts) => parts.join("")),
  },
  { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 40 }) },
  { weight: 1, arbitrary: fc.string({ unit: fc.constantFrom(..."XYO1l.#[]()+-*/=<>,;% \tSINIFE"), maxLength: 40 }) },
);

export const eol = pieces("\n", "\n", "\r\n", "\r\n", "\r");

export const anyText = fc
  .array(fc.tuple(anyLine, eol), { maxLength: 12 })
  .map((lines) => lines.map((line) => line.join("")).join(""));

export interface ReadItem {
  readonly kind: number;
  readonly form: number;
  readonly value: number;
  readonly start: number;
  readonly end: number;
  readonly letter: number;
  readonly side: unknown;
}

/** All that `Blocks` tells about one line. */
export function itemsOf(blocks: Blocks, block: number): ReadItem[] {
  const first = blocks.firstItem(block);
  return Array.from({ length: blocks.itemCount(block) }, (_, i) => ({
    kind: blocks.kind(first + i),
    form: blocks.form(first + i),
    value: blocks.value(first + i),
    start: blocks.start(first + i),
    end: blocks.end(first + i),
    letter: blocks.letterAfterComma(first + i),
    side: blocks.expression(first + i) ?? blocks.statement(first + i) ?? blocks.name(first + i) ?? null,
  }));
}

/** The whole program, with lines instead of block ids. */
export function wholeOf(blocks: Blocks): unknown {
  const lines = Array.from({ length: blocks.count }, (_, line) => {
    const block = blocks.blockAt(line);
    return {
      items: itemsOf(blocks, block),
      text: blocks.textOf(block),
      comment: blocks.hasComment(block),
      plain: blocks.isPlain(block),
    };
  });
  const problems = blocks.problems().map((p) => ({ ...p, span: { ...p.span, block: blocks.lineOf(p.span.block) } }));
  return { lines, problems };
}

/** Reads a line with one of the two readers alone; null where it gave up. */
export function readWith(reader: (line: string, writer: BlockWriter) => boolean | undefined, line: string): unknown {
  const columns = new Columns(4);
  const writer = new BlockWriter(columns);
  writer.begin(1);
  const accepted = reader(line, writer);
  if (accepted === false) return columns.count === 0 && writer.problems.size === 0 ? null : "left a trace";
  const items = Array.from({ length: columns.count }, (_, i) => ({
    kind: columns.kind(i),
    form: columns.form(i),
    value: columns.value(i),
    start: columns.start(i),
    end: columns.end(i),
    letter: columns.letter(i),
    side: columns.side(i) ?? null,
  }));
  return { items, flags: writer.flags, problems: writer.problems.get(1) ?? [] };
}
