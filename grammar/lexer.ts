/**
 * The Chevrotain lexer for one line: one token per whole word, and a mode of its own inside brackets, where letters are
 * functions and operators instead of addresses. It knows every character, so it has no errors of its own.
 */
import { type CustomPatternMatcherReturn, createToken, type IToken, Lexer, type TokenType } from "chevrotain";
import {
  ANY_FUNCTION,
  FULL_FUNCTION,
  NAME_LETTERS,
  SHORT_OR_FULL,
  SPACED_OPERATOR,
  STRUCTURED_WORD,
  WORD_OPERATOR,
} from "./functions.ts";
import { type Output, outputAt } from "./outputs.ts";
import { type ReadNumber, type ReadWord, readNumber, readWord } from "./words.ts";

type Matcher = (text: string, at: number, tokens: IToken[]) => CustomPatternMatcherReturn | null;

/** Stands for brackets that nest too deeply; they are cut out before parsing. Of the private use area. */
export const TOO_DEEP_MARK = "\uE000";

export const T = {
  Blank: createToken({ name: "Blank", pattern: /[ \t]+/, group: Lexer.SKIPPED }),
  Comment: createToken({ name: "Comment", pattern: /\([^)]*\)?/, group: "comments", line_breaks: false }),
  LineComment: createToken({ name: "LineComment", pattern: /;[\s\S]*/, group: "comments", line_breaks: false }),
  Operator: createToken({ name: "Operator", pattern: Lexer.NA }),
  Stray: createToken({ name: "Stray", pattern: Lexer.NA }),
};

function token(
  name: string,
  pattern: RegExp | Matcher,
  hint: string | undefined,
  more: { categories?: TokenType[]; push_mode?: string; pop_mode?: boolean } = {},
): TokenType {
  const custom = typeof pattern === "function" ? { pattern: { exec: pattern } } : { pattern };
  const hints = hint === undefined ? {} : { start_chars_hint: [...hint] };
  return createToken({ name, ...custom, line_breaks: false, ...hints, ...more });
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
/** As a range, because Chevrotain cannot see which characters a complement such as `[^]` begins with. */
const ANY_CHARACTER = new RegExp(`[${String.fromCharCode(0)}-\uffff]`);
const NUMERALS = "0123456789.";

const letter = token("Letter", /[A-Z]/i, undefined);
const number = token("Number", matchNumber, NUMERALS, { categories: [T.Stray] });
const name = token("Name", /<[^<>]*>/, undefined, { categories: [T.Stray] });
const hash = token("Hash", /#/, undefined);
const word = token("Word", matchWord, LETTERS);
const slash = token("Slash", /\//, undefined, { categories: [T.Operator] });
const open = token("Open", /\[/, undefined, { push_mode: "inside" });
const close = token("Close", /\]/, undefined, { pop_mode: true });
// Tokens of the line in which a condition was last begun: looking back through a long line would be quadratic.
let lineWithWhile: IToken[] | undefined;
let lineWithIf: IToken[] | undefined;
const whileWord = token(
  "While",
  (text, at, tokens) => {
    const match = matchKeyword(/WH(?:ILE)?(?=[ \t]*\[)/iy, /WHILE/iy)(text, at, tokens);
    if (match !== null) lineWithWhile = tokens;
    return match;
  },
  "Ww",
);
const ifWord = token(
  "If",
  (text, at, tokens) => {
    const match = matchKeyword(/IF(?=[ \t]*\[)/iy, /IF/iy)(text, at, tokens);
    if (match !== null) lineWithIf = tokens;
    return match;
  },
  "Ii",
);

/** Tokens by what the parser calls them. */
export const TOKEN = {
  letter,
  number,
  name,
  hash,
  word,
  slash,
  open,
  close,
  whileWord,
  ifWord,
  output: token("Output", matchOutput, "PpDdBbSs"),
  percent: token("Percent", /%(?:\d+(?![\d.]))?/, undefined),
  colon: token("ColonNumber", (text, at, tokens) => (isStart(tokens) ? matchColon(text, at) : null), ":"),
  /** O with a name. The number form is an ordinary word. */
  label: token("NameLabel", /O[ \t]*<[^<>]*>/i, undefined),
  structured: token("Structured", matchStructured, "SsEeCcIiWwDdRrBb"),
  commaLetter: token("CommaLetter", /,[ \t]*[RCA](?![A-Z])/i, undefined),
  goto: token("Goto", matchGoto, "Gg"),
  thenWord: token(
    "Then",
    (text, at, tokens) => run(tokens.at(-1)?.tokenType === close ? /TH(?:EN)?/iy : /THEN/iy, text, at),
    "Tt",
  ),
  do: token("Do", matchDo, "Dd"),
  end: token("End", matchKeyword(/END(?=[ \t]*[0-9])/iy, /EN(?:D|(?=[ \t]*[0-9]))/iy), "Ee"),
  fn: token("Function", matchFunction, LETTERS),
  fnInside: token("FunctionInside", (text, at) => run(ANY_FUNCTION, text, at), LETTERS),
  unknownFn: token("UnknownFunction", matchUnknownFunction, LETTERS),
  text: token("Text", matchText, LETTERS, { categories: [T.Stray] }),
  wordOperator: token("WordOperator", matchOperator, "MmAaXxOoEeNnGgLl", { categories: [T.Operator] }),
  operatorInside: token("OperatorInside", (text, at) => run(SPACED_OPERATOR, text, at), "MmAaXxOoEeNnGgLl", {
    categories: [T.Operator],
  }),
  letters: token("Letters", (text, at) => run(NAME_LETTERS, text, at), LETTERS),
  power: token("Power", /\*\*/, undefined, { categories: [T.Operator] }),
  times: token("Times", /\*/, undefined, { categories: [T.Operator] }),
  plus: token("Plus", /\+/, undefined, { categories: [T.Operator] }),
  minus: token("Minus", /-/, undefined, { categories: [T.Operator] }),
  equals: token("Equals", /=/, undefined, { categories: [T.Stray] }),
  comma: token("Comma", /,/, undefined, { categories: [T.Stray] }),
  tooDeep: token("TooDeep", /\uE000+/, undefined),
  /** A closing bracket outside brackets. */
  strayClose: token("StrayClose", /\]/, undefined, { categories: [T.Stray] }),
  unknown: token("Unknown", ANY_CHARACTER, undefined, { categories: [T.Stray] }),
};

const k = TOKEN;
const modes = {
  block: [
    T.Blank,
    T.Comment,
    T.LineComment,
    k.output,
    k.label,
    k.structured,
    k.goto,
    k.ifWord,
    k.whileWord,
    k.thenWord,
    k.do,
    k.end,
    k.fn,
    k.unknownFn,
    k.wordOperator,
    k.text,
    k.word,
    k.letter,
    k.number,
    k.hash,
    k.open,
    k.strayClose,
    k.slash,
    k.percent,
    k.colon,
    k.commaLetter,
    k.comma,
    k.power,
    k.times,
    k.plus,
    k.minus,
    k.equals,
    k.name,
    k.tooDeep,
    k.unknown,
  ],
  inside: [
    T.Blank,
    T.Comment,
    T.LineComment,
    k.fnInside,
    k.operatorInside,
    k.letters,
    k.number,
    k.hash,
    k.open,
    k.close,
    k.slash,
    k.comma,
    k.power,
    k.times,
    k.plus,
    k.minus,
    k.equals,
    k.name,
    k.tooDeep,
    k.unknown,
  ],
};

export const VOCABULARY: TokenType[] = [T.Operator, T.Stray, ...new Set([...modes.block, ...modes.inside])];

/** @param checked run the lexer's own validation of its tokens (tests do; it costs start-up time) */
export function makeLexer(checked: boolean): Lexer {
  return new Lexer(
    { modes, defaultMode: "block" },
    { positionTracking: "onlyOffset", ensureOptimizations: true, skipValidations: !checked },
  );
}

export const numberOf = (t: IToken): ReadNumber => t.payload as ReadNumber;
export const wordOf = (t: IToken): ReadWord => t.payload as ReadWord;
export const outputOf = (t: IToken): Output => t.payload as Output;

/** True where a function's name with its bracket begins. */
export function isFunctionAt(text: string, at: number): boolean {
  SHORT_OR_FULL.lastIndex = at;
  return SHORT_OR_FULL.test(text);
}

function run(pattern: RegExp, text: string, at: number): CustomPatternMatcherReturn | null {
  pattern.lastIndex = at;
  return pattern.exec(text) as CustomPatternMatcherReturn | null;
}

function withPayload(text: string, payload: unknown): CustomPatternMatcherReturn {
  const match: CustomPatternMatcherReturn = [text];
  match.payload = payload;
  return match;
}

function matchNumber(text: string, at: number): CustomPatternMatcherReturn | null {
  const read = readNumber(text, at);
  return read === null ? null : withPayload(text.slice(at, read.end), read);
}

function matchWord(text: string, at: number): CustomPatternMatcherReturn | null {
  const read = readWord(text, at, isFunctionAt);
  return read === null ? null : withPayload(text.slice(at, read.end), read);
}

function matchOutput(text: string, at: number): CustomPatternMatcherReturn | null {
  const read = outputAt(text, at);
  return read === null ? null : withPayload(text.slice(at, read.end), read);
}

/** Statement position: nothing but N and a block delete before. */
function isStart(tokens: IToken[]): boolean {
  const last = tokens.at(-1);
  if (last === undefined) return true;
  if (last.tokenType === word) return last.image[0] === "N" || last.image[0] === "n";
  if (last.tokenType === number) return tokens.at(-2)?.tokenType === slash && tokens.length <= 3;
  return last.tokenType === slash && tokens.length <= 2;
}

function matchKeyword(anywhere: RegExp, atStart: RegExp): Matcher {
  return (text, at, tokens) => run(anywhere, text, at) ?? (isStart(tokens) ? run(atStart, text, at) : null);
}

/** `GO` means GOTO only behind a condition: elsewhere it may as well be G0 with a letter O. */
function matchGoto(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  const afterCondition = tokens.at(-1)?.tokenType === close && lineWithIf === tokens;
  return run(afterCondition ? /GO(?:TO)?/iy : /GOTO/iy, text, at);
}

/** `DO` in mid-block would be D0 with a letter O. */
function matchDo(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  const afterCondition = tokens.at(-1)?.tokenType === close && lineWithWhile === tokens;
  return afterCondition || isStart(tokens) ? run(/DO/iy, text, at) : null;
}

function matchColon(text: string, at: number): CustomPatternMatcherReturn | null {
  let start = at + 1;
  while (text[start] === " " || text[start] === "\t") start++;
  const read = readNumber(text, start);
  return read === null || read.point ? null : withPayload(text.slice(at, read.end), read);
}

function matchStructured(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  const last = tokens.at(-1);
  const isLabel = last?.tokenType === TOKEN.label || (last?.tokenType === word && /^o/i.test(last.image));
  return isLabel ? run(STRUCTURED_WORD, text, at) : null;
}

function isOperandDue(last: IToken | undefined): boolean {
  if (last === undefined) return false;
  const type = last.tokenType;
  return (
    type === letter ||
    type === TOKEN.commaLetter ||
    type === TOKEN.equals ||
    type === hash ||
    type.CATEGORIES?.includes(T.Operator) === true
  );
}

function matchFunction(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  return run(isOperandDue(tokens.at(-1)) ? SHORT_OR_FULL : FULL_FUNCTION, text, at);
}

/** `Xasim[0.5]`: three or more letters before a bracket where an operand is due. */
function matchUnknownFunction(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  return isOperandDue(tokens.at(-1)) ? run(/[A-Z]{3,12}(?=[ \t]*\[)/iy, text, at) : null;
}

/** Operators spelt in letters, outside brackets only right after an operand of an assignment. */
function matchOperator(text: string, at: number, tokens: IToken[]): CustomPatternMatcherReturn | null {
  const type = tokens.at(-1)?.tokenType;
  return type === number || type === close || type === name ? run(WORD_OPERATOR, text, at) : null;
}

/**
 * Plain text without parentheses, such as `TOOL CHANGE`: four or more letters in a row. A last letter that has a value
 * is left alone. Reading it letter by letter would make a heap of problems out of one.
 */
function matchText(text: string, at: number): CustomPatternMatcherReturn | null {
  const found = run(NAME_LETTERS, text, at)?.[0] ?? "";
  if (found.length < 4) return null;
  const next = text.slice(at + found.length, at + found.length + 32).trimStart()[0] ?? "";
  if (next === "[" && found.length <= 12) return null;
  return [/[-+.#[0-9]/.test(next) ? found.slice(0, -1) : found];
}
