/** File names of programs, for files that never become a document: from the manifest and the user's associations. */
import * as vscode from "vscode";

export const EXTENSIONS = ["nc", "cnc", "tap", "eia", "iso", "ptp", "ngc", "mpf", "min"];

export function isProgramName(uri: vscode.Uri): boolean {
  const extension = uri.path.slice(uri.path.lastIndexOf(".") + 1).toLowerCase();
  if (EXTENSIONS.includes(extension)) return true;
  const more = vscode.workspace.getConfiguration("swarfline", uri).get<unknown>("associations");
  return (
    Array.isArray(more) && more.some((pattern) => typeof pattern === "string" && extensionOf(pattern) === extension)
  );
}

/** The extension that a pattern such as `.prg`, `prg` or `*.prg` stands for. */
function extensionOf(pattern: string): string {
  return /^(?:\*?\.)?([\w-]+)$/.exec(pattern.trim())?.[1]?.toLowerCase() ?? "";
}
