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
  const brackets: number[] = [];
  let quote: number | null = null;
  /** The last character that was no space; a value may begin after `:`, `-`, `,`, a bracket or a line end. */
  let begins = true;
  for (let i = 0; i < Math.min(end, text.length); i++) {
    const c = text[i] ?? "";
    if (quote !== null) {
      if (text[quote] === '"' && c === "\\") i++;
      else if (c === text[quote]) {
        if (c === "'" && text[i + 1] === "'") i++;
        else quote = null;
      }
      begins = false;
      continue;
    }
    if (c === "\n" || c === "\r") begins = true;
    else if (SPACE.test(c)) continue;
    else if (c === "#" && (i === 0 || SPACE.test(text[i - 1] ?? ""))) {
      while (i + 1 < text.length && text[i + 1] !== "\n" && text[i + 1] !== "\r") i++;
    } else if ((c === '"' || c === "'") && begins) quote = i;
    else if ((c === "{" || c === "[") && (begins || brackets.length > 0)) {
      brackets.push(i);
      begins = true;
    } else if ((c === "}" || c === "]") && brackets.length > 0) {
      brackets.pop();
      begins = false;
    } else if (c === "," && brackets.length > 0) begins = true;
    else begins = /[:?-]/.test(c) && (SPACE.test(text[i + 1] ?? "\n") || brackets.length > 0);
  }
  return { quote, brackets };
}
