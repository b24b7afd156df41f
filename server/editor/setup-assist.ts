/** Findings, completion and hover in setup files: the setup room knows them, here they are put into the protocol's words. */
import {
  type CompletionItem,
  CompletionItemKind,
  type Diagnostic,
  DiagnosticSeverity,
  type Hover,
  InsertTextFormat,
  type Position,
} from "vscode-languageserver";
import { FAMILY_KEYS } from "../checks/family.ts";
import { CHECKS } from "../checks/registry.ts";
import { type Completion, completeSetup } from "../setup/assist/complete.ts";
import { hoverSetup } from "../setup/assist/hover.ts";
import { setupProblems } from "../setup/assist/problems.ts";
import type { OpenDocument } from "./documents.ts";
import { withoutMarkup } from "./hover/markdown.ts";
import { SOURCE } from "./source.ts";

/** A key is asked for on a new line or in a flow list, a value after its colon. */
export const COMPLETION_TRIGGERS = [" ", ":", "{", "[", ",", '"'];

const SEVERITY = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
} as const;

const KIND: { readonly [K in Completion["kind"]]: CompletionItemKind } = {
  key: CompletionItemKind.Property,
  value: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  material: CompletionItemKind.Constant,
  reference: CompletionItemKind.Reference,
};

const CONTEXT = { checks: [...CHECKS.map((check) => check.id), ...FAMILY_KEYS] };

export function setupDiagnostics(document: OpenDocument): Diagnostic[] {
  return setupProblems(document.uri, document.text(), CONTEXT).map((problem) => ({
    range: {
      start: { line: problem.range.line, character: problem.range.column },
      end: { line: problem.range.endLine, character: problem.range.endColumn },
    },
    severity: SEVERITY[problem.severity],
    source: SOURCE,
    code: "setup",
    message: problem.message,
  }));
}

export function completeSetupDocument(
  document: OpenDocument,
  position: Position,
  { snippets, markdown }: { readonly snippets: boolean; readonly markdown: boolean },
): CompletionItem[] {
  const { line, character } = inside(document, position);
  return completeSetup(document.text(), line, character, CONTEXT).map((item, i) => ({
    label: item.label,
    kind: KIND[item.kind],
    detail: item.detail,
    documentation: markdown
      ? { kind: "markdown", value: item.documentation }
      : { kind: "plaintext", value: withoutMarkup(item.documentation) },
    // The order in which the setup room names them is by place and use, not by letter.
    sortText: String(i).padStart(4, "0"),
    filterText: item.label,
    textEdit: {
      range: { start: { line, character: item.replace.start }, end: { line, character: item.replace.end } },
      newText: snippets ? item.insert : withoutSnippet(item.insert),
    },
    insertTextFormat: snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
  }));
}

export function hoverSetupDocument(document: OpenDocument, position: Position, markdown: boolean): Hover | null {
  const { line, character } = inside(document, position);
  const found = hoverSetup(document.text(), line, character);
  if (found === null) return null;
  const { range } = found;
  return {
    contents: markdown
      ? { kind: "markdown", value: found.markdown }
      : { kind: "plaintext", value: withoutMarkup(found.markdown) },
    range: { start: { line: range.line, character: range.start }, end: { line: range.line, character: range.end } },
  };
}

/** The nearest place in the text. */
function inside(document: OpenDocument, position: Position): Position {
  const whole = (n: number): number => (Number.isFinite(n) ? Math.max(0, Math.floor(n)) : 0);
  const line = Math.min(whole(position.line), document.lines.count - 1);
  return { line, character: Math.min(whole(position.character), document.lines.line(line).length) };
}

/** `${1:name}` gives `name`, `${1|a,b|}` gives `a`, `$1` nothing. */
function withoutSnippet(insert: string): string {
  return insert
    .replace(/\$\{\d+\|([^,|}]*)[^}]*\|\}/g, "$1")
    .replace(/\$\{\d+:([^}]*)\}/g, "$1")
    .replace(/\$\{?\d+\}?/g, "")
    .replace(/\\([$}\\])/g, "$1");
}
