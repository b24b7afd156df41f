/** What the parser's rules write into: items of one block as drafts, and the problems met on the way. */
import { ITEM, type ProblemCode, VALUE } from "./blocks.ts";
import type { SideValue } from "./columns.ts";
import type { Expr, Statement } from "./expressions.ts";
import type { ReadWord } from "./words.ts";

export interface Draft {
  readonly kind: number;
  readonly form: number;
  readonly value: number;
  readonly start: number;
  readonly end: number;
  readonly side: SideValue | null;
  /** Letter's char code of a comma word, else 0. */
  readonly letter: number;
}

export interface DraftProblem {
  readonly code: ProblemCode;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export class DraftBlock {
  readonly items: Draft[] = [];
  readonly problems: DraftProblem[] = [];
  /** From here on nothing can be trusted: the rest of the line stays unread. */
  unreadFrom = Number.POSITIVE_INFINITY;
  /** Words have begun: what was met is not only N, block delete and `%`. */
  begun = false;

  add(
    kind: number,
    form: number,
    value: number,
    start: number,
    end: number,
    side: SideValue | null = null,
    letter = 0,
  ): void {
    this.items.push({ kind, form, value, start, end, side, letter });
    if (kind !== 78 && kind !== ITEM.blockDelete && kind !== ITEM.percent) this.begun = true;
  }

  problem(code: ProblemCode, start: number, end: number, text: string): void {
    this.problems.push({ code, start, end, text });
  }

  word(line: string, start: number, read: ReadWord): void {
    const letter = line.charCodeAt(start) & ~32;
    const mid = this.begun;
    this.add(letter, read.form, read.value, start, read.end);
    const written = excerpt(line.slice(start, read.end));
    const name = String.fromCharCode(letter);
    if (read.fault === "bad-number") {
      this.problem(
        "bad-number",
        start,
        read.end,
        `${written} holds no readable number; write ${name} with one number such as ${name}1.5`,
      );
    } else if (read.fault === "letter-in-number") {
      const digits = line
        .slice(start + 1, read.end)
        .replaceAll(/o/gi, "0")
        .replaceAll("l", "1");
      this.problem(
        "letter-in-number",
        start,
        read.end,
        `${written} has a letter where a digit is meant; if ${excerpt(name + digits)} is meant, write digits only`,
      );
    } else if (letter === 79 && mid) {
      this.problem(
        "letter-in-number",
        start,
        read.end,
        `${written} stands in mid-block: a program number begins its block, and zero is written 0`,
      );
    }
  }

  /** A letter whose value is parametric or missing. */
  openWord(
    line: string,
    start: number,
    letterAt: number,
    end: number,
    value: Expr | undefined,
    valueEnd: number,
  ): void {
    const letter = line.charCodeAt(letterAt) & ~32;
    const kind = letterAt === start ? letter : ITEM.comma;
    const tag = letterAt === start ? 0 : letter;
    if (value === undefined) {
      this.add(kind, VALUE.none, Number.NaN, start, end, null, tag);
      this.problem(
        "no-value",
        start,
        end,
        `${line.slice(start, end)} has no value; write a number after it or delete it`,
      );
    } else if (kind === ITEM.comma && value.kind === "number" && line[value.start] !== "[") {
      this.add(kind, value.point ? VALUE.real : VALUE.integer, value.value, start, valueEnd, null, tag);
    } else this.add(kind, VALUE.expression, Number.NaN, start, valueEnd, value, tag);
  }

  statement(statement: Statement): void {
    this.add(ITEM.statement, VALUE.none, Number.NaN, statement.start, statement.end, statement);
  }

  /** A statement that lacks what it needs: nothing after it on the line can be trusted either. */
  brokenStatement(start: number, end: number, text: string): void {
    this.problem("bad-statement", start, end, text);
    this.unreadFrom = Math.min(this.unreadFrom, start);
  }

  /** `/` counts as block delete at block start and behind white space; elsewhere it is meant as a division. */
  slash(line: string, start: number, end: number, value: number): void {
    const last = this.items.at(-1);
    const before = line[start - 1] ?? " ";
    const apart = before === " " || before === "\t";
    const atStart = !this.begun;
    if (!atStart && (!apart || last?.form === VALUE.expression || last?.kind === ITEM.statement)) {
      this.problem(
        "unread",
        start,
        end,
        `${excerpt(line.slice(start, end))} divides nothing here; write the division in brackets, or a space before a block delete`,
      );
      return;
    }
    this.add(ITEM.blockDelete, VALUE.integer, value, start, end);
  }
}

/** Text for a message: short enough for one line. */
export function excerpt(text: string): string {
  const clean = text.replaceAll(/[^\x20-\x7e\xa1-\uffff]/g, "?");
  return clean.length <= 24 ? clean : `${clean.slice(0, 23)}…`;
}
