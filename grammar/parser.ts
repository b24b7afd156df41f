/**
 * The Chevrotain parser for one block. Its rules write drafts of items into a list of the parser's own, never into rule
 * results, so that recovery cannot lose what was read. The grammar is a superset of the dialects and takes every token
 * somewhere; what has no meaning stays uncovered and becomes an unread item afterwards.
 */
import type { IRecognitionException, IToken } from "chevrotain";
import { ITEM, VALUE } from "./blocks.ts";
import type { DraftBlock } from "./drafts.ts";
import { ExpressionParser, endOf } from "./expression-parser.ts";
import type { Expr, Statement } from "./expressions.ts";
import { numberOf, outputOf, T, TOKEN as t, wordOf } from "./lexer.ts";

type Keyword = Extract<Statement, { kind: "structured" }>["keyword"];

export class BlockParser extends ExpressionParser {
  /** @param checked run Chevrotain's validation of the grammar (tests do; it costs start-up time) */
  constructor(checked: boolean) {
    super(checked);
    this.performSelfAnalysis();
  }

  /** Reads the tokens of a line into drafts. Errors of the rules themselves are in what it returns. */
  read(line: string, tokens: IToken[], draft: DraftBlock): readonly IRecognitionException[] {
    this.line = line;
    this.draft = draft;
    this.input = tokens;
    this.block();
    return this.errors;
  }

  readonly block = this.RULE("block", () => {
    this.MANY(() => this.SUBRULE(this.item));
  });

  readonly item = this.RULE("item", () => {
    this.OR([
      { ALT: () => this.SUBRULE(this.wholeWord) },
      { ALT: () => this.SUBRULE(this.openWord) },
      { ALT: () => this.SUBRULE(this.label) },
      { ALT: () => this.SUBRULE(this.assignment) },
      { ALT: () => this.SUBRULE(this.condition) },
      { ALT: () => this.SUBRULE(this.loop) },
      { ALT: () => this.SUBRULE(this.jump) },
      { ALT: () => this.SUBRULE(this.loopMark) },
      { ALT: () => this.SUBRULE(this.mark) },
      { ALT: () => this.SUBRULE(this.output) },
      { ALT: () => this.SUBRULE(this.leftOver) },
    ]);
  });

  /** A letter with its number, and the structured statement that may follow an O. */
  readonly wholeWord = this.RULE("wholeWord", () => {
    const token = this.CONSUME(t.word);
    const statement = this.OPTION(() => this.SUBRULE(this.structured));
    this.ACTION(() => {
      const read = wordOf(token);
      if (statement === undefined) this.draft.word(this.line, token.startOffset, read);
      else this.#addStructured(token, Number.isNaN(read.value) ? token.image : String(read.value), statement);
    });
  });

  /** `O<name>` */
  readonly label = this.RULE("label", () => {
    const token = this.CONSUME(t.label);
    const statement = this.OPTION(() => this.SUBRULE(this.structured));
    this.ACTION(() => {
      const name = token.image.slice(token.image.indexOf("<") + 1, -1).trim();
      if (statement !== undefined) this.#addStructured(token, name, statement);
      else this.draft.add(ITEM.program, VALUE.name, Number.NaN, token.startOffset, endOf(token), name);
    });
  });

  /** A letter whose value is parametric, or that has none. */
  readonly openWord = this.RULE("openWord", () => {
    const token = this.OR([{ ALT: () => this.CONSUME(t.letter) }, { ALT: () => this.CONSUME(t.commaLetter) }]);
    const value = this.OPTION({
      GATE: () => this.valueFollows(token.tokenType === t.commaLetter),
      DEF: () => this.SUBRULE(this.term),
    });
    this.ACTION(() => {
      const letterAt = endOf(token) - 1;
      const start = token.startOffset;
      this.draft.openWord(this.line, start, letterAt, endOf(token), value, this.endOfLast());
    });
  });

  readonly structured = this.RULE("structured", () => {
    const keyword = this.CONSUME(t.structured);
    const args: Expr[] = [];
    this.MANY(() => {
      const inner = this.SUBRULE(this.brackets);
      this.ACTION(() => args.push(this.single(inner)));
    });
    return this.ACTION(() => ({ keyword: keyword.image.toLowerCase() as Keyword, args }));
  });

  /** `#1=#2+3`; a variable alone is no statement. */
  readonly assignment = this.RULE("assignment", () => {
    const target = this.SUBRULE(this.variable);
    const value = this.OPTION(() => {
      this.CONSUME(t.equals);
      return this.SUBRULE(this.chain);
    });
    return this.ACTION(() => {
      if (value === undefined) {
        this.draft.problem(
          "bad-statement",
          target.start,
          target.end,
          "a variable stands here without = and a value; write an assignment, or a letter before it",
        );
        return null;
      }
      const statement: Statement = { kind: "assign", target, value, start: target.start, end: this.endOfLast() };
      this.draft.statement(statement);
      return statement;
    });
  });

  /** IF […] GOTO n, IF […] THEN #1=2 */
  readonly condition = this.RULE("condition", () => {
    const first = this.CONSUME(t.ifWord);
    const condition = this.OPTION(() => this.SUBRULE(this.brackets));
    let then: "goto" | "then" | null = null;
    let target: Expr | undefined;
    let assign: Statement | null = null;
    this.OPTION1(() => {
      this.OR([
        {
          ALT: () => {
            this.CONSUME(t.goto);
            then = "goto";
            target = this.OPTION2({ GATE: () => this.valueFollows(true), DEF: () => this.SUBRULE(this.term) });
          },
        },
        {
          ALT: () => {
            this.CONSUME(t.thenWord);
            then = "then";
            this.OPTION3(() => {
              assign = this.SUBRULE(this.assignment);
            });
          },
        },
      ]);
    });
    this.ACTION(() => this.#addCondition(first, condition, then, target, assign));
  });

  readonly loop = this.RULE("loop", () => {
    const first = this.CONSUME(t.whileWord);
    const condition = this.OPTION(() => this.SUBRULE(this.brackets));
    const label = this.OPTION1(() => {
      this.CONSUME(t.do);
      return this.OPTION2(() => this.CONSUME(t.number));
    });
    this.ACTION(() => {
      const start = first.startOffset;
      const end = this.endOfLast();
      const number = labelOf(label);
      if (condition === undefined || number === null) {
        this.draft.brokenStatement(
          start,
          end,
          "WHILE needs a condition in brackets and DO with a number, as in WHILE[#1LE3]DO1",
        );
      } else this.draft.statement({ kind: "while", condition: this.single(condition), label: number, start, end });
    });
  });

  readonly jump = this.RULE("jump", () => {
    const first = this.CONSUME(t.goto);
    const target = this.OPTION({ GATE: () => this.valueFollows(true), DEF: () => this.SUBRULE(this.term) });
    this.ACTION(() => {
      const end = this.endOfLast();
      if (target !== undefined) this.draft.statement({ kind: "goto", target, start: first.startOffset, end });
      else this.draft.brokenStatement(first.startOffset, end, "GOTO needs the number of a block, as in GOTO100");
    });
  });

  readonly loopMark = this.RULE("loopMark", () => {
    const first = this.OR([{ ALT: () => this.CONSUME(t.do) }, { ALT: () => this.CONSUME(t.end) }]);
    const number = this.OPTION(() => this.CONSUME(t.number));
    this.ACTION(() => {
      const kind = first.tokenType === t.do ? "do" : "end";
      const label = labelOf(number);
      const end = this.endOfLast();
      if (label !== null) this.draft.statement({ kind, label, start: first.startOffset, end });
      else
        this.draft.brokenStatement(
          first.startOffset,
          end,
          `${kind.toUpperCase()} needs a whole number, as in ${kind.toUpperCase()}1`,
        );
    });
  });

  /** `DPRNT[…]` and its like: read whole, whatever stands between the brackets. */
  readonly output = this.RULE("output", () => {
    const token = this.CONSUME(t.output);
    this.ACTION(() => {
      const { startOffset: start } = token;
      this.draft.add(ITEM.output, VALUE.none, Number.NaN, start, endOf(token));
      if (outputOf(token).closed) return;
      const text = "the brackets of this statement are not closed; write ] at its end";
      this.draft.problem("open-bracket", start, endOf(token), text);
    });
  });

  /** `%`, `:1234`, `/` */
  readonly mark = this.RULE("mark", () => {
    this.OR([
      {
        ALT: () => {
          const token = this.CONSUME(t.percent);
          this.ACTION(() => this.#addPercent(token));
        },
      },
      {
        ALT: () => {
          const token = this.CONSUME(t.colon);
          this.ACTION(() =>
            this.draft.add(ITEM.program, VALUE.integer, numberOf(token).value, token.startOffset, endOf(token)),
          );
        },
      },
      {
        ALT: () => {
          const token = this.CONSUME(t.slash);
          const number = this.OPTION({
            GATE: () => this.LA(1).tokenType === t.number && !numberOf(this.LA(1)).point,
            DEF: () => this.CONSUME(t.number),
          });
          this.ACTION(() => {
            const value = number === undefined ? 1 : numberOf(number).value;
            this.draft.slash(this.line, token.startOffset, this.endOfLast(), value);
          });
        },
      },
    ]);
  });

  /** Tokens that mean nothing where they stand. Nothing is drafted: the gap becomes an unread item. */
  readonly leftOver = this.RULE("leftOver", () => {
    this.OR([
      { ALT: () => this.CONSUME(T.Stray) },
      { ALT: () => this.CONSUME(t.plus) },
      { ALT: () => this.CONSUME(t.minus) },
      { ALT: () => this.CONSUME(t.times) },
      { ALT: () => this.CONSUME(t.power) },
      { ALT: () => this.CONSUME(t.wordOperator) },
      {
        ALT: () => {
          const token = this.CONSUME(t.thenWord);
          this.ACTION(() =>
            this.draft.brokenStatement(
              token.startOffset,
              endOf(token),
              "THEN stands here without IF and its condition",
            ),
          );
        },
      },
      { ALT: () => this.CONSUME(t.structured) },
      { ALT: () => this.CONSUME(t.close) },
      { ALT: () => this.CONSUME(t.tooDeep) },
      { ALT: () => this.SUBRULE(this.brackets) },
      { ALT: () => this.SUBRULE(this.call) },
    ]);
  });

  #addStructured(label: IToken, name: string, statement: { keyword: Keyword; args: Expr[] }): void {
    this.draft.statement({
      kind: "structured",
      name,
      keyword: statement.keyword,
      args: statement.args,
      start: label.startOffset,
      end: this.endOfLast(),
    });
  }

  #addCondition(
    first: IToken,
    condition: Expr[] | undefined,
    then: "goto" | "then" | null,
    target: Expr | undefined,
    assign: Statement | null,
  ): void {
    const start = first.startOffset;
    const end = this.endOfLast();
    if (condition === undefined || then === null || (then === "goto" && target === undefined)) {
      const lacks =
        condition === undefined
          ? "a condition in brackets"
          : then === "goto"
            ? "a block number after GOTO"
            : "GOTO or THEN";
      this.draft.brokenStatement(start, end, `IF lacks ${lacks}; write it as in IF[#1LT5]GOTO100 or IF[#1LT5]THEN#2=0`);
      return;
    }
    // The assignment behind THEN was drafted as one of its own; it belongs to the condition.
    if (assign !== null) this.draft.items.pop();
    if (target !== undefined)
      this.draft.statement({ kind: "if-goto", condition: this.single(condition), target, start, end });
    else this.draft.statement({ kind: "if-then", condition: this.single(condition), assign, start, end });
  }

  /** Only a program number or a comment may stand with `%`: what looks like words there is a name, not motion. */
  #addPercent(token: IToken): void {
    if (this.draft.items.length > 0) return;
    this.draft.add(ITEM.percent, VALUE.none, Number.NaN, token.startOffset, endOf(token));
    const next = this.LA(1);
    if (next.startOffset >= 0 && next.tokenType !== t.label && next.tokenType !== t.colon && !/^o/i.test(next.image)) {
      this.draft.unreadFrom = next.startOffset;
      const text = "only a program number or a comment may stand on the line of %";
      this.draft.problem("unread", next.startOffset, endOf(next), text);
    }
  }
}

function labelOf(token: IToken | undefined): number | null {
  if (token === undefined) return null;
  const { value, point } = numberOf(token);
  return point || !Number.isSafeInteger(value) ? null : value;
}
