/** Writing Markdown in which nothing that came from a program or a setup file can become markup. */

/** Text from outside: comments, names, notes. One line, every character of Markdown and HTML escaped. */
export function plain(outside: string): string {
  return outside
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, " ")
    .replace(/[\\`*_{}[\]()#+\-.!|<>~&:/@$^=]/g, (c) => (/[<>&]/.test(c) ? (HTML[c] ?? c) : `\\${c}`));
}

const HTML: { readonly [c: string]: string } = { "<": "&lt;", ">": "&gt;", "&": "&amp;" };

/** Text of our own that may hold names from the setup, such as a derivation's provenance: the markup that bites. */
export function soft(ours: string): string {
  return ours
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, " ")
    .replace(/[\\`*_[\]|<>&~$#]/g, (c) => (/[<>&]/.test(c) ? (HTML[c] ?? c) : `\\${c}`))
    .replace(/(https?|ftp|mailto|command|file):/gi, "$1\\:");
}

/** As `soft`, on one line: for the cells of a narrow table. */
export function tight(ours: string): string {
  return soft(ours).replace(/ /g, "\u00a0");
}

/** A code span, whatever backticks the content holds. A cell of a table may not hold a bare pipe, not even here. */
export function code(content: string): string {
  const line = content.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, " ");
  const longest = Math.max(0, ...[...line.matchAll(/`+/g)].map((m) => m[0].length));
  const fence = "`".repeat(longest + 1);
  const pad = longest > 0 ? " " : "";
  return `${fence}${pad}${line}${pad}${fence}`;
}

/**
 * A table. Cells are Markdown already; a head of empty cells still needs its row.
 * @param align a letter a column, `l` or `r`
 */
export function table(head: readonly string[], rows: readonly (readonly string[])[], align: string): string {
  if (rows.length === 0) return "";
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const rule = `|${head.map((_, i) => (align[i] === "r" ? "--:" : ":--")).join("|")}|`;
  return [line(head), rule, ...rows.map(line)].join("\n");
}

/** Paragraphs with nothing between them where a part is empty. */
export function paragraphs(...parts: readonly (string | null | false)[]): string {
  return parts.filter((part): part is string => typeof part === "string" && part !== "").join("\n\n");
}

export function picture(alt: string, uri: string): string {
  return `![${alt.replace(/[[\]()\\]/g, " ")}](${uri})`;
}

/** For a client that shows no Markdown: the same words without the markup. Pictures become their description. */
export function withoutMarkup(markdown: string): string {
  return markdown
    .replace(/!\[([^\]]*)\]\([^)]*\)/g, "[$1]")
    .replace(/^\|[:\-| ]+\|$/gm, "")
    .replace(/^\| (.*) \|$/gm, "$1")
    .replace(/(?<!\\)\*\*|(?<!\\)`/g, "")
    .replace(/(?<!\\)_(?=\S)|(?<=\S)(?<!\\)_(?!\w)/g, "")
    .replace(/\\([\\`*_{}[\]()#+\-.!|~:/@$^=])/g, "$1")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&amp;/g, "&")
    .replace(/\n{3,}/g, "\n\n");
}
