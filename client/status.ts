/** The language status of a program: by which setup, machine, dialect and material it is checked. */
import * as vscode from "vscode";
import { IN_FORCE, type InForceParams } from "../server/protocol.ts";
import { PROGRAM_LANGUAGE } from "./selector.ts";

/** The part of a language client that is needed here. */
export interface Line {
  onNotification(method: string, handler: (params: InForceParams) => void): vscode.Disposable;
}

export function showInForce(client: Line): vscode.Disposable {
  const known = new Map<string, InForceParams>();
  const item = vscode.languages.createLanguageStatusItem("swarfline.inForce", { language: PROGRAM_LANGUAGE });
  item.name = "Swarfline setup";
  const show = (): void => {
    const uri = vscode.window.activeTextEditor?.document.uri.toString();
    const params = uri === undefined ? undefined : known.get(uri);
    if (params === undefined) {
      item.text = "Not checked yet";
      item.detail = "";
      item.command = undefined;
      return;
    }
    const { setup, machine, dialect, material } = params;
    item.text = [machine ?? "no machine", dialect, material ?? "no material"].join(" \u00b7 ");
    if (setup === null) {
      item.detail = "no swarfline.yaml: loads have no limits";
      item.command = undefined;
    } else {
      item.detail = "by swarfline.yaml";
      item.command = { title: "Open", command: "vscode.open", arguments: [vscode.Uri.parse(setup)] };
    }
  };
  show();
  return vscode.Disposable.from(
    item,
    client.onNotification(IN_FORCE, (params) => {
      known.set(vscode.Uri.parse(params.uri).toString(), params);
      show();
    }),
    vscode.window.onDidChangeActiveTextEditor(show),
    vscode.workspace.onDidCloseTextDocument((document) => known.delete(document.uri.toString())),
  );
}
