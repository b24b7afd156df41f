/** Hover: the arithmetic behind a word of a program, or the meaning of a key of a setup file. */
import type { Hover, Position } from "vscode-languageserver";
import type { OpenDocument } from "./documents.ts";
import { withoutMarkup } from "./hover/markdown.ts";
import { hoverProgram } from "./hover/program-hover.ts";
import type { Reviews } from "./reviews.ts";
import { hoverSetupDocument } from "./setup-assist.ts";

export async function hover(
  document: OpenDocument,
  position: Position,
  reviews: Reviews,
  markdown: boolean,
): Promise<Hover | null> {
  if (document.kind === "setup") return hoverSetupDocument(document, position, markdown);
  if (document.kind !== "program") return null;
  const review = await reviews.of(document);
  if (review === null) return null;
  const found = hoverProgram(review, position.line, position.character);
  if (found === null) return null;
  return {
    contents: markdown
      ? { kind: "markdown", value: found.markdown }
      : { kind: "plaintext", value: withoutMarkup(found.markdown) },
    range: { start: { line: found.line, character: found.start }, end: { line: found.line, character: found.end } },
  };
}
