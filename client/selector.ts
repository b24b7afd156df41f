/** Which documents are ours. No scheme filter: programs live on remote, virtual and version-control file systems too. */
import type * as vscode from "vscode";

export const PROGRAM_LANGUAGE = "swarfline-nc";

export const SELECTOR = [
  { language: PROGRAM_LANGUAGE },
  { pattern: "**/swarfline.yaml" },
  { pattern: "**/*.swarfline.yaml" },
];

export function isSetup(uri: vscode.Uri): boolean {
  return /(^|[/.])swarfline\.yaml$/i.test(uri.path);
}

export function isOurs(document: vscode.TextDocument): boolean {
  return document.languageId === PROGRAM_LANGUAGE || isSetup(document.uri);
}
