/** Starts the language server and the client that talks to it. */
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { serveFiles } from "./files.ts";
import { isOurs, SELECTOR } from "./selector.ts";
import { showInForce } from "./status.ts";

/** @returns stops the server */
export async function startClient(context: vscode.ExtensionContext): Promise<() => Promise<void>> {
  const module = vscode.Uri.joinPath(context.extensionUri, "dist", "server.js").fsPath;
  const client = new LanguageClient(
    // The id is also the section of `swarfline.trace.server`.
    "swarfline",
    "Swarfline",
    {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ["--nolazy", "--inspect=6029"] } },
    },
    {
      documentSelector: SELECTOR,
      diagnosticPullOptions: { onChange: true, onTabs: true },
      initializationOptions: { inForce: true },
    },
  );
  context.subscriptions.push(serveFiles(client, isOurs), showInForce(client));
  await client.start();
  return () => client.stop();
}
