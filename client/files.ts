/** Files for the server, which reads no disk: through the editor's file system, so on any scheme. */
import * as vscode from "vscode";
import {
  FILE_CHANGED,
  FIND_SETUP,
  type FindSetupParams,
  type FindSetupResult,
  READ_FILE,
  type ReadFileParams,
  type ReadFileResult,
} from "../server/protocol.ts";

const SETUP_NAME = "swarfline.yaml";

/** The part of a language client that is needed here. */
export interface Line {
  onRequest<P, R>(method: string, handler: (params: P) => Promise<R>): vscode.Disposable;
  sendNotification<P>(method: string, params: P): Promise<void>;
}

export function serveFiles(client: Line, synced: (document: vscode.TextDocument) => boolean): vscode.Disposable {
  /** What the server has read: only edits of these concern it. */
  const read = new Set<string>();
  const resting = new Map<string, ReturnType<typeof setTimeout>>();
  const tell = (document: vscode.TextDocument): void => {
    const uri = document.uri.toString();
    // A document that the server follows by itself needs no second word.
    if (!read.has(uri) || synced(document) || resting.has(uri)) return;
    resting.set(
      uri,
      setTimeout(() => {
        resting.delete(uri);
        void client.sendNotification(FILE_CHANGED, { uri });
      }, 150),
    );
  };
  return vscode.Disposable.from(
    client.onRequest<ReadFileParams, ReadFileResult>(READ_FILE, async ({ uri }) => {
      read.add(uri);
      return { text: await textOf(vscode.Uri.parse(uri)) };
    }),
    client.onRequest<FindSetupParams, FindSetupResult>(FIND_SETUP, async ({ uri }) => {
      const found = await findSetup(vscode.Uri.parse(uri));
      return { uri: found?.toString() ?? null };
    }),
    vscode.workspace.onDidChangeTextDocument((event) => tell(event.document)),
    // An unsaved text given up on closing is gone: the file counts again.
    vscode.workspace.onDidCloseTextDocument(tell),
  );
}

/** The text as the user sees it: an open document, saved or not, before the file. */
async function textOf(uri: vscode.Uri): Promise<string | null> {
  const key = uri.toString();
  const open = vscode.workspace.textDocuments.find((document) => !document.isClosed && document.uri.toString() === key);
  if (open !== undefined) return open.getText();
  try {
    const bytes = await vscode.workspace.fs.readFile(uri);
    return decode(bytes);
  } catch {
    return null;
  }
}

/** Strict UTF-8, else Latin-1, as the command line reads. */
function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}

/** The nearest `swarfline.yaml` upward from the program, no higher than its workspace folder. */
async function findSetup(program: vscode.Uri): Promise<vscode.Uri | null> {
  const root = vscode.workspace.getWorkspaceFolder(program)?.uri.path.replace(/\/+$/, "");
  let folder = parent(program.path);
  // Outside every workspace folder the program's own folder is as high as anybody meant to go.
  const top = root ?? folder;
  for (;;) {
    const candidate = program.with({ path: `${folder}/${SETUP_NAME}`, query: "", fragment: "" });
    if (await isFile(candidate)) return candidate;
    if (folder.length <= top.length || folder === "") return null;
    folder = parent(folder);
  }
}

function parent(path: string): string {
  return path.slice(0, Math.max(0, path.lastIndexOf("/")));
}

async function isFile(uri: vscode.Uri): Promise<boolean> {
  try {
    return ((await vscode.workspace.fs.stat(uri)).type & vscode.FileType.File) !== 0;
  } catch {
    return false;
  }
}
