/**
 * The rules for what stands between brackets and after `=`. A missing operand is an alternative of its own, so that an
 * expression is always read to its end; its value is then `broken`.
 */
import { EmbeddedActionsParser, type IToken, type TokenType, tokenMatcher } from "chevrotain";
import { DraftBlock } from "./drafts.ts";
import type { BinaryOperator, Expr } from "./expressions.ts";
import { FUNCTIONS } from "./functions.ts";
import { numberOf, T, TOKEN as t, VOCABULARY } from "./lexer.ts";

const VALUE_STARTS: readonly TokenType[] = [t.plus, t.minus, t.hash, t.open, t.fn, t.fnInside, t.unknownFn, t.tooDeep];
/** `####…1`: more steps of indirection than any program means. */
const MAX_HASHES = 32;

const broken = (start: number, end: number): Expr => ({ kind: "broken", start, end });
export const endOf = (token: IToken): number => token.startOffset + token.image.length;

export class ExpressionParser extends EmbeddedActionsParser {
  protected draft = new DraftBlock();
  protected line = "";

  /** @param checked run Chevrotain's validation of the grammar (tests do; it costs start-up time) */
  constructor(checked: boolean) {
    super(VOCABULARY, {
      recoveryEnabled: true,
      maxLookahead: 2,
      skipValidations: !checked,
      errorMessageProvider: PLAIN_MESSAGES,
    });
  }

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
        const end = terms.at(-1)?.end ?? 0;
        // Copies hold no spare room, which pushing leaves behind.
        return { kind: "chain", terms: terms.slice(), operators: operators.slice(), start: only?.start ?? 0, end };
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
        if (of.kind === "number") return { ...of, value: 0 - of.value, start: from };
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
            return this.ACTION(() => this.single(inner));
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
      this.draft.problem("bad-expression", start, end, "this number is too large to work with");
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
            return this.ACTION(() => this.single(expr));
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
  readonly call = this.RULE(
    "call",
    (): Expr => {
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
    },
    { recoveryValueFunc: () => this.#brokenHere() },
  );

  /** Expressions between brackets, parted by commas. Never empty. */
  readonly brackets = this.RULE(
    "brackets",
    (): Expr[] => {
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
      const junkEnd = this.ACTION(() => this.endOfLast());
      const close = this.OPTION1(() => this.CONSUME(t.close));
      return this.ACTION(() => this.#closeBrackets(open, inner, junk ? [junkStart, junkEnd] : null, close));
    },
    { recoveryValueFunc: () => [this.#brokenHere()] },
  );

  protected valueFollows(numbersToo: boolean): boolean {
    const next = this.LA(1).tokenType;
    return VALUE_STARTS.includes(next) || (numbersToo && next === t.number);
  }

  protected endOfLast(): number {
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
    this.draft.problem(
      "bad-expression",
      at.startOffset,
      endOf(at),
      "a value is missing here; write a number, a variable or brackets",
    );
    return broken(end, end);
  }

  #brokenHere(): Expr {
    const next = this.LA(1).startOffset;
    const at = Number.isFinite(next) && next >= 0 ? next : this.line.length;
    return broken(at, at);
  }

  /** The one expression where only one can stand. */
  protected single(inner: readonly Expr[]): Expr {
    const first = inner[0];
    if (first !== undefined && inner.length === 1) return first;
    const start = first?.start ?? 0;
    const end = inner.at(-1)?.end ?? 0;
    this.draft.problem("bad-expression", start, end, `${inner.length} values stand here where one is needed`);
    return broken(start, end);
  }

  #indirect(hashes: readonly IToken[], inner: Expr): Expr {
    const start = hashes[0]?.startOffset ?? inner.start;
    if (hashes.length > MAX_HASHES) {
      this.draft.problem(
        "too-deep",
        start,
        inner.end,
        `${hashes.length} # in a row are too many to follow; ${MAX_HASHES} are read`,
      );
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
    const end = this.endOfLast();
    const written = name.image.replaceAll(/[ \t]/g, "").toUpperCase();
    const fn = FUNCTIONS.get(written);
    if (first === undefined) {
      this.draft.problem("bad-expression", start, endOf(name), `${written} means nothing inside brackets`);
      return broken(start, end);
    }
    if (fn === undefined) {
      this.draft.problem(
        "unknown-function",
        start,
        endOf(name),
        `${written} is not a function; known are ABS, ACOS, ASIN, ATAN, COS, EXP, FIX, FUP, LN, ROUND, SIN, SQRT, TAN and some more`,
      );
      return broken(start, end);
    }
    const args = [...first, ...(second ?? [])];
    const most = fn === "ATAN" ? 2 : 1;
    if (fn === "POW" ? args.length !== 2 : args.length > most) {
      this.draft.problem(
        "bad-expression",
        start,
        end,
        `${fn} takes ${fn === "POW" ? 2 : most} value${fn === "POW" || most > 1 ? "s" : ""}, not ${args.length}`,
      );
      return broken(start, end);
    }
    return { kind: "call", fn, args, start, end };
  }

  #closeBrackets(
    open: IToken,
    inner: Expr[],
    junk: readonly [number, number] | null,
    close: IToken | undefined,
  ): Expr[] {
    const start = open.startOffset;
    const end = this.endOfLast();
    if (close === undefined)
      this.draft.problem("open-bracket", start, start + 1, "this bracket is not closed; write ] after the expression");
    if (junk !== null) {
      this.draft.problem(
        "bad-expression",
        junk[0],
        junk[1],
        "this cannot be read inside brackets; operands are joined by one operator each",
      );
      return [broken(start, end)];
    }
    if (inner.length > 0 && close !== undefined)
      return inner.length === 1 ? [{ ...(inner[0] ?? broken(start, end)), start, end }] : inner;
    if (close !== undefined) this.draft.problem("bad-expression", start, end, "nothing stands between the brackets");
    return [broken(start, end)];
  }
}

/** Our own problems carry the wording; Chevrotain's texts are costly to build and never shown. */
const PLAIN_MESSAGES = {
  buildMismatchTokenMessage: () => "mismatch",
  buildNotAllInputParsedMessage: () => "left over",
  buildNoViableAltMessage: () => "operand missing",
  buildEarlyExitMessage: () => "too few",
};
