/**
 * The Chevrotain parser for one block. Its rules write drafts of items into a list of the parser's own, never into rule
 * results, so that recovery cannot lose what was read. The grammar is a superset of the dialects and takes every token
 * somewhere; what has no meaning stays uncovered and becomes an unread item afterwards.
 */
import { EmbeddedActionsParser, type IRecognitionException, type IToken, type TokenType, tokenMatcher } from "chevrotain";
import { ITEM, VALUE } from "./blocks.ts";
import { DraftBlock } from "./drafts.ts";
import type { BinaryOperator, Expr, Statement } from "./expressions.ts";
import { FUNCTIONS, numberOf, T, TOKEN as t, VOCABULARY, wordOf } from "./lexer.ts";

type Keyword = Extract<Statement, { kind: "structured" }>["keyword"];

const VALUE_STARTS: readonly TokenType[] = [t.plus, t.minus, t.hash, t.open, t.fn, t.fnInside, t.unknownFn, t.tooDeep];
/** `####…1`: more steps of indirection than any program means. */
const MAX_HASHES = 32;

const broken = (start: number, end: number): Expr => ({ kind: "broken", start, end });
const endOf = (token: IToken): number => token.startOffset + token.image.length;

export class BlockParser extends EmbeddedActionsParser {
  #draft = new DraftBlock();
  #line = "";
  #lastEnd = 0;

  /** @param checked run Chevrotain's validation of the grammar (tests do; it costs start-up time) */
  constructor(checked: boolean) {
    super(VOCABULARY, { recoveryEnabled: true, maxLookahead: 2, skipValidations: !checked, errorMessageProvider: PLAIN_MESSAGES });
    this.performSelfAnalysis();
  }

  /** Reads the tokens of a line into drafts. Errors of the rules themselves are in `errors`. */
  read(line: string, tokens: IToken[], draft: DraftBlock): readonly IRecognitionException[] {
    this.#line = line;
    this.#draft = draft;
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
      { ALT: () => this.SUBRULE(this.leftOver) },
    ]);
  });

  /** A letter with its number, and the structured statement that may follow an O. */
  readonly wholeWord = this.RULE("wholeWord", () => {
    const token = this.CONSUME(t.word);
    const statement = this.OPTION(() => this.SUBRULE(this.structured));
    this.ACTION(() => {
      const read = wordOf(token);
      if (statement === undefined) this.#draft.word(this.#line, token.startOffset, read);
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
      else this.#draft.add(ITEM.program, VALUE.name, Number.NaN, token.startOffset, endOf(token), name);
    });
  });

  /** A letter whose value is parametric, or that has none. */
  readonly openWord = this.RULE("openWord", () => {
    const token = this.OR([{ ALT: () => this.CONSUME(t.letter) }, { ALT: () => this.CONSUME(t.commaLetter) }]);
    const value = this.OPTION({
      GATE: () => this.#valueFollows(token.tokenType === t.commaLetter),
      DEF: () => this.SUBRULE(this.term),
    });
    this.ACTION(() => {
      const letterAt = endOf(token) - 1;
      const start = token.startOffset;
      this.#draft.openWord(this.#line, start, letterAt, endOf(token), value, this.#endOfLast());
    });
  });

  readonly structured = this.RULE("structured", () => {
    const keyword = this.CONSUME(t.structured);
    const args: Expr[] = [];
    this.MANY(() => {
      const inner = this.SUBRULE(this.brackets);
      this.ACTION(() => args.push(this.#single(inner)));
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
        this.#draft.problem(
          "bad-statement", target.start, target.end,
          "a variable stands here without = and a value; write an assignment, or a letter before it",
        );
        return null;
      }
      const statement: Statement = { kind: "assign", target, value, start: target.start, end: this.#endOfLast() };
      this.#draft.statement(statement);
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
            target = this.OPTION2({ GATE: () => this.#valueFollows(true), DEF: () => this.SUBRULE(this.term) });
          },
        },
        {
          ALT: () => {
            this.CONSUME(t.then);
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
      const end = this.#endOfLast();
      const number = labelOf(label);
      if (condition === undefined || number === null) {
        this.#draft.brokenStatement(start, end, "WHILE needs a condition in brackets and DO with a number, as in WHILE[#1LE3]DO1");
      } else this.#draft.statement({ kind: "while", condition: this.#single(condition), label: number, start, end });
    });
  });

  readonly jump = this.RULE("jump", () => {
    const first = this.CONSUME(t.goto);
    const target = this.OPTION({ GATE: () => this.#valueFollows(true), DEF: () => this.SUBRULE(this.term) });
    this.ACTION(() => {
      const end = this.#endOfLast();
      if (target !== undefined) this.#draft.statement({ kind: "goto", target, start: first.startOffset, end });
      else this.#draft.brokenStatement(first.startOffset, end, "GOTO needs the number of a block, as in GOTO100");
    });
  });

  readonly loopMark = this.RULE("loopMark", () => {
    const first = this.OR([{ ALT: () => this.CONSUME(t.do) }, { ALT: () => this.CONSUME(t.end) }]);
    const number = this.OPTION(() => this.CONSUME(t.number));
    this.ACTION(() => {
      const kind = first.tokenType === t.do ? "do" : "end";
      const label = labelOf(number);
      const end = this.#endOfLast();
      if (label !== null) this.#draft.statement({ kind, label, start: first.startOffset, end });
      else this.#draft.brokenStatement(first.startOffset, end, `${kind.toUpperCase()} needs a whole number, as in ${kind.toUpperCase()}1`);
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
          this.ACTION(() => this.#draft.add(ITEM.program, VALUE.integer, numberOf(token).value, token.startOffset, endOf(token)));
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
            this.#draft.slash(this.#line, token.startOffset, this.#endOfLast(), value);
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
          const token = this.CONSUME(t.then);
          this.ACTION(() => this.#draft.brokenStatement(token.startOffset, endOf(token), "THEN stands here without IF and its condition"));
        },
      },
      { ALT: () => this.CONSUME(t.structured) },
      { ALT: () => this.CONSUME(t.close) },
      { ALT: () => this.CONSUME(t.tooDeep) },
      { ALT: () => this.SUBRULE(this.brackets) },
      { ALT: () => this.SUBRULE(this.call) },
    ]);
  });

  /** Operands and operators of one level, in reading order. */
  readonly chain = this.RULE(
    "chain",
    (): Expr => {
      const terms: Expr[] = [];
      const operators: BinaryOperator[] = [];
      const first = this.SUBRULE(this.term);
      this.ACTION(() => terms.push(first));
      this.MANY(() => {
        const operator = this.CONSUME(T.Operator);
        const next = this.SUBRULE1(this.term);
        this.ACTION(() => {
          operators.push(operator.image.replaceAll(/[ \t]/g, "").toUpperCase() as BinaryOperator);
          terms.push(next);
        });
      });
      return this.ACTION(() => {
        const only = terms[0];
        if (only !== undefined && terms.length === 1) return only;
        return { kind: "chain", terms, operators, start: only?.start ?? 0, end: terms.at(-1)?.end ?? 0 };
      });
    },
    { recoveryValueFunc: () => this.#brokenHere() },
  );

  /** A sign belongs to the number: `1--3` is 4. */
  readonly term = this.RULE(
    "term",
    (): Expr => {
      let start = -1;
      let negative = false;
      this.MANY(() => {
        const sign = this.OR([{ ALT: () => this.CONSUME(t.plus) }, { ALT: () => this.CONSUME(t.minus) }]);
        this.ACTION(() => {
          if (start < 0) start = sign.startOffset;
          if (sign.tokenType === t.minus) negative = !negative;
        });
      });
      const of = this.SUBRULE(this.primary);
      return this.ACTION(() => {
        const from = start < 0 ? of.start : start;
        if (!negative) return start < 0 ? of : { ...of, start: from };
        if (of.kind === "number") return { ...of, value: -of.value, start: from };
        return { kind: "negate", of, start: from, end: of.end };
      });
    },
    { recoveryValueFunc: () => this.#brokenHere() },
  );

  readonly primary = this.RULE(
    "primary",
    (): Expr =>
      this.OR([
        { ALT: () => this.SUBRULE(this.number) },
        { ALT: () => this.SUBRULE(this.variable) },
        {
          ALT: () => {
            const inner = this.SUBRULE(this.brackets);
            return this.ACTION(() => this.#single(inner));
          },
        },
        { ALT: () => this.SUBRULE(this.call) },
        {
          ALT: () => {
            const token = this.CONSUME(t.tooDeep);
            return this.ACTION(() => broken(token.startOffset, endOf(token)));
          },
        },
        { ALT: () => this.ACTION(() => this.#missing()) },
      ]),
    { recoveryValueFunc: () => this.#brokenHere() },
  );

  readonly number = this.RULE("number", (): Expr => {
    const token = this.CONSUME(t.number);
    return this.ACTION(() => {
      const { value, point } = numberOf(token);
      const start = token.startOffset;
      const end = endOf(token);
      if (Number.isFinite(value)) return { kind: "number", value, point, start, end };
      this.#draft.problem("bad-expression", start, end, "this number is too large to work with");
      return broken(start, end);
    });
  });

  /** `#1`, `##2`, `#[…]`, `#<name>` */
  readonly variable = this.RULE(
    "variable",
    (): Expr => {
      const hashes: IToken[] = [];
      this.AT_LEAST_ONE(() => {
        const hash = this.CONSUME(t.hash);
        this.ACTION(() => hashes.push(hash));
      });
      const inner: Expr = this.OR([
        { ALT: () => this.SUBRULE(this.number) },
        {
          ALT: () => {
            const token = this.CONSUME(t.name);
            return this.ACTION((): Expr => {
              const name = token.image.slice(1, -1).trim();
              return { kind: "named", name, start: token.startOffset, end: endOf(token) };
            });
          },
        },
        {
          ALT: () => {
            const expr = this.SUBRULE(this.brackets);
            return this.ACTION(() => this.#single(expr));
          },
        },
        { ALT: () => this.SUBRULE(this.call) },
        {
          ALT: () => {
            const token = this.CONSUME(t.tooDeep);
            return this.ACTION(() => broken(token.startOffset, endOf(token)));
          },
        },
        { ALT: () => this.ACTION(() => this.#missing()) },
      ]);
      return this.ACTION(() => this.#indirect(hashes, inner));
    },
    { recoveryValueFunc: () => this.#brokenHere() },
  );

  /** `SIN[30]`, `ATAN[1]/[2]`, `POW[2,3]` */
  readonly call = this.RULE("call", (): Expr => {
    const name = this.OR([
      { ALT: () => this.CONSUME(t.fn) },
      { ALT: () => this.CONSUME(t.fnInside) },
      { ALT: () => this.CONSUME(t.unknownFn) },
      { ALT: () => this.CONSUME(t.letters) },
    ]);
    const first = this.OPTION(() => this.SUBRULE(this.brackets));
    const second = this.OPTION1({
      GATE: () => /^at/i.test(name.image) && this.LA(2).tokenType === t.open,
      DEF: () => {
        this.CONSUME(t.slash);
        return this.SUBRULE1(this.brackets);
      },
    });
    return this.ACTION(() => this.#addCall(name, first, second));
  }, { recoveryValueFunc: () => this.#brokenHere() });

  /** Expressions between brackets, parted by commas. Never empty. */
  readonly brackets = this.RULE("brackets", (): Expr[] => {
    const open = this.CONSUME(t.open);
    const inner: Expr[] = [];
    this.OPTION({
      GATE: () => this.LA(1).startOffset >= 0 && this.LA(1).tokenType !== t.close,
      DEF: () => {
        const first = this.SUBRULE(this.chain);
        this.ACTION(() => inner.push(first));
        this.MANY(() => {
          this.CONSUME(t.comma);
          const next = this.SUBRULE1(this.chain);
          this.ACTION(() => inner.push(next));
        });
      },
    });
    const junkStart = this.ACTION(() => this.LA(1).startOffset);
    let junk = false;
    this.MANY1(() => {
      this.OR([
        { ALT: () => this.CONSUME(T.Stray) },
        { ALT: () => this.CONSUME(T.Operator) },
        { ALT: () => this.CONSUME(t.hash) },
        { ALT: () => this.CONSUME(t.fnInside) },
        { ALT: () => this.CONSUME(t.letters) },
        { ALT: () => this.CONSUME(t.tooDeep) },
        { ALT: () => this.SUBRULE1(this.brackets) },
      ]);
      this.ACTION(() => {
        junk = true;
      });
    });
    const junkEnd = this.ACTION(() => this.#endOfLast());
    const close = this.OPTION1(() => this.CONSUME(t.close));
    return this.ACTION(() => this.#closeBrackets(open, inner, junk ? [junkStart, junkEnd] : null, close));
  }, { recoveryValueFunc: () => [this.#brokenHere()] });

  #valueFollows(numbersToo: boolean): boolean {
    const next = this.LA(1).tokenType;
    return VALUE_STARTS.includes(next) || (numbersToo && next === t.number);
  }

  #endOfLast(): number {
    return endOf(this.LA(0));
  }

  /** An operand is due and none stands here. */
  #missing(): Expr {
    const next = this.LA(1);
    const last = this.LA(0);
    const end = endOf(last);
    // The culprit is the next token where that is no operand, else the one that wants an operand.
    const isCulprit = next.startOffset >= 0 && (tokenMatcher(next, T.Operator) || tokenMatcher(next, T.Stray));
    const at = isCulprit ? next : last;
    this.#draft.problem("bad-expression", at.startOffset, endOf(at), "a value is missing here; write a number, a variable or brackets");
    return broken(end, end);
  }

  #brokenHere(): Expr {
    const next = this.LA(1).startOffset;
    const at = Number.isFinite(next) && next >= 0 ? next : this.#line.length;
    return broken(at, at);
  }

  /** The one expression where only one can stand. */
  #single(inner: readonly Expr[]): Expr {
    const first = inner[0];
    if (first !== undefined && inner.length === 1) return first;
    const start = first?.start ?? 0;
    const end = inner.at(-1)?.end ?? 0;
    this.#draft.problem("bad-expression", start, end, `${inner.length} values stand here where one is needed`);
    return broken(start, end);
  }

  #addStructured(label: IToken, name: string, statement: { keyword: Keyword; args: Expr[] }): void {
    this.#draft.statement({
      kind: "structured", name, keyword: statement.keyword, args: statement.args, start: label.startOffset,
      end: this.#endOfLast(),
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
    const end = this.#endOfLast();
    if (condition === undefined || then === null || (then === "goto" && target === undefined)) {
      const lacks = condition === undefined ? "a condition in brackets" : then === "goto" ? "a block number after GOTO" : "GOTO or THEN";
      this.#draft.brokenStatement(start, end, `IF lacks ${lacks}; write it as in IF[#1LT5]GOTO100 or IF[#1LT5]THEN#2=0`);
      return;
    }
    // The assignment behind THEN was drafted as one of its own; it belongs to the condition.
    if (assign !== null) this.#draft.items.pop();
    if (target !== undefined) this.#draft.statement({ kind: "if-goto", condition: this.#single(condition), target, start, end });
    else this.#draft.statement({ kind: "if-then", condition: this.#single(condition), assign, start, end });
  }

  /** Only a program number or a comment may stand with `%`: what looks like words there is a name, not motion. */
  #addPercent(token: IToken): void {
    if (this.#draft.items.length > 0) return;
    this.#draft.add(ITEM.percent, VALUE.none, Number.NaN, token.startOffset, endOf(token));
    const next = this.LA(1);
    if (next.startOffset >= 0 && next.tokenType !== t.label && next.tokenType !== t.colon && !/^o/i.test(next.image)) {
      this.#draft.unreadFrom = next.startOffset;
      const text = "only a program number or a comment may stand on the line of %";
      this.#draft.problem("unread", next.startOffset, endOf(next), text);
    }
  }

  #indirect(hashes: readonly IToken[], inner: Expr): Expr {
    const start = hashes[0]?.startOffset ?? inner.start;
    if (hashes.length > MAX_HASHES) {
      this.#draft.problem("too-deep", start, inner.end, `${hashes.length} # in a row are too many to follow; ${MAX_HASHES} are read`);
      return broken(start, inner.end);
    }
    let expr = inner;
    for (let i = hashes.length - 1; i >= 0; i--) {
      const from = hashes[i]?.startOffset ?? start;
      if (expr.kind === "named" && i === hashes.length - 1) expr = { ...expr, start: from };
      else expr = { kind: "variable", index: expr, start: from, end: inner.end };
    }
    return expr;
  }

  #addCall(name: IToken, first: Expr[] | undefined, second: Expr[] | undefined): Expr {
    const start = name.startOffset;
    const end = this.#endOfLast();
    const written = name.image.replaceAll(/[ \t]/g, "").toUpperCase();
    const fn = FUNCTIONS.get(written);
    if (first === undefined) {
      this.#draft.problem("bad-expression", start, endOf(name), `${written} means nothing inside brackets`);
      return broken(start, end);
    }
    if (fn === undefined) {
      this.#draft.problem("unknown-function", start, endOf(name), `${written} is not a function; known are ABS, ACOS, ASIN, ATAN, COS, EXP, FIX, FUP, LN, ROUND, SIN, SQRT, TAN and some more`);
      return broken(start, end);
    }
    const args = second === undefined ? first : [...first, ...second];
    const most = fn === "ATAN" ? 2 : 1;
    if (fn === "POW" ? args.length !== 2 : args.length > most) {
      this.#draft.problem("bad-expression", start, end, `${fn} takes ${fn === "POW" ? 2 : most} value${fn === "POW" || most > 1 ? "s" : ""}, not ${args.length}`);
      return broken(start, end);
    }
    return { kind: "call", fn, args, start, end };
  }

  #closeBrackets(open: IToken, inner: Expr[], junk: readonly [number, number] | null, close: IToken | undefined): Expr[] {
    const start = open.startOffset;
    const end = this.#endOfLast();
    if (close === undefined) this.#draft.problem("open-bracket", start, start + 1, "this bracket is not closed; write ] after the expression");
    if (junk !== null) {
      this.#draft.problem("bad-expression", junk[0], junk[1], "this cannot be read inside brackets; operands are joined by one operator each");
      return [broken(start, end)];
    }
    if (inner.length > 0 && close !== undefined) return inner.length === 1 ? [{ ...(inner[0] ?? broken(start, end)), start, end }] : inner;
    if (close !== undefined) this.#draft.problem("bad-expression", start, end, "nothing stands between the brackets");
    return [broken(start, end)];
  }
}

function labelOf(token: IToken | undefined): number | null {
  if (token === undefined) return null;
  const { value, point } = numberOf(token);
  return point || !Number.isSafeInteger(value) ? null : value;
}

/** Our own problems carry the wording; Chevrotain's texts are costly to build and never shown. */
const PLAIN_MESSAGES = {
  buildMismatchTokenMessage: () => "mismatch",
  buildNotAllInputParsedMessage: () => "left over",
  buildNoViableAltMessage: () => "operand missing",
  buildEarlyExitMessage: () => "too few",
};
