/**
 * The language server: receives what the client sends, keeps documents and files, and hands each request to the file of
 * its capability. No process and no disk in here: an entry such as node.ts brings the connection.
 */
import {
  CodeActionKind,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type DocumentDiagnosticReport,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { readBlocks } from "../../grammar/read.ts";
import { FILE_CHANGED, type FileChangedParams, IN_FORCE } from "../protocol.ts";
import { review } from "../review/review.ts";
import { Clients } from "./clients.ts";
import { codeActions } from "./code-actions.ts";
import { Diagnostics } from "./diagnostics.ts";
import { Documents, type OpenDocument } from "./documents.ts";
import { Files } from "./files.ts";
import { createGuard } from "./guard.ts";
import { hover } from "./hover.ts";
import { InForce } from "./in-force.ts";
import { Refresher } from "./refresh.ts";
import { Reviews } from "./reviews.ts";
import { COMPLETION_TRIGGERS, completeSetupDocument } from "./setup-assist.ts";

/** Files whose change on disk can change what is said of a program. */
const WATCHED = ["**/swarfline.yaml", "**/*.swarfline.yaml", "**/*.csv"];

export function startServer(connection: Connection): void {
  const guard = createGuard((message) => connection.console.error(message));
  const client = new Clients(connection);
  const documents = new Documents(readBlocks);
  const files = new Files(client, documents);
  const reviews = new Reviews(review, files, client);
  const inForce = new InForce((params) => void connection.sendNotification(IN_FORCE, params));
  const diagnostics = new Diagnostics(reviews, (document, made) => {
    if (client.wantsInForce) inForce.reviewed(document, made);
  });
  const push = (document: OpenDocument): void => {
    void guard.runAsync("diagnostics", undefined, async () => {
      const { version, revision } = document;
      const items = await diagnostics.of(document);
      // A later edit pushes its own; a document closed meanwhile has none.
      if (document.revision !== revision || documents.get(document.uri) !== document) return;
      await connection.sendDiagnostics({ uri: document.uri, version, diagnostics: items });
    });
  };
  const refresher = new Refresher({
    documents,
    push,
    pulls: () => client.pulls,
    refresh: () => (client.refreshes ? connection.languages.diagnostics.refresh() : Promise.resolve()),
  });

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    client.learn(params.capabilities, params.initializationOptions);
    return {
      serverInfo: { name: "swarfline" },
      capabilities: {
        positionEncoding: "utf-16",
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        hoverProvider: true,
        codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
        completionProvider: { triggerCharacters: COMPLETION_TRIGGERS },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
        ...(client.pulls
          ? {
              diagnosticProvider: { identifier: "swarfline", interFileDependencies: true, workspaceDiagnostics: false },
            }
          : {}),
      },
    };
  });

  connection.onInitialized(() => {
    void guard.runAsync("registration of file watchers", undefined, async () => {
      if (client.watches) {
        await connection.client.register(DidChangeWatchedFilesNotification.type, {
          watchers: WATCHED.map((globPattern) => ({ globPattern })),
        });
      }
      // The setup is looked for no higher than the workspace folder.
      if (client.hasFolders) {
        connection.workspace.onDidChangeWorkspaceFolders(() => {
          files.forgetSetups();
          refresher.everything();
        });
      }
      if (client.configures) {
        await connection.client.register(DidChangeConfigurationNotification.type, { section: "swarfline" });
      }
    });
  });

  /** A file, open or on disk, is not what it was. */
  const changed = (uri: string): void => {
    files.forget(uri);
    refresher.fileChanged(uri, (document) => reviews.dependsOn(document, uri));
  };

  // What a client sends is taken apart inside the guards: a message of the wrong form is a fault of that message alone.
  connection.onDidOpenTextDocument((params) => {
    guard.run("opening of a document", undefined, () => {
      const { uri, languageId, version, text } = params.textDocument;
      const document = documents.open(uri, languageId, version, text);
      refresher.edited(document);
      if (document.kind !== "program") changed(uri);
    });
  });
  connection.onDidChangeTextDocument((params) => {
    guard.run("following of an edit", undefined, () => {
      const document = documents.get(params.textDocument.uri);
      if (document === undefined) return;
      documents.change(document, params.textDocument.version, params.contentChanges);
      refresher.edited(document);
      if (document.kind !== "program") changed(document.uri);
    });
  });
  connection.onDidCloseTextDocument((params) => {
    guard.run("closing of a document", undefined, () => {
      const document = documents.close(params.textDocument.uri);
      if (document === undefined) return;
      files.forgetProgram(document.uri);
      // What is pushed stays until it is taken back; what is pulled the client drops by itself.
      if (!client.pulls) void connection.sendDiagnostics({ uri: document.uri, diagnostics: [] });
      if (document.kind !== "program") changed(document.uri);
    });
  });
  connection.onDidChangeWatchedFiles((params) => {
    guard.run("following of a file", undefined, () => {
      for (const { uri } of params.changes) changed(uri);
    });
  });
  connection.onNotification(FILE_CHANGED, (params: FileChangedParams) => {
    guard.run("following of a file", undefined, () => changed(params.uri));
  });
  connection.onDidChangeConfiguration(() => {
    client.forgetSettings();
    refresher.everything();
  });

  const nothing: DocumentDiagnosticReport = { kind: "full", items: [] };
  connection.languages.diagnostics.on((params) =>
    guard.runAsync("diagnostics", nothing, async () => {
      const document = documents.get(params.textDocument.uri);
      return document === undefined ? nothing : await diagnostics.pull(document, params.previousResultId);
    }),
  );
  connection.onHover((params) =>
    guard.runAsync("hover", null, async () => {
      const document = documents.get(params.textDocument.uri);
      return document === undefined ? null : await hover(document, params.position, reviews, client.readsMarkdown);
    }),
  );
  connection.onCodeAction((params) =>
    guard.runAsync("quick fixes", null, async () => {
      const document = documents.get(params.textDocument.uri);
      return document === undefined ? null : await codeActions(document, params, reviews, client);
    }),
  );
  connection.onCompletion((params) =>
    guard.run("completion", null, () => {
      const document = documents.get(params.textDocument.uri);
      if (document?.kind !== "setup") return null;
      return completeSetupDocument(document, params.position, {
        snippets: client.takesSnippets,
        markdown: client.documentsInMarkdown,
      });
    }),
  );
  connection.listen();
}
