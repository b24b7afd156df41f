/**
 * The editor hands no file above 50 MB to any extension. Such a program would stay silent, as if it were clean: one plain
 * message per file says that it is not checked.
 */
import * as vscode from "vscode";
import { isProgramName } from "./program-names.ts";

const EDITOR_LIMIT_BYTES = 50 * 1024 * 1024;

export function watchForLargeFiles(context: vscode.ExtensionContext): void {
  const told = new Set<string>();
  const look = (tab: vscode.Tab): void => {
    if (tab.input instanceof vscode.TabInputText) void tell(tab.input.uri, told);
  };
  context.subscriptions.push(
    // A preview tab that takes another file changes; it is not opened.
    vscode.window.tabGroups.onDidChangeTabs(({ opened, changed }) => [...opened, ...changed].forEach(look)),
  );
  vscode.window.tabGroups.all.flatMap((group) => group.tabs).forEach(look);
}

async function tell(uri: vscode.Uri, told: Set<string>): Promise<void> {
  const key = uri.toString();
  if (told.has(key) || !isProgramName(uri)) return;
  told.add(key);
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size <= EDITOR_LIMIT_BYTES) return;
  } catch {
    return;
  }
  const name = uri.path.slice(uri.path.lastIndexOf("/") + 1);
  void vscode.window.showInformationMessage(
    `${name} is larger than 50 MB: the editor hands it to no extension, so Swarfline does not check it here. ` +
      `Run "swarfline check ${name}" on the command line.`,
  );
}
