/** Parametric expressions and statements as they were written. Executing them is the interpreter's business. */

export type UnaryFunction =
  | "ABS"
  | "ACOS"
  | "ASIN"
  | "ATAN"
  | "BCD"
  | "BIN"
  | "ADP"
  | "COS"
  | "EXP"
  | "FIX"
  | "FUP"
  | "LN"
  | "POW"
  | "ROUND"
  | "SIN"
  | "SQRT"
  | "TAN"
  | "EXISTS";

export type BinaryOperator =
  | "**"
  | "*"
  | "/"
  | "MOD"
  | "+"
  | "-"
  | "AND"
  | "OR"
  | "XOR"
  | "EQ"
  | "NE"
  | "GT"
  | "GE"
  | "LT"
  | "LE";

/** Columns are in the line, so that a message can point into an expression. */
interface Placed {
  readonly start: number;
  readonly end: number;
}

export type Expr = Placed &
  (
    | { readonly kind: "number"; readonly value: number; readonly point: boolean }
    /** `#1`, `#[…]`, `##1`. */
    | { readonly kind: "variable"; readonly index: Expr }
    /** `#<name>` */
    | { readonly kind: "named"; readonly name: string }
    | { readonly kind: "negate"; readonly of: Expr }
    /** ATAN and POW have two arguments in some spellings. */
    | { readonly kind: "call"; readonly fn: UnaryFunction; readonly args: readonly Expr[] }
    /**
     * Operators of one bracket level in reading order, not yet grouped: precedence of AND differs between dialects,
     * so the interpreter groups. terms.length === operators.length + 1.
     */
    | { readonly kind: "chain"; readonly terms: readonly Expr[]; readonly operators: readonly BinaryOperator[] }
    /** Recovery: something stood here that could not be read. Evaluates to unknown. */
    | { readonly kind: "broken" }
  );

export type Statement = Placed &
  (
    | { readonly kind: "assign"; readonly target: Expr; readonly value: Expr }
    | { readonly kind: "goto"; readonly target: Expr }
    | { readonly kind: "if-goto"; readonly condition: Expr; readonly target: Expr }
    /** THEN takes exactly one assignment (or, tolerated, words that follow in the block). */
    | { readonly kind: "if-then"; readonly condition: Expr; readonly assign: Statement | null }
    | { readonly kind: "while"; readonly condition: Expr; readonly label: number }
    | { readonly kind: "do"; readonly label: number }
    | { readonly kind: "end"; readonly label: number }
    /** Structured dialect: `o100 while […]`, `o<name> call […] […]`. */
    | {
        readonly kind: "structured";
        readonly name: string;
        readonly keyword:
          | "sub"
          | "endsub"
          | "call"
          | "if"
          | "elseif"
          | "else"
          | "endif"
          | "while"
          | "endwhile"
          | "do"
          | "repeat"
          | "endrepeat"
          | "return"
          | "break"
          | "continue";
        readonly args: readonly Expr[];
      }
  );
