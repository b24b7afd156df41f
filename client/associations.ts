/** `swarfline.associations`: further files that are drilling programs, by extension or glob. */
import * as vscode from "vscode";
import { PROGRAM_LANGUAGE } from "./selector.ts";

export function adoptPrograms(context: vscode.ExtensionContext): void {
  // A document that the user then gives another language is left alone.
  const adopted = new WeakSet<vscode.TextDocument>();
  const adopt = (document: vscode.TextDocument): void => {
    if (adopted.has(document) || document.languageId === PROGRAM_LANGUAGE || !isAssociated(document)) return;
    adopted.add(document);
    void vscode.languages.setTextDocumentLanguage(document, PROGRAM_LANGUAGE);
  };
  context.subscriptions.push(
    vscode.workspace.onDidOpenTextDocument(adopt),
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration("swarfline.associations")) vscode.workspace.textDocuments.forEach(adopt);
    }),
  );
  vscode.workspace.textDocuments.forEach(adopt);
}

function isAssociated(document: vscode.TextDocument): boolean {
  const patterns = vscode.workspace.getConfiguration("swarfline", document.uri).get<unknown>("associations");
  if (!Array.isArray(patterns)) return false;
  return patterns.some((pattern) => typeof pattern === "string" && matches(document, pattern.trim()));
}

/** `.prg` and `prg` are extensions; anything with a star, a slash or a further dot is a glob, `*.prg` or `drill/**`. */
function matches(document: vscode.TextDocument, pattern: string): boolean {
  if (pattern === "") return false;
  if (/^\.?[\w-]+$/.test(pattern)) {
    return document.uri.path.toLowerCase().endsWith(`.${pattern.replace(/^\./, "").toLowerCase()}`);
  }
  // The editor holds a glob against the whole path.
  const glob = /^(\/|\*\*)/.test(pattern) ? pattern : `**/${pattern}`;
  return vscode.languages.match({ pattern: glob }, document) > 0;
}
