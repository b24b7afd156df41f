/**
 * The extension. It does next to nothing until a drilling program or a setup file is in sight: only then is the language
 * client loaded and the server started.
 */
import * as vscode from "vscode";
import { adoptPrograms } from "./associations.ts";
import { watchForLargeFiles } from "./large-files.ts";
import { isOurs } from "./selector.ts";
import { startClient } from "./start.ts";

let stop: (() => Promise<void>) | undefined;

export function activate(context: vscode.ExtensionContext): void {
  adoptPrograms(context);
  watchForLargeFiles(context);
  let started = false;
  const look = (document: vscode.TextDocument): void => {
    if (started || !isOurs(document)) return;
    started = true;
    startClient(context).then(
      (stopper) => {
        stop = stopper;
      },
      (cause: unknown) => {
        const why = cause instanceof Error ? cause.message : String(cause);
        void vscode.window.showErrorMessage(`Swarfline could not start its language server: ${why}`);
      },
    );
  };
  context.subscriptions.push(vscode.workspace.onDidOpenTextDocument(look));
  vscode.workspace.textDocuments.forEach(look);
}

export async function deactivate(): Promise<void> {
  await stop?.();
}
