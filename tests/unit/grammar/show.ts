/** A line as read, in a short form: `X=1.5`, `X={expression}`, `?«…»`; and its problems as `code«…»`. */
import { type Blocks, ITEM, VALUE } from "../../../grammar/blocks.ts";
import type { Expr, Statement } from "../../../grammar/expressions.ts";
import { readBlocks } from "../../../grammar/read.ts";
import { LineStore } from "../../../server/text/lines.ts";

export function show(line: string): { readonly items: readonly string[]; readonly problems: readonly string[] } {
  const blocks = readBlocks(LineStore.from(line));
  const block = blocks.blockAt(0);
  const first = blocks.firstItem(block);
  const items = Array.from({ length: blocks.itemCount(block) }, (_, i) => item(blocks, first + i, line));
  const problems = blocks.problems().map((p) => `${p.code}«${line.slice(p.span.start, p.span.end)}»`);
  return { items, problems };
}

function item(blocks: Blocks, at: number, line: string): string {
  const text = line.slice(blocks.start(at), blocks.end(at));
  const kind = blocks.kind(at);
  const statement = blocks.statement(at);
  if (statement !== undefined) return showStatement(statement);
  if (kind === ITEM.unread) return `?«${text}»`;
  if (kind === ITEM.output) return `"${text}"`;
  if (kind === ITEM.comment || kind === ITEM.lineComment || kind === ITEM.percent) return text;
  const letter =
    kind === ITEM.comma ? `,${String.fromCharCode(blocks.letterAfterComma(at))}` : String.fromCharCode(kind);
  const expression = blocks.expression(at);
  if (expression !== undefined) return `${letter}={${showExpr(expression)}}`;
  if (blocks.form(at) === VALUE.name) return `${letter}=<${blocks.name(at)}>`;
  return blocks.form(at) === VALUE.none ? `${letter}=none` : `${letter}=${blocks.value(at)}`;
}

export function showExpr(e: Expr): string {
  switch (e.kind) {
    case "number":
      return e.point && Number.isInteger(e.value) ? `${e.value}.` : String(e.value);
    case "variable":
      return `#${e.index.kind === "chain" ? `[${showExpr(e.index)}]` : showExpr(e.index)}`;
    case "named":
      return `#<${e.name}>`;
    case "negate":
      return `-(${showExpr(e.of)})`;
    case "call":
      return `${e.fn}(${e.args.map(showExpr).join(", ")})`;
    case "chain":
      return e.terms
        .map(
          (term, i) =>
            `${i === 0 ? "" : ` ${e.operators[i - 1]} `}${term.kind === "chain" ? `[${showExpr(term)}]` : showExpr(term)}`,
        )
        .join("");
    case "broken":
      return "broken";
  }
}

function showStatement(s: Statement): string {
  switch (s.kind) {
    case "assign":
      return `${showExpr(s.target)} := ${showExpr(s.value)}`;
    case "goto":
      return `goto ${showExpr(s.target)}`;
    case "if-goto":
      return `if ${showExpr(s.condition)} goto ${showExpr(s.target)}`;
    case "if-then":
      return `if ${showExpr(s.condition)} then ${s.assign === null ? "…" : showStatement(s.assign)}`;
    case "while":
      return `while ${showExpr(s.condition)} do ${s.label}`;
    case "do":
    case "end":
      return `${s.kind} ${s.label}`;
    case "structured":
      return `o<${s.name}> ${s.keyword}${s.args.map((a) => ` [${showExpr(a)}]`).join("")}`;
  }
}
