/**
 * Values of parametric expressions. A value is a number, null (a variable that was never set, where the dialect knows
 * such), or NaN: it cannot be known, and `why` says so. NISTIR 6556 3.3.2; differences between dialects are keys.
 */
import type { BinaryOperator, Expr, UnaryFunction } from "../../grammar/expressions.ts";
import type { Dialect } from "../setup/dialect.ts";
import { type SavedLocals, sameMap } from "./frames.ts";

const RAD = Math.PI / 180;
/** Deeper than a grammar lets anything through; a second lock against a crafted tree. */
const MAX_DEPTH = 400;

export interface EvaluationFault {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export class Variables {
  readonly #values = new Map<number, number | null>();
  readonly #named = new Map<string, number | null>();
  readonly #whys = new Map<number, string>();
  readonly #dialect: Dialect;
  /** Reads a system variable that the interpreter keeps itself; undefined: not one. */
  system: (index: number) => number | undefined = () => undefined;

  constructor(dialect: Dialect) {
    this.#dialect = dialect;
  }

  copy(): Variables {
    const other = new Variables(this.#dialect);
    for (const [k, v] of this.#values) other.#values.set(k, v);
    for (const [k, v] of this.#named) other.#named.set(k, v);
    for (const [k, v] of this.#whys) other.#whys.set(k, v);
    return other;
  }

  /** Whether every variable has the same value, and is unknown for the same reason. */
  same(other: Variables): boolean {
    return (
      sameMap(this.#values, other.#values) && sameMap(this.#named, other.#named) && sameMap(this.#whys, other.#whys)
    );
  }

  /** Takes the local variables out: the caller's, while a macro runs. */
  takeLocals(): SavedLocals {
    const saved = {
      values: new Map<number, number | null>(),
      whys: new Map<number, string>(),
      named: new Map<string, number | null>(),
    };
    for (const [k, v] of this.#values) if (k <= LAST_LOCAL) saved.values.set(k, v);
    for (const [k, v] of this.#whys) if (k <= LAST_LOCAL) saved.whys.set(k, v);
    for (const [k, v] of this.#named) if (!k.startsWith("_")) saved.named.set(k, v);
    for (const k of saved.values.keys()) this.#values.delete(k);
    for (const k of saved.whys.keys()) this.#whys.delete(k);
    for (const k of saved.named.keys()) this.#named.delete(k);
    return saved;
  }

  restoreLocals(saved: SavedLocals): void {
    this.takeLocals();
    for (const [k, v] of saved.values) this.#values.set(k, v);
    for (const [k, v] of saved.whys) this.#whys.set(k, v);
    for (const [k, v] of saved.named) this.#named.set(k, v);
  }

  putArguments(args: ReadonlyMap<number, number | null>): void {
    for (const [index, value] of args)
      this.set(index, value, value !== null && Number.isNaN(value) ? `the argument for #${index} is not known` : "");
  }

  /** Another way to the same block: what has two values now is unknown. */
  join(other: Variables, why: string): void {
    joinMap(this.#values, other.#values, (k) => this.#whys.set(k, why));
    joinMap(this.#named, other.#named, () => undefined);
  }

  get(index: number): { value: number | null; why: string } {
    const own = this.system(index);
    if (own !== undefined) return { value: own, why: `#${index} is a system variable whose value is not known here` };
    const stored = this.#values.get(index);
    if (stored !== undefined) return { value: stored, why: this.#whys.get(index) ?? "" };
    if (this.#dialect.assign === "parallel") return { value: Number.NaN, why: `#${index} was not set in this program` };
    if (index === 0) return { value: null, why: "" };
    if (index >= 1 && index <= 33) return { value: null, why: "" };
    const kind = index >= 1000 ? "a system variable" : "not set in this program";
    return { value: Number.NaN, why: `#${index} is ${kind}` };
  }

  set(index: number, value: number | null, why: string): void {
    this.#values.set(index, value);
    if (why === "") this.#whys.delete(index);
    else this.#whys.set(index, why);
  }

  getNamed(name: string): number | null {
    return this.#named.get(name.toLowerCase()) ?? Number.NaN;
  }

  setNamed(name: string, value: number | null): void {
    this.#named.set(name.toLowerCase(), value);
  }

  hasNamed(name: string): boolean {
    return this.#named.has(name.toLowerCase());
  }
}

/** Locals of the hash dialects, #1 to #33. */
const LAST_LOCAL = 33;

function joinMap<K>(into: Map<K, number | null>, other: ReadonlyMap<K, number | null>, told: (key: K) => void): void {
  const differs = (key: K): void => {
    into.set(key, Number.NaN);
    told(key);
  };
  for (const [key, value] of into) if (!other.has(key) || !Object.is(value, other.get(key))) differs(key);
  for (const key of other.keys()) if (!into.has(key)) differs(key);
}

const number = (v: number | null): number => (v === null ? 0 : v);

export class Evaluator {
  readonly #dialect: Dialect;
  readonly #variables: Variables;
  /** Why the last value is unknown. */
  why = "";
  /** What was wrong with the last expression, if anything. */
  fault: EvaluationFault | null = null;

  constructor(dialect: Dialect, variables: Variables) {
    this.#dialect = dialect;
    this.#variables = variables;
  }

  evaluate(expr: Expr): number | null {
    this.why = "";
    this.fault = null;
    const value = this.#eval(expr, 0);
    // An overflow is no number a control could use.
    if (value !== null && !Number.isNaN(value) && !Number.isFinite(value))
      return this.#fail(expr, "the result is too large");
    return value;
  }

  #unknown(why: string): number {
    if (this.why === "") this.why = why;
    return Number.NaN;
  }

  #fail(expr: Expr, text: string): number {
    if (this.fault === null) this.fault = { text, start: expr.start, end: expr.end };
    return this.#unknown(text);
  }

  #eval(expr: Expr, depth: number): number | null {
    if (depth > MAX_DEPTH) return this.#unknown("the expression is nested too deeply");
    switch (expr.kind) {
      case "number":
        return expr.value;
      case "variable": {
        const index = number(this.#eval(expr.index, depth + 1));
        if (Number.isNaN(index)) return Number.NaN;
        const whole = Math.round(index);
        if (Math.abs(index - whole) > 1e-4) return this.#fail(expr, `#${index} is no whole variable number`);
        if (whole < 0 || (this.#dialect.assign === "parallel" && (whole < 1 || whole > 5399)))
          return this.#fail(expr, `#${whole} is outside the variables of this dialect`);
        const { value, why } = this.#variables.get(whole);
        return value !== null && Number.isNaN(value) ? this.#unknown(why) : value;
      }
      case "named":
        if (!this.#variables.hasNamed(expr.name)) return this.#unknown(`#<${expr.name}> was not set in this program`);
        return this.#variables.getNamed(expr.name);
      case "negate": {
        const of = this.#eval(expr.of, depth + 1);
        return of === null ? null : -of;
      }
      case "call":
        return this.#call(expr.fn, expr, expr.args, depth);
      case "chain":
        return this.#chain(expr, depth);
      case "broken":
        return this.#unknown("the expression could not be read");
    }
  }

  #call(fn: UnaryFunction, expr: Expr, args: readonly Expr[], depth: number): number {
    if (fn === "EXISTS") {
      const of = args[0];
      if (of?.kind === "named") return this.#variables.hasNamed(of.name) ? 1 : 0;
      return this.#unknown("EXISTS is not known here");
    }
    const values = args.map((arg) => number(this.#eval(arg, depth + 1)));
    const a = values[0] ?? Number.NaN;
    const b = values[1];
    if (values.some(Number.isNaN) || values.length === 0) return Number.NaN;
    switch (fn) {
      case "ABS":
        return Math.abs(a);
      case "ACOS":
        return Math.abs(a) > 1 ? this.#fail(expr, `ACOS of ${a}: only -1 to 1 has an arc cosine`) : Math.acos(a) / RAD;
      case "ASIN":
        return Math.abs(a) > 1 ? this.#fail(expr, `ASIN of ${a}: only -1 to 1 has an arc sine`) : Math.asin(a) / RAD;
      case "ATAN":
        return b === undefined ? Math.atan(a) / RAD : Math.atan2(a, b) / RAD;
      case "COS":
        return Math.cos(a * RAD);
      case "SIN":
        return Math.sin(a * RAD);
      case "TAN":
        return Math.tan(a * RAD);
      case "EXP":
        return Math.exp(a);
      case "LN":
        return a <= 0 ? this.#fail(expr, `LN of ${a}: only a number above 0 has a logarithm`) : Math.log(a);
      case "SQRT":
        return a < 0 ? this.#fail(expr, `SQRT of ${a}: a negative number has no square root`) : Math.sqrt(a);
      case "FIX":
        return this.#dialect.fix === "floor" ? Math.floor(a) : Math.trunc(a);
      case "FUP":
        return this.#dialect.fix === "floor" ? Math.ceil(a) : Math.sign(a) * Math.ceil(Math.abs(a));
      case "ROUND":
        return Math.sign(a) * Math.round(Math.abs(a));
      case "POW":
        return b === undefined ? this.#fail(expr, "POW needs two values") : this.#power(expr, a, b);
      case "BIN":
        return fromBcd(a);
      case "BCD":
        return toBcd(a);
      case "ADP":
        return this.#unknown("ADP depends on the control's increment and is not followed");
    }
  }

  #power(expr: Expr, a: number, b: number): number {
    if (a < 0 && !Number.isInteger(b))
      return this.#fail(expr, `${a} to the power ${b}: a negative number needs a whole power`);
    if (a === 0 && b < 0) return this.#fail(expr, "0 has no negative power");
    return a ** b;
  }

  /** Groups one bracket level by the dialect's precedence and works it out, left to right within a level. */
  #chain(expr: Expr & { readonly kind: "chain" }, depth: number): number | null {
    const values: (number | null)[] = expr.terms.map((term) => this.#eval(term, depth + 1));
    const operators = [...expr.operators];
    for (let level = 0; level < 4 && operators.length > 0; level++) {
      for (let i = 0; i < operators.length; ) {
        const op = operators[i];
        if (op === undefined || this.#level(op) !== level) {
          i++;
          continue;
        }
        const result = this.#binary(expr, op, values[i] ?? null, values[i + 1] ?? null);
        values.splice(i, 2, result);
        operators.splice(i, 1);
      }
    }
    return values[0] ?? null;
  }

  #level(op: BinaryOperator): number {
    switch (op) {
      case "**":
        return 0;
      case "*":
      case "/":
      case "MOD":
        return 1;
      case "AND":
        return this.#dialect.andPrecedence === "mul" ? 1 : 2;
      case "+":
      case "-":
      case "OR":
      case "XOR":
        return 2;
      default:
        return 3;
    }
  }

  #binary(expr: Expr, op: BinaryOperator, left: number | null, right: number | null): number {
    if (op === "EQ" || op === "NE") {
      if (Number.isNaN(number(left)) || Number.isNaN(number(right))) return Number.NaN;
      // Null differs from 0 where it is compared for equality, and only there (common practice).
      return (left === right) === (op === "EQ") ? 1 : 0;
    }
    const a = number(left);
    const b = number(right);
    if (Number.isNaN(a) || Number.isNaN(b)) return Number.NaN;
    switch (op) {
      case "**":
        return this.#power(expr, a, b);
      case "*":
        return a * b;
      case "/":
        return b === 0 ? this.#fail(expr, "division by zero") : a / b;
      case "MOD":
        // The result has the sign of nothing: 0 <= r < |b| (NISTIR 6556 3.3.2.3 gives positive remainders).
        return b === 0 ? this.#fail(expr, "division by zero") : a - Math.abs(b) * Math.floor(a / Math.abs(b));
      case "+":
        return a + b;
      case "-":
        return a - b;
      case "AND":
        return this.#dialect.logic === "logical" ? Number(a !== 0 && b !== 0) : Math.trunc(a) & Math.trunc(b);
      case "OR":
        return this.#dialect.logic === "logical" ? Number(a !== 0 || b !== 0) : Math.trunc(a) | Math.trunc(b);
      case "XOR":
        return this.#dialect.logic === "logical" ? Number((a !== 0) !== (b !== 0)) : Math.trunc(a) ^ Math.trunc(b);
      case "GT":
        return Number(a > b);
      case "GE":
        return Number(a >= b);
      case "LT":
        return Number(a < b);
      case "LE":
        return Number(a <= b);
    }
  }
}

function toBcd(value: number): number {
  return Number.parseInt(Math.round(Math.abs(value)).toString(10), 16);
}

function fromBcd(value: number): number {
  const digits = Math.round(Math.abs(value)).toString(16);
  return /^\d+$/.test(digits) ? Number(digits) : Number.NaN;
}
