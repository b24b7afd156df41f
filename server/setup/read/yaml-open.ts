/** Which quote and which brackets are open at a place of a YAML text: to find where something was opened that never closes. */

export interface Open {
  /** Offset of the quote; null: in no quotes. */
  readonly quote: number | null;
  /** Offsets of the brackets, outermost first. */
  readonly brackets: readonly number[];
}

const SPACE = /\s/;

/** Reads once from the start. Texts after `|` and `>` are read like all others: quotes in them may mislead. */
export function openAt(text: string, end: number): Open {
  const reading = new Reading(text, 0);
  while (reading.at < Math.min(end, text.length)) reading.step();
  return { quote: reading.quote, brackets: reading.brackets };
}

/**
 * Where the bracket at `start` is closed, or where another bracket is closed by the wrong one before that.
 * @returns the offset of the closing bracket and of the one that was open there; the end of the text where none closes
 */
export function closeOf(text: string, start: number): { readonly at: number; readonly opener: number } {
  const reading = new Reading(text, start);
  let opener = start;
  while (reading.at < text.length) {
    const { at, quote } = reading;
    const c = text[at];
    opener = reading.brackets.at(-1) ?? start;
    if (quote === null && (c === "}" || c === "]")) {
      if (reading.brackets.length <= 1 || (text[opener] === "{") !== (c === "}")) return { at, opener };
    }
    reading.step();
  }
  return { at: Math.max(start, text.length - 1), opener };
}

/** One pass over a text that knows which quote and brackets are open. */
class Reading {
  at: number;
  quote: number | null = null;
  readonly brackets: number[] = [];
  readonly #text: string;
  /** A value may begin: after `:`, `-`, `,`, a bracket or a line end. */
  #begins = true;

  constructor(text: string, start: number) {
    this.#text = text;
    this.at = start;
  }

  step(): void {
    const text = this.#text;
    const c = text[this.at] ?? "";
    if (this.quote !== null) this.#inQuotes(c, this.quote);
    else if (c === "\n" || c === "\r") this.#begins = true;
    else if (c === "#" && (this.at === 0 || SPACE.test(text[this.at - 1] ?? ""))) {
      while (this.at + 1 < text.length && text[this.at + 1] !== "\n" && text[this.at + 1] !== "\r") this.at++;
    } else if (!SPACE.test(c)) this.#plain(c);
    this.at++;
  }

  #inQuotes(c: string, opener: number): void {
    const quote = this.#text[opener];
    if (quote === '"' && c === "\\") this.at++;
    else if (c === "'" && quote === "'" && this.#text[this.at + 1] === "'") this.at++;
    else if (c === quote) this.quote = null;
    this.#begins = false;
  }

  #plain(c: string): void {
    const inside = this.brackets.length > 0;
    if ((c === '"' || c === "'") && this.#begins) this.quote = this.at;
    else if ((c === "{" || c === "[") && (this.#begins || inside)) {
      this.brackets.push(this.at);
      this.#begins = true;
    } else if ((c === "}" || c === "]") && inside) {
      this.brackets.pop();
      this.#begins = false;
    } else if (c === "," && inside) this.#begins = true;
    else this.#begins = /[:?-]/.test(c) && (inside || SPACE.test(this.#text[this.at + 1] ?? "\n"));
  }
}
